package engine

import (
	"encoding/json"
	"reflect"
	"testing"

	"tautline/runner/check"
	"tautline/runner/document"
	"tautline/runner/lower"
)

// nesting lays a few pieces on a roll, which takes its time.
func nesting(t *testing.T, more string) *lower.Program {
	t.Helper()
	text := "---\ntitle: T\n---\n\n```go\n" +
		"width := 1.5 * units.M\n" +
		"cone := unroll.Frustum{Small: 0.3 * units.M, Large: 0.5 * units.M, Height: 0.6 * units.M}\n" +
		"panel := sheet.Must(cone.Panel(\"cone\", 4))\n" +
		"lay := sheet.Must(nest.Roll{Width: width}.Lay(pattern.Pattern{Pieces: []pattern.Piece{panel}}, 200, 1))\n" +
		"length := lay.Length\n" + more + "\n```\n"
	nb, diags := document.Parse("t.md", []byte(text))
	if nb == nil {
		t.Fatal(diags)
	}
	plan, diags := check.Check(nb)
	p, further := lower.Lower(plan)
	for _, d := range append(diags, further...) {
		if d.Severity == document.Error {
			t.Fatal(d.Format([]byte(text), false))
		}
	}
	return p
}

// A kept result is never seen in a number: with and without, a run gives the same
// outcome to the byte. It is used by a worker that is started for another text.
func TestKept(t *testing.T) {
	var kept Kept
	first, second := nesting(t, ""), nesting(t, "twice := 2 * length")
	for i, p := range []*lower.Program{first, second, first} {
		h := Hold(Limits{})
		h.Keep(&kept)
		got, err := h.Run(t.Context(), p, nil)
		h.Close()
		if err != nil {
			t.Fatal(err)
		}
		want, err := Run(t.Context(), p, Limits{})
		if err != nil {
			t.Fatal(err)
		}
		a, _ := json.Marshal(got.Values)
		b, _ := json.Marshal(want.Values)
		if len(got.Faults) > 0 || string(a) != string(b) || !reflect.DeepEqual(got.Entries, want.Entries) {
			t.Errorf("run %d: with kept results got %s, %v; without %s", i, a, got.Faults, b)
		}
		if len(kept.results) != 1 {
			t.Errorf("run %d: got %d kept results, want the one lay", i, len(kept.results))
		}
	}
	// What is on the shelf is used: a lay with a spoilt digest is worked anew, one
	// with another result shows.
	other := append([]byte(nil), kept.results[0].Result...)
	kept.results[0].Result = other
	for i := range 8 {
		other[i] ^= 1 // the last bits of the width of the roll
	}
	h := Hold(Limits{})
	defer h.Close()
	h.Keep(&kept)
	got, err := h.Run(t.Context(), first, nil)
	if err != nil {
		t.Fatal(err)
	}
	if width := got.Values["lay"].Items[0].Items[0].Number; width == 1.5 {
		t.Error("the kept result was not used")
	}
}

func TestKeptBounded(t *testing.T) {
	var k Kept
	for i := range 100 {
		k.note(keptResult{[32]byte{byte(i)}, make([]byte, 1<<20)})
		k.note(keptResult{[32]byte{0}, nil}) // used again: it stays
	}
	k.note(keptResult{[32]byte{200}, make([]byte, maxKeptOne+1)})
	sum := 0
	for _, r := range k.results {
		sum += len(r.Result)
	}
	if sum > maxKept || sum != k.size || k.results[len(k.results)-1].Digest[0] != 0 {
		t.Errorf("got %d bytes, counted as %d, the last %d; want at most %d and the one used last at the end", sum, k.size, k.results[len(k.results)-1].Digest[0], maxKept)
	}
}

package pattern_test

import (
	"strings"
	"testing"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// Every seam is there once; an inner seam comes while some outer seam of its body
// is still to be sewn; and what closes a body leaves something to turn it by.
// Replayed piece by piece from the pattern itself.
func reachable(t *testing.T, p pattern.Pattern, steps []pattern.Step) {
	t.Helper()
	seams := map[string]pattern.Seam{}
	for _, s := range p.Seams {
		seams[s.Name] = s
	}
	pieces := func(s pattern.Seam) (list []string) {
		for _, side := range s.Sides {
			for _, ref := range side.Edges {
				name, _, _ := strings.Cut(ref, "/")
				list = append(list, name)
			}
		}
		return list
	}
	// The body of a piece: all that can be reached over seams.
	body := map[string]map[string]bool{}
	for _, piece := range p.Pieces {
		seen := map[string]bool{piece.Name: true}
		for grown := true; grown; {
			grown = false
			for _, s := range p.Seams {
				list := pieces(s)
				touches := false
				for _, name := range list {
					touches = touches || seen[name]
				}
				for _, name := range list {
					if touches && !seen[name] {
						seen[name], grown = true, true
					}
				}
			}
		}
		body[piece.Name] = seen
	}
	if len(steps) != len(p.Seams) {
		t.Fatalf("got %d steps, want %d, one for each seam", len(steps), len(p.Seams))
	}
	done := map[string]bool{}
	for i, step := range steps {
		s, ok := seams[step.Seam]
		if !ok || done[step.Seam] || step.Number != float64(i+1) {
			t.Fatalf("step %d: got seam %q numbered %g again or unknown", i+1, step.Seam, step.Number)
		}
		done[step.Seam] = true
		open := false
		for _, other := range p.Seams {
			open = open || !other.Inner && !done[other.Name] && body[pieces(s)[0]][pieces(other)[0]]
		}
		if s.Inner && !open {
			t.Errorf("step %d: seam %s lies inside a body that is closed", i+1, s.Name)
		}
		if closes := !open && !s.Inner; closes != strings.Contains(step.How, "turned through") {
			t.Errorf("step %d: seam %s: closes its body: %v, but is described as %q", i+1, s.Name, closes, step.How)
		}
	}
}

func TestSewingOrder(t *testing.T) {
	bed := proof.Must(unroll.RoundMattress{Radius: 2.25, Height: 0.75, Pitch: 0.55, Passage: 0.1}.Pattern("bed", 1e-3))(t)
	ring := proof.Must(unroll.Ring{Radius: 2.6, Tube: 0.35, Sweep: 360 * units.Deg, Pieces: 16}.Pattern("ring", 2, 0, 1e-9))(t)
	_, err := bed.SewingOrder()
	proof.Fails(t, "bed without an opening", err, "closes the body with no opening to turn it through")
	small := proof.Must(ring.Open("ring 1", pattern.Slot("zip", 0, 0, 0.25, 0.01, 0)))(t)
	_, err = small.SewingOrder()
	proof.Fails(t, "opening too small", err, "only ring 1/zip, 520 mm round")

	bed = proof.Must(bed.Open("bed wall front", pattern.Slot("zip", 0, 0, 0.6, 0.01, 0)))(t)
	ring = proof.Must(ring.Open("ring 1", pattern.Circle("blower tube", 0, 0, 0.12)))(t)
	all := proof.Must(pattern.Join(bed, ring))(t)
	steps := proof.Must(all.SewingOrder())(t)
	reachable(t, all, steps)
	if last := steps[len(steps)-1]; !strings.Contains(last.How, "turned through ring 1/blower tube") {
		t.Errorf("last step: got %+v, want the ring turned through its blower tube", last)
	}
	// An open arch is turned through its ends.
	arch := proof.Must(unroll.Ring{Radius: 1.5, Tube: 0.4, Sweep: 180 * units.Deg, Pieces: 8}.Pattern("arch", 1, 180*units.Deg, 1e-9))(t)
	steps = proof.Must(arch.SewingOrder())(t)
	if len(steps) != 2 || !strings.Contains(steps[0].Seam, "end to end") {
		t.Errorf("arch: got %+v, want its pieces joined end to end before the long seam", steps)
	}
	only := pattern.Pattern{Pieces: []pattern.Piece{rectangle("a", 1, 1), rectangle("b", 1, 1)}}.WithSeams(pattern.Sew("tie", "a/top", "b/bottom", 0))
	only.Seams[0].Inner = true
	_, err = only.SewingOrder()
	proof.Fails(t, "all inside", err, "seam tie: lies inside, but its body has no outer seam")
}

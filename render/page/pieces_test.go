package page

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"tautline/render/sample"
)

// A page is its pieces: each stands whole in it, in order and once, and each is
// well-formed by itself.
func TestPieces(t *testing.T) {
	r := sample.Report()
	r.Study = sample.Study()
	page, err := Pieces(r)
	if err != nil {
		t.Fatal(err)
	}
	rest := written(t, r)
	cells := 0
	for _, p := range page.Pieces {
		at := strings.Index(rest, p.HTML)
		if at < 0 {
			t.Fatalf("slot %s: the page does not have, at its place, %.80s", p.Slot, p.HTML)
		}
		rest = rest[at+len(p.HTML):]
		d := xml.NewDecoder(strings.NewReader("<div>" + p.HTML + "</div>"))
		d.Entity = xml.HTMLEntity
		for err = nil; err == nil; {
			_, err = d.Token()
		}
		if err != io.EOF {
			t.Errorf("slot %s: not well formed: %v: %.80s", p.Slot, err, p.HTML)
		}
		if p.Cell >= 0 {
			cells++
		}
	}
	if cells == 0 || cells > len(r.Cells) {
		t.Errorf("pieces of cells: got %d, want at most %d and some", cells, len(r.Cells))
	}
	for id := range r.Shown() {
		if !strings.Contains(written(t, r), ` id="`+id+`"`) {
			t.Errorf("shown %s: the page has no such anchor", id)
		}
	}
}

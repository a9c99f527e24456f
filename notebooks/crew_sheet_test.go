package notebooks

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/chromedp/chromedp"

	"tautline/render"
	"tautline/render/browsertest"
	"tautline/render/report"
)

// Each side of a sheet that the crew carries is one printed page, whole, and has
// on it what the crew needs: the plan with its compass, every anchor with room for
// what was read, the wind, the blower, the place, and who released it.
func TestCrewSheetsPrintOnOnePageEach(t *testing.T) {
	if testing.Short() {
		t.Skip("short: no browser")
	}
	b := browsertest.Open(t)
	for file, rows := range map[string]float64{"lagoon-anchors.md": 12, "lagoon-hardstanding.md": 12} {
		res := run(t, file)
		var page bytes.Buffer
		if err := render.HTML(&page, render.Assemble(res.Plan, res.Outcome, nil, report.Identity{})); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "report.html")
		if err := os.WriteFile(path, page.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		for size, paper := range map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter} {
			b.Go("file://" + path)
			// Only the two sides are left, from the heading of the first to what follows
			// the second.
			if sides := b.Number(`(() => {
				const sides = [...document.querySelectorAll('h2')].filter(h => h.textContent.startsWith('Crew sheet'));
				const all = [...sides[0].parentElement.children];
				const first = all.indexOf(sides[0]) - 1; // the rule before it
				let end = all.findIndex((e, i) => i > all.indexOf(sides[sides.length - 1]) && e.tagName == 'HR');
				all.forEach((e, i) => { if (i < first || i >= end) e.remove(); });
				for (let e = sides[0].parentElement; e != document.body; e = e.parentElement)
					[...e.parentElement.children].forEach(s => { if (s != e) s.remove(); });
				return sides.length;
			})()`); sides != 2 {
				t.Fatalf("%s: got %g sides of a crew's sheet, want 2", file, sides)
			}
			if got := len(regexp.MustCompile(`/Type\s*/Page\b`).FindAll(b.PDF(paper), -1)); got != 2 {
				t.Errorf("%s on %s: the two sides of the crew's sheet take %d pages, want 2", file, size, got)
			}
		}
		if compasses := b.Number(`[...document.querySelectorAll('svg desc')].filter(d => d.textContent.includes('North is up')).length`); compasses == 0 {
			t.Errorf("%s: the plan of the crew's sheet has no compass", file)
		}
		if got := b.Number(`document.querySelector('table tbody').rows.length`); got != rows {
			t.Errorf("%s: the crew's list has %g anchors, want %g", file, got, rows)
		}
		if got := b.Number(`document.querySelectorAll('table').length`); got != 5 {
			t.Errorf("%s: the crew's sheet has %g tables, want 5: anchors, wind, blower, place, release", file, got)
		}
	}
	b.Calm("file:")
}

package section_test

import (
	"strings"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/section"
)

// EN 1993-1-1:2005 Table 3.1, EN 10025-2:2004 Table 7, EN 10210-1 and
// EN 10219-1:2006 Table A.3. The weld strength of S355 with 510 MPa is 262 MPa,
// with the product standard's 470 it is 241: the two must never be mixed.
func TestSteel(t *testing.T) {
	for _, c := range []struct {
		standard, grade string
		thickness       float64 // mm
		yield, tensile  float64 // MPa
	}{
		{"EN 1993-1-1", "S235", 40, 235, 360},
		{"EN 1993-1-1", "S235JR", 40.1, 215, 360},
		{"EN 1993-1-1", "S275", 8, 275, 430},
		{"EN 1993-1-1", "S355J2", 16.1, 355, 510},
		{"EN 1993-1-1", "S355", 60, 335, 470},
		{"EN 1993-1-1", "S355H", 4, 355, 510},
		{"EN 10025-2", "S275JR", 8, 275, 410},
		{"EN 10025-2", "S355J2", 2, 355, 510},
		{"EN 10025-2", "S355J2", 16, 355, 470},
		{"EN 10025-2", "S355J2", 16.1, 345, 470},
		{"EN 10025-2", "S355J2", 70, 325, 470},
		{"EN 10219-1", "S355J2H", 4, 355, 470},
		{"EN 10219-1", "S355J2H", 20, 345, 470},
		{"EN 10210-1", "S355J2H", 50, 335, 470},
	} {
		m := proof.Must(section.Steel(c.standard, c.grade, c.thickness/1000))(t)
		if m.Fy != c.yield*1e6 || m.Fu != c.tensile*1e6 || m.Name != c.grade || !strings.HasPrefix(m.Source, c.standard) {
			t.Errorf("%s %s, %g mm: got fy %g, fu %g of %s, want %g, %g", c.standard, c.grade, c.thickness, m.Fy/1e6, m.Fu/1e6, m.Source, c.yield, c.tensile)
		}
	}
	for _, c := range []struct {
		standard, grade string
		thickness       float64
		words           string
	}{
		{"EN 10025", "S235", 0.004, "want one of: EN 1993-1-1, EN 10025-2"},
		{"EN 10219-1", "S690", 0.004, "want one of EN 10219-1: S235H, S275H, S355H"},
		{"EN 10219-1", "S235JRH", 0.041, "got 41 mm, want at most 40 mm"},
		{"EN 10219-1", "S235JRH", 0, "thickness: got 0, want more than 0"},
	} {
		_, err := section.Steel(c.standard, c.grade, c.thickness)
		proof.Fails(t, c.standard+" "+c.grade, err, c.words)
	}
}

// Strength falls with thickness, the ranges of a grade join without a gap, and
// each line asks to be verified.
func TestSteelsAreOrdered(t *testing.T) {
	list := section.Steels()
	for i, g := range list {
		if g.Fu <= g.Fy || g.UpTo <= g.Over || !strings.Contains(g.Source, "verify against the document") {
			t.Errorf("got %+v, want fu over fy, a range and a source to verify", g)
		}
		if i == 0 || list[i-1].Grade != g.Grade || list[i-1].Standard != g.Standard {
			if g.Over != 0 {
				t.Errorf("%s: begins over %g, want 0", g.Grade, g.Over)
			}
			continue
		}
		if before := list[i-1]; g.Over != before.UpTo || g.Fy > before.Fy || g.Fu > before.Fu {
			t.Errorf("%s: got %+v after %+v, want the next range with no more strength", g.Grade, g, before)
		}
	}
}

package section

import (
	"fmt"
	"slices"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Material is what a member is made of, with the strengths that hold for its
// thickness.
type Material struct {
	Name      string         // grade
	Fy        units.Pressure // yield strength, the least that the standard promises
	Fu        units.Pressure // tensile strength, the same
	E         units.Pressure // modulus of elasticity
	G         units.Pressure // shear modulus
	Density   units.Density
	Expansion units.PerKelvin
	Source    string
}

// A SteelGrade is one line of a standard's table: the strengths of a grade in a
// range of thickness.
type SteelGrade struct {
	Standard string       // whose table: EN 1993-1-1, EN 10025-2, EN 10210-1 or EN 10219-1
	Grade    string       // without the figures for impact: S355, S355H
	Over     units.Length // thicker than this
	UpTo     units.Length // and at most this
	Fy, Fu   units.Pressure
	Source   string
}

// Steel is a structural steel by the table of a standard, for a thickness.
//
//	steel := sheet.Must(section.Steel("EN 10219-1", "S355J2H", 4*units.Mm))
//
// The standard is one of Steels. It matters: the design standard gives S355
// fu = 510 MPa, the product standards 470 MPa from 3 mm on, and a weld is
// designed with fu. EN 1993-1-1, 3.2.1, lets the National Annex choose between
// the two. Figures for impact in the grade (JR, J0, J2, K2) are read over. The
// thickness is that of the thickest part, more than 0. A standard, grade or
// thickness that is not in the table is an error, which lists what is.
//
// Modulus, shear modulus, density and expansion are those of EN 1993-1-1, 3.2.6,
// with the shear modulus rounded to 81 000 MPa as printed there.
//
// Source: as Steels.
func Steel(standard, grade string, thickness units.Length) (Material, error) {
	if err := argument.Positive("thickness", thickness); err != nil {
		return Material{}, fmt.Errorf("steel %s: %w", grade, err)
	}
	short := strings.NewReplacer("JR", "", "J0", "", "J2", "", "K2", "").Replace(grade)
	var standards, grades []string
	most := 0.0
	for _, g := range Steels() {
		if !slices.Contains(standards, g.Standard) {
			standards = append(standards, g.Standard)
		}
		if g.Standard != standard {
			continue
		}
		if !slices.Contains(grades, g.Grade) {
			grades = append(grades, g.Grade)
		}
		if g.Grade != short {
			continue
		}
		if g.Over < thickness && thickness <= g.UpTo {
			return Material{
				Name: grade, Fy: g.Fy, Fu: g.Fu, E: 210 * units.GPa, G: 81 * units.GPa,
				Density: 7850 * units.KgPerM3, Expansion: 12e-6 * units.PerK, Source: g.Source,
			}, nil
		}
		most = g.UpTo
	}
	switch {
	case grades == nil:
		return Material{}, fmt.Errorf("steel %s: standard: got %q, want one of: %s", grade, standard, strings.Join(standards, ", "))
	case most == 0:
		return Material{}, fmt.Errorf("steel: grade: got %q, want one of %s: %s", grade, standard, strings.Join(grades, ", "))
	}
	return Material{}, fmt.Errorf("steel %s: thickness: got %g mm, want at most %g mm, where the table of %s ends", grade, thickness/units.Mm, most/units.Mm, standard)
}

// Steels is the tables of yield and tensile strength by thickness: EN 1993-1-1
// Table 3.1 (the parts for EN 10025-2, -3, -4, EN 10210-1 and EN 10219-1) and
// those of the product standards. Of a range of tensile strength the least is
// given.
//
// Caution: a designer takes strengths from one table for a whole calculation,
// and a certificate's measured strengths, which are higher, from none.
//
// Source: EN 1993-1-1:2005 Table 3.1 (first printing: S355 with fu = 510 MPa;
// corrigendum AC:2009 has 490 MPa); EN 10025-2:2004 Table 7; EN 10210-1:2006
// Table A.3; EN 10219-1:2006 Table A.3; from memory: verify against the
// documents.
func Steels() []SteelGrade {
	var list []SteelGrade
	for _, t := range steelTables {
		for _, g := range t.grades {
			over := 0.0
			for _, b := range g.bands {
				list = append(list, SteelGrade{
					Standard: t.standard, Grade: g.name, Over: over, UpTo: b.upTo * units.Mm, Fy: b.fy * units.MPa, Fu: b.fu * units.MPa,
					Source: t.source + " (from memory: verify against the document)",
				})
				over = b.upTo * units.Mm
			}
		}
	}
	return list
}

type (
	steelTable struct {
		standard, source string
		grades           []gradeBands
	}
	gradeBands struct {
		name  string
		bands []band
	}
	band struct{ upTo, fy, fu float64 } // mm, MPa
)

// design is a grade of EN 1993-1-1 Table 3.1: up to 40 mm and to 80 mm.
func design(name string, fy, fu, thickFy, thickFu float64) gradeBands {
	return gradeBands{name, []band{{40, fy, fu}, {80, thickFy, thickFu}}}
}

// delivered is a grade of a product standard: the tensile strength below and
// from 3 mm, the yield strength up to 16, 40, 63, 80 and 100 mm.
func delivered(name string, thinFu, fu float64, fy ...float64) gradeBands {
	g := gradeBands{name, []band{{3, fy[0], thinFu}}}
	for i, limit := range []float64{16, 40, 63, 80, 100}[:len(fy)] {
		g.bands = append(g.bands, band{limit, fy[i], fu})
	}
	return g
}

var steelTables = []steelTable{
	{"EN 1993-1-1", "EN 1993-1-1:2005, Table 3.1", []gradeBands{
		design("S235", 235, 360, 215, 360),
		design("S275", 275, 430, 255, 410),
		design("S355", 355, 510, 335, 470),
		design("S450", 440, 550, 410, 550),
		design("S275N", 275, 390, 255, 370),
		design("S355N", 355, 490, 335, 470),
		design("S420N", 420, 520, 390, 520),
		design("S460N", 460, 540, 430, 540),
		design("S275M", 275, 370, 255, 360),
		design("S355M", 355, 470, 335, 450),
		design("S420M", 420, 520, 390, 500),
		design("S460M", 460, 540, 430, 530),
		{"S235H", []band{{40, 235, 360}}},
		{"S275H", []band{{40, 275, 430}}},
		{"S355H", []band{{40, 355, 510}}},
	}},
	{"EN 10025-2", "EN 10025-2:2004, Table 7", []gradeBands{
		delivered("S235", 360, 360, 235, 225, 215, 215, 215),
		delivered("S275", 430, 410, 275, 265, 255, 245, 235),
		delivered("S355", 510, 470, 355, 345, 335, 325, 315),
		delivered("S450", 550, 550, 450, 430, 410, 390, 380),
	}},
	{"EN 10210-1", "EN 10210-1:2006, Table A.3", []gradeBands{
		delivered("S235H", 360, 360, 235, 225, 215, 215, 215),
		delivered("S275H", 430, 410, 275, 265, 255, 245, 235),
		delivered("S355H", 510, 470, 355, 345, 335, 325, 315),
	}},
	{"EN 10219-1", "EN 10219-1:2006, Table A.3", []gradeBands{
		delivered("S235H", 360, 360, 235, 225),
		delivered("S275H", 430, 410, 275, 265),
		delivered("S355H", 510, 470, 355, 345),
	}},
}

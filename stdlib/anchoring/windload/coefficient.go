package windload

import (
	"fmt"
	"strings"

	"tautline/stdlib/units"
)

// A Coefficient is a force coefficient of a shape, for the projected solid area.
type Coefficient struct {
	Shape  string
	Value  units.Number
	Source string
}

// Coefficients is the table of force coefficients.
//
// Caution: the values are from memory; a shape that is not in it needs its
// standard or a test.
//
// Source: EN 14960-1:2019, Annex A; EN 1991-1-4:2005, 7.4.3 and 7.4.1, from
// memory: verify against the documents.
func Coefficients() []Coefficient {
	const verify = " (from memory: verify against the document)"
	return []Coefficient{
		{"play inflatable, side", 1.5, "EN 14960-1:2019, Annex A" + verify},
		{"signboard off the ground", 1.8, "EN 1991-1-4:2005, 7.4.3" + verify},
		{"lone wall, end zone", 2.1, "EN 1991-1-4:2005, Table 7.9, zone B, length over height to 5" + verify},
		{"lone wall, middle zone", 1.2, "EN 1991-1-4:2005, Table 7.9, zone D" + verify},
	}
}

// CoefficientOf is the force coefficient of a shape of the table.
//
// Another shape is an error, which lists those that are there.
//
// Caution: the values are from memory; a shape that is not in it needs its
// standard or a test.
//
// Source: as Coefficients.
func CoefficientOf(shape string) (Coefficient, error) {
	var known []string
	for _, c := range Coefficients() {
		if c.Shape == shape {
			return c, nil
		}
		known = append(known, c.Shape)
	}
	return Coefficient{}, fmt.Errorf("force coefficient: got shape %q, want one of: %s; take any other from its standard", shape, strings.Join(known, ", "))
}

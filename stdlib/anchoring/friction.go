package anchoring

import (
	"fmt"
	"strings"

	"tautline/stdlib/units"
)

// A Friction is the coefficient between two dry surfaces.
type Friction struct {
	Upper, Lower string
	Coefficient  units.Number
	Source       string
}

// Frictions is the table of friction coefficients.
//
// Caution: wet grass, mud, ice and painted floors are not in it: measure them,
// or take less. The values are from memory.
//
// Source: EN 13814:2004 and EN 13782, stability, from memory: verify against the
// document. HSE Research Report 071 (2003) has measured ranges for temporary
// works.
func Frictions() []Friction {
	const source = "EN 13814:2004 and EN 13782, stability (from memory: verify against the document)"
	return []Friction{
		{"wood", "wood", 0.4, source},
		{"wood", "steel", 0.4, source},
		{"wood", "concrete", 0.6, source},
		{"steel", "steel", 0.1, source},
		{"steel", "concrete", 0.2, source},
		{"concrete", "concrete", 0.5, source},
		{"wood", "clay", 0.25, source},
		{"wood", "loam", 0.4, source},
		{"wood", "sand or gravel", 0.65, source},
	}
}

// FrictionBetween is the table's friction between two materials, in either
// order.
//
// A pair that is not in the table is an error, which lists the pairs that are.
//
// Caution: wet grass, mud, ice and painted floors are not in the table: measure
// them, or take less. The values are from memory.
//
// Source: as Frictions.
func FrictionBetween(one, other string) (Friction, error) {
	var known []string
	for _, f := range Frictions() {
		if f.Upper == one && f.Lower == other || f.Upper == other && f.Lower == one {
			return f, nil
		}
		known = append(known, f.Upper+" on "+f.Lower)
	}
	return Friction{}, fmt.Errorf("friction: got %s on %s, want one of: %s; measure any other", one, other, strings.Join(known, ", "))
}

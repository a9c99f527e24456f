package anchoring

import (
	"cmp"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Factors are the partial safety factors of one standard on loads, for tipping,
// sliding and lifting.
type Factors struct {
	Name                  string
	PermanentUnfavourable units.Number // on weight that drives
	PermanentFavourable   units.Number // on weight that holds
	Wind                  units.Number // as the leading load
	Variable              units.Number // on other live loads that drive
	VariableFavourable    units.Number // on live loads that would hold
	Source                string
}

func (f Factors) check() error {
	return cmp.Or(
		argument.Within("factor on holding weight", f.PermanentFavourable, 0, 1),
		argument.Above("factor on wind (take the factors of a standard, such as EquilibriumFactors)", f.Wind, 0))
}

// EquilibriumFactors are those of the structural Eurocode for static
// equilibrium. Other live loads carry their combination factor beside this one.
//
// Source: EN 1990:2002, Annex A1, Table A1.2(A), set EQU, recommended values.
func EquilibriumFactors() Factors {
	return Factors{
		Name:                  "EN 1990 EQU",
		PermanentUnfavourable: 1.10,
		PermanentFavourable:   0.90,
		Wind:                  1.50,
		Variable:              1.50,
		VariableFavourable:    0,
		Source:                "EN 1990:2002, Annex A1, Table A1.2(A), EQU, recommended values",
	}
}

// AmusementFactors are those of the European standards for amusement rides and
// for tents, for tipping, sliding and lifting.
//
// Caution: they ask less of the wind and trust the weight more than
// EquilibriumFactors; do not mix the two. The values are from memory.
//
// Source: EN 13814:2004, 5.5.1, and EN 13782, from memory: verify against the
// document.
func AmusementFactors() Factors {
	return Factors{
		Name:                  "EN 13814 stability",
		PermanentUnfavourable: 1.1,
		PermanentFavourable:   1.0,
		Wind:                  1.2,
		Variable:              1.3,
		VariableFavourable:    0,
		Source:                "EN 13814:2004, 5.5.1, and EN 13782 (from memory: verify against the document)",
	}
}

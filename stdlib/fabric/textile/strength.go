package textile

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// StripStrength is the line force that a fabric holds, from a strip test.
//
//	N = force/width
//
// The force is that at which the strip broke, 0 or more; the width is the
// strip's, more than 0, and 50 mm in EN ISO 1421. Outside it panics.
//
// Source: EN ISO 1421, strip method, from memory: verify against the document.
func StripStrength(force units.Force, width units.Length) units.ForcePerLength {
	argument.Demand("textile: StripStrength", argument.NotNegative("force", force), argument.Positive("strip width", width))
	return force / width
}

// Allowable is the line force that a design may use.
//
//	N = strip*efficiency/factor
//
// The strip strength of the fabric is 0 or more, the seam efficiency more than
// 0 and at most 1, the safety factor 1 or more. Outside it panics.
//
// Caution: the factor is the designer's choice; 5 is common for coated fabric
// under lasting load, and no document stands behind it here.
//
// Source: common practice, no source.
func Allowable(strip units.ForcePerLength, efficiency, factor units.Number) units.ForcePerLength {
	argument.Demand("textile: Allowable", argument.NotNegative("strip strength", strip), argument.Positive("efficiency", efficiency),
		argument.Within("efficiency", efficiency, 0, 1), argument.Within("factor", factor, 1, math.MaxFloat64))
	return strip * efficiency / factor
}

package fabric

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// CutLength is the length to cut so that the fabric has the wanted length once
// pressure has stretched it.
//
//	L = wanted/(1 + strain)
//
// The wanted length under pressure is 0 or more. The design strain is positive
// for stretch and more than -1; it is taken from a biaxial test in the
// direction of the length. Outside it panics.
//
// Source: definition of strain on the unstretched length.
func CutLength(wanted units.Length, strain units.Number) units.Length {
	var lost error
	if !(strain > -1 && strain <= math.MaxFloat64) {
		lost = fmt.Errorf("strain: got %g, want more than -1", strain)
	}
	argument.Demand("fabric: CutLength", argument.NotNegative("wanted length", wanted), lost)
	return wanted / (1 + strain)
}

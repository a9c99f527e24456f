package notebooks

import (
	"fmt"
	"math"
	"testing"
)

// The crash tube, worked again by hand in SI units.
func TestStartHere(t *testing.T) {
	res := run(t, "start-here.md")
	const (
		r, p, g     = 0.4, 10e3, 9.80665
		rider, v    = 45, 2.6
		height      = 2.4
		strip, seam = 40e3, 0.6
	)
	near(t, "mean force", number(t, res, "F"), rider*v*v/(2*r)) // energy over the way
	M := 2 * rider * v * v / (2 * r) * height / 2
	near(t, "moment at the foot", number(t, res, "M"), M)
	// First wrinkle: the stress of bending takes up that of the ends' pressure.
	// p·r/2 = M/(π·r²), with the second moment of a thin ring π·r³·t.
	near(t, "first wrinkle", number(t, res, "Mw"), p*r/2*math.Pi*r*r)
	near(t, "long seam", number(t, res, "N"), p*r)
	near(t, "allowable", number(t, res, "Nallow"), strip*seam/5)
	pull := 1.5*M/1.2 - 0.9*60*g/2 // a moment with its factor, about the far edge of the plate
	works(t, res, 1e-12, map[string]float64{
		"stop": r, "push": rider * v * v / r, "arm": height / 2, "weight": 60 * g, "pull": pull, "stakes": math.Ceil(pull / 600),
	})
	for k := range 25 {
		works(t, res, 1e-12, map[string]float64{
			fmt.Sprintf("ps[%d]", k): float64(k) * 500,
			fmt.Sprintf("Ms[%d]", k): float64(k) * 500 * math.Pi * r * r * r / 2,
		})
	}
}

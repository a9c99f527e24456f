package windload

import (
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// An Exposure is a category of the ground upwind, by ASCE 7-16.
type Exposure struct {
	Category string
	Ground   string       // what it looks like
	Exponent units.Number // alpha, more than 0
	Gradient units.Length // zg, above which the wind grows no more; 15 ft or more
	Source   string
}

// lowest is the height below which ASCE 7 takes the wind as at it.
const lowest = 15 * units.Ft

// Exposures are the exposure categories B, C and D.
//
// Caution: the values are those of the 2016 edition; the 2022 edition has
// others. Do not mix editions.
//
// Source: ASCE/SEI 7-16, 26.11, Table 26.11-1, from memory: verify against the
// document.
func Exposures() []Exposure {
	const source = "ASCE/SEI 7-16, Table 26.11-1 (from memory: verify against the document; not for ASCE 7-22)"
	return []Exposure{
		{"B", "towns, suburbs, woods", 7.0, 1200 * units.Ft, source},
		{"C", "open ground with scattered obstacles", 9.5, 900 * units.Ft, source},
		{"D", "flat ground and water without obstacles", 11.5, 700 * units.Ft, source},
	}
}

// ExposureOf is the exposure of a category, "B", "C" or "D".
//
// Another category is an error.
//
// Source: as Exposures.
func ExposureOf(category string) (Exposure, error) {
	var known []string
	for _, e := range Exposures() {
		if e.Category == category {
			return e, nil
		}
		known = append(known, e.Category)
	}
	return Exposure{}, fmt.Errorf("exposure category: got %q, want one of %s", category, strings.Join(known, ", "))
}

// Coefficient is the velocity pressure exposure coefficient at a height.
//
//	Kz = 2.01*pow(max(height, 4.572)/e.Gradient, 2/e.Exponent)
//
// The height above ground is from 0 to the gradient height; below 15 ft, which
// is 4.572 m, it is taken as 15 ft. It panics if a number is out of its range.
//
// Source: ASCE/SEI 7-16, 26.10.1, Table 26.10-1, note 1, from memory: verify
// against the document.
func (e Exposure) Coefficient(height units.Length) units.Number {
	argument.Demand("windload: Exposure.Coefficient", argument.Positive("exponent", e.Exponent), argument.Above("gradient height", e.Gradient, lowest),
		argument.Within("height", height, 0, e.Gradient))
	return 2.01 * math.Pow(math.Max(height, lowest)/e.Gradient, 2/e.Exponent)
}

// VelocityPressure is the velocity pressure at a height, in the SI form of the
// standard: 0.613 is half the density of its standard air, in kg/m³, and stands
// for 0.00256 with mph and psf.
//
//	qz = 0.613*coefficient*topographic*directionality*elevation*v*v
//
// The coefficient is Exposure.Coefficient; the factors for topography,
// directionality and ground elevation are more than 0; the basic speed v, a
// three-second gust at 33 ft, is 0 or more. Outside it panics.
//
// Source: ASCE/SEI 7-16, 26.10.2, equation 26.10-1.SI, from memory: verify
// against the document.
func VelocityPressure(coefficient, topographic, directionality, elevation units.Number, v units.Speed) units.Pressure {
	argument.Demand("windload: VelocityPressure", argument.Positive("exposure coefficient", coefficient), argument.Positive("topographic factor", topographic),
		argument.Positive("directionality factor", directionality), argument.Positive("ground elevation factor", elevation), argument.NotNegative("wind speed", v))
	return 0.613 * coefficient * topographic * directionality * elevation * v * v
}

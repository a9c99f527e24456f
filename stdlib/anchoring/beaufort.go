package anchoring

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Beaufort is the number on the Beaufort scale, 0 to 12, of a mean wind speed,
// by the scale's printed limits.
//
// The speed, at 10 m over open ground, is 0 or more; outside it panics.
//
// Source: World Meteorological Organization, Manual on Codes, Beaufort scale,
// limits in m/s as quoted in a public copy.
func Beaufort(v units.Speed) units.Number {
	argument.Demand("anchoring: Beaufort", argument.NotNegative("wind speed", v))
	number := units.Number(0)
	for n := units.Number(1); n <= 12 && v >= BeaufortFrom(n); n++ {
		number = n
	}
	return number
}

// BeaufortFrom is the least mean wind speed of a whole number on the Beaufort
// scale, by the scale's printed limits.
//
// The number is a whole one from 0 to 12; outside it panics.
//
// Source: as Beaufort.
func BeaufortFrom(number units.Number) units.Speed {
	limits := [13]units.Speed{0, 0.3, 1.6, 3.4, 5.5, 8.0, 10.8, 13.9, 17.2, 20.8, 24.5, 28.5, 32.7}
	argument.Demand("anchoring: BeaufortFrom", argument.Within("Beaufort number", number, 0, 12), argument.Whole("Beaufort number", number))
	return limits[int(number)]
}

// BeaufortSpeed is the mean wind speed in the middle of a number on the
// Beaufort scale.
//
//	v = 0.836*pow(number, 1.5)
//
// The number is from 0 to 12; outside it panics.
//
// Source: the Beaufort scale's empirical formula, in m/s.
func BeaufortSpeed(number units.Number) units.Speed {
	argument.Demand("anchoring: BeaufortSpeed", argument.Within("Beaufort number", number, 0, 12))
	return 0.836 * math.Pow(number, 1.5)
}

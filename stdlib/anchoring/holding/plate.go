package holding

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// PlateUplift is the upward pull that a buried level plate holds: the weight of
// the ground straight above it.
//
//	Q = weight*depth*area
//
// The unit weight of the refilled ground, the depth of the plate and its area are
// more than 0; outside it panics. Friction on the sides of the ground lifted is
// left out, since a refilled hole has little.
//
// Caution: no safety is taken off, and under water the ground weighs half. Pull-test
// the plates on the spot.
//
// Source: equilibrium, derived here.
func PlateUplift(weight units.SpecificWeight, depth units.Length, area units.Area) units.Force {
	argument.Demand("holding: PlateUplift", argument.Positive("unit weight", weight), argument.Positive("depth", depth), argument.Positive("area", area))
	return weight * depth * area
}

// PlatePull is the level pull that a buried upright plate or beam near the
// surface holds: passive pressure before it less active pressure behind it.
//
//	Q = 0.5*weight*(passive - 1/passive)*depth*depth*width
//
// The unit weight, the depth of its lower edge and its width across the pull are
// more than 0; the coefficient of passive earth pressure is 1 or more. Outside it
// panics. It holds for a plate whose upper edge lies no deeper than half its
// lower edge, with the ground before it as it grew.
//
// Caution: the plate moves by some hundredths of its depth before it holds that
// much, more than a bed's straps can follow. Take a half of it or less, and
// pull-test the plates on the spot.
//
// Source: Rankine's earth pressures; W. C. Teng, Foundation Design, 1962, from
// memory: verify against the document.
func PlatePull(weight units.SpecificWeight, passive units.Number, depth, width units.Length) units.Force {
	argument.Demand("holding: PlatePull", argument.Positive("unit weight", weight), argument.Within("passive coefficient", passive, 1, math.MaxFloat64),
		argument.Positive("depth", depth), argument.Positive("width", width))
	return 0.5 * weight * (passive - 1/passive) * depth * depth * width
}

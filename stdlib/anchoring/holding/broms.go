package holding

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// The ultimate lateral loads of a free-headed pile after Broms (1964). A short
// one turns in the ground as it stands; a long one bends before the ground gives
// way. The lower of the two is what it holds.

func bromsRange(ground string, strength, diameter, arm float64) []error {
	return []error{argument.Positive(ground, strength), argument.Positive("diameter", diameter), argument.NotNegative("arm", arm)}
}

// BromsClayShort is the lateral load at which a short stake turns over in clay.
//
//	H = 9*strength*diameter*pow(length - 1.5*diameter, 2)/(sqrt(pow(2*arm + 1.5*diameter + length, 2) + pow(length - 1.5*diameter, 2)) + 2*arm + 1.5*diameter + length)
//
// The undrained strength and the diameter are more than 0, the length below
// ground more than 1.5 diameters, which hold nothing; the arm of the load above
// the ground is 0 or more. Outside it panics.
//
// Source: B. B. Broms, Lateral resistance of piles in cohesive soils, J. Soil
// Mech. Found. Div. ASCE 90 (SM2), 1964, 27-63; its two equations solved for
// the load here.
func BromsClayShort(strength units.Pressure, diameter, length, arm units.Length) units.Force {
	argument.Demand("holding: BromsClayShort", append(bromsRange("strength", strength, diameter, arm), argument.Above("length", length, 1.5*diameter))...)
	low, reach := length-1.5*diameter, 2*arm+1.5*diameter+length
	return 9 * strength * diameter * low * low / (math.Sqrt(reach*reach+low*low) + reach)
}

// BromsClayLong is the lateral load at which a long stake bends in clay.
//
//	H = 2*moment/(sqrt(pow(arm + 1.5*diameter, 2) + 2*moment/(9*strength*diameter)) + arm + 1.5*diameter)
//
// The undrained strength, the diameter and the stake's plastic moment are more
// than 0; the arm of the load above the ground is 0 or more. Outside it panics.
//
// Source: as BromsClayShort.
func BromsClayLong(strength units.Pressure, diameter, arm units.Length, moment units.Moment) units.Force {
	argument.Demand("holding: BromsClayLong", append(bromsRange("strength", strength, diameter, arm), argument.Positive("moment", moment))...)
	lever := arm + 1.5*diameter
	return 2 * moment / (math.Sqrt(lever*lever+2*moment/(9*strength*diameter)) + lever)
}

// BromsSandShort is the lateral load at which a short stake turns over in sand.
//
//	H = 0.5*weight*passive*diameter*length*length*length/(arm + length)
//
// The unit weight, the coefficient of passive earth pressure, the diameter and
// the length below ground are more than 0; the arm of the load above the ground
// is 0 or more. Outside it panics. It is known to be far on the safe side for
// short driven stakes in dense ground.
//
// Source: B. B. Broms, Lateral resistance of piles in cohesionless soils,
// J. Soil Mech. Found. Div. ASCE 90 (SM3), 1964, 123-156.
func BromsSandShort(weight units.SpecificWeight, passive units.Number, diameter, length, arm units.Length) units.Force {
	argument.Demand("holding: BromsSandShort", append(bromsRange("unit weight", weight, diameter, arm), argument.Positive("passive coefficient", passive), argument.Positive("length", length))...)
	return 0.5 * weight * passive * diameter * length * length * length / (arm + length)
}

// BromsSandLong is the lateral load at which a long stake bends in sand: the H
// with H·(arm + 2/3·f) = moment, where f = √(2·H/(3·weight·passive·diameter)) is
// the depth of the greatest moment.
//
// The unit weight, the coefficient of passive earth pressure, the diameter and
// the stake's plastic moment are more than 0; the arm of the load above the
// ground is 0 or more. Outside it panics.
//
// Source: as BromsSandShort.
func BromsSandLong(weight units.SpecificWeight, passive units.Number, diameter, arm units.Length, moment units.Moment) units.Force {
	argument.Demand("holding: BromsSandLong", append(bromsRange("unit weight", weight, diameter, arm), argument.Positive("passive coefficient", passive), argument.Positive("moment", moment))...)
	// With x = √H the condition is c·x³ + arm·x² = moment, which grows with x and
	// is convex: Newton's method from above falls on its root.
	c := 2.0 / 3 * math.Sqrt(2/(3*weight*passive*diameter))
	x := math.Cbrt(moment / c)
	for range 100 {
		step := (x*x*(c*x+arm) - moment) / (x * (3*c*x + 2*arm))
		if x -= step; math.Abs(step) <= 1e-15*x {
			break
		}
	}
	return x * x
}

// BromsClayMoment is the greatest moment in a stake in clay under a lateral
// load.
//
//	M = force*(arm + 1.5*diameter + force/(18*strength*diameter))
//
// The force and its arm above the ground are 0 or more, the undrained strength
// and the diameter more than 0; outside it panics.
//
// Source: as BromsClayShort.
func BromsClayMoment(strength units.Pressure, diameter, arm units.Length, force units.Force) units.Moment {
	argument.Demand("holding: BromsClayMoment", append(bromsRange("strength", strength, diameter, arm), argument.NotNegative("force", force))...)
	return force * (arm + 1.5*diameter + force/(18*strength*diameter))
}

// BromsSandMoment is the greatest moment in a stake in sand under a lateral
// load.
//
//	M = force*(arm + 2/3*sqrt(2*force/(3*weight*passive*diameter)))
//
// The force and its arm above the ground are 0 or more; the unit weight, the
// coefficient of passive earth pressure and the diameter more than 0; outside it
// panics.
//
// Source: as BromsSandShort.
func BromsSandMoment(weight units.SpecificWeight, passive units.Number, diameter, arm units.Length, force units.Force) units.Moment {
	argument.Demand("holding: BromsSandMoment", append(bromsRange("unit weight", weight, diameter, arm), argument.Positive("passive coefficient", passive), argument.NotNegative("force", force))...)
	return force * (arm + 2.0/3*math.Sqrt(2*force/(3*weight*passive*diameter)))
}

package anchoring

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A ballast block under a sloping strap slides long before it lifts, because the
// strap's pull along the ground is held by friction, and its pull upwards takes
// friction away.

func strapRange(angle units.Angle) error { return argument.Within("strap angle", angle, 0, math.Pi/2) }

// BallastWeight is the weight of ballast that a strap neither drags nor lifts.
//
//	W = tension*(cos(angle)/mu + sin(angle))
//
// The strap's tension is 0 or more, its angle to the ground 0 to 90°, the
// friction coefficient mu of the ballast on the ground more than 0; outside it
// panics.
//
// Caution: no safety factor is in it; wet ground has less friction.
//
// Source: equilibrium, derived here: tension·cos ≤ mu·(W - tension·sin).
func BallastWeight(tension units.Force, angle units.Angle, mu units.Number) units.Force {
	argument.Demand("anchoring: BallastWeight", argument.NotNegative("tension", tension), strapRange(angle), argument.Positive("friction coefficient", mu))
	return tension * (math.Cos(angle)/mu + math.Sin(angle))
}

// BallastMass is the mass of ballast that a strap neither drags nor lifts: at
// 45° and mu = 0.4, 404 kg for 1600 N, where 163 kg would do for a pull straight
// up.
//
//	m = tension*(cos(angle)/mu + sin(angle))/units.Gn
//
// The strap's tension is 0 or more, its angle to the ground 0 to 90°, the
// friction coefficient mu of the ballast on the ground more than 0; outside it
// panics.
//
// Caution: no safety factor is in it; wet ground has less friction.
//
// Source: as BallastWeight.
func BallastMass(tension units.Force, angle units.Angle, mu units.Number) units.Mass {
	argument.Demand("anchoring: BallastMass", argument.NotNegative("tension", tension), strapRange(angle), argument.Positive("friction coefficient", mu))
	return BallastWeight(tension, angle, mu) / units.Gn
}

// SlipTension is the strap tension at which ballast starts to slide or, under an
// upright strap, to lift.
//
//	T = mu*weight/(cos(angle) + mu*sin(angle))
//
// The ballast's weight is 0 or more, the strap's angle to the ground 0 to 90°,
// the friction coefficient mu more than 0; outside it panics.
//
// Source: as BallastWeight.
func SlipTension(weight units.Force, angle units.Angle, mu units.Number) units.Force {
	argument.Demand("anchoring: SlipTension", argument.NotNegative("weight", weight), strapRange(angle), argument.Positive("friction coefficient", mu))
	return mu * weight / (math.Cos(angle) + mu*math.Sin(angle))
}

// LiftTension is the strap tension that would lift ballast if it could not
// slide.
//
//	T = weight/sin(angle)
//
// The ballast's weight is 0 or more, the strap's angle to the ground more than 0
// and at most 90°; outside it panics.
//
// Caution: under a sloping strap ballast slides sooner, at SlipTension; never
// design by this alone.
//
// Source: equilibrium upwards.
func LiftTension(weight units.Force, angle units.Angle) units.Force {
	argument.Demand("anchoring: LiftTension", argument.NotNegative("weight", weight), argument.Positive("strap angle", angle), strapRange(angle))
	return weight / math.Sin(angle)
}

// WorstStrapAngle is the angle to the ground at which a strap drags ballast away
// most easily.
//
//	angle = atan(mu)
//
// The friction coefficient mu is 0 or more; outside it panics.
//
// Source: minimum of SlipTension over the angle, derived here.
func WorstStrapAngle(mu units.Number) units.Angle {
	argument.Demand("anchoring: WorstStrapAngle", argument.NotNegative("friction coefficient", mu))
	return math.Atan(mu)
}

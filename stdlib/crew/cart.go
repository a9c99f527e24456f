package crew

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Cart is what is rolled to its place by hand.
type Cart struct {
	Mass    units.Mass   // with what is on it, more than 0
	Rolling units.Number // coefficient of rolling, 0 or more: 0.02 hard tyres on asphalt, 0.1 air tyres on a lawn
	Slope   units.Angle  // uphill, less than 45° either way
}

// Push is the force that moves the cart up the slope and speeds it up.
//
//	F = c.Mass*(units.Gn*(sin(c.Slope)+c.Rolling*cos(c.Slope)) + speedUp)
//
// The acceleration speedUp is 0 or more. Where the cart would roll off by itself
// the force is negative and holds it. Outside the ranges it panics.
//
// Source: equilibrium, derived here.
func (c Cart) Push(speedUp units.Acceleration) units.Force {
	argument.Demand("crew: Cart.Push", argument.Positive("mass", c.Mass), argument.NotNegative("coefficient of rolling", c.Rolling),
		argument.Within("slope", c.Slope, -45*units.Deg, 45*units.Deg), argument.NotNegative("acceleration", speedUp))
	sin, cos := math.Sincos(c.Slope)
	return c.Mass * (units.Gn*(sin+c.Rolling*cos) + speedUp)
}

// A PushGuide is what people may be asked to push or pull now and then.
type PushGuide struct {
	Start  units.Force // to set a load moving or stop it
	Keep   units.Force // to keep it moving
	Source string
}

// PushForEverybody is the guideline for crews of women and men.
//
// Source: HSE guidance L23, figures for women: 15 kgf to start, 7 kgf to keep
// moving; from memory: verify against the document.
func PushForEverybody() PushGuide {
	return PushGuide{Start: 15 * units.Kgf, Keep: 7 * units.Kgf, Source: "HSE L23, pushing and pulling, women (from memory: verify against the document)"}
}

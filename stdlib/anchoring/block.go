package anchoring

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Block is a device in the wind, as a box on flat ground. The wind pushes at
// half its height and may tip it about its leeward edge. Straps hold the windward
// edge of its base; leeward straps go slack and do not count.
type Block struct {
	Width  units.Length // across the wind, 0 or more
	Height units.Length // 0 or more
	Depth  units.Length // along the wind, 0 or more; more than 0 with straps
	Mass   units.Mass   // with what always stands on it, 0 or more
}

func (b Block) demand(call string, more ...error) {
	argument.Demand("anchoring: "+call, append(more, argument.NotNegative("width", b.Width), argument.NotNegative("height", b.Height),
		argument.NotNegative("depth", b.Depth), argument.NotNegative("mass", b.Mass))...)
}

// Face is the area that meets the wind.
//
//	A = b.Width*b.Height
//
// It panics if a field is out of its range.
//
// Source: geometry.
func (b Block) Face() units.Area {
	b.demand("Block.Face")
	return b.Width * b.Height
}

// OverturningMoment is the factored moment of the wind about the leeward edge.
//
//	M = f.Wind*force*b.Height/2
//
// The wind force on the face, without factor, is 0 or more. It panics if a number
// is out of its range.
//
// Source: statics; factors from f.
func (b Block) OverturningMoment(force units.Force, f Factors) units.Moment {
	b.demand("Block.OverturningMoment", argument.NotNegative("force", force), f.check())
	return f.Wind * force * b.Height / 2
}

// RightingMoment is the factored moment of the block's weight about the leeward
// edge.
//
//	M = f.PermanentFavourable*b.Mass*units.Gn*b.Depth/2
//
// It panics if a number is out of its range.
//
// Source: statics; factors from f.
func (b Block) RightingMoment(f Factors) units.Moment {
	b.demand("Block.RightingMoment", f.check())
	return f.PermanentFavourable * b.Mass * units.Gn * b.Depth / 2
}

// SlidingForce is the factored wind force that pushes the block along.
//
//	F = f.Wind*force
//
// The wind force on the face, without factor, is 0 or more. It panics if a number
// is out of its range.
//
// Source: statics; factors from f.
func (b Block) SlidingForce(force units.Force, f Factors) units.Force {
	b.demand("Block.SlidingForce", argument.NotNegative("force", force), f.check())
	return f.Wind * force
}

// FrictionForce is the factored friction under the block's own weight.
//
//	F = mu*f.PermanentFavourable*b.Mass*units.Gn
//
// The friction coefficient mu is 0 or more. It panics if a number is out of its
// range.
//
// Source: Coulomb's law; factors from f.
func (b Block) FrictionForce(mu units.Number, f Factors) units.Force {
	b.demand("Block.FrictionForce", argument.NotNegative("friction coefficient", mu), f.check())
	return mu * f.PermanentFavourable * b.Mass * units.Gn
}

// OverturningTension is the tension, of all windward straps together, that stops
// the block from tipping; 0 if its weight does.
//
//	T = max(0, (f.Wind*force*b.Height/2 - f.PermanentFavourable*b.Mass*units.Gn*b.Depth/2)/(b.Depth*sin(angle)))
//
// The wind force on the face, without factor, is 0 or more; the straps' angle to
// the ground is more than 0 and at most 90°. It panics if a number is out of its
// range.
//
// Source: moments about the leeward edge, derived here; factors from f.
func (b Block) OverturningTension(force units.Force, angle units.Angle, f Factors) units.Force {
	b.demand("Block.OverturningTension", argument.Positive("depth", b.Depth), argument.Positive("strap angle", angle), strapRange(angle))
	missing := b.OverturningMoment(force, f) - b.RightingMoment(f)
	return math.Max(0, missing/(b.Depth*math.Sin(angle)))
}

// SlidingTension is the tension, of all windward straps together, that stops the
// block from sliding; 0 if its friction does. The straps hold back with their
// pull along the ground, and with the friction that their pull downwards adds.
//
//	T = max(0, (f.Wind*force - mu*f.PermanentFavourable*b.Mass*units.Gn)/(cos(angle) + mu*sin(angle)))
//
// The wind force on the face, without factor, is 0 or more; the straps' angle to
// the ground is 0 to 90°; the friction coefficient mu is 0 or more, and more than
// 0 under upright straps. It panics if a number is out of its range.
//
// Caution: straps at a corner angle share the load unequally; the sum here is not
// the tension of one strap times their number.
//
// Source: equilibrium along the ground, derived here; factors from f.
func (b Block) SlidingTension(force units.Force, mu units.Number, angle units.Angle, f Factors) units.Force {
	hold := math.Cos(angle) + mu*math.Sin(angle)
	b.demand("Block.SlidingTension", strapRange(angle), argument.Above("strap's hold along the ground", hold, 1e-9))
	return math.Max(0, (b.SlidingForce(force, f)-b.FrictionForce(mu, f))/hold)
}

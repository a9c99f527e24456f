package landing

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// FallSpeed is the speed after a free fall.
//
//	v = sqrt(2*units.Gn*height)
//
// The height is 0 or more; outside it panics.
//
// Source: conservation of energy.
func FallSpeed(height units.Length) units.Speed {
	argument.Demand("landing: FallSpeed", argument.NotNegative("height", height))
	return math.Sqrt(2 * units.Gn * height)
}

// FallHeight is the height of a free fall that ends with a speed.
//
//	h = speed*speed/(2*units.Gn)
//
// The speed is 0 or more; outside it panics.
//
// Source: conservation of energy.
func FallHeight(speed units.Speed) units.Length {
	argument.Demand("landing: FallHeight", argument.NotNegative("speed", speed))
	return speed * speed / (2 * units.Gn)
}

// A Throw is a rider who leaves his seat with a speed, in the worst direction.
type Throw struct {
	Speed  units.Speed  // 0 or more
	Height units.Length // above the bed, 0 or more
}

func (t Throw) demand(call string) {
	argument.Demand("landing: "+call, argument.NotNegative("speed", t.Speed), argument.NotNegative("height", t.Height))
}

// Reach is how far the rider can come, measured level.
//
//	R = t.Speed/units.Gn*sqrt(t.Speed*t.Speed + 2*units.Gn*t.Height)
//
// It panics if a field is out of its range.
//
// Source: flight without drag at the angle of Angle, derived here.
func (t Throw) Reach() units.Length {
	t.demand("Throw.Reach")
	return t.Speed / units.Gn * math.Sqrt(t.Speed*t.Speed+2*units.Gn*t.Height)
}

// Angle is that above the level at which the rider comes farthest. It is less
// than 45° whenever he starts above the bed.
//
//	a = atan(t.Speed/sqrt(t.Speed*t.Speed + 2*units.Gn*t.Height))
//
// It panics if a field is out of its range or both are 0.
//
// Source: as Reach.
func (t Throw) Angle() units.Angle {
	t.demand("Throw.Angle")
	argument.Demand("landing: Throw.Angle", argument.Positive("speed or height", t.Speed+t.Height))
	return math.Atan(t.Speed / math.Sqrt(t.Speed*t.Speed+2*units.Gn*t.Height))
}

// ImpactSpeed is the speed at which the rider meets the bed, whatever the angle.
//
//	v = sqrt(t.Speed*t.Speed + 2*units.Gn*t.Height)
//
// It panics if a field is out of its range.
//
// Source: conservation of energy.
func (t Throw) ImpactSpeed() units.Speed {
	t.demand("Throw.ImpactSpeed")
	return math.Sqrt(t.Speed*t.Speed + 2*units.Gn*t.Height)
}

// SpringFelt is what a body feels at most that drops on a linear spring, over
// its weight.
//
//	g = 1 + sqrt(1 + 2*height/sink)
//
// The height of the drop is 0 or more; the sink, how far the body presses the
// spring when it lies still, is more than 0. Outside it panics.
//
// Source: conservation of energy; any text on strength of materials.
func SpringFelt(height, sink units.Length) units.Number {
	argument.Demand("landing: SpringFelt", argument.NotNegative("height", height), argument.Positive("sink", sink))
	return 1 + math.Sqrt(1+2*height/sink)
}

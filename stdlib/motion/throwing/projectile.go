package throwing

import (
	"cmp"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Projectile leaves a height over a level with a speed, at an angle above the
// horizontal, and flies freely.
type Projectile struct {
	Speed  units.Speed  // 0 or more
	Angle  units.Angle  // -π/2 to π/2
	Height units.Length // 0 or more
}

func (p Projectile) demand(call string) {
	argument.Demand("throwing: Projectile."+call, argument.NotNegative("speed", p.Speed), argument.Within("angle", p.Angle, -math.Pi/2, math.Pi/2),
		argument.NotNegative("height", p.Height))
}

// Time is how long it flies until it is on the level.
//
//	t = (p.Speed*sin(p.Angle) + sqrt(pow(p.Speed*sin(p.Angle), 2) + 2*units.Gn*p.Height))/units.Gn
//
// It panics if a field is out of its range.
//
// Source: constant acceleration.
func (p Projectile) Time() units.Time {
	p.demand("Time")
	up := p.Speed * math.Sin(p.Angle)
	return (up + math.Sqrt(up*up+2*units.Gn*p.Height)) / units.Gn
}

// Range is how far it flies, measured level.
//
//	R = p.Speed*cos(p.Angle)*(p.Speed*sin(p.Angle) + sqrt(pow(p.Speed*sin(p.Angle), 2) + 2*units.Gn*p.Height))/units.Gn
//
// It panics if a field is out of its range.
//
// Source: constant acceleration.
func (p Projectile) Range() units.Length {
	p.demand("Range")
	return p.Speed * math.Cos(p.Angle) * p.Time()
}

// Impact is the speed at which it meets the level, whatever the angle.
//
//	v = sqrt(p.Speed*p.Speed + 2*units.Gn*p.Height)
//
// It panics if a field is out of its range.
//
// Source: conservation of energy.
func (p Projectile) Impact() units.Speed {
	p.demand("Impact")
	return math.Sqrt(p.Speed*p.Speed + 2*units.Gn*p.Height)
}

// Steepness is the angle below the horizontal at which it meets the level.
//
//	a = acos(p.Speed*cos(p.Angle)/sqrt(p.Speed*p.Speed + 2*units.Gn*p.Height))
//
// It panics if a field is out of its range or speed and height are both 0.
//
// Source: constant acceleration; conservation of energy.
func (p Projectile) Steepness() units.Angle {
	p.demand("Steepness")
	argument.Demand("throwing: Projectile.Steepness", argument.Positive("speed or height", p.Speed+p.Height))
	return math.Acos(p.Speed * math.Cos(p.Angle) / p.Impact())
}

// Ceiling is the height over the level that no throw of this speed and height
// passes, whatever its angle, at a distance from 0 up, measured level. It is below 0
// where none gets there.
//
//	z = p.Height + p.Speed*p.Speed/(2*units.Gn) - units.Gn*distance*distance/(2*p.Speed*p.Speed)
//
// The speed is more than 0; outside it panics.
//
// Source: parabola of safety, envelope of all trajectories of one speed.
func (p Projectile) Ceiling(distance units.Length) units.Length {
	p.demand("Ceiling")
	argument.Demand("throwing: Projectile.Ceiling", argument.Positive("speed", p.Speed), argument.NotNegative("distance", distance))
	return p.Height + p.Speed*p.Speed/(2*units.Gn) - units.Gn*distance*distance/(2*p.Speed*p.Speed)
}

// A Topple is a body that falls over stiffly about its feet at an edge, as it
// leaves the edge.
type Topple struct {
	Out   units.Length // of its middle, from the edge
	Over  units.Length // of it, over the edge
	Away  units.Speed  // level
	Down  units.Speed
	Angle units.Angle // of the body from upright
}

// NewTopple is how a body topples that stands with its middle of mass at a height,
// more than 0, over an edge, and gets only the least of pushes.
//
// The body is a uniform rod twice as long. Its feet press on the edge less and less
// and no longer where its cosine to the upright is 1/3; there it leaves, with the
// speed sqrt(units.Gn*middle) of its middle. A body that slips sooner, or bends its
// knees, falls nearer; one that jumps is a Projectile.
//
// Outside its range it panics.
//
// Source: rod that falls over, equations of motion, derived here: pressure on the
// feet m·g·(1-3·cos)²/4.
func NewTopple(middle units.Length) Topple {
	argument.Demand("throwing: NewTopple", argument.Positive("middle", middle))
	cos, sin := 1.0/3, math.Sqrt(8.0/9)
	v := math.Sqrt(units.Gn * middle)
	return Topple{Out: middle * sin, Over: middle * cos, Away: v * cos, Down: v * sin, Angle: math.Acos(cos)}
}

// Reach is how far from the edge its middle comes down on a level below the edge by
// a depth, 0 or more; how fast is in Impact.
//
//	R = t.Out + t.Away*(sqrt(t.Down*t.Down + 2*units.Gn*(depth + t.Over)) - t.Down)/units.Gn
//
// Outside its range it panics.
//
// Source: constant acceleration.
func (t Topple) Reach(depth units.Length) units.Length {
	argument.Demand("throwing: Topple.Reach", cmp.Or(argument.NotNegative("depth", depth), argument.NotNegative("over", t.Over)))
	return t.Out + t.Away*(math.Sqrt(t.Down*t.Down+2*units.Gn*(depth+t.Over))-t.Down)/units.Gn
}

// Impact is the speed at which its middle meets a level below the edge by a depth,
// 0 or more.
//
//	v = sqrt(t.Away*t.Away + t.Down*t.Down + 2*units.Gn*(depth + t.Over))
//
// Outside its range it panics.
//
// Source: conservation of energy.
func (t Topple) Impact(depth units.Length) units.Speed {
	argument.Demand("throwing: Topple.Impact", cmp.Or(argument.NotNegative("depth", depth), argument.NotNegative("over", t.Over)))
	return math.Sqrt(t.Away*t.Away + t.Down*t.Down + 2*units.Gn*(depth+t.Over))
}

package motion

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Pendulum is a body that hangs from an axis and swings freely: a rider on a
// rope, a hull that its drive let go.
type Pendulum struct {
	Mass    units.Mass    // more than 0
	Arm     units.Length  // from the axis to the centre of mass, more than 0
	Inertia units.Inertia // about the axis, at least Mass·Arm²; 0 means just that: a weight on a rope
}

func (p Pendulum) demand(method string) Pendulum {
	point := p.Mass * p.Arm * p.Arm
	if p.Inertia == 0 {
		p.Inertia = point
	}
	argument.Demand("motion: Pendulum."+method,
		argument.Positive("mass", p.Mass), argument.Positive("arm", p.Arm), argument.Above("inertia about the axis", p.Inertia, point*(1-1e-12)))
	return p
}

// Period is the time of a full swing, out and back, to an angle on each side.
//
// It is 2π·√(J/(m·g·d)) over the arithmetic-geometric mean of 1 and the cosine of
// half the angle: exact at any amplitude without friction. The amplitude is 0 to
// less than π; outside it panics, as when a field is out of range.
//
// Source: C. F. Gauss's mean for the complete elliptic integral of the first
// kind; any text on mechanics.
func (p Pendulum) Period(amplitude units.Angle) units.Time {
	p = p.demand("Period")
	argument.Demand("motion: Pendulum.Period", argument.Within("amplitude", amplitude, 0, math.Pi*(1-1e-9)))
	a, b := 1.0, math.Cos(amplitude/2)
	for math.Abs(a-b) > 1e-15*a {
		a, b = (a+b)/2, math.Sqrt(a*b)
	}
	return 2 * math.Pi * math.Sqrt(p.Inertia/(p.Mass*units.Gn*p.Arm)) / a
}

// Speed is how fast it turns at an angle, let go at rest at another.
//
// Angles are from hanging straight down, -π to π; at is no further out than from,
// where it never comes: then the result is 0. Outside it panics, as when a field
// is out of range.
//
// Source: conservation of energy.
func (p Pendulum) Speed(from, at units.Angle) units.AngularSpeed {
	p = p.demand("Speed")
	argument.Demand("motion: Pendulum.Speed", argument.Within("angle", from, -math.Pi, math.Pi), argument.Within("angle", at, -math.Pi, math.Pi))
	return math.Sqrt(math.Max(2*p.Mass*units.Gn*p.Arm*(math.Cos(at)-math.Cos(from))/p.Inertia, 0))
}

// Pull is the force along the arm on the axis at an angle, let go at rest at
// another: the tension of a rope. Less than 0, a rope is slack.
//
// Angles are as in Speed.
//
// Caution: a rope jerks when it comes taut, and a rider's hands bear less than
// their weight many times over; this is neither.
//
// Source: Newton's second law, derived here.
func (p Pendulum) Pull(from, at units.Angle) units.Force {
	w := p.Speed(from, at)
	return p.Mass * (units.Gn*math.Cos(at) + w*w*p.Arm)
}

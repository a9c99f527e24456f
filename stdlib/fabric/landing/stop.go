package landing

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/root"
	"tautline/stdlib/units"
)

// A Stop is the end of a fall by a closed form.
type Stop struct {
	Depth    units.Length   // at the end: where the body stops, or the ground
	Pressure units.Pressure // gauge, at the end
	Felt     units.Number   // most force of the bed over the body's weight
	Time     units.Time     // from the bed's top to the end; 0 where the closed form has none
	Bottoms  bool           // the body reaches the ground
	Speed    units.Speed    // at the end: 0, or at the ground
	HardDrop units.Length   // free fall onto the hard ground that ends as fast
}

// FreeVent is a bed whose vents hold its pressure whatever happens.
type FreeVent struct {
	Pressure units.Pressure // gauge, more than 0
	Area     units.Area     // of contact, more than 0
	Depth    units.Length   // to the ground, more than 0
}

// Stop is where a body of a mass, more than 0, dropped from a height, 0 or more,
// comes to rest.
//
// The depth is mass·g·height/(p·A - mass·g). A bed too soft to stop the body at
// any depth is an error, as is a number out of its range.
//
// Source: conservation of energy.
func (b FreeVent) Stop(mass units.Mass, height units.Length) (Stop, error) {
	err := cmp.Or(argument.Positive("pressure", b.Pressure), argument.Positive("area", b.Area), argument.Positive("depth", b.Depth),
		argument.Positive("mass", mass), argument.NotNegative("height", height))
	weight, force := mass*units.Gn, b.Pressure*b.Area
	if err == nil && force <= weight {
		err = fmt.Errorf("pressure: got %g Pa, want more than %.6g Pa: the bed never stops the body; blow harder or spread the body", b.Pressure, weight/b.Area)
	}
	if err != nil {
		return Stop{}, fmt.Errorf("stop in a vented bed: %w", err)
	}
	slowing := (force - weight) / mass
	s := Stop{Depth: weight * height / (force - weight), Pressure: b.Pressure, Felt: force / weight}
	if s.Depth > b.Depth {
		s.Depth, s.Bottoms = b.Depth, true
		s.Speed = math.Sqrt(2*units.Gn*height - 2*slowing*b.Depth)
		s.HardDrop = FallHeight(s.Speed)
	}
	s.Time = (FallSpeed(height) - s.Speed) / slowing
	return s, nil
}

// AirSpring is a closed volume of air that a body presses together.
type AirSpring struct {
	Volume   units.Volume   // before, more than 0
	Pressure units.Pressure // gauge, before, 0 or more
	Ambient  units.Pressure // absolute, outside, more than 0
	Area     units.Area     // of contact, more than 0
	Exponent units.Number   // 1: the air stays at one temperature; 1.4: it takes no heat
}

// Stop is where a body of a mass, more than 0, dropped from a height, 0 or more,
// stops before it is thrown back. It does not know the ground.
//
// The work of the air, on absolute pressure, is set equal to mass·g·(height +
// depth); the depth is found by halving until it no longer changes. A number out
// of its range is an error.
//
// Source: conservation of energy with a polytropic gas.
func (a AirSpring) Stop(mass units.Mass, height units.Length) (Stop, error) {
	err := cmp.Or(argument.Positive("volume", a.Volume), argument.NotNegative("pressure", a.Pressure), argument.Positive("ambient pressure", a.Ambient),
		argument.Positive("area", a.Area), argument.Within("exponent", a.Exponent, 1, 1.4),
		argument.Positive("mass", mass), argument.NotNegative("height", height))
	if err != nil {
		return Stop{}, fmt.Errorf("stop on an air spring: %w", err)
	}
	full, more := a.Pressure+a.Ambient, a.Exponent-1
	left := func(x float64) float64 {
		squeeze := math.Log(a.Volume / (a.Volume - a.Area*x))
		work := squeeze
		if more > 0 {
			work = math.Expm1(more*squeeze) / more
		}
		return full*a.Volume*work - a.Ambient*a.Area*x - mass*units.Gn*(height+x)
	}
	// Of two roots the bed's top is one when the body does not fall; the other
	// lies past the depth of rest.
	rest := root.Bisect(0, a.Volume/a.Area, func(x float64) float64 {
		return (full*math.Pow(1-a.Area*x/a.Volume, -a.Exponent)-a.Ambient)*a.Area - mass*units.Gn
	})
	s := Stop{Depth: root.Bisect(rest, a.Volume/a.Area, left)}
	s.Pressure = full*math.Pow(1-a.Area*s.Depth/a.Volume, -a.Exponent) - a.Ambient
	s.Felt = s.Pressure * a.Area / (mass * units.Gn)
	return s, nil
}

// OpenBed is a bed whose air is pushed straight out through its vents, as if it
// could not be pressed together.
type OpenBed struct {
	Area    units.Area    // of contact, more than 0
	Vent    units.Area    // of all openings, times their discharge coefficients, more than 0
	Density units.Density // of the air, more than 0
}

func (b OpenBed) demand(call string, more ...error) {
	argument.Demand("landing: "+call, append(more, argument.Positive("area", b.Area), argument.Positive("vent", b.Vent), argument.Positive("density", b.Density))...)
}

// Pressure is the gauge pressure under a body that sinks at a speed, 0 or more.
//
//	p = b.Density/2*(b.Area*speed/b.Vent)*(b.Area*speed/b.Vent)
//
// It panics if the speed or a field is out of its range.
//
// Source: continuity and Bernoulli's equation.
func (b OpenBed) Pressure(speed units.Speed) units.Pressure {
	b.demand("OpenBed.Pressure", argument.NotNegative("speed", speed))
	return b.Density / 2 * (b.Area * speed / b.Vent) * (b.Area * speed / b.Vent)
}

// SinkSpeed is the speed at which a body of a mass, more than 0, ends up: such a
// bed never stops it.
//
//	v = sqrt(2*mass*units.Gn/(b.Density*b.Area))*b.Vent/b.Area
//
// It panics if the mass or a field is out of its range.
//
// Source: weight against Pressure times area.
func (b OpenBed) SinkSpeed(mass units.Mass) units.Speed {
	b.demand("OpenBed.SinkSpeed", argument.Positive("mass", mass))
	return math.Sqrt(2*mass*units.Gn/(b.Density*b.Area)) * b.Vent / b.Area
}

// SpeedAt is the speed of a body of a mass, more than 0, at a depth, 0 or more,
// that met the bed at a speed, 0 or more.
//
// The square of the speed comes to that of SinkSpeed exponentially with depth.
// It panics if a number or a field is out of its range.
//
// Source: equation of motion with Pressure, in closed form.
func (b OpenBed) SpeedAt(depth units.Length, mass units.Mass, speed units.Speed) units.Speed {
	b.demand("OpenBed.SpeedAt", argument.NotNegative("depth", depth), argument.Positive("mass", mass), argument.NotNegative("speed", speed))
	drag := b.Density / 2 * b.Area * (b.Area / b.Vent) * (b.Area / b.Vent)
	last := b.SinkSpeed(mass)
	return math.Sqrt(last*last + (speed*speed-last*last)*math.Exp(-2*drag*depth/mass))
}

package blower

import (
	"cmp"
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A PowerLoss is a bed whose blowers have just stopped. First its pressure goes,
// in seconds, while it keeps its shape; then it sinks under its own weight, in
// minutes. Riders reach the ground in between.
type PowerLoss struct {
	Leak     Leak           // with the way back through each blower that has no flap
	Volume   units.Volume   // more than 0
	Pressure units.Pressure // gauge, as the blowers stop; more than Weight
	Weight   units.Pressure // of the fabric on the air, more than 0 (see WeightPressure)
	Ambient  units.Pressure // absolute, outside, more than 0
	Exponent units.Number   // 1: the air stays at one temperature; 1.4: it takes no heat, which is faster
}

func (l PowerLoss) check() error {
	err := cmp.Or(l.Leak.check(), argument.Positive("volume", l.Volume), argument.Positive("weight of the fabric", l.Weight),
		argument.Positive("ambient pressure", l.Ambient), argument.Within("exponent", l.Exponent, 1, 1.4), argument.Above("pressure", l.Pressure, l.Weight))
	if err == nil && l.Leak.FlowAt(l.Weight) == 0 {
		err = fmt.Errorf("leak: got none, want some: a tight bed keeps its pressure")
	}
	return err
}

// PressureTime is how long the pressure takes to fall to another.
//
// It is the volume over the ambient pressure and the exponent, times the
// integral of one over the leak's flow, by Gauss's rule over the logarithm of
// the pressure. The pressure to is from Weight to Pressure. Anything else is an
// error, as is a bed without a leak or a field out of its range.
//
// Source: ideal gas law and continuity, derived here, for gauge pressures small
// against the atmosphere's.
func (l PowerLoss) PressureTime(to units.Pressure) (units.Time, error) {
	if err := cmp.Or(l.check(), argument.Within("pressure to fall to", to, l.Weight, l.Pressure)); err != nil {
		return 0, fmt.Errorf("power loss: %w", err)
	}
	integral := quad.Fixed(func(s float64) float64 {
		p := math.Exp(s)
		return p / l.Leak.FlowAt(p)
	}, math.Log(to), math.Log(l.Pressure), 64, nil, 0)
	return l.Volume / (l.Ambient * l.Exponent) * integral, nil
}

// SinkTime is how long the bed without pressure then takes to sink flat.
//
// It is the volume over the leak's flow at Weight. A bed without a leak is an
// error, as is a field out of its range.
//
// Source: continuity at constant pressure.
func (l PowerLoss) SinkTime() (units.Time, error) {
	if err := l.check(); err != nil {
		return 0, fmt.Errorf("power loss: %w", err)
	}
	return l.Volume / l.Leak.FlowAt(l.Weight), nil
}

// Riders stand or lie on a bed.
type Riders struct {
	Count units.Number // 1 or more
	Mass  units.Mass   // of each, more than 0
	Patch units.Area   // of the bed that each presses flat when he reaches the ground, more than 0
	Sink  units.Length // how far each still is from the ground at the bed's full pressure, more than 0
}

// A Grounding is how riders come down once the power fails.
type Grounding struct {
	Pressure units.Pressure // that no longer carries a rider
	Soft     units.Time     // until the bed has that pressure
	Down     units.Time     // more until the riders are on the ground
	Time     units.Time     // both together
}

// Grounding gives how long riders have until they are on the ground.
//
// A bed carries a rider until its pressure is his weight over his patch. From
// then on he keeps it at that pressure and sinks as fast as air leaves from
// below all riders: patch times sink each. A blower that runs down, and riders
// who get off, give more time than this.
//
// A pressure that carries no rider at full patch is an error, as is a bed
// without a leak or a number out of its range.
//
// Caution: the time for riders to leave the bed is found with people of all ages
// and the power switched off, not here.
//
// Source: ideal gas law, continuity and equilibrium of a rider, derived here,
// without the pull of the fabric round the patch.
func (l PowerLoss) Grounding(r Riders) (Grounding, error) {
	err := cmp.Or(l.check(), argument.Within("riders", r.Count, 1, 1000), argument.Positive("mass of a rider", r.Mass),
		argument.Positive("patch of a rider", r.Patch), argument.Positive("sink of a rider", r.Sink))
	if err != nil {
		return Grounding{}, fmt.Errorf("grounding: %w", err)
	}
	g := Grounding{Pressure: r.Mass * units.Gn / r.Patch}
	if g.Pressure >= l.Pressure {
		return Grounding{}, fmt.Errorf("grounding: bed pressure: got %.4g Pa, want more than %.4g Pa: it does not carry %g kg on %g m²",
			l.Pressure, g.Pressure, r.Mass, r.Patch)
	}
	if g.Soft, err = l.PressureTime(math.Max(l.Weight, g.Pressure)); err != nil {
		return Grounding{}, err
	}
	g.Down = r.Count * r.Patch * r.Sink / l.Leak.FlowAt(math.Max(l.Weight, g.Pressure))
	g.Time = g.Soft + g.Down
	return g, nil
}

// StandingPatch is the area of the bed that carries a standing person.
//
//	A = mass*units.Gn/p
//
// The mass is 0 or more, the gauge pressure p more than 0; outside it panics.
//
// Source: equilibrium on a soft floor, without the pull of the fabric round it.
func StandingPatch(mass units.Mass, p units.Pressure) units.Area {
	argument.Demand("blower: StandingPatch", argument.NotNegative("mass", mass), argument.Positive("pressure", p))
	return mass * units.Gn / p
}

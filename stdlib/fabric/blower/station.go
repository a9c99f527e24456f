package blower

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/root"
	"tautline/stdlib/units"
)

// A Station is one blower at its inlet of the bed.
type Station struct {
	Fan     Fan
	Stopped bool    // it stands still
	Flap    bool    // a check valve closes when air would flow back
	Passage Orifice // without a flap: the way back through the blower
}

// A Settled bed is one fed by several blowers.
type Settled struct {
	Pressure units.Pressure
	Leakage  units.VolumeFlow
	Flow     []units.VolumeFlow // of each station into the bed, below 0 where air flows back
	Warnings []string
}

// Settle finds the pressure at which several blowers together give just what
// leaks.
//
// A blower that runs gives the flow of its curve. Where the bed's pressure is
// more than its shut-off, and for one that stands still, a flap closes; without
// one, air flows back through the Passage, driven by the bed's pressure less the
// shut-off of a blower that runs. The pressure is found by halving between the
// curves' last points and the highest shut-off until it no longer changes. Air
// that flows back carries a warning.
//
// It is an error if no blower runs, a curve does not begin at flow 0 or does not
// fall all the way, the leak beats the blowers, or a part is out of its range.
//
// Source: continuity; flow back through a running blower as through a hole after
// its shut-off pressure, derived here.
func Settle(stations []Station, leak Leak) (Settled, error) {
	fail := func(err error) (Settled, error) { return Settled{}, fmt.Errorf("settled bed: %w", err) }
	err := leak.check()
	low, high := 0.0, -1.0
	for i, s := range stations {
		if e := s.check(); e != nil {
			err = cmp.Or(err, fmt.Errorf("blower %d: %w", i+1, e))
		} else if !s.Stopped {
			low = math.Max(low, s.Fan.Pressure[len(s.Fan.Pressure)-1])
			high = math.Max(high, s.Fan.Pressure[0])
		}
	}
	if err == nil && high < 0 {
		err = fmt.Errorf("running blowers: got 0 of %d, want one or more", len(stations))
	}
	if err != nil {
		return fail(err)
	}
	spare := func(p float64) float64 {
		net := -leak.FlowAt(p)
		for _, s := range stations {
			net += s.flowAt(p)
		}
		return net
	}
	if net := spare(low); net < 0 {
		return fail(fmt.Errorf("leak and flow back at %g Pa: got %g m³/s more than the blowers give, want less: "+
			"extend the curves, add a blower, fit flaps or seal the bed", low, -net))
	}
	settled := Settled{Pressure: root.Bisect(low, high, func(p float64) float64 { return -spare(p) })}
	settled.Leakage = leak.FlowAt(settled.Pressure)
	for i, s := range stations {
		q := s.flowAt(settled.Pressure)
		settled.Flow = append(settled.Flow, q)
		if q < 0 {
			settled.Warnings = append(settled.Warnings, fmt.Sprintf(
				"%.3g m³/s flow back through blower %d: fit a flap", -q, i+1))
		}
	}
	return settled, nil
}

func (s Station) check() error {
	if !s.Flap {
		if err := s.Passage.check(); err != nil {
			return fmt.Errorf("passage: %w", err)
		}
	}
	if s.Stopped {
		return nil
	}
	if err := s.Fan.check(); err != nil {
		return err
	}
	if s.Fan.Flow[0] != 0 {
		return fmt.Errorf("fan flow: got a first point at %g m³/s, want 0: add the curve's points down to shut-off", s.Fan.Flow[0])
	}
	for i := range len(s.Fan.Flow) - 1 {
		if s.Fan.Pressure[i+1] >= s.Fan.Pressure[i] {
			return fmt.Errorf("fan pressure: got %g after %g Pa at %g m³/s, want a falling curve: with a hump it is open which blower gives how much",
				s.Fan.Pressure[i+1], s.Fan.Pressure[i], s.Fan.Flow[i+1])
		}
	}
	return nil
}

// flowAt is what a station that was checked gives into a bed.
func (s Station) flowAt(p float64) float64 {
	against := p
	if !s.Stopped {
		if p <= s.Fan.Pressure[0] {
			q, err := s.Fan.FlowAt(p)
			argument.Demand("blower: Settle", err) // Settle asks for no pressure below the curve
			return q
		}
		against -= s.Fan.Pressure[0]
	}
	if s.Flap {
		return 0
	}
	return -s.Passage.FlowAt(against)
}

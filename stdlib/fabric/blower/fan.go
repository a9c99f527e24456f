package blower

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/root"
	"tautline/stdlib/units"
)

// A Fan is a blower's curve: the pressure it gives at each flow, read from its
// data sheet. Between the points the curve is straight.
type Fan struct {
	Flow     []units.VolumeFlow // rising, from 0 if the sheet has it
	Pressure []units.Pressure   // gauge, one for each flow, 0 or more
	// Parabolic draws the parabola p₀(1-(Q/Q₀)²) instead, through just two
	// points: shut-off (flow 0) and free delivery (pressure 0).
	Parabolic bool
}

// ParabolicFan is the fan with the curve p = p₀(1-(Q/Q₀)²), a fair shape for a
// centrifugal blower of which only two numbers are known.
//
// The shut-off pressure p₀ and the free delivery Q₀ are more than 0; a fan with
// others is refused where it is used.
//
// Source: common practice, no source.
func ParabolicFan(shutOff units.Pressure, freeDelivery units.VolumeFlow) Fan {
	f := LinearFan(shutOff, freeDelivery)
	f.Parabolic = true
	return f
}

// LinearFan is the fan with a straight curve from shut-off to free delivery,
// the cautious guess when only these two numbers are known.
//
// The shut-off pressure and the free delivery are more than 0; a fan with
// others is refused where it is used.
//
// Source: common practice, no source.
func LinearFan(shutOff units.Pressure, freeDelivery units.VolumeFlow) Fan {
	return Fan{Flow: []units.VolumeFlow{0, freeDelivery}, Pressure: []units.Pressure{shutOff, 0}}
}

func (f Fan) check() error {
	n := len(f.Flow)
	if n < 2 || len(f.Pressure) != n {
		return fmt.Errorf("fan curve: got %d flows and %d pressures, want two or more of each, equally many", n, len(f.Pressure))
	}
	for i := range n {
		if err := cmp.Or(argument.NotNegative("fan flow", f.Flow[i]), argument.NotNegative("fan pressure", f.Pressure[i])); err != nil {
			return err
		}
		if i > 0 && f.Flow[i] <= f.Flow[i-1] {
			return fmt.Errorf("fan flow: got %g after %g m³/s, want rising flows: sort the curve's points", f.Flow[i], f.Flow[i-1])
		}
	}
	if f.Parabolic && (n != 2 || f.Flow[0] != 0 || f.Pressure[1] != 0 || f.Pressure[0] == 0) {
		return fmt.Errorf("parabolic fan: got %d points, want shut-off (flow 0) and free delivery (pressure 0) only: use ParabolicFan", n)
	}
	return nil
}

// at is the point at the share t, from 0 to 1, of the curve's i-th piece.
func (f Fan) at(i int, t float64) (flow, pressure float64) {
	bend := t
	if f.Parabolic {
		bend = t * t
	}
	return f.Flow[i] + t*(f.Flow[i+1]-f.Flow[i]), f.Pressure[i]*(1-bend) + f.Pressure[i+1]*bend
}

// PressureAt is the pressure that the fan gives at a flow.
//
// A flow outside the curve's points is an error, as is a curve that is none.
//
// Source: the fan's curve.
func (f Fan) PressureAt(flow units.VolumeFlow) (units.Pressure, error) {
	if err := cmp.Or(f.check(), argument.Finite("flow", flow)); err != nil {
		return 0, fmt.Errorf("fan pressure: %w", err)
	}
	for i := range len(f.Flow) - 1 {
		if f.Flow[i] <= flow && flow <= f.Flow[i+1] {
			_, p := f.at(i, (flow-f.Flow[i])/(f.Flow[i+1]-f.Flow[i]))
			return p, nil
		}
	}
	return 0, fmt.Errorf("fan pressure: flow: got %g m³/s, want %g to %g m³/s, where the fan's curve lies",
		flow, f.Flow[0], f.Flow[len(f.Flow)-1])
}

// FlowAt is the flow that the fan gives against a pressure; the greatest, if
// the curve has a hump and gives several.
//
// A pressure that the curve does not reach is an error, as is a curve that is
// none.
//
// Source: the fan's curve.
func (f Fan) FlowAt(p units.Pressure) (units.VolumeFlow, error) {
	if err := cmp.Or(f.check(), argument.NotNegative("pressure", p)); err != nil {
		return 0, fmt.Errorf("fan flow: %w", err)
	}
	for i := len(f.Flow) - 2; i >= 0; i-- {
		if f.Pressure[i+1] <= p && p <= f.Pressure[i] {
			t := root.Bisect(0, 1, func(t float64) float64 {
				_, at := f.at(i, t)
				return p - at
			})
			q, _ := f.at(i, t)
			return q, nil
		}
	}
	return 0, fmt.Errorf("fan flow: the fan's curve from %g m³/s to %g m³/s does not come down to %g Pa; extend it or ask for another pressure",
		f.Flow[0], f.Flow[len(f.Flow)-1], p)
}

// Parallel is the curve of several such fans blowing into one bed, as one fan:
// the flows add at each pressure.
//
// The number of fans is more than 0; outside it panics.
//
// Caution: a fan that stops is taken not to become a leak, so each needs its
// check valve.
//
// Source: continuity.
func (f Fan) Parallel(fans units.Number) Fan {
	argument.Demand("blower: Fan.Parallel", argument.Positive("number of fans", fans))
	return f.stretched(fans, 1)
}

// Scaled is the curve of the same kind of fan at another speed, size or air
// density, each given as the ratio of new to old: flow goes with speed and with
// the cube of the diameter, pressure with density and with the square of speed
// and of diameter.
//
// The ratios are more than 0; outside it panics. They are good for small
// changes, in which the fan's efficiency stays much the same.
//
// Source: fan laws; ASHRAE Handbook, HVAC Systems and Equipment, fans.
func (f Fan) Scaled(speed, diameter, density units.Number) Fan {
	d := Duty{Flow: 1, Pressure: 1}.Scaled(speed, diameter, density)
	return f.stretched(d.Flow, d.Pressure)
}

func (f Fan) stretched(flow, pressure float64) Fan {
	g := Fan{Parabolic: f.Parabolic}
	for _, q := range f.Flow {
		g.Flow = append(g.Flow, flow*q)
	}
	for _, p := range f.Pressure {
		g.Pressure = append(g.Pressure, pressure*p)
	}
	return g
}

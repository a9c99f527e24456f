package blower

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/root"
	"tautline/stdlib/units"
)

// A Point is where a fan's curve meets the leak: the pressure and flow at which
// the bed settles.
type Point struct {
	Flow     units.VolumeFlow
	Pressure units.Pressure
	Warnings []string
}

// OperatingPoint finds where the fan gives just the flow that leaks. If a humped
// curve meets the leak several times, the one of the greatest flow.
//
// The curve's pieces are searched from free delivery back to shut-off, each by
// halving until the point no longer changes. A curve that rises anywhere
// carries a warning. It is an error if the leak meets the curve nowhere between
// its first and last point, or if a part of fan or leak is out of its range.
//
// Source: continuity.
func OperatingPoint(fan Fan, leak Leak) (Point, error) {
	if err := cmp.Or(fan.check(), leak.check()); err != nil {
		return Point{}, fmt.Errorf("operating point: %w", err)
	}
	spare := func(i int, t float64) float64 {
		q, p := fan.at(i, t)
		return q - leak.FlowAt(p)
	}
	last := len(fan.Flow) - 2
	for i := last; i >= 0; i-- {
		if spare(i, 0) > 0 || spare(i, 1) < 0 {
			continue
		}
		t := root.Bisect(0, 1, func(t float64) float64 { return spare(i, t) })
		q, p := fan.at(i, t)
		return Point{Flow: q, Pressure: p, Warnings: fan.hump()}, nil
	}
	if spare(last, 1) < 0 {
		return Point{}, fmt.Errorf("operating point: leak at %g Pa: got %g m³/s, want at most the curve's last flow %g m³/s: "+
			"extend the fan's curve, add a fan or seal the bed", fan.Pressure[last+1], leak.FlowAt(fan.Pressure[last+1]), fan.Flow[last+1])
	}
	return Point{}, fmt.Errorf("operating point: leak at %g Pa: got %g m³/s, want at least the curve's first flow %g m³/s: "+
		"add the fan's points at smaller flow, down to shut-off", fan.Pressure[0], leak.FlowAt(fan.Pressure[0]), fan.Flow[0])
}

func (f Fan) hump() []string {
	for i := range len(f.Flow) - 1 {
		if f.Pressure[i+1] > f.Pressure[i] {
			return []string{fmt.Sprintf("fan curve rises from %g to %g m³/s: near there the fan may surge and the bed may settle at another pressure",
				f.Flow[i], f.Flow[i+1])}
		}
	}
	return nil
}

// AirPower is the power that the fan gives to the air.
//
//	P = p.Flow*p.Pressure
//
// Source: work of the pressure.
func (p Point) AirPower() units.Power { return p.Flow * p.Pressure }

// ShaftPower is the power that the fan takes at its shaft.
//
//	P = p.Flow*p.Pressure/efficiency
//
// The fan's efficiency is more than 0 and at most 1; outside it panics.
//
// Source: definition of efficiency.
func (p Point) ShaftPower(efficiency units.Number) units.Power {
	argument.Demand("blower: Point.ShaftPower", argument.Positive("efficiency", efficiency), argument.Within("efficiency", efficiency, 0, 1))
	return p.Flow * p.Pressure / efficiency
}

// TemperatureRise is how much the fan warms the air.
//
//	dT = p.Pressure/(density*1006*efficiency)
//
// The air's density is more than 0, the fan's efficiency more than 0 and at
// most 1; outside it panics. The constant is the specific heat of air,
// 1006 J/(kg·K).
//
// Source: energy balance of the fan, all losses going into the air.
func (p Point) TemperatureRise(density units.Density, efficiency units.Number) units.TemperatureDifference {
	argument.Demand("blower: Point.TemperatureRise", argument.Positive("density", density), argument.Positive("efficiency", efficiency),
		argument.Within("efficiency", efficiency, 0, 1))
	return p.Pressure / (density * 1006 * efficiency)
}

package blower

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Duct is the round tube from a blower to its bed.
type Duct struct {
	Diameter  units.Length // inside, more than 0
	Length    units.Length // 0 or more
	Roughness units.Length // of its wall, 0 or more, less than a tenth of the diameter; about 0.9 mm for a fabric sleeve with folds
	Losses    units.Number // velocity heads lost besides friction, 0 or more: 1 at the outlet, about 0.5 at a sharp inlet
}

func (d Duct) check() error {
	return cmp.Or(argument.Positive("duct diameter", d.Diameter), argument.NotNegative("duct length", d.Length),
		argument.Within("duct roughness", d.Roughness, 0, d.Diameter/10), argument.NotNegative("duct losses", d.Losses))
}

// Speed is the mean speed of the air in the duct.
//
//	v = 4*flow/(pi*d.Diameter*d.Diameter)
//
// The flow is 0 or more. It panics if it or a field is out of its range.
//
// Source: continuity.
func (d Duct) Speed(flow units.VolumeFlow) units.Speed {
	argument.Demand("blower: Duct.Speed", d.check(), argument.NotNegative("flow", flow))
	return 4 * flow / (math.Pi * d.Diameter * d.Diameter)
}

// FrictionFactor is Darcy's friction factor of the duct's wall.
//
// Below a Reynolds number of 2300 it is 64 over that number, above it the root of
// Colebrook's equation, by iteration until it no longer changes.
//
// The flow and the kinematic viscosity of the air are more than 0. It panics if
// one or a field is out of its range.
//
// Source: Colebrook, Journal of the Institution of Civil Engineers 11 (1939)
// 133-156; Hagen and Poiseuille for slow flow.
func (d Duct) FrictionFactor(flow units.VolumeFlow, viscosity units.KinematicViscosity) units.Number {
	argument.Demand("blower: Duct.FrictionFactor", d.check(), argument.Positive("flow", flow), argument.Positive("viscosity", viscosity))
	reynolds := d.Speed(flow) * d.Diameter / viscosity
	if reynolds < 2300 {
		return 64 / reynolds
	}
	x := 8.0 // one over the root of the factor
	for range 100 {
		next := -2 * math.Log10(d.Roughness/d.Diameter/3.7+2.51*x/reynolds)
		if math.Abs(next-x) <= 1e-15*x {
			break
		}
		x = next
	}
	return 1 / (x * x)
}

// Loss is the pressure lost from one end of the duct to the other, the velocity
// of the air included as far as Losses counts it.
//
// It is the velocity head times friction factor, length over diameter, and
// Losses. The flow is 0 or more, density and kinematic viscosity of the air are
// more than 0. It panics if one or a field is out of its range.
//
// Source: Darcy and Weisbach; friction factor as in FrictionFactor.
func (d Duct) Loss(flow units.VolumeFlow, density units.Density, viscosity units.KinematicViscosity) units.Pressure {
	argument.Demand("blower: Duct.Loss", d.check(), argument.NotNegative("flow", flow), argument.Positive("density", density), argument.Positive("viscosity", viscosity))
	if flow == 0 {
		return 0
	}
	v := d.Speed(flow)
	return density / 2 * v * v * (d.FrictionFactor(flow, viscosity)*d.Length/d.Diameter + d.Losses)
}

// AirViscosity is the kinematic viscosity of air.
//
//	nu = 1.458e-6*pow(temperature, 1.5)/((temperature + 110.4)*density)
//
// The absolute temperature is from 100 K to 1000 K, the density more than 0;
// outside it panics.
//
// Source: Sutherland's law with the constants of ISO 2533, International
// Standard Atmosphere.
func AirViscosity(temperature units.Temperature, density units.Density) units.KinematicViscosity {
	argument.Demand("blower: AirViscosity", argument.Within("temperature", temperature, 100, 1000), argument.Positive("density", density))
	return 1.458e-6 * math.Pow(temperature, 1.5) / ((temperature + 110.4) * density)
}

// Behind is the curve of the fan with a duct between it and the bed, as a table:
// the pressure at each flow less what the duct loses.
//
// Each piece of the curve becomes sixteen, and the last point is where nothing
// is left. Density and viscosity are those of the air in the duct, more than 0.
// It is an error if the fan's curve is none, a number is out of its range, or the
// duct takes all from the first point on.
//
// Source: Duct.Loss at each flow.
func (f Fan) Behind(d Duct, density units.Density, viscosity units.KinematicViscosity) (Fan, error) {
	err := cmp.Or(f.check(), d.check(), argument.Positive("density", density), argument.Positive("viscosity", viscosity))
	if err != nil {
		return Fan{}, fmt.Errorf("fan behind a duct: %w", err)
	}
	const parts = 16
	var g Fan
	add := func(q, p float64) { g.Flow, g.Pressure = append(g.Flow, q), append(g.Pressure, p) }
	for i := range len(f.Flow) - 1 {
		for k := range parts + 1 {
			if k == 0 && i > 0 {
				continue
			}
			q, p := f.at(i, float64(k)/parts)
			p -= d.Loss(q, density, viscosity)
			n := len(g.Flow)
			switch {
			case p >= 0:
				add(q, p)
				continue
			case n == 0:
				return Fan{}, fmt.Errorf("fan behind a duct: loss at %g m³/s: got %g Pa more than the fan gives there: take a wider duct", q, -p)
			case g.Pressure[n-1] > 0:
				share := g.Pressure[n-1] / (g.Pressure[n-1] - p)
				add(g.Flow[n-1]+share*(q-g.Flow[n-1]), 0)
			}
			if len(g.Flow) < 2 {
				return Fan{}, fmt.Errorf("fan behind a duct: nothing is left past %g m³/s: take a wider duct", g.Flow[0])
			}
			return g, nil
		}
	}
	return g, nil
}

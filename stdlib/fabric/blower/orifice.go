package blower

import (
	"cmp"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// An Orifice is an opening through which air leaves: a hole, a torn seam, a
// vent, a zip.
type Orifice struct {
	Discharge units.Number  // discharge coefficient, more than 0, at most 1; about 0.61 for a sharp edge
	Area      units.Area    // 0 or more
	Density   units.Density // of the air, more than 0
}

func (o Orifice) check() error {
	return cmp.Or(argument.Positive("discharge coefficient", o.Discharge), argument.Within("discharge coefficient", o.Discharge, 0, 1),
		argument.NotNegative("opening", o.Area), argument.Positive("air density", o.Density))
}

// FlowAt is what escapes through the opening.
//
//	Q = o.Discharge*o.Area*sqrt(2*p/o.Density)
//
// The gauge pressure p inside is 0 or more and small against the atmosphere's.
// It panics if p or a field is out of its range.
//
// Source: Bernoulli's equation with a discharge coefficient.
func (o Orifice) FlowAt(p units.Pressure) units.VolumeFlow {
	argument.Demand("blower: Orifice.FlowAt", o.check(), argument.NotNegative("pressure", p))
	return o.Discharge * o.Area * math.Sqrt(2*p/o.Density)
}

// PressureLossTime is how long the pressure takes to fall once the power fails,
// in a bed that keeps its volume meanwhile: seconds, as a rule.
//
//	t = volume*sqrt(2*o.Density)*(sqrt(from) - sqrt(to))/(o.Discharge*o.Area*ambient)
//
// The volume is 0 or more; the gauge pressures from and to are 0 or more, to at
// most from; the absolute pressure ambient is more than 0; the opening must not
// be 0. The air is taken to stay at one temperature; without any exchange of
// heat the time is 1.4 times shorter. It panics if a number is out of its
// range.
//
// Caution: the bed is then soft, not empty; EmptyTime follows.
//
// Source: ideal gas law with the flow of FlowAt, derived here, for gauge
// pressures small against the atmosphere's.
func (o Orifice) PressureLossTime(volume units.Volume, from, to, ambient units.Pressure) units.Time {
	argument.Demand("blower: Orifice.PressureLossTime", o.check(), argument.Positive("opening", o.Area), argument.NotNegative("volume", volume),
		argument.NotNegative("from", from), argument.Within("to", to, 0, from), argument.Positive("ambient pressure", ambient))
	return volume * math.Sqrt(2*o.Density) * (math.Sqrt(from) - math.Sqrt(to)) / (o.Discharge * o.Area * ambient)
}

// EmptyTime is how long a bed without pressure takes to sink flat under its own
// weight: minutes, as a rule.
//
//	t = volume/(o.Discharge*o.Area*sqrt(2*weight/o.Density))
//
// The volume is 0 or more; the weight is the fabric's, as a pressure, more than
// 0 (see WeightPressure); the opening must not be 0. It panics if a number is
// out of its range.
//
// Source: continuity with the flow of FlowAt at constant pressure.
func (o Orifice) EmptyTime(volume units.Volume, weight units.Pressure) units.Time {
	argument.Demand("blower: Orifice.EmptyTime", o.check(), argument.Positive("opening", o.Area), argument.NotNegative("volume", volume), argument.Positive("weight", weight))
	return volume / o.FlowAt(weight)
}

// WeightPressure is the pressure that lying fabric puts on the air below it.
//
//	p = mass*units.Gn
//
// The fabric's mass per area is 0 or more; outside it panics.
//
// Source: weight at standard gravity.
func WeightPressure(mass units.MassPerArea) units.Pressure {
	argument.Demand("blower: WeightPressure", argument.NotNegative("mass per area", mass))
	return mass * units.Gn
}

package blower

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// FillTime is how long the fan takes to fill a limp bed: its volume over what
// the fan gives and the leak leaves.
//
// The volume is 0 or more. The back pressure, 0 or more, is that of the fabric's
// weight on the air (see WeightPressure). It is an error if the leak takes all
// that the fan gives, or if a part of fan or leak is out of its range.
//
// Source: continuity.
func FillTime(fan Fan, leak Leak, volume units.Volume, back units.Pressure) (units.Time, error) {
	if err := cmp.Or(leak.check(), argument.NotNegative("volume", volume), argument.NotNegative("back pressure", back)); err != nil {
		return 0, fmt.Errorf("fill time: %w", err)
	}
	net, err := netFlow(fan, leak, back)
	if err != nil {
		return 0, fmt.Errorf("fill time: %w", err)
	}
	return volume / net, nil
}

// PressureRiseTime is how long the fan takes to bring a full bed, which keeps
// its volume, from one pressure to another.
//
// It is the integral of volume over ambient pressure times what the fan gives
// and the leak leaves, by Simpson's rule over the logarithm of the distance from
// the pressure at which the bed settles, where the time grows beyond all
// bounds. The air is taken to stay at one temperature.
//
// The volume is 0 or more, the gauge pressures from and to are 0 or more, to at
// least from and less than the pressure at which the bed settles; the absolute
// pressure ambient is more than 0. The fan's curve falls from shut-off to beyond
// the pressure from. Anything else is an error.
//
// Source: ideal gas law and continuity, derived here, for gauge pressures small
// against the atmosphere's.
func PressureRiseTime(fan Fan, leak Leak, volume units.Volume, from, to, ambient units.Pressure) (units.Time, error) {
	fail := func(err error) (units.Time, error) { return 0, fmt.Errorf("pressure rise time: %w", err) }
	err := cmp.Or(argument.NotNegative("volume", volume), argument.NotNegative("from", from), argument.NotNegative("to", to), argument.Positive("ambient pressure", ambient))
	if err != nil {
		return fail(err)
	}
	settled, err := OperatingPoint(fan, leak)
	switch {
	case err != nil:
		return fail(err)
	case len(settled.Warnings) > 0:
		return fail(fmt.Errorf("fan curve: got one with a hump, want one that falls: drop the points before the hump"))
	case to < from || to >= settled.Pressure:
		return fail(fmt.Errorf("to: got %g Pa, want from %g Pa to less than the settled pressure %g Pa", to, from, settled.Pressure))
	}
	// With the distance d = settled-p and s = ln d, dp = -d ds: the integrand
	// d/netFlow stays finite as p comes close.
	const panels = 512
	low, high := math.Log(settled.Pressure-to), math.Log(settled.Pressure-from)
	sum := 0.0
	for i := range 2*panels + 1 {
		d := math.Exp(low + (high-low)*float64(i)/(2*panels))
		net, err := netFlow(fan, leak, math.Max(0, settled.Pressure-d))
		if err != nil {
			return fail(err)
		}
		weight := float64(2 + 2*(i%2))
		if i == 0 || i == 2*panels {
			weight = 1
		}
		sum += weight * d / net
	}
	return volume / ambient * sum * (high - low) / (6 * panels), nil
}

// netFlow is what the fan gives and the leak leaves at a pressure.
func netFlow(fan Fan, leak Leak, p units.Pressure) (units.VolumeFlow, error) {
	flow, err := fan.FlowAt(p)
	if err != nil {
		return 0, err
	}
	net := flow - leak.FlowAt(p)
	if net <= 0 {
		return 0, fmt.Errorf("fan: got %g m³/s at %g Pa, want more than the leak of %g m³/s: add a fan or seal the bed", flow, p, flow-net)
	}
	return net, nil
}

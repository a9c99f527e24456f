package holding

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Ballast is a weight on hard standing that a strap pulls.
type Ballast struct {
	Mass     units.Mass   // of weight, tray and mat together, more than 0
	Friction units.Number // of its underside on the ground, more than 0: measured, see FrictionFromDrag
	Slope    units.Angle  // of the ground, falling towards the device; below 0 falling away; -45° to 45°
}

func (b Ballast) check() error {
	return cmp.Or(argument.Positive("mass", b.Mass), argument.Positive("friction coefficient", b.Friction), argument.Within("slope", b.Slope, -math.Pi/4, math.Pi/4))
}

// SlipTension is the strap tension at which the ballast starts to slide or, under
// an upright strap, to lift.
//
//	T = max(0, b.Mass*units.Gn*(b.Friction*cos(b.Slope) - sin(b.Slope))/(cos(angle) + b.Friction*sin(angle)))
//
// The strap's angle to the ground is 0 to 90°. It panics if a number is out of
// its range. It is 0 on a slope so steep that the ballast slides by itself.
//
// Source: equilibrium along and square to the slope, derived here.
func (b Ballast) SlipTension(angle units.Angle) units.Force {
	argument.Demand("holding: Ballast.SlipTension", b.check(), strapRange(angle))
	return math.Max(0, b.Mass*units.Gn*(b.Friction*math.Cos(b.Slope)-math.Sin(b.Slope))/(math.Cos(angle)+b.Friction*math.Sin(angle)))
}

// A BallastHold is what ballast holds under a strap, beside what its weight
// alone seems to promise.
type BallastHold struct {
	Tension  units.Force  // at which it slides or lifts
	Weight   units.Force  // what a pull straight up would need
	Share    units.Number // Tension over Weight
	Warnings []string
}

// Holds is what the ballast holds under a strap at an angle to the ground of 0
// to 90°. Ballast that holds less than its weight carries a warning: the weight
// is what it holds straight up only, and no strap pulls straight up.
//
// A number out of its range is an error.
//
// Caution: no safety is taken off; wet ground, paint, oil, sand and ice have less
// friction than the dry ground it was measured on.
//
// Source: as Ballast.SlipTension.
func (b Ballast) Holds(angle units.Angle) (BallastHold, error) {
	if err := cmp.Or(b.check(), strapRange(angle)); err != nil {
		return BallastHold{}, fmt.Errorf("ballast: %w", err)
	}
	h := BallastHold{Tension: b.SlipTension(angle), Weight: b.Mass * units.Gn}
	h.Share = h.Tension / h.Weight
	if h.Share < 1-1e-9 {
		h.Warnings = append(h.Warnings, fmt.Sprintf("%.0f kg slides at %.0f N under a strap at %.0f°, not at its weight of %.0f N: never count ballast by its weight alone",
			b.Mass, h.Tension, angle/units.Deg, h.Weight))
	}
	return h, nil
}

// FrictionFromDrag is the friction coefficient that a drag test found: the
// ballast itself, on the ground itself, pulled level.
//
//	mu = pull/(mass*units.Gn)
//
// The lowest pull at which it moved is 0 or more, its mass more than 0; outside
// it panics.
//
// Source: Coulomb's law.
func FrictionFromDrag(pull units.Force, mass units.Mass) units.Number {
	argument.Demand("holding: FrictionFromDrag", argument.NotNegative("pull", pull), argument.Positive("mass", mass))
	return pull / (mass * units.Gn)
}

// WheelFriction is the friction coefficient of a trailer or vehicle taken as
// ballast: only the wheels that are braked hold, the others roll.
//
//	mu = tyre*braked
//
// The friction coefficient of the tyres is 0 or more; the share of the weight on
// braked wheels 0 to 1, and 0 when the brake is released. Outside it panics.
//
// Caution: a vehicle that somebody may drive away is no anchor.
//
// Source: Coulomb's law; rolling resistance is left out.
func WheelFriction(tyre, braked units.Number) units.Number {
	argument.Demand("holding: WheelFriction", argument.NotNegative("friction coefficient", tyre), argument.Within("share on braked wheels", braked, 0, 1))
	return tyre * braked
}

// WaterBallast is a tank or bag of water.
type WaterBallast struct {
	Tank    units.Mass       // empty, 0 or more
	Volume  units.Volume     // of water filled in, 0 or more
	Density units.Density    // of the water, more than 0: 1000 kg/m³ cold, 996 kg/m³ at 30 °C
	Loss    units.VolumeFlow // by leaks and a valve that drips, 0 or more
}

func (w WaterBallast) check() error {
	return cmp.Or(argument.NotNegative("tank", w.Tank), argument.NotNegative("volume", w.Volume), argument.Positive("water density", w.Density), argument.NotNegative("loss", w.Loss))
}

// MassAfter is the mass that is left after a time.
//
//	m = w.Tank + w.Density*max(0, w.Volume - w.Loss*after)
//
// The time is 0 or more. It panics if a number is out of its range.
//
// Caution: a tank that was not weighed or filled to its brim holds less than is
// written on it, and a slashed bag holds nothing: check it at every round.
//
// Source: balance of volume.
func (w WaterBallast) MassAfter(after units.Time) units.Mass {
	argument.Demand("holding: WaterBallast.MassAfter", w.check(), argument.NotNegative("time", after))
	return w.Tank + w.Density*math.Max(0, w.Volume-w.Loss*after)
}

// TimeTo is how long it takes until no more than a mass is left.
//
// Too little mass from the start is an error, as is a mass that is never reached
// because nothing is lost, or because the empty tank weighs more.
//
// Source: as WaterBallast.MassAfter.
func (w WaterBallast) TimeTo(mass units.Mass) (units.Time, error) {
	err := cmp.Or(w.check(), argument.NotNegative("mass", mass))
	full := w.Tank + w.Density*w.Volume
	switch {
	case err != nil:
	case full < mass:
		err = fmt.Errorf("mass: got %.4g kg when full, want at least %.4g kg: fill in more, or take a larger tank", full, mass)
	case w.Loss == 0 || w.Tank > mass:
		err = fmt.Errorf("mass: %.4g kg is never reached: nothing is lost, or the empty tank weighs more", mass)
	}
	if err != nil {
		return 0, fmt.Errorf("water ballast: %w", err)
	}
	return (full - mass) / (w.Density * w.Loss), nil
}

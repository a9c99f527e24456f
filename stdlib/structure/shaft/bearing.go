package shaft

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Exponents of rolling bearings' lives.
const (
	BallExponent   units.Number = 3        // ISO 281, ball bearings
	RollerExponent units.Number = 10.0 / 3 // ISO 281, roller bearings
)

// BearingLife is how many turns nine in ten rolling bearings reach.
//
//	L10 = 1e6*pow(rating/load, exponent)
//
// The rating is the dynamic load rating C of the catalogue, the load the
// equivalent load P, both more than 0; the exponent is BallExponent or
// RollerExponent. Outside it panics.
//
// Caution: only for a clean, greased bearing that turns. One that stands still
// and is shaken fails by dents and fretting instead: see its static rating.
//
// Source: ISO 281:2007, 5.3 and 7.3.
func BearingLife(rating, load units.Force, exponent units.Number) units.Number {
	argument.Demand("shaft: BearingLife", argument.Positive("dynamic rating", rating), argument.Positive("load", load), argument.Within("exponent", exponent, BallExponent, RollerExponent))
	return 1e6 * math.Pow(rating/load, exponent)
}

// BearingRating is the dynamic rating that a bearing needs.
//
//	C = load*pow(turns/1e6, 1.0/exponent)
//
// The equivalent load and the number of turns are more than 0; the exponent is
// BallExponent or RollerExponent. Outside it panics.
//
// Source: ISO 281:2007, 5.3 and 7.3.
func BearingRating(load units.Force, turns, exponent units.Number) units.Force {
	argument.Demand("shaft: BearingRating", argument.Positive("load", load), argument.Positive("turns", turns), argument.Within("exponent", exponent, BallExponent, RollerExponent))
	return load * math.Pow(turns/1e6, 1/exponent)
}

// BearingHours is how long a number of turns takes.
//
//	t = turns*2*pi/speed
//
// The turns are 0 or more, the speed more than 0; outside it panics.
//
// Source: kinematics.
func BearingHours(turns units.Number, speed units.AngularSpeed) units.Time {
	argument.Demand("shaft: BearingHours", argument.NotNegative("turns", turns), argument.Positive("speed", speed))
	return turns * 2 * math.Pi / speed
}

// LifeFactor is the share of L10 that a higher reliability leaves.
//
// The reliability is 0.90, 0.95, 0.96, 0.97, 0.98 or 0.99; another is an error.
//
// Source: ISO 281:2007, Table 12 (a1), from memory: verify against the document.
// The edition of 1990 had 0.62, 0.53, 0.44, 0.33 and 0.21.
func LifeFactor(reliability units.Number) (units.Number, error) {
	for _, r := range [][2]float64{{0.90, 1}, {0.95, 0.64}, {0.96, 0.55}, {0.97, 0.47}, {0.98, 0.37}, {0.99, 0.25}} {
		if r[0] == reliability {
			return r[1], nil
		}
	}
	return 0, fmt.Errorf("bearing life factor: reliability: got %g, want 0.90, 0.95, 0.96, 0.97, 0.98 or 0.99", reliability)
}

// EquivalentBearingLoad is the radial load that wears a bearing like a radial and
// an axial load together.
//
//	P = max(radial, x*radial + y*axial)
//
// The loads are 0 or more; the factors x and y of the catalogue, for this ratio
// of the two, are 0 or more. Outside it panics.
//
// Source: ISO 281:2007, 5.2.
func EquivalentBearingLoad(radial, axial units.Force, x, y units.Number) units.Force {
	argument.Demand("shaft: EquivalentBearingLoad", argument.NotNegative("radial load", radial), argument.NotNegative("axial load", axial),
		argument.NotNegative("x", x), argument.NotNegative("y", y))
	return math.Max(radial, x*radial+y*axial)
}

// A Duty is what a bearing carries through one cycle of a ride, phase by phase.
type Duty struct {
	Load  []units.Force        // equivalent, 0 or more
	Speed []units.AngularSpeed // 0 or more
	Time  []units.Time         // how long, 0 or more
}

func (d Duty) check() error {
	n := len(d.Load)
	if n == 0 || len(d.Speed) != n || len(d.Time) != n {
		return fmt.Errorf("duty: got %d loads, %d speeds and %d times, want one or more of each, equally many", n, len(d.Speed), len(d.Time))
	}
	for i := range n {
		if err := cmp.Or(argument.NotNegative("load", d.Load[i]), argument.NotNegative("speed", d.Speed[i]), argument.NotNegative("time", d.Time[i])); err != nil {
			return fmt.Errorf("duty: phase %d: %w", i+1, err)
		}
	}
	if d.turned() == 0 {
		return fmt.Errorf("duty: got no turning, want some: a bearing that stands still is judged by its static rating")
	}
	return nil
}

// turned is the angle through which the bearing turns in one cycle.
func (d Duty) turned() (angle float64) {
	for i := range d.Load {
		angle += d.Speed[i] * d.Time[i]
	}
	return angle
}

// Equivalent is the steady load that wears the bearing as much: the mean of the
// loads to the power of the exponent, weighted by turns.
//
// Lists that do not fit, a duty without turning and numbers out of range are
// errors.
//
// Source: ISO 281:2007, by the linear damage rule; bearing catalogues.
func (d Duty) Equivalent(exponent units.Number) (units.Force, error) {
	argument.Demand("shaft: Duty.Equivalent", argument.Within("exponent", exponent, BallExponent, RollerExponent))
	if err := d.check(); err != nil {
		return 0, err
	}
	sum := 0.0
	for i, p := range d.Load {
		sum += math.Pow(p, exponent) * d.Speed[i] * d.Time[i]
	}
	return math.Pow(sum/d.turned(), 1/exponent), nil
}

// MeanSpeed is the steady speed that turns the bearing as far in the time of the
// cycle.
//
// Errors are those of Equivalent.
//
// Source: kinematics.
func (d Duty) MeanSpeed() (units.AngularSpeed, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	total := 0.0
	for _, t := range d.Time {
		total += t
	}
	return d.turned() / total, nil
}

// OscillationTurns is the number of whole turns that wear a bearing like one full
// swing to both sides and back.
//
//	n = 4*amplitude/(2*pi)
//
// The amplitude, to one side, is more than 0 to 180°; outside it panics.
//
// Caution: when the swing is less than the angle between two balls the raceway
// frets where each ball lies, which this does not cover. Turn it round now and
// then.
//
// Source: the angle swept; bearing catalogues.
func OscillationTurns(amplitude units.Angle) units.Number {
	argument.Demand("shaft: OscillationTurns", argument.Within("amplitude", amplitude, 1e-9, math.Pi))
	return 4 * amplitude / (2 * math.Pi)
}

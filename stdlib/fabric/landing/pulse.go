package landing

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// PulseShape is how what is felt rises and falls in a single blow.
type PulseShape string

// The shapes of pulses.
const (
	Square    PulseShape = "square"
	HalfSine  PulseShape = "half sine"
	Haversine PulseShape = "haversine"
	Peaked    PulseShape = "triangle" // wherever its peak lies
)

// A Pulse is a single blow of a known shape.
type Pulse struct {
	Shape    PulseShape
	Peak     units.Number // felt at most, in multiples of gravity, 0 or more
	Duration units.Time   // more than 0
}

// share is the HIC over peak^2.5 times duration, and the best time over the
// duration.
func (p Pulse) share() (hic, window float64, err error) {
	err = cmp.Or(argument.NotNegative("peak", p.Peak), argument.Positive("duration", p.Duration))
	switch p.Shape {
	case Square:
		return 1, 1, err
	case HalfSine:
		return 0.41464565, 0.67022966, err
	case Haversine:
		return 0.30293886, 0.50759181, err
	case Peaked:
		return 0.24640066, 4.0 / 7, err
	}
	return 0, 0, fmt.Errorf("shape: got %q, want square, half sine, haversine or triangle", string(p.Shape))
}

// HIC is the head injury criterion of the pulse without a limit on the time: a
// constant of the shape times peak^2.5 and duration.
//
// It is an error if the shape is not known or a field is out of its range.
//
// Source: Chou and Nyquist, Analytical studies of the head injury criterion, SAE
// 740082 (1974); constants computed anew.
func (p Pulse) HIC() (units.Number, error) {
	hic, _, err := p.share()
	if err != nil {
		return 0, fmt.Errorf("pulse: %w", err)
	}
	return hic * math.Pow(p.Peak, 2.5) * p.Duration, nil
}

// Window is the time over which the HIC of the pulse is reached.
//
// It is an error as in HIC.
//
// Source: as HIC.
func (p Pulse) Window() (units.Time, error) {
	_, window, err := p.share()
	if err != nil {
		return 0, fmt.Errorf("pulse: %w", err)
	}
	return window * p.Duration, nil
}

// A Cushion is the least that softens a fall to a head injury criterion.
type Cushion struct {
	Pulse    Pulse
	Distance units.Length // in which the head stops
}

// LeastCushion is the half-sine pulse without rebound that stops a head after a
// fall from a height with just the criterion, and how much way that takes.
//
// Height and criterion are more than 0; outside it is an error.
//
// Caution: a short fall comes to the criterion only far above what a head may
// feel; ImpactLimit.Cushion keeps both.
//
// Source: momentum, 2·peak·g·duration/π against the fall's speed, with the HIC of
// a half sine, derived here.
func LeastCushion(height units.Length, hic units.Number) (Cushion, error) {
	if err := cmp.Or(argument.Positive("height", height), argument.Positive("HIC", hic)); err != nil {
		return Cushion{}, fmt.Errorf("least cushion: %w", err)
	}
	v := FallSpeed(height)
	share, _, _ := Pulse{HalfSine, 1, 1}.share()
	peak := math.Pow(2*units.Gn*hic/(math.Pi*share*v), 2.0/3)
	duration := math.Pi * v / (2 * peak * units.Gn)
	return Cushion{Pulse{HalfSine, peak, duration}, v * duration / 2}, nil
}

// Cushion is the half-sine pulse without rebound that stops a head after a fall
// from a height within both limits, and how much way that takes: the least that a
// pad gives. In a short fall it is what is felt that counts, in a long one the
// criterion.
//
// Height and limits are more than 0; outside it is an error.
//
// Caution: a pad that is pressed hard stops the head in less.
//
// Source: as LeastCushion; at a peak of k times gravity the way is π·height/(2·k).
func (l ImpactLimit) Cushion(height units.Length) (Cushion, error) {
	if err := argument.Positive("felt", l.Felt); err != nil {
		return Cushion{}, fmt.Errorf("cushion: %w", err)
	}
	c, err := LeastCushion(height, l.HIC)
	if err != nil || c.Pulse.Peak <= l.Felt {
		return c, err
	}
	v := FallSpeed(height)
	duration := math.Pi * v / (2 * l.Felt * units.Gn)
	return Cushion{Pulse{HalfSine, l.Felt, duration}, v * duration / 2}, nil
}

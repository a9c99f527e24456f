package tether

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Ballast is the mass that has to stand at each anchor in place of a stake, to
// hold a tension in its strap, which it neither drags nor lifts at the strap's
// angle. On a slope its own weight drags it downhill as well: most where the
// ground falls towards the device.
//
// The tensions, one for each anchor, such as Survey.TensionOneLost, are 0 or
// more; the friction coefficient mu of the ballast on the ground more than the
// rise over run of the set's slope; the factor on the tensions 1 or more. A number
// out of its range is an error, as is a strap that does not rise.
//
// Caution: wet ground has less friction; measure it with the ballast itself.
//
// Source: equilibrium along and square to the slope, derived here; on level ground
// as anchoring.BallastMass.
func (s Set) Ballast(tensions []units.Force, mu, factor units.Number) ([]units.Mass, error) {
	err := cmp.Or(s.check(), argument.Positive("friction coefficient", mu), argument.Above("friction coefficient (the ballast must not slide by itself on the slope)", mu, math.Tan(s.Slope)),
		argument.Within("factor", factor, 1, math.MaxFloat64))
	if err == nil && len(tensions) != len(s.Anchors) {
		err = fmt.Errorf("tensions: got %d, want one for each of %d anchors", len(tensions), len(s.Anchors))
	}
	if err != nil {
		return nil, fmt.Errorf("ballast: %w", err)
	}
	out := make([]units.Mass, len(tensions))
	for i, t := range tensions {
		a := s.Anchors[i]
		if err := cmp.Or(argument.NotNegative("tension", t), argument.NotNegative("strap angle", a.Angle())); err != nil {
			return nil, fmt.Errorf("ballast: anchor %q: %w", a.Name, err)
		}
		out[i] = s.ballast(a, factor*t, mu)
	}
	return out, nil
}

// ballast is the mass at one anchor. The pull T·cos along the ground and the weight's
// share W·sin(slope) downhill add up as arrows, and are held by friction under what
// presses: |T·cos + W·sin(slope)| = mu·(W·cos(slope) - T·sin). Squared, it is
// quadratic in the weight; the larger root is where the friction comes to hold.
func (s Set) ballast(a Anchor, T, mu float64) units.Mass {
	sin, cos := math.Sincos(a.Angle())
	fall, square := math.Sincos(s.Slope)
	along := 0.0 // cosine between the pull and the way downhill
	if x, y := a.Eye.X-a.Ground.X, a.Eye.Y-a.Ground.Y; x != 0 || y != 0 {
		along = -(x*math.Sin(s.Uphill) + y*math.Cos(s.Uphill)) / math.Hypot(x, y)
	}
	A := mu*mu*square*square - fall*fall
	B := mu*mu*square*sin + cos*fall*along
	C := mu*mu*sin*sin - cos*cos
	return T * (B + math.Sqrt(math.Max(0, B*B-A*C))) / A / units.Gn
}

// A Need is how many anchors a device needs, or which mass.
type Need struct {
	Number          units.Number // of anchors
	Mass            units.Mass   // in all, at its centre
	Greatest        units.Number // utilisation of the governing anchor then
	GreatestOneLost units.Number // the same with any one anchor lost
	Warnings        []string
}

// mostAnchors is where the search for a number of anchors ends.
const mostAnchors = 200

// AnchorsNeeded is the least number of anchors in a ring that holds the device in
// a wind of a speed from n bearings, whichever anchor is lost; the set's own
// anchors and the ring's number do not count.
//
// The search begins at three anchors. More than that number may hold less: in a
// ring of an odd number two neighbours splay to the same side. It is an error when 200 are not enough, or a
// set or number is out of its range.
//
// Source: as Solve.
func (s Set) AnchorsNeeded(ring Ring, speed units.Speed, n int) (Need, error) {
	for k := 3; k <= mostAnchors; k++ {
		ring.Number = float64(k)
		s.Anchors = ring.Anchors()
		v, err := s.Survey(speed, n)
		if err != nil {
			return Need{}, err
		}
		if v.Greatest <= 1 && v.GreatestOneLost <= 1 {
			return Need{ring.Number, s.Mass, v.Greatest, v.GreatestOneLost, v.Warnings}, nil
		}
	}
	return Need{}, fmt.Errorf("anchors needed: %d are not enough in a wind of %.1f m/s: each must hold more, or the device needs mass or friction", mostAnchors, speed)
}

// heaviest is where the search for a mass ends.
const heaviest = 1e6 * units.Kg

// MassNeeded is the least mass, at the set's centre and with its own anchors, that
// holds the device in a wind of a speed from n bearings with all anchors, no foot
// off the ground unless the set allows it. It is found to a kilogram, above.
//
// It is an error when 1000 t are not enough, or a set or number is out of its
// range.
//
// Source: as Solve.
func (s Set) MassNeeded(speed units.Speed, n int) (Need, error) {
	holds := func(mass float64) (Survey, bool, error) {
		s.Mass = mass
		v, err := s.Survey(speed, n)
		ok := v.Greatest <= 1
		for _, lifted := range v.Lifted {
			ok = ok && (lifted == 0 || s.MayLift)
		}
		return v, ok, err
	}
	v, ok, err := holds(0)
	low, high := -1.0, 0.0
	for err == nil && !ok {
		low, high = high, math.Max(1, 2*high)
		if high > heaviest {
			return Need{}, fmt.Errorf("mass needed: %.0f t are not enough in a wind of %.1f m/s: friction is too low, or the mass stands too high", heaviest/units.T, speed)
		}
		v, ok, err = holds(high)
	}
	for err == nil && high-low > 1 {
		middle := math.Floor((low + high) / 2)
		var at Survey
		if at, ok, err = holds(middle); ok {
			high, v = middle, at
		} else {
			low = middle
		}
	}
	if err != nil {
		return Need{}, err
	}
	return Need{float64(len(s.Anchors)), high, v.Greatest, v.GreatestOneLost, v.Warnings}, nil
}

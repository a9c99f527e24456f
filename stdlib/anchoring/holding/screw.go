package holding

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Screw is a ground anchor with one helix, pulled along its shaft.
type Screw struct {
	Helix units.Length // diameter of the helix, more than Shaft
	Shaft units.Length // diameter of the shaft, more than 0
	Depth units.Length // of the helix below the ground, more than 0
	Skin  units.Length // of the shaft that clay clings to, 0 to Depth
}

func (s Screw) check() error {
	return cmp.Or(argument.Positive("shaft", s.Shaft), argument.Above("helix", s.Helix, s.Shaft), argument.Positive("depth", s.Depth),
		argument.Within("skin", s.Skin, 0, s.Depth))
}

// Breakout is the factor on the clay's strength under the helix: it grows with
// depth until the ground no longer breaks out upward.
//
//	Nc = min(1.2*s.Depth/s.Helix, 9)
//
// It panics if a field is out of its range.
//
// Source: G. G. Meyerhof and J. I. Adams, The ultimate uplift capacity of
// foundations, Can. Geotech. J. 5 (1968), from memory: verify against the
// document.
func (s Screw) Breakout() units.Number {
	argument.Demand("holding: Screw.Breakout", s.check())
	return math.Min(1.2*s.Depth/s.Helix, 9)
}

// NetArea is the area of the helix beside the shaft.
//
//	A = pi/4*(s.Helix*s.Helix - s.Shaft*s.Shaft)
//
// It panics if a field is out of its range.
//
// Source: geometry.
func (s Screw) NetArea() units.Area {
	argument.Demand("holding: Screw.NetArea", s.check())
	return math.Pi / 4 * (s.Helix*s.Helix - s.Shaft*s.Shaft)
}

// TorqueHolding is what a screw holds by the torque that drove it in.
//
//	Q = factor*torque
//
// The factor, some 33 1/m for a shaft up to 90 mm, and the torque over the last
// turns are 0 or more; outside it panics.
//
// Source: R. M. Hoyt and S. P. Clemence, Uplift capacity of helical anchors in
// soil, 12th ICSMFE, 1989, from memory: verify against the document.
func TorqueHolding(factor units.PerLength, torque units.Moment) units.Force {
	argument.Demand("holding: TorqueHolding", argument.NotNegative("factor", factor), argument.NotNegative("torque", torque))
	return factor * torque
}

// A ScrewHold is what a screw holds by calculation.
type ScrewHold struct {
	Bearing units.Force // of the clay on the helix
	Skin    units.Force // of the clay on the shaft
	Torque  units.Force // by the torque; 0 when none was measured
	Tension units.Force // the lower of bearing with skin, and torque
}

// Holds is what the screw holds in clay, pulled along its shaft: bearing on the
// helix and skin on the shaft, or what its torque says, whichever is lower.
//
// The torque is the mean over the last turns, 0 when it was not measured; the
// factor on it is as in TorqueHolding. A number out of its range is an error, as
// is sand, for which there is only the test.
//
// Caution: a guess for planning. Pull-test the anchors on the spot.
//
// Source: individual bearing method; as Screw.Breakout and TorqueHolding.
func (s Screw) Holds(soil Soil, torque units.Moment, factor units.PerLength) (ScrewHold, error) {
	err := cmp.Or(s.check(), soil.check(), argument.NotNegative("torque", torque), argument.NotNegative("factor", factor))
	if err == nil && soil.Strength == 0 {
		err = fmt.Errorf("soil %q: got sand, want clay: test a screw in sand by pulling it", soil.Name)
	}
	if err != nil {
		return ScrewHold{}, fmt.Errorf("screw: %w", err)
	}
	h := ScrewHold{Bearing: s.Breakout() * soil.Strength * s.NetArea(), Tension: math.Inf(1)}
	if s.Skin > 0 {
		h.Skin = ClaySkin(soil.Adhesion, soil.Strength, s.Shaft, s.Skin)
	}
	if torque > 0 {
		h.Torque = TorqueHolding(factor, torque)
		h.Tension = h.Torque
	}
	h.Tension = math.Min(h.Tension, h.Bearing+h.Skin)
	return h, nil
}

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

// SandBreakout is the factor on the weight of the sand straight above the helix.
// The sand lifts as a widening plug: m grows with the friction of the sand, from
// 0.05 at 20° to 0.5 at 45°, and so does the depth of 2.5 to 9 helix diameters
// below which the plug no longer reaches the surface and the factor grows no
// more.
//
// With λ the depth over the helix diameter, up to that depth, it is
// 1 + 2·(1 + m·λ)·λ·0.9·tan(friction), m and the depth taken straight between the
// printed angles. The angle of friction is 20° to 45°; outside it panics, as it
// does if a field is out of its range.
//
// Source: Meyerhof and Adams (1968), circular footings; the coefficient of uplift
// at the low end of their 0.9 to 0.95; all from memory: verify against the
// document.
func (s Screw) SandBreakout(friction units.Angle) units.Number {
	argument.Demand("holding: Screw.SandBreakout", s.check(), argument.Within("angle of friction", friction, 20*units.Deg, 45*units.Deg))
	m, deepest := plug(friction)
	ratio := math.Min(s.Depth/s.Helix, deepest)
	return 1 + 2*(1+m*ratio)*ratio*0.9*math.Tan(friction)
}

// plug is how much the lifted sand widens with depth, and the depth over the
// diameter from which it no longer reaches the surface.
func plug(friction float64) (m, deepest float64) {
	angles := [6]float64{20, 25, 30, 35, 40, 45}
	widens := [6]float64{0.05, 0.1, 0.15, 0.25, 0.35, 0.5}
	depths := [6]float64{2.5, 3, 4, 5, 7, 9}
	at := friction / units.Deg
	i := 0
	for i < 4 && at > angles[i+1] {
		i++
	}
	share := (at - angles[i]) / (angles[i+1] - angles[i])
	return widens[i] + share*(widens[i+1]-widens[i]), depths[i] + share*(depths[i+1]-depths[i])
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
	Bearing units.Force // of the ground on the helix
	Skin    units.Force // of clay on the shaft; 0 in sand
	Torque  units.Force // by the torque; 0 when none was measured
	Tension units.Force // the lower of bearing with skin, and torque
}

// Holds is what the screw holds in a soil, pulled along its shaft: bearing on the
// helix and, in clay, skin on the shaft, or what its torque says, whichever is
// lower.
//
// The torque is the mean over the last turns, 0 when it was not measured; the
// factor on it is as in TorqueHolding. A number out of its range is an error, as
// is sand with an angle of friction below 20°.
//
// Caution: a guess for planning. Pull-test the anchors on the spot: a screw loosens
// the sand that it is driven through.
//
// Source: individual bearing method; as Screw.Breakout, Screw.SandBreakout and
// TorqueHolding.
func (s Screw) Holds(soil Soil, torque units.Moment, factor units.PerLength) (ScrewHold, error) {
	err := cmp.Or(s.check(), soil.check(), argument.NotNegative("torque", torque), argument.NotNegative("factor", factor))
	if err == nil && soil.Strength == 0 && soil.Friction < 20*units.Deg {
		err = fmt.Errorf("soil %q: angle of friction: got %.3g°, want 20° or more: looser ground has no value, pull the screw", soil.Name, soil.Friction/units.Deg)
	}
	if err != nil {
		return ScrewHold{}, fmt.Errorf("screw: %w", err)
	}
	h := ScrewHold{Tension: math.Inf(1)}
	if soil.Strength > 0 {
		h.Bearing = s.Breakout() * soil.Strength * s.NetArea()
		if s.Skin > 0 {
			h.Skin = ClaySkin(soil.Adhesion, soil.Strength, s.Shaft, s.Skin)
		}
	} else {
		h.Bearing = s.SandBreakout(soil.Friction) * soil.Weight * s.Depth * s.NetArea()
	}
	if torque > 0 {
		h.Torque = TorqueHolding(factor, torque)
		h.Tension = h.Torque
	}
	h.Tension = math.Min(h.Tension, h.Bearing+h.Skin)
	return h, nil
}

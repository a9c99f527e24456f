package tether

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/anchoring/holding"
	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// An Anchor is a strap with what holds it in or on the ground.
type Anchor struct {
	Name       string               // its number on the plan
	Kind       string               // what it is, such as "stake 900 by 25 mm"
	Eye        anchoring.Point      // where the strap is fastened to the device
	Ground     anchoring.Point      // where it is fastened to the anchor
	Holding    units.Force          // tension that the weakest of ground, ballast and strap allows, more than 0
	Stiffness  units.ForcePerLength // of the strap with its anchor, more than 0
	Pretension units.Force          // in calm, with the device on its feet; 0 or more
	Slack      units.Length         // length to take up before it pulls, 0 or more; 0 with pretension
}

// Check reports an error when a field is out of its range. Not for cells.
func (a Anchor) Check() error {
	err := cmp.Or(a.Eye.Check("eye"), a.Ground.Check("ground"), argument.Positive("length", a.Length()), argument.Positive("holding", a.Holding),
		argument.Positive("stiffness", a.Stiffness), argument.NotNegative("pretension", a.Pretension), argument.NotNegative("slack", a.Slack))
	if err == nil && a.Slack > 0 && a.Pretension > 0 {
		err = fmt.Errorf("got a slack of %g m with a pretension of %g N, want one of the two", a.Slack, a.Pretension)
	}
	if err != nil {
		return fmt.Errorf("anchor %q: %w", a.Name, err)
	}
	return nil
}

// Length is the length of the strap, from eye to ground.
//
// Source: Pythagoras.
func (a Anchor) Length() units.Length {
	return math.Hypot(math.Hypot(a.Eye.X-a.Ground.X, a.Eye.Y-a.Ground.Y), a.Eye.Z-a.Ground.Z)
}

// Angle is the angle of the strap to level ground, above 0 when it rises to the
// device.
//
// The length is more than 0; at 0 the angle is 0.
//
// Source: geometry.
func (a Anchor) Angle() units.Angle {
	return math.Atan2(a.Eye.Z-a.Ground.Z, math.Hypot(a.Eye.X-a.Ground.X, a.Eye.Y-a.Ground.Y))
}

// A Foot is a place where the device stands. A base that presses all over is
// some dozen feet along its edge.
type Foot struct {
	At        anchoring.Point
	Stiffness units.ForcePerLength // of the base and the ground under it, more than 0
	Friction  units.Number         // coefficient, 0 or more
}

// A Set is a device with all that holds it down.
type Set struct {
	Anchors []Anchor
	Feet    []Foot
	Faces   []windload.Face
	Mass    units.Mass        // always there, 0 or more
	Centre  anchoring.Point   // of the mass
	Slope   units.Angle       // of the ground, 0 to 45°
	Uphill  units.Angle       // bearing that the ground rises to
	Density units.Density     // of the air, more than 0
	Factors anchoring.Factors // on the wind and on the weight that holds
	// MayLift allows feet off the ground in SafeWind. Without it the wind that
	// lifts the first foot is not safe.
	MayLift bool
}

// stiffest is the most that one stiffness may be over another, so that forces
// are exact to nine digits.
const stiffest = 1e7

// check reports an error when the set cannot be calculated.
func (s Set) check() error {
	err := cmp.Or(argument.NotNegative("mass", s.Mass), s.Centre.Check("centre"), argument.Within("slope", s.Slope, 0, math.Pi/4), argument.Finite("uphill", s.Uphill),
		argument.Positive("air density", s.Density), argument.Within("factor on holding weight", s.Factors.PermanentFavourable, 0, 1),
		argument.Positive("factor on wind (take the factors of a standard, such as anchoring.EquilibriumFactors)", s.Factors.Wind))
	names := map[string]bool{}
	least, most := math.Inf(1), 0.0
	for _, a := range s.Anchors {
		err = cmp.Or(err, a.Check())
		if err == nil && names[a.Name] {
			err = fmt.Errorf("anchor %q: got the name twice, want a name of its own for each", a.Name)
		}
		names[a.Name] = true
		least, most = math.Min(least, a.Stiffness), math.Max(most, a.Stiffness)
	}
	for i, f := range s.Feet {
		if e := cmp.Or(f.At.Check("place"), argument.Positive("stiffness", f.Stiffness), argument.NotNegative("friction coefficient", f.Friction)); e != nil {
			err = cmp.Or(err, fmt.Errorf("foot %d: %w", i+1, e))
		}
		least, most = math.Min(least, f.Stiffness), math.Max(most, f.Stiffness)
	}
	for _, f := range s.Faces {
		err = cmp.Or(err, f.Check())
	}
	if len(s.Anchors)+len(s.Feet) == 0 {
		err = cmp.Or(err, fmt.Errorf("got no anchor and no foot, want something that holds the device"))
	}
	if most > stiffest*least {
		err = cmp.Or(err, fmt.Errorf("stiffness: got %g to %g N/m, want all within a factor of %g", least, most, stiffest))
	}
	if err != nil {
		return fmt.Errorf("anchor set: %w", err)
	}
	return nil
}

// warnings says what is doubtful about the set.
func (s Set) warnings() []string {
	var w []string
	for _, a := range s.Anchors {
		w = append(w, holding.UnlikelyWarning("anchor "+a.Name, a.Holding)...)
		if a.Angle() <= 0 {
			w = append(w, fmt.Sprintf("anchor %s: its strap does not rise to the device, so it pulls up", a.Name))
		}
	}
	for _, f := range s.Faces {
		w = append(w, f.Warnings()...)
	}
	return w
}

// Without is the set with one anchor lost, by its name.
//
// A name that no anchor has is an error.
//
// Source: definition.
func (s Set) Without(name string) (Set, error) {
	out := s
	out.Anchors = nil
	for _, a := range s.Anchors {
		if a.Name != name {
			out.Anchors = append(out.Anchors, a)
		}
	}
	if len(out.Anchors) == len(s.Anchors) {
		return Set{}, fmt.Errorf("anchor set: no anchor is called %q", name)
	}
	return out, nil
}

// Pressure is the velocity pressure of a wind speed.
//
//	q = 0.5*s.Density*v*v
//
// The speed is 0 or more and the set's air density more than 0; outside it
// panics.
//
// Source: Bernoulli's equation.
func (s Set) Pressure(v units.Speed) units.Pressure { return anchoring.WindPressure(s.Density, v) }

// weight is the factored weight as a load about the origin, tilted against the
// ground by its slope.
func (s Set) weight() [6]float64 {
	W := s.Factors.PermanentFavourable * s.Mass * units.Gn
	sin, cos := math.Sincos(s.Slope)
	east, north := math.Sincos(s.Uphill)
	f := [3]float64{-W * sin * east, -W * sin * north, -W * cos}
	r := [3]float64{s.Centre.X, s.Centre.Y, s.Centre.Z}
	return wrenchOf(r, f)
}

// wrenchOf is a force at a place, with its moment about the origin.
func wrenchOf(r, f [3]float64) [6]float64 {
	return [6]float64{f[0], f[1], f[2], r[1]*f[2] - r[2]*f[1], r[2]*f[0] - r[0]*f[2], r[0]*f[1] - r[1]*f[0]}
}

func wrenchOfLoad(l windload.Load, factor float64) [6]float64 {
	return [6]float64{factor * l.East, factor * l.North, factor * l.Lift, factor * l.AboutEast, factor * l.AboutNorth, factor * l.AboutUp}
}

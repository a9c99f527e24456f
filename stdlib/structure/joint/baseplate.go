package joint

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A BasePlate is a plate under a post that stands loose on ground, a timber pad
// or ballast.
type BasePlate struct {
	Y, Z         units.Length   // its sides, along y and z
	Thickness    units.Length   // more than 0
	Fy           units.Pressure // yield strength, more than 0
	PostY, PostZ units.Length   // the post's outside, in the middle of the plate
}

// A BaseResult is what a post does to its base plate and to what is under it.
type BaseResult struct {
	Contact  units.Pressure // highest, under the plate
	Share    units.Number   // of the plate that is in contact
	Press    units.Force    // on the ground
	Sliding  units.Force    // along the ground
	Bending  units.Pressure // elastic stress in the plate at the post's face
	Warnings []string
}

// Stand is what a post's end forces do to its base plate.
//
// The action is that of the post on the plate, at its underside, with x up the
// post: Fx is below 0 when the post stands. The plate presses as a Footing does.
// Its overhang, from the post's face to the edge, bends as a cantilever strip
// under the highest pressure all over it: 3·p·o²/t².
//
// A plate that is lifted or tips is an error, as is a number out of range. The
// torsion Mx is left to friction and not looked at.
//
// Caution: what the ground may carry is measured or agreed on site, never taken
// from a table alone, and it changes with rain. A base that lifts at an edge
// walks.
//
// Source: equilibrium, derived here; the cantilever strip as EN 1993-1-8:2005,
// 6.2.5, with elastic bending.
func (b BasePlate) Stand(a Action) (BaseResult, error) {
	err := cmp.Or(argument.Positive("thickness", b.Thickness), argument.Positive("yield strength fy", b.Fy),
		argument.Within("post along y", b.PostY, 0, b.Y), argument.Within("post along z", b.PostZ, 0, b.Z), a.check())
	if err == nil && a.Fx >= 0 {
		err = fmt.Errorf("force Fx: got %g N, want less than 0: the post lifts its plate; hold it down or add weight", a.Fx)
	}
	if err != nil {
		return BaseResult{}, fmt.Errorf("base plate: %w", err)
	}
	// A force Fx at (y, z) has the moments My = z·Fx and Mz = -y·Fx.
	c, err := Footing{b.Y, b.Z}.Press(-a.Fx, -a.Mz/a.Fx, a.My/a.Fx)
	if err != nil {
		return BaseResult{}, fmt.Errorf("base plate: %w", err)
	}
	overhang := math.Max(b.Y-b.PostY, b.Z-b.PostZ) / 2
	r := BaseResult{
		Contact: c.Highest, Share: c.Share, Press: -a.Fx, Sliding: math.Hypot(a.Fy, a.Fz),
		Bending:  3 * c.Highest * overhang * overhang / (b.Thickness * b.Thickness),
		Warnings: c.Warnings,
	}
	if r.Bending > b.Fy {
		r.Warnings = append(r.Warnings, fmt.Sprintf("the plate bends at %.0f MPa, more than its yield strength of %.0f MPa, and does not spread the load as calculated",
			r.Bending/units.MPa, b.Fy/units.MPa))
	}
	return r, nil
}

// BearingWidth is how far from the post a base plate spreads the load on
// concrete.
//
//	c = thickness*sqrt(fy/(3*bearing*f.M0))
//
// The plate's thickness, its yield strength fy and the bearing strength of the
// joint fjd are more than 0; outside it panics.
//
// Source: EN 1993-1-8:2005, 6.2.5(4), equation 6.5.
func BearingWidth(thickness units.Length, fy, bearing units.Pressure, f Factors) units.Length {
	argument.Demand("joint: BearingWidth", argument.Positive("thickness", thickness), argument.Positive("yield strength fy", fy),
		argument.Positive("bearing strength", bearing), factor("M0", f.M0))
	return thickness * math.Sqrt(fy/(3*bearing*f.M0))
}

// A HoldDown is a base plate that bolts hold down on a ballast block. The plate
// presses on the block along one edge, and one row of bolts near the opposite
// edge pulls.
type HoldDown struct {
	Width   units.Length   // of the plate, along the axis that it turns about
	Length  units.Length   // of the plate, across that axis
	Arm     units.Length   // from the plate's middle to the row of bolts, at most half the length
	Bearing units.Pressure // what the block may carry, more than 0
}

// A HeldDown is how a held-down plate carries its load.
type HeldDown struct {
	Tension units.Force  // of the whole row of bolts
	Press   units.Force  // on the block
	Depth   units.Length // of the strip that presses, from the edge
}

// Carry is the tension of the bolts when the plate turns about its edge.
//
// The push is what the post presses with, below 0 when it lifts; the moment is
// taken as turning the plate so that the bolts pull, 0 or more. The block presses
// with its full strength on a strip along the edge, just deep enough; the bolts
// give what is missing, nothing if the push alone keeps the balance.
//
// A moment that the strip cannot balance is an error: make the plate longer or
// the ballast stronger.
//
// Caution: the block must weigh what the bolts pull, with the factors of the
// stability check, and its own anchors must hold it.
//
// Source: equilibrium with a plastic contact strip, as EN 1993-1-8:2005, 6.2.5
// and 6.2.8.3 have it for a column base; derived here.
func (h HoldDown) Carry(push units.Force, moment units.Moment) (HeldDown, error) {
	err := cmp.Or(argument.Positive("width", h.Width), argument.Positive("length", h.Length), argument.Positive("bearing strength", h.Bearing),
		argument.Within("arm of the bolts", h.Arm, 0, h.Length/2), argument.Finite("push", push), argument.NotNegative("moment", moment))
	if err != nil {
		return HeldDown{}, fmt.Errorf("held-down plate: %w", err)
	}
	line := h.Bearing * h.Width // pressure of the strip on its depth
	half := h.Length / 2
	if push > 0 {
		if depth := push / line; moment <= push*(half-depth/2) {
			return HeldDown{Press: push, Depth: depth}, nil
		}
	}
	// Moments about the bolts: line·x·(arm + half - x/2) = moment + push·arm.
	reach, need := h.Arm+half, moment+push*h.Arm
	under := reach*reach - 2*need/line
	switch {
	case need < 0:
		return HeldDown{}, fmt.Errorf("held-down plate: it lifts with %g N: one row of bolts off the middle cannot hold that; put a row on each side", -push)
	case under < 0:
		return HeldDown{}, fmt.Errorf("held-down plate: moment: got %g N·m, want at most %.4g N·m with this push: the block is crushed; make the plate longer or wider",
			moment, line*reach*reach/2-push*h.Arm)
	}
	depth := reach - math.Sqrt(under)
	return HeldDown{Tension: line*depth - push, Press: line * depth, Depth: depth}, nil
}

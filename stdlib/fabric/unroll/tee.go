package unroll

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Tee is a round tube that leaves another one sideways, both axes in one plane.
// Angles round the branch start on the side towards which it leans.
type Tee struct {
	Main   units.Length // radius of the tube that runs through, more than 0
	Branch units.Length // radius of the one that leaves it, more than 0, at most Main
	Angle  units.Angle  // between the two axes, more than 0, at most 90°, which makes a T
}

func (t Tee) check() error {
	for _, err := range []error{
		argument.Positive("main radius", t.Main), argument.Positive("branch radius", t.Branch),
		argument.Within("angle in degrees", t.Angle/units.Deg, 1, 90),
	} {
		if err != nil {
			return err
		}
	}
	if t.Branch > t.Main {
		return fmt.Errorf("branch radius: got %g m, want at most the main radius %g m: give the thicker tube as Main", t.Branch, t.Main)
	}
	return nil
}

// depth is the distance of the main wall from the plane of the axes' normal at
// an angle round the branch.
func (t Tee) depth(angle float64) float64 {
	if t.Branch == t.Main {
		return t.Main * math.Abs(math.Cos(angle)) // without the rounding of a difference
	}
	s := t.Branch * math.Sin(angle)
	return math.Sqrt((t.Main - s) * (t.Main + s))
}

// Profile is the height at which the branch ends on the main tube, along the
// branch from where the axes meet, at an angle round the branch.
//
//	z = (sqrt(t.Main*t.Main - t.Branch*t.Branch*sin(angle)*sin(angle)) + t.Branch*cos(angle)*cos(t.Angle))/sin(t.Angle)
//
// It panics if a field is out of its range.
//
// Source: intersection of two cylinders, derived here.
func (t Tee) Profile(angle units.Angle) units.Length {
	argument.Demand("unroll: Tee.Profile", t.check(), argument.Finite("angle", angle))
	sin, cos := t.lean()
	return (t.depth(angle) + t.Branch*math.Cos(angle)*cos) / sin
}

// lean is the sine and cosine of the angle, exact at 90°.
func (t Tee) lean() (sin, cos float64) {
	if t.Angle == 90*units.Deg {
		return 1, 0
	}
	return math.Sincos(t.Angle)
}

// hole is the seam on the unrolled main tube: along it, and round it.
func (t Tee) hole(angle float64) (along, round float64) {
	sin, cos := t.lean()
	y := t.Branch * math.Sin(angle)
	return t.Profile(angle)*cos + t.Branch*math.Cos(angle)*sin, t.Main * math.Atan2(y, t.depth(angle))
}

// SeamLength is the way round the seam between the tubes, the same on both.
//
// It panics if a field is out of its range.
//
// Source: length of the branch's profile, by tanh-sinh quadrature on the
// half circle to both sides of the plane of the axes' normal.
func (t Tee) SeamLength() units.Length {
	argument.Demand("unroll: Tee.SeamLength", t.check())
	sin, cos := t.lean()
	speed := func(f float64) float64 {
		s, c := math.Sincos(f)
		slope := -t.Branch * s * cos
		if d := t.depth(f); d > 0 {
			slope -= t.Branch * t.Branch * s * c / d
		}
		return math.Hypot(t.Branch, slope/sin)
	}
	return quadrature(-math.Pi/2, math.Pi/2, speed) + quadrature(math.Pi/2, 3*math.Pi/2, speed)
}

// HoleArea is the fabric that the branch takes out of the main tube.
//
// It panics if a field is out of its range.
//
// Source: area within the seam on the unrolled main tube, by tanh-sinh quadrature.
func (t Tee) HoleArea() units.Area {
	argument.Demand("unroll: Tee.HoleArea", t.check())
	sin, _ := t.lean()
	// A leaning branch shifts each line of the hole along the tube without
	// changing its length, 2·r·cos(angle)/sin(lean).
	return quadrature(-math.Pi/2, math.Pi/2, func(f float64) float64 {
		c, d := math.Cos(f), t.depth(f)
		if d == 0 {
			return 0
		}
		return 2 * t.Branch * c / sin * t.Main * t.Branch * c / d
	})
}

// BranchPanel is the branch in one piece, from the main tube to a square end at a
// length along it from where the axes meet. Its edges are start (on the main
// tube), right, end and left; its long seam is on the side away from its lean.
//
// Fields out of their ranges are an error, as is a length that does not clear the
// main tube.
//
// Source: as Profile.
func (t Tee) BranchPanel(name string, length units.Length) (pattern.Piece, error) {
	if err := t.check(); err != nil {
		return pattern.Piece{}, fmt.Errorf("branch %s: %w", name, err)
	}
	if far := t.Profile(0); !(length > far && length <= math.MaxFloat64) {
		return pattern.Piece{}, fmt.Errorf("branch %s: length: got %g m, want more than %g m, where it leaves the main tube", name, length, far)
	}
	return strip(name, t.Branch, -math.Pi, math.Pi,
		func(f float64) float64 { return length/2 - t.Profile(f) },
		func(float64) float64 { return length / 2 }), nil
}

// Hole is the opening for the branch in a piece of the main tube whose x axis
// goes round the tube and y axis along it: x and y are where the axes meet.
// Angle 0 of the branch points to positive y.
//
// It panics if a field is out of its range.
//
// Source: as Profile.
func (t Tee) Hole(name string, x, y units.Length) pattern.Edge {
	argument.Demand("unroll: Tee.Hole", t.check(), argument.Finite("x", x), argument.Finite("y", y))
	return pattern.Trace(name, pattern.Turns(2*math.Pi), func(s float64) (float64, float64) {
		along, round := t.hole(-2 * math.Pi * s)
		return x + round, y + along
	}).Closed()
}

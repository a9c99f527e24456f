package fabric

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Torus is a closed ring tube, such as the wall round a landing bed.
//
// Angles go round the tube's section: 0 at the crown, +90° at the outer
// equator, -90° at the inner equator.
type Torus struct {
	Radius   units.Length   // of the ring's centre line; 0 makes a sphere of radius Tube
	Tube     units.Length   // radius of the tube's section, more than 0, less than Radius
	Pressure units.Pressure // gauge, 0 or more
}

func (t Torus) check() error {
	err := cmp.Or(
		argument.NotNegative("ring radius", t.Radius),
		argument.Positive("tube radius", t.Tube),
		argument.NotNegative("pressure", t.Pressure),
	)
	if err == nil && t.Radius > 0 && t.Tube >= t.Radius {
		err = fmt.Errorf("tube radius: got %g m, want less than the ring radius %g m: "+
			"the ring touches itself; make the tube thinner or the ring wider", t.Tube, t.Radius)
	}
	return err
}

// Hoop is the line force round the tube's section, carried by the seams that
// run along the ring.
//
//	N = t.Pressure*t.Tube*(2*t.Radius + t.Tube*sin(angle))/(2*(t.Radius + t.Tube*sin(angle)))
//
// The angle is the place on the section, any finite angle; the force is
// greatest at the inner equator. With Radius 0 it is that of a sphere
// everywhere.
//
// It is an error if the ring touches itself or a field is out of its range.
//
// Source: membrane theory of toroidal shells; Roark's Formulas for Stress and
// Strain, ch. 13, thin shells of revolution; Flügge, Stresses in Shells.
func (t Torus) Hoop(angle units.Angle) (units.ForcePerLength, error) {
	if err := cmp.Or(t.check(), argument.Finite("angle", angle)); err != nil {
		return 0, fmt.Errorf("hoop force of a ring: %w", err)
	}
	if t.Radius == 0 {
		return t.Pressure * t.Tube / 2, nil
	}
	rise := t.Tube * math.Sin(angle)
	return t.Pressure * t.Tube * (2*t.Radius + rise) / (2 * (t.Radius + rise)), nil
}

// InnerEquator is the line force round the tube at the inner equator, the
// greatest in the ring.
//
//	N = t.Pressure*t.Tube*(2*t.Radius - t.Tube)/(2*(t.Radius - t.Tube))
//
// It is an error if the ring touches itself or a field is out of its range.
//
// Source: as Hoop.
func (t Torus) InnerEquator() (units.ForcePerLength, error) { return t.Hoop(-math.Pi / 2) }

// Crown is the line force round the tube at its top and bottom.
//
//	N = t.Pressure*t.Tube
//
// It is an error if the ring touches itself or a field is out of its range.
//
// Source: as Hoop.
func (t Torus) Crown() (units.ForcePerLength, error) { return t.Hoop(0) }

// OuterEquator is the line force round the tube at the outer equator, the
// least in the ring.
//
//	N = t.Pressure*t.Tube*(2*t.Radius + t.Tube)/(2*(t.Radius + t.Tube))
//
// It is an error if the ring touches itself or a field is out of its range.
//
// Source: as Hoop.
func (t Torus) OuterEquator() (units.ForcePerLength, error) { return t.Hoop(math.Pi / 2) }

// Along is the line force along the ring, the same everywhere, carried by the
// seams that run round the tube.
//
//	N = t.Pressure*t.Tube/2
//
// It is an error if the ring touches itself or a field is out of its range.
//
// Source: as Hoop.
func (t Torus) Along() (units.ForcePerLength, error) {
	if err := t.check(); err != nil {
		return 0, fmt.Errorf("force along a ring: %w", err)
	}
	return t.Pressure * t.Tube / 2, nil
}

// Surface is the ring's fabric area, without seam allowance.
//
//	A = 4*pi*pi*t.Radius*t.Tube
//
// It is an error if Radius is 0, the ring touches itself or a field is out of
// its range.
//
// Source: Pappus's first theorem.
func (t Torus) Surface() (units.Area, error) {
	if err := cmp.Or(t.check(), argument.Positive("ring radius", t.Radius)); err != nil {
		return 0, fmt.Errorf("surface of a ring: %w", err)
	}
	return 4 * math.Pi * math.Pi * t.Radius * t.Tube, nil
}

// Volume is the air that the ring holds.
//
//	V = 2*pi*pi*t.Radius*t.Tube*t.Tube
//
// It is an error if Radius is 0, the ring touches itself or a field is out of
// its range.
//
// Source: Pappus's second theorem.
func (t Torus) Volume() (units.Volume, error) {
	if err := cmp.Or(t.check(), argument.Positive("ring radius", t.Radius)); err != nil {
		return 0, fmt.Errorf("volume of a ring: %w", err)
	}
	return 2 * math.Pi * math.Pi * t.Radius * t.Tube * t.Tube, nil
}

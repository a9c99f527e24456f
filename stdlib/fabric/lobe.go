package fabric

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/root"
	"tautline/stdlib/units"
)

// A Lobe is a panel that bulges to a circle between two lines that hold it,
// such as one bay with edges that cannot draw together. It spans half a circle
// or less.
type Lobe struct {
	Chord    units.Length   // straight from edge to edge, more than 0
	Radius   units.Length   // of the bulge, half the chord or more
	Pressure units.Pressure // gauge, 0 or more
}

func (l Lobe) check() error {
	err := cmp.Or(argument.Positive("chord", l.Chord), argument.Positive("radius", l.Radius), argument.NotNegative("pressure", l.Pressure))
	if err == nil && l.Radius < l.Chord/2 {
		err = fmt.Errorf("radius: got %g m, want at least half the chord %g m: a circle so small does not reach both edges", l.Radius, l.Chord)
	}
	return err
}

// LobeOfCut is the lobe that a panel of a cut length makes between two lines
// that cannot draw together.
//
// The chord is more than 0; the cut length, along the panel from edge to edge,
// is more than the chord and at most that of half a circle, π/2 of it. Anything
// else is an error. The radius is found by halving until it no longer changes.
//
// Source: geometry of a circle.
func LobeOfCut(chord, cut units.Length, p units.Pressure) (Lobe, error) {
	err := cmp.Or(argument.Positive("chord", chord), argument.NotNegative("pressure", p), argument.Finite("cut length", cut))
	if err == nil && (cut <= chord || cut > math.Pi/2*chord*(1+1e-12)) {
		err = fmt.Errorf("cut length: got %g m, want more than the chord %g m and at most half a circle over it, %g m", cut, chord, math.Pi/2*chord)
	}
	if err != nil {
		return Lobe{}, fmt.Errorf("lobe of a cut length: %w", err)
	}
	half := root.Bisect(0, math.Pi/2, func(a float64) float64 { return lessSine(a)/a - (1 - chord/cut) })
	return Lobe{Chord: chord, Radius: math.Max(chord/2, chord/(2*math.Sin(half))), Pressure: p}, nil
}

// LineForce is the line force across the bulge, from edge to edge.
//
//	N = l.Pressure*l.Radius
//
// It is an error if the circle does not reach both edges or a field is out of
// its range.
//
// Source: equilibrium of a circular membrane strip.
func (l Lobe) LineForce() (units.ForcePerLength, error) {
	if err := l.check(); err != nil {
		return 0, fmt.Errorf("line force of a lobe: %w", err)
	}
	return l.Pressure * l.Radius, nil
}

// HalfAngle is half the angle that the bulge spans at its centre.
//
//	alpha = asin(l.Chord/(2*l.Radius))
//
// It is an error if the circle does not reach both edges or a field is out of
// its range.
//
// Source: geometry of a circle.
func (l Lobe) HalfAngle() (units.Angle, error) {
	if err := l.check(); err != nil {
		return 0, fmt.Errorf("half angle of a lobe: %w", err)
	}
	return math.Asin(math.Min(1, l.Chord/(2*l.Radius))), nil
}

// ArcLength is the fabric width of the bulge, from edge to edge, under
// pressure.
//
//	L = 2*l.Radius*asin(l.Chord/(2*l.Radius))
//
// It is an error if the circle does not reach both edges or a field is out of
// its range.
//
// Source: geometry of a circle.
func (l Lobe) ArcLength() (units.Length, error) {
	alpha, err := l.HalfAngle()
	return 2 * l.Radius * alpha, err
}

// Rise is the height of the bulge above its chord.
//
//	h = l.Radius - sqrt(l.Radius*l.Radius - l.Chord*l.Chord/4)
//
// It is an error if the circle does not reach both edges or a field is out of
// its range.
//
// Source: geometry of a circle.
func (l Lobe) Rise() (units.Length, error) {
	if err := l.check(); err != nil {
		return 0, fmt.Errorf("rise of a lobe: %w", err)
	}
	return l.Radius - toChord(l.Radius, l.Chord), nil
}

// A DoubleLobe is a tube of two unequal round lobes with a flat web between
// them, both at the same pressure. The web stays flat because the lobes pull its
// edges apart along it equally.
type DoubleLobe struct {
	Large    units.Length   // radius of the larger lobe, at least that of the smaller
	Small    units.Length   // radius of the smaller lobe, half the web or more
	Web      units.Length   // height of the web, the chord of both lobes, more than 0
	Shallow  bool           // the smaller lobe spans less than half a circle
	Pressure units.Pressure // gauge, 0 or more
}

func (d DoubleLobe) check() error {
	err := cmp.Or(
		argument.Positive("large radius", d.Large), argument.Positive("small radius", d.Small),
		argument.Positive("web height", d.Web), argument.NotNegative("pressure", d.Pressure))
	switch {
	case err != nil:
		return err
	case d.Small > d.Large:
		return fmt.Errorf("small radius: got %g m, want at most the large radius %g m: give the larger lobe as Large", d.Small, d.Large)
	case d.Small < d.Web/2:
		return fmt.Errorf("small radius: got %g m, want at least half the web %g m: a circle so small does not reach both edges of the web", d.Small, d.Web)
	}
	return nil
}

// LargeForce is the line force round the larger lobe.
//
//	N = d.Pressure*d.Large
//
// It is an error if a lobe does not reach both edges of the web or a field is
// out of its range.
//
// Source: equilibrium of a circular membrane strip.
func (d DoubleLobe) LargeForce() (units.ForcePerLength, error) {
	if err := d.check(); err != nil {
		return 0, fmt.Errorf("large lobe: %w", err)
	}
	return d.Pressure * d.Large, nil
}

// SmallForce is the line force round the smaller lobe.
//
//	N = d.Pressure*d.Small
//
// It is an error if a lobe does not reach both edges of the web or a field is
// out of its range.
//
// Source: equilibrium of a circular membrane strip.
func (d DoubleLobe) SmallForce() (units.ForcePerLength, error) {
	if err := d.check(); err != nil {
		return 0, fmt.Errorf("small lobe: %w", err)
	}
	return d.Pressure * d.Small, nil
}

// CentreDistance is the distance between the centres of the two lobes: the sum
// of their distances from the web, or the difference when the smaller lobe is
// shallow and its centre lies on the other side.
//
// It is an error if a lobe does not reach both edges of the web or a field is
// out of its range.
//
// Source: geometry of two circles on one chord.
func (d DoubleLobe) CentreDistance() (units.Length, error) {
	if err := d.check(); err != nil {
		return 0, fmt.Errorf("centres of a double lobe: %w", err)
	}
	large, small := toChord(d.Large, d.Web), toChord(d.Small, d.Web)
	if d.Shallow {
		return large - small, nil
	}
	return large + small, nil
}

// WebForce is the line force in the web, pressure times CentreDistance.
//
// It is an error if a lobe does not reach both edges of the web or a field is
// out of its range.
//
// Source: equilibrium at the edge of the web, derived here: each lobe pulls
// along the web with pressure times the distance of its centre.
func (d DoubleLobe) WebForce() (units.ForcePerLength, error) {
	distance, err := d.CentreDistance()
	return d.Pressure * distance, err
}

// toChord is the distance of a circle's centre from a chord.
func toChord(radius, chord float64) float64 {
	return math.Sqrt(math.Max(0, (radius-chord/2)*(radius+chord/2)))
}

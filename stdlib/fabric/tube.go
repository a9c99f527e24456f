package fabric

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/root"
	"tautline/stdlib/units"
)

// A Tube is a straight round tube with closed ends: a wall post, an arch leg, a
// beam.
type Tube struct {
	Radius   units.Length   // more than 0
	Pressure units.Pressure // gauge, 0 or more
}

func (t Tube) check() error {
	return cmp.Or(argument.Positive("tube radius", t.Radius), argument.NotNegative("pressure", t.Pressure))
}

// HoopTension is the line force round a straight tube.
//
//	N = p*r
//
// The gauge pressure p is 0 or more, the radius r more than 0; outside it
// panics.
//
// Source: equilibrium of half a tube.
func HoopTension(p units.Pressure, r units.Length) units.ForcePerLength {
	return Tube{Radius: r, Pressure: p}.Hoop()
}

// Hoop is the line force round the tube, carried by the seams that run along
// it.
//
//	N = t.Pressure*t.Radius
//
// It panics if a field is out of its range.
//
// Source: equilibrium of half a tube.
func (t Tube) Hoop() units.ForcePerLength {
	argument.Demand("fabric: Tube.Hoop", t.check())
	return t.Pressure * t.Radius
}

// Along is the line force along the unloaded tube, from the pressure on its
// ends, carried by the seams that run round it.
//
//	N = t.Pressure*t.Radius/2
//
// It panics if a field is out of its range.
//
// Source: equilibrium of one end.
func (t Tube) Along() units.ForcePerLength {
	argument.Demand("fabric: Tube.Along", t.check())
	return t.Pressure * t.Radius / 2
}

// LargestTube is the radius of the thickest straight tube that an allowable
// line force permits.
//
//	r = allowable/p
//
// The allowable line force is 0 or more, the gauge pressure p more than 0;
// outside it panics.
//
// Source: equilibrium of half a tube, solved for the radius.
func LargestTube(allowable units.ForcePerLength, p units.Pressure) units.Length {
	argument.Demand("fabric: LargestTube", argument.NotNegative("allowable", allowable), argument.Positive("pressure", p))
	return allowable / p
}

// WrinklingMoment is the bending moment at which the first wrinkle appears: the
// fabric on the short side has just lost its tension.
//
//	M = pi*t.Pressure*t.Radius*t.Radius*t.Radius/2
//
// It panics if a field is out of its range.
//
// Source: Comer and Levy, Deflections of an inflated circular-cylindrical
// cantilever beam, AIAA Journal 1(7), 1963, 1741-1743.
func (t Tube) WrinklingMoment() units.Moment {
	argument.Demand("fabric: Tube.WrinklingMoment", t.check())
	return math.Pi * t.Pressure * t.Radius * t.Radius * t.Radius / 2
}

// CollapseMoment is the bending moment at which the wrinkle has gone right
// round and the tube folds. It is twice the wrinkling moment.
//
//	M = pi*t.Pressure*t.Radius*t.Radius*t.Radius
//
// It panics if a field is out of its range.
//
// Source: as WrinklingMoment.
func (t Tube) CollapseMoment() units.Moment {
	argument.Demand("fabric: Tube.CollapseMoment", t.check())
	return math.Pi * t.Pressure * t.Radius * t.Radius * t.Radius
}

// A Bending is the state of a bent tube.
type Bending struct {
	Wrinkled  bool                 // part of the section carries no tension along the tube
	HalfAngle units.Angle          // the wrinkle spans this to both sides of the short side; 0 when taut
	Most      units.ForcePerLength // line force along the tube on its long side
	Least     units.ForcePerLength // the same on its short side; 0 when wrinkled
	Warnings  []string
}

// Bend is the state of the tube under a bending moment, the size of which
// counts and not the sign.
//
// Taut, the force along the tube varies linearly over the section. Wrinkled,
// the half angle is found by halving the interval between no wrinkle and
// collapse until it no longer changes.
//
// A moment of CollapseMoment or more is an error, as is a field out of its
// range.
//
// Source: Comer and Levy, AIAA Journal 1(7), 1963, 1741-1743.
func (t Tube) Bend(moment units.Moment) (Bending, error) {
	if err := cmp.Or(t.check(), argument.Finite("moment", moment)); err != nil {
		return Bending{}, fmt.Errorf("bending of a tube: %w", err)
	}
	moment = math.Abs(moment)
	collapse := t.CollapseMoment()
	switch {
	case moment == 0:
		return Bending{Most: t.Along(), Least: t.Along()}, nil
	case moment >= collapse:
		return Bending{}, fmt.Errorf("bending of a tube: moment: got %g N·m, want less than the collapse moment %g N·m: "+
			"the tube folds; make it thicker (collapse goes with the cube of the radius), raise the pressure or guy it", moment, collapse)
	case moment <= t.WrinklingMoment():
		change := moment / (math.Pi * t.Radius * t.Radius)
		return Bending{Most: t.Along() + change, Least: math.Max(0, t.Along()-change)}, nil
	}
	taut := root.Bisect(0, math.Pi, func(u float64) float64 { return moment/collapse - wrinkledMoment(u) })
	most := math.Pi * t.Pressure * t.Radius * (1 - math.Cos(taut)) / (2 * wrinkledDepth(taut))
	b := Bending{Wrinkled: true, HalfAngle: math.Pi - taut, Most: most}
	b.Warnings = append(b.Warnings, fmt.Sprintf(
		"tube is wrinkled at %.0f %% of its collapse moment: it bends much more from here on and holds no reserve for gusts or lost pressure",
		100*moment/collapse))
	return b, nil
}

// wrinkledMoment is the moment, as a share of the collapse moment, of a tube
// whose section is taut over the half angle u only. It falls from 1 at u = 0 to
// 1/2 at u = π.
func wrinkledMoment(u float64) float64 {
	if u < 0.05 { // the series of both terms, which cancel here
		return (1 - u*u/5 + 2*u*u*u*u/105) / (1 - u*u/10 + u*u*u*u/280)
	}
	return (2*u - math.Sin(2*u)) / (4 * wrinkledDepth(u))
}

func wrinkledDepth(u float64) float64 {
	if u < 0.05 {
		return u * u * u / 3 * (1 - u*u/10 + u*u*u*u/280)
	}
	return math.Sin(u) - u*math.Cos(u)
}

// WallMoment is the moment at the foot of a free-standing post or wall under an
// even side load.
//
//	M = w*h*h/2
//
// The line load w is 0 or more (wind pressure with its force coefficient times
// the width), the height h 0 or more; outside it panics.
//
// Source: statics of a cantilever.
func WallMoment(w units.ForcePerLength, h units.Length) units.Moment {
	argument.Demand("fabric: WallMoment", argument.NotNegative("line load", w), argument.NotNegative("height", h))
	return w * h * h / 2
}

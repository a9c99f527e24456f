package joint

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Ply is one of the plates that a bolt bears on, with where the bolt sits in
// it. Distances are from the middle of the hole; a distance of 0 means that
// there is no such edge or neighbour.
type Ply struct {
	Thickness units.Length   // more than 0
	Fu        units.Pressure // tensile strength of the plate, more than 0
	Hole      units.Length   // diameter, more than the bolt's
	End       units.Length   // e1: to the end, along the force, that the bolt pushes towards
	Edge      units.Length   // e2: to the edge, across the force
	Pitch     units.Length   // p1: to the next bolt along the force
	Gauge     units.Length   // p2: to the next bolt across the force
	Oversize  bool           // the hole is oversize: 0.8 of the resistance
	Slotted   bool           // a slot across the force: 0.6 of the resistance
	Single    bool           // one row of bolts through two plates that only lap: capped
}

// A Bearing is what a plate may carry of one bolt.
type Bearing struct {
	Resistance units.Force
	AlphaB     units.Number // of the direction of the force
	K1         units.Number // of the direction across it
	Warnings   []string
}

func (p Ply) check(b Bolt) error {
	err := cmp.Or(argument.Positive("plate thickness", p.Thickness), argument.Positive("tensile strength fu", p.Fu),
		argument.NotNegative("end distance", p.End), argument.NotNegative("edge distance", p.Edge),
		argument.NotNegative("pitch", p.Pitch), argument.NotNegative("gauge", p.Gauge))
	switch {
	case err != nil:
		return err
	case !(p.Hole > b.Diameter && p.Hole < 2*b.Diameter):
		return fmt.Errorf("hole: got %g mm for a bolt of %g mm, want larger than the bolt and less than twice it", p.Hole/units.Mm, b.Diameter/units.Mm)
	case p.End == 0 && p.Pitch == 0:
		return fmt.Errorf("end distance and pitch: got neither, want at least one: a bolt pushes towards an end or a neighbour")
	case p.Edge == 0 && p.Gauge == 0:
		return fmt.Errorf("edge distance and gauge: got neither, want at least one")
	}
	return nil
}

// Bearing is what a plate may carry of the bolt before its hole tears out or is
// crushed: K1·AlphaB·fu·d·t/M2. AlphaB is the least of e1/(3·d0),
// p1/(3·d0) - 1/4, fub/fu and 1; K1 the least of 2.8·e2/d0 - 1.7,
// 1.4·p2/d0 - 1.7 and 2.5.
//
// A plate out of range or without distances is an error. Distances below the
// least that the standard allows carry a warning.
//
// Source: EN 1993-1-8:2005 with AC:2009, Table 3.4, Table 3.3 and 3.6.1(10).
// EN 1993-1-8:2024 has another formula.
func (b Bolt) Bearing(p Ply, f Factors) (Bearing, error) {
	if err := cmp.Or(b.check(), factor("M2", f.M2), p.check(b)); err != nil {
		return Bearing{}, fmt.Errorf("bearing of %s: %w", b.Name, err)
	}
	r := Bearing{AlphaB: math.Min(1, b.Tensile/p.Fu), K1: 2.5}
	for _, d := range []struct {
		what         string
		has, least   float64 // the least in hole diameters
		factor       *float64
		slope, minus float64 // the factor is at most slope·has/hole - minus
	}{
		{"end distance e1", p.End, 1.2, &r.AlphaB, 1.0 / 3, 0},
		{"pitch p1", p.Pitch, 2.2, &r.AlphaB, 1.0 / 3, 0.25},
		{"edge distance e2", p.Edge, 1.2, &r.K1, 2.8, 1.7},
		{"gauge p2", p.Gauge, 2.4, &r.K1, 1.4, 1.7},
	} {
		if d.has == 0 {
			continue
		}
		*d.factor = math.Min(*d.factor, d.slope*d.has/p.Hole-d.minus)
		if d.has < d.least*p.Hole*(1-1e-9) {
			r.Warnings = append(r.Warnings, fmt.Sprintf("%s is %.3g mm, less than the least %.3g mm (%.2g hole diameters)",
				d.what, d.has/units.Mm, d.least*p.Hole/units.Mm, d.least))
		}
	}
	if r.AlphaB <= 0 || r.K1 <= 0 {
		return Bearing{}, fmt.Errorf("bearing of %s: the hole is so near to an edge or a neighbour that nothing is left to bear on; move it", b.Name)
	}
	r.Resistance = r.K1 * r.AlphaB * p.Fu * b.Diameter * p.Thickness / f.M2
	switch {
	case p.Slotted:
		r.Resistance *= 0.6
	case p.Oversize:
		r.Resistance *= 0.8
	}
	if p.Single {
		r.Resistance = math.Min(r.Resistance, 1.5*p.Fu*b.Diameter*p.Thickness/f.M2)
	}
	return r, nil
}

// BlockTearing is what a plate may carry before a group of bolts, loaded through
// its middle, tears a block out of it.
//
//	V = fu*tension/f.M2 + fy*shear/sqrt(3)/f.M0
//
// The plate's strengths fu and fy are more than 0; tension and shear, the net
// areas that are torn and sheared (holes taken off), are 0 or more. Outside it
// panics.
//
// Source: EN 1993-1-8:2005, 3.10.2(2).
func BlockTearing(fu, fy units.Pressure, tension, shear units.Area, f Factors) units.Force {
	argument.Demand("joint: BlockTearing", argument.Positive("tensile strength fu", fu), argument.Positive("yield strength fy", fy),
		argument.NotNegative("area in tension", tension), argument.NotNegative("area in shear", shear), factor("M0", f.M0), factor("M2", f.M2))
	return fu*tension/f.M2 + fy*shear/math.Sqrt(3)/f.M0
}

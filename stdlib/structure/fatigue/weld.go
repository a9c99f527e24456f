package fatigue

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/structure/joint"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// WeldSpots are the spots in the throats of a group of fillet welds, where cracks
// start at the root: at both ends of each weld, across it in six directions 30°
// apart, and in shear along it.
//
// The standard takes the root of the squares of the two stresses across the weld,
// which has no sign to count cycles with. Here each direction is counted,
// enlarged by 1/cos(15°) so that one of them is no less than that root when both
// rise and fall together.
//
// Every weld's faces must be known (see joint.Weld), and the group must be able to
// hold all six forces and moments; otherwise it is an error. The toes, where a
// crack starts in the parts joined, are spots of their own: by the stress in the
// part.
//
// Caution: a root crack cannot be seen until it is through. Full penetration
// avoids it.
//
// Source: EN 1993-1-9:2005, 5(6) and Table 8.5, details 3 and 8.
func WeldSpots(g joint.WeldGroup) ([]Spot, error) {
	across, err := NewDetail("8.5-3")
	if err != nil {
		return nil, err
	}
	along, err := NewDetail("8.5-8")
	if err != nil {
		return nil, err
	}
	strength := joint.FilletStrength{Fu: 360 * units.MPa, BetaW: 0.8, M2: 1.25} // of no matter for the stresses
	var ends [6][]joint.WeldStress                                              // under each force and moment alone
	for k, a := range []joint.Action{{Fx: 1}, {Fy: 1}, {Fz: 1}, {Mx: 1}, {My: 1}, {Mz: 1}} {
		c, err := g.Check(a, strength)
		if err != nil {
			return nil, fmt.Errorf("fatigue of welds: %s: %w", components[k], err)
		}
		ends[k] = c.Ends
	}
	for _, w := range g.Welds {
		if w.FaceA == (joint.Direction{}) || w.FaceB == (joint.Direction{}) {
			return nil, fmt.Errorf("fatigue of welds: weld %q: got no faces, want those of the parts that it joins", w.Name)
		}
	}
	const directions = 6
	enlarged := 1 / math.Cos(math.Pi/(2*directions))
	var spots []Spot
	for i := range ends[0] {
		name := ends[0][i].Weld
		for n := range directions {
			sin, cos := math.Sincos(math.Pi * float64(n) / directions)
			spots = append(spots, spot(name, across, func(k int) float64 { return enlarged * (cos*ends[k][i].SigmaAcross + sin*ends[k][i].TauAcross) }))
		}
		spots = append(spots, spot(name, along, func(k int) float64 { return ends[k][i].TauAlong }))
	}
	return spots, nil
}

// SectionSpots are the spots round a member at a detail that lies across it, such as
// the toes of the weld round its end: at the four corners of a rectangular tube or flat,
// as if they were sharp, and at every 15° of a round one. The loads are along the
// member's axes, as a frame's internal forces are.
//
// A section of another shape is an error: name its spots one by one.
//
// Source: elastic beam theory, Fx/A + My·z/Iy - Mz·y/Iz.
func SectionSpots(name string, d Detail, s section.Section) ([]Spot, error) {
	if err := cmp.Or(argument.Positive("area", s.A), argument.Positive("Iy", s.Iy), argument.Positive("Iz", s.Iz)); err != nil {
		return nil, fmt.Errorf("spots of %s: %w", s.Name, err)
	}
	var places [][2]float64 // y and z
	switch s.Shape {
	case section.RoundTube, section.Rod:
		for k := range 24 {
			sin, cos := math.Sincos(float64(k) * math.Pi / 12)
			places = append(places, [2]float64{s.Height / 2 * sin, s.Height / 2 * cos})
		}
	case section.RectangularTube, section.Bar:
		for _, c := range [][2]float64{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
			places = append(places, [2]float64{c[0] * s.Width / 2, c[1] * s.Height / 2})
		}
	default:
		return nil, fmt.Errorf("spots of %s: shape: got %q, want a tube, a flat or a round bar", s.Name, s.Shape)
	}
	var spots []Spot
	for _, p := range places {
		one := Spot{Name: name, Detail: d, Ax: s.A}
		if math.Abs(p[1]) > 1e-9*s.Height {
			one.Wy = s.Iy / p[1]
		}
		if math.Abs(p[0]) > 1e-9*s.Width {
			one.Wz = -s.Iz / p[0]
		}
		spots = append(spots, one)
	}
	return spots, nil
}

// spot is the one whose stress under a force or moment of 1 is given for each of
// the six.
func spot(name string, d Detail, stress func(k int) float64) Spot {
	var per [6]float64
	greatest := 0.0
	for k := range per {
		greatest = math.Max(greatest, math.Abs(stress(k)))
	}
	for k := range per {
		if s := stress(k); math.Abs(s) > 1e-12*greatest { // else it is rounding
			per[k] = 1 / s
		}
	}
	return Spot{Name: name, Detail: d, Ax: per[0], Ay: per[1], Az: per[2], Wx: per[3], Wy: per[4], Wz: per[5]}
}

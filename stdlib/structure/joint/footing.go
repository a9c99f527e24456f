package joint

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/units"
)

// A Footing is a stiff rectangle that stands on ground or ballast and cannot
// pull on it.
type Footing struct {
	Y, Z units.Length // its sides, along y and z
}

// A Contact is how a footing presses on what it stands on. The pressure is
// Middle + SlopeY·y + SlopeZ·z where that is above 0, and 0 elsewhere.
type Contact struct {
	Highest  units.Pressure // at the corner that is pressed most
	Lowest   units.Pressure // at the opposite corner; 0 when it lifts
	Share    units.Number   // of the area that is in contact
	Warnings []string
}

// Press is the contact pressure under a footing with its load off the middle.
//
// The load, more than 0, presses at the distances offY and offZ from the middle
// along the sides. The pressure changes evenly over the part in contact; where it
// would pull, the footing lifts. A load at or beyond the edge is an error: the
// footing tips. One outside the kern, where the footing lifts at an edge, carries
// a warning.
//
// Source: equilibrium of a rigid footing on equal springs that cannot pull,
// derived here; inside the kern it is N/A·(1 + 6·e/L).
func (g Footing) Press(load units.Force, offY, offZ units.Length) (Contact, error) {
	err := cmp.Or(argument.Positive("load", load), argument.Positive("side along y", g.Y), argument.Positive("side along z", g.Z),
		argument.Finite("offset along y", offY), argument.Finite("offset along z", offZ))
	if err != nil {
		return Contact{}, fmt.Errorf("footing: %w", err)
	}
	u, v := offY/g.Y, offZ/g.Z // in sides, so that the footing is the unit square
	if math.Abs(u) >= 0.5 || math.Abs(v) >= 0.5 {
		return Contact{}, fmt.Errorf("footing: it tips: the load is %.4g mm and %.4g mm off the middle of %.4g by %.4g mm; make it wider, add weight or hold it down",
			offY/units.Mm, offZ/units.Mm, g.Y/units.Mm, g.Z/units.Mm)
	}
	plane, found := pressed(u, v)
	if !found {
		return Contact{}, fmt.Errorf("footing: it all but tips: the load is %.4g mm and %.4g mm off the middle; make it wider, add weight or hold it down",
			offY/units.Mm, offZ/units.Mm)
	}
	mean := load / (g.Y * g.Z)
	edge := (math.Abs(plane[1]) + math.Abs(plane[2])) / 2
	c := Contact{Highest: mean * (plane[0] + edge), Lowest: math.Max(0, mean*(plane[0]-edge)), Share: contact(plane).integrals()[0]}
	if c.Share < 1-1e-9 {
		c.Warnings = append(c.Warnings, fmt.Sprintf("the footing lifts: only %.0f %% of it is in contact", 100*c.Share))
	}
	return c, nil
}

// pressed finds the plane p0 + p1·u + p2·v over the unit square, cut off at 0,
// whose resultant is 1 at (u, v). It is the minimum of a convex function, so
// Newton's steps, shortened where they do not help, find it.
func pressed(u, v float64) (plane vector.Vector, found bool) {
	want := vector.Vector{1, u, v}
	plane = vector.Vector{1, 12 * u, 12 * v} // without lifting
	miss := func(p vector.Vector) (vector.Vector, [6]float64) {
		k := contact(p).integrals()
		return vector.Vector{
			k[0]*p[0] + k[1]*p[1] + k[2]*p[2] - want[0],
			k[1]*p[0] + k[3]*p[1] + k[4]*p[2] - want[1],
			k[2]*p[0] + k[4]*p[1] + k[5]*p[2] - want[2],
		}, k
	}
	for range 200 {
		off, k := miss(plane)
		if off.Length() < 1e-13 {
			return plane, true
		}
		a, b, c := vector.Vector{k[0], k[1], k[2]}, vector.Vector{k[1], k[3], k[4]}, vector.Vector{k[2], k[4], k[5]}
		det := a.Dot(b.Cross(c))
		if math.Abs(det) < 1e-18 {
			return plane, false
		}
		step := vector.Vector{off.Dot(b.Cross(c)) / det, a.Dot(off.Cross(c)) / det, a.Dot(b.Cross(off)) / det} // Cramer's rule, rows and columns alike
		t := 1.0
		for range 40 {
			next, _ := miss(plane.Minus(step.Times(t)))
			if next.Length() < off.Length() {
				break
			}
			t /= 2
		}
		plane = plane.Minus(step.Times(t))
	}
	off, _ := miss(plane)
	return plane, off.Length() < 1e-9
}

// A polygon is a convex shape by its corners in turn.
type polygon [][2]float64

// contact is the part of the unit square about the origin where the plane is
// above 0.
func contact(p vector.Vector) polygon {
	height := func(c [2]float64) float64 { return p[0] + p[1]*c[0] + p[2]*c[1] }
	square := polygon{{-0.5, -0.5}, {0.5, -0.5}, {0.5, 0.5}, {-0.5, 0.5}}
	var cut polygon
	for i, from := range square {
		to := square[(i+1)%4]
		hf, ht := height(from), height(to)
		if hf > 0 {
			cut = append(cut, from)
		}
		if hf > 0 != (ht > 0) {
			t := hf / (hf - ht)
			cut = append(cut, [2]float64{from[0] + t*(to[0]-from[0]), from[1] + t*(to[1]-from[1])})
		}
	}
	return cut
}

// integrals are those of 1, u, v, u², uv and v² over the polygon, triangle by
// triangle from its first corner.
func (g polygon) integrals() (k [6]float64) {
	for i := 1; i+1 < len(g); i++ {
		a, b, c := g[0], g[i], g[i+1]
		area := ((b[0]-a[0])*(c[1]-a[1]) - (c[0]-a[0])*(b[1]-a[1])) / 2
		for _, m := range [][2]float64{{a[0] + b[0], a[1] + b[1]}, {b[0] + c[0], b[1] + c[1]}, {c[0] + a[0], c[1] + a[1]}} {
			u, v, w := m[0]/2, m[1]/2, area/3 // the middles of the sides integrate a quadratic exactly
			for j, f := range [6]float64{1, u, v, u * u, u * v, v * v} {
				k[j] += w * f
			}
		}
	}
	return k
}

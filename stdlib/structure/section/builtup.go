package section

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Part is one section of a built-up one.
type Part struct {
	Section Section
	Y, Z    units.Length // of the part's centroid, from any common point
	Roll    units.Angle  // counter-clockwise from y
}

// BuiltUp is a section welded or bolted together from parts that act as one.
//
// There is at least one part; without any it panics. Area, second moments and
// moduli are those of the parts together. Torsion constant, warping constant
// and shear areas are the sums of the parts'. Where the parts enclose a cell that
// is far too little torsion constant: set It and Wt of the result. The shear
// centre is taken at the centroid.
//
// Caution: the parts act as one only if welds or bolts carry the shear flow
// between them: design those for it.
//
// Source: geometry (parallel axes).
func BuiltUp(name string, parts ...Part) Section {
	if len(parts) == 0 {
		panic("section: BuiltUp: parts: got none, want at least one")
	}
	s := Section{Name: name, Shape: Composed, Forming: Welded, Parts: append([]Part(nil), parts...), Source: "geometry (parallel axes)"}
	s = s.measured()
	y, z := partsCentroid(parts)
	s.A, s.Iy, s.Iz, s.Iyz = 0, 0, 0, 0 // the parts know theirs without chords
	for i, p := range parts {
		argument.Demand("section: BuiltUp", argument.Positive(fmt.Sprintf("area of part %d", i+1), p.Section.A))
		sin, cos := math.Sincos(p.Roll)
		q := p.Section
		py, pz := p.Y-y, p.Z-z
		s.A += q.A
		s.Iy += q.Iy*cos*cos + q.Iz*sin*sin + 2*q.Iyz*sin*cos + q.A*pz*pz
		s.Iz += q.Iy*sin*sin + q.Iz*cos*cos - 2*q.Iyz*sin*cos + q.A*py*py
		s.Iyz += (q.Iz-q.Iy)*sin*cos + q.Iyz*(cos*cos-sin*sin) + q.A*py*pz
		s.Avy += q.Avy*cos*cos + q.Avz*sin*sin
		s.Avz += q.Avy*sin*sin + q.Avz*cos*cos
		s.Asy += q.Asy*cos*cos + q.Asz*sin*sin
		s.Asz += q.Asy*sin*sin + q.Asz*cos*cos
		s.It += q.It
		s.Iw += q.Iw
		s.Wall = math.Max(s.Wall, math.Max(q.Wall, q.Flange))
		s.Warnings = append(s.Warnings, q.Warnings...)
	}
	s.Wt = s.It / s.Wall
	s.spread()
	return s.principal()
}

// spread sets height, width, the centroid from the edges and the elastic moduli
// from the outline.
func (s *Section) spread() {
	left, right, bottom, top := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, l := range s.loops(64) {
		for i := range l.Y {
			left, right = math.Min(left, l.Y[i]), math.Max(right, l.Y[i])
			bottom, top = math.Min(bottom, l.Z[i]), math.Max(top, l.Z[i])
		}
	}
	s.Width, s.Height, s.Left, s.Bottom = right-left, top-bottom, -left, -bottom
	s.Wely, s.Welz = s.Iy/math.Max(top, -bottom), s.Iz/math.Max(right, -left)
}

func partsCentroid(parts []Part) (y, z units.Length) {
	a := 0.0
	for _, p := range parts {
		a += p.Section.A
		y += p.Section.A * p.Y
		z += p.Section.A * p.Z
	}
	return y / a, z / a
}

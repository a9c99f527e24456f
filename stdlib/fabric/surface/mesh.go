package surface

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/vector"
	"tautline/stdlib/units"
)

// A Point of a mesh: z upward.
type Point struct {
	X, Y, Z units.Length
}

// A Triangle of a mesh: its corners as places in Mesh.Points, counter-clockwise
// seen from outside, and its part as a place in Mesh.Parts.
type Triangle struct {
	A, B, C int
	Part    int
}

// A Seam is a named line along edges of a mesh. A closed one ends where it began.
type Seam struct {
	Name   string
	Points []int // places in Mesh.Points, each an edge away from the next
}

// A Mesh is a surface made of triangles.
type Mesh struct {
	Points    []Point
	Triangles []Triangle
	Parts     []string // names of the parts that triangles belong to
	Seams     []Seam
}

// Area is the area of all triangles.
//
// A mesh that Check finds wrong panics or gives a meaningless area.
//
// Source: geometry.
func (m Mesh) Area() units.Area {
	sum := 0.0
	for i := range m.Triangles {
		sum += m.TriangleArea(i)
	}
	return sum
}

// PartArea is the area of the triangles of a part.
//
// A part that the mesh does not have is an error.
//
// Source: geometry.
func (m Mesh) PartArea(part string) (units.Area, error) {
	p, err := m.part(part)
	if err != nil {
		return 0, err
	}
	sum := 0.0
	for i, t := range m.Triangles {
		if t.Part == p {
			sum += m.TriangleArea(i)
		}
	}
	return sum, nil
}

// TriangleArea is the area of triangle i.
//
// A triangle that the mesh does not have panics.
//
// Source: geometry.
func (m Mesh) TriangleArea(i int) units.Area {
	return m.doubled(m.Triangles[i]).Length() / 2
}

// Normal is the direction out of triangle i, of length 1, in X, Y and Z.
//
// A triangle that the mesh does not have panics. That of a triangle without area
// is 0.
//
// Source: geometry.
func (m Mesh) Normal(i int) (x, y, z units.Number) {
	n := m.doubled(m.Triangles[i]).Unit()
	return n[0], n[1], n[2]
}

// PointNormals are the directions out of the surface at every point, of length 1:
// the mean over the triangles that meet there, weighted by area.
//
// Source: geometry.
func (m Mesh) PointNormals() (x, y, z []units.Number) {
	sums := make([]vec, len(m.Points))
	for _, t := range m.Triangles {
		n := m.doubled(t)
		for _, p := range []int{t.A, t.B, t.C} {
			sums[p] = sums[p].Plus(n)
		}
	}
	for _, s := range sums {
		n := s.Unit()
		x, y, z = append(x, n[0]), append(y, n[1]), append(z, n[2])
	}
	return x, y, z
}

// Volume is what the mesh encloses: positive when its triangles face outward.
//
// A mesh that Closed finds open, or that faces inward, is an error. Baffles and
// other parts inside are left out with Only.
//
// Source: geometry (divergence theorem).
func (m Mesh) Volume() (units.Volume, error) {
	if err := m.Closed(); err != nil {
		return 0, fmt.Errorf("volume: %w", err)
	}
	v := m.signedVolume()
	if v < 0 {
		return 0, fmt.Errorf("volume: got %g m³: the triangles face inward: turn the mesh over with Flipped", v)
	}
	return v, nil
}

func (m Mesh) signedVolume() float64 {
	sum, o := 0.0, m.Points[0].vec()
	for _, t := range m.Triangles {
		a, b, c := m.corners(t)
		sum += a.Minus(o).Dot(b.Minus(o).Cross(c.Minus(o)))
	}
	return sum / 6
}

// Bounds are the least and the greatest coordinates of the points.
func (m Mesh) Bounds() (low, high Point) {
	inf := math.Inf(1)
	low, high = Point{inf, inf, inf}, Point{-inf, -inf, -inf}
	for _, p := range m.Points {
		low = Point{min(low.X, p.X), min(low.Y, p.Y), min(low.Z, p.Z)}
		high = Point{max(high.X, p.X), max(high.Y, p.Y), max(high.Z, p.Z)}
	}
	return low, high
}

// Nearest is the point of the mesh nearest to a place: -1 without any.
func (m Mesh) Nearest(x, y, z units.Length) int {
	best, at := math.Inf(1), -1
	for i, p := range m.Points {
		if d := p.vec().Minus(vec{x, y, z}).Length(); d < best {
			best, at = d, i
		}
	}
	return at
}

// Within lists the points in a box, its faces included: to hold or to load them.
func (m Mesh) Within(low, high Point) []int {
	var in []int
	for i, p := range m.Points {
		if low.X <= p.X && p.X <= high.X && low.Y <= p.Y && p.Y <= high.Y && low.Z <= p.Z && p.Z <= high.Z {
			in = append(in, i)
		}
	}
	return in
}

// Seam is the seam of a name. A name that the mesh does not have is an error.
func (m Mesh) Seam(name string) (Seam, error) {
	var names []string
	for _, s := range m.Seams {
		if s.Name == name {
			return Seam{s.Name, slices.Clone(s.Points)}, nil
		}
		names = append(names, s.Name)
	}
	return Seam{}, fmt.Errorf("seam: got %q, want one of %q", name, names)
}

// SeamLength is the way along a seam. A name that the mesh does not have is an
// error.
//
// Source: geometry.
func (m Mesh) SeamLength(name string) (units.Length, error) {
	s, err := m.Seam(name)
	if err != nil {
		return 0, err
	}
	return m.PathLength(s.Points), nil
}

// PathLength is the way along a line of points, such as those of a seam.
//
// A point that the mesh does not have panics.
//
// Source: geometry.
func (m Mesh) PathLength(path []int) units.Length {
	sum := 0.0
	for i := 1; i < len(path); i++ {
		sum += m.Points[path[i]].vec().Minus(m.Points[path[i-1]].vec()).Length()
	}
	return sum
}

// part is the place of a part's name.
func (m Mesh) part(name string) (int, error) {
	if p := slices.Index(m.Parts, name); p >= 0 {
		return p, nil
	}
	return 0, fmt.Errorf("part: got %q, want one of %q", name, m.Parts)
}

// triangle names a triangle for an error.
func (m Mesh) triangle(i int) string {
	return fmt.Sprintf("triangle %d of part %q", i, m.Parts[m.Triangles[i].Part])
}

func (m Mesh) corners(t Triangle) (a, b, c vec) {
	return m.Points[t.A].vec(), m.Points[t.B].vec(), m.Points[t.C].vec()
}

// doubled is the normal of a triangle, as long as twice its area.
func (m Mesh) doubled(t Triangle) vec {
	a, b, c := m.corners(t)
	return b.Minus(a).Cross(c.Minus(a))
}

// clone is the mesh in memory of its own.
func (m Mesh) clone() Mesh {
	seams := slices.Clone(m.Seams)
	for i := range seams {
		seams[i].Points = slices.Clone(seams[i].Points)
	}
	return Mesh{slices.Clone(m.Points), slices.Clone(m.Triangles), slices.Clone(m.Parts), seams}
}

// vec is a point as a vector.
type vec = vector.Vector

func (p Point) vec() vec { return vec{p.X, p.Y, p.Z} }

func point(v vec) Point { return Point{v[0], v[1], v[2]} }

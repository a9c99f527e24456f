package flatten

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/ldl"
)

// A skin is a mesh that can be laid flat, with what the two solvers share.
// Unknowns are the x and y of each point, in turn.
type skin struct {
	mesh surface.Mesh
	tris []triangle
	rim  []int // points of the open loop
	p, q int   // two points of the rim that are far apart: the flat piece's x axis
}

// A triangle as it lies in its own plane: first corner at the origin, second on
// the x axis.
type triangle struct {
	corner [3]int
	x, y   [3]float64
	area   float64
	dx, dy [3]float64 // derivatives of each corner's share of a linear function
}

func newSkin(mesh surface.Mesh) (*skin, error) {
	c, err := newCloth(mesh)
	if err == nil {
		err = c.manifold()
	}
	if err != nil {
		return nil, err
	}
	rims, err := c.rims()
	if err != nil {
		return nil, err
	}
	s := &skin{mesh: mesh}
	if len(rims) != 1 {
		return nil, fmt.Errorf("%s: got %d open loops, want one: cut a closed surface open, and a tube or a surface with a hole from rim to rim", s.name(0), len(rims))
	}
	s.rim = rims[0]
	used := c.used()
	if len(used) < len(mesh.Points) {
		lost := 0
		for lost < len(used) && used[lost] == lost {
			lost++
		}
		return nil, fmt.Errorf("point %d: belongs to no triangle, want none such", lost)
	}
	if euler := len(used) - len(c.edges) + len(mesh.Triangles); euler != 1 { // Euler's count is 1 for a disc
		return nil, fmt.Errorf("%s: got %d points less %d edges and %d triangles, in all %d, want 1 as of a disc: cut it so that it lies open",
			s.name(0), len(used), len(c.edges), len(mesh.Triangles), euler)
	}
	for _, t := range mesh.Triangles {
		s.tris = append(s.tris, flatTriangle(mesh, t))
	}
	s.axis()
	return s, nil
}

func flatTriangle(m surface.Mesh, t surface.Triangle) triangle {
	a, b, c := m.Points[t.A], m.Points[t.B], m.Points[t.C]
	ux, uy, uz := b.X-a.X, b.Y-a.Y, b.Z-a.Z
	vx, vy, vz := c.X-a.X, c.Y-a.Y, c.Z-a.Z
	base := math.Sqrt(ux*ux + uy*uy + uz*uz)
	along := (ux*vx + uy*vy + uz*vz) / base
	nx, ny, nz := uy*vz-uz*vy, uz*vx-ux*vz, ux*vy-uy*vx
	up := math.Sqrt(nx*nx+ny*ny+nz*nz) / base
	f := triangle{corner: [3]int{t.A, t.B, t.C}, x: [3]float64{0, base, along}, y: [3]float64{0, 0, up}, area: base * up / 2}
	for k := range 3 {
		i, j := (k+1)%3, (k+2)%3
		f.dx[k] = (f.y[i] - f.y[j]) / (2 * f.area)
		f.dy[k] = (f.x[j] - f.x[i]) / (2 * f.area)
	}
	return f
}

// axis finds two points of the rim that are far apart: the farthest from the
// first, and the farthest from that.
func (s *skin) axis() {
	far := func(from int) int {
		best, at := -1.0, from
		a := s.mesh.Points[from]
		for _, i := range s.rim {
			b := s.mesh.Points[i]
			if d := (b.X-a.X)*(b.X-a.X) + (b.Y-a.Y)*(b.Y-a.Y) + (b.Z-a.Z)*(b.Z-a.Z); d > best {
				best, at = d, i
			}
		}
		return at
	}
	s.p = far(s.rim[0])
	s.q = far(s.p)
}

// name is the part of a triangle, for an error.
func (s *skin) name(t int) string {
	return fmt.Sprintf("part %q", s.mesh.Parts[s.mesh.Triangles[t].Part])
}

// place is a triangle for an error.
func (s *skin) place(t int) string {
	a := s.mesh.Points[s.mesh.Triangles[t].A]
	return fmt.Sprintf("%s, triangle %d at (%.3g, %.3g, %.3g) m", s.name(t), t, a.X, a.Y, a.Z)
}

// gradient is the map of a triangle to the table: how x and y change along its
// own two axes.
func (s *skin) gradient(t int, x []float64) (a, b, c, d float64) {
	tri := &s.tris[t]
	for k, i := range tri.corner {
		a += x[2*i] * tri.dx[k]
		b += x[2*i] * tri.dy[k]
		c += x[2*i+1] * tri.dx[k]
		d += x[2*i+1] * tri.dy[k]
	}
	return a, b, c, d
}

// scales are the singular values of a triangle's map, the smaller negative when
// it is turned over.
func (s *skin) scales(t int, x []float64) (large, small float64) {
	a, b, c, d := s.gradient(t, x)
	sum, difference := math.Hypot(a+d, c-b), math.Hypot(a-d, c+b)
	return (sum + difference) / 2, (sum - difference) / 2
}

// A system is a sparse one with some unknowns given.
type system struct {
	n     int
	place []int // of an unknown among those to find, -1 when given
	plan  *ldl.Plan
}

func newSystem(n int, given ...int) *system {
	s := &system{place: make([]int, n)}
	for _, i := range given {
		s.place[i] = -1
	}
	for i := range s.place {
		if s.place[i] == 0 {
			s.place[i] = s.n
			s.n++
		}
	}
	return s
}

// factor prepares the matrix of the blocks. The pattern is analysed once.
func (s *system) factor(blocks []ldl.Block) (*ldl.Factor, error) {
	m := ldl.Assemble(s.n, blocks)
	if s.plan == nil {
		s.plan = ldl.Analyse(m)
	}
	return s.plan.Factor(m, 1e-14)
}

// index are the unknowns of a triangle.
func (s *system) index(t *triangle) []int {
	list := make([]int, 6)
	for k, i := range t.corner {
		list[2*k], list[2*k+1] = s.place[2*i], s.place[2*i+1]
	}
	return list
}

package surface

import (
	"fmt"
	"math"
)

// flat is the height of a triangle over its longest side below which it counts
// as a line.
const flat = 1e-6

// Check says what makes the mesh useless, or nothing: a corner or part that is
// not there, a point that is not finite, a triangle that is only a line, two
// points in one place, a triangle that is there twice, a seam that leaves the
// edges. It names the part and the number.
func (m Mesh) Check() error {
	if len(m.Triangles) == 0 {
		return fmt.Errorf("mesh: got no triangles, want at least one")
	}
	for i, p := range m.Points {
		if v := p.vec(); v.Dot(v)-v.Dot(v) != 0 {
			return fmt.Errorf("point %d: got (%g, %g, %g) m, want finite lengths", i, p.X, p.Y, p.Z)
		}
	}
	for i, t := range m.Triangles {
		if t.Part < 0 || t.Part >= len(m.Parts) {
			return fmt.Errorf("triangle %d: part: got number %d, want 0 to %d", i, t.Part, len(m.Parts)-1)
		}
		for _, p := range t.corners() {
			if p < 0 || p >= len(m.Points) {
				return fmt.Errorf("%s: corner: got point %d, want 0 to %d", m.triangle(i), p, len(m.Points)-1)
			}
		}
		if h := m.slimness(t); !(h >= flat) {
			return fmt.Errorf("%s: its corners %d, %d and %d lie on a line: leave it out or move a corner", m.triangle(i), t.A, t.B, t.C)
		}
	}
	if err := m.checkApart(); err != nil {
		return err
	}
	return m.checkSeams()
}

func (t Triangle) corners() [3]int { return [3]int{t.A, t.B, t.C} }

// slimness is the height over the longest side.
func (m Mesh) slimness(t Triangle) float64 {
	a, b, c := m.corners(t)
	longest := math.Max(b.Minus(a).Length(), math.Max(c.Minus(b).Length(), a.Minus(c).Length()))
	return m.doubled(t).Length() / (longest * longest)
}

// checkApart finds points in one place and triangles that are there twice.
func (m Mesh) checkApart() error {
	if i, j, found := m.coincident(m.nearness()); found {
		p := m.Points[j]
		return fmt.Errorf("points %d and %d: both at (%g, %g, %g) m%s: make them one with Joined", i, j, p.X, p.Y, p.Z, m.partAt(j))
	}
	edges := m.edges()
	for i, t := range m.Triangles {
		for _, o := range edges.at(t.A, t.B) {
			if o > i && m.Triangles[o].has(t.C) {
				return fmt.Errorf("%s and %s have the same corners %d, %d and %d: leave one out", m.triangle(i), m.triangle(o), t.A, t.B, t.C)
			}
		}
	}
	return nil
}

// checkSeams finds seams that leave the edges.
func (m Mesh) checkSeams() error {
	if len(m.Seams) == 0 {
		return nil
	}
	edges := m.edges()
	for _, s := range m.Seams {
		if len(s.Points) < 2 {
			return fmt.Errorf("seam %q: got %d points, want at least two", s.Name, len(s.Points))
		}
		for _, p := range s.Points {
			if p < 0 || p >= len(m.Points) {
				return fmt.Errorf("seam %q: got point %d, want 0 to %d", s.Name, p, len(m.Points)-1)
			}
		}
		for i := 1; i < len(s.Points); i++ {
			if a, b := s.Points[i-1], s.Points[i]; len(edges.at(a, b)) == 0 {
				return fmt.Errorf("seam %q: from point %d to point %d: no triangle has that edge", s.Name, a, b)
			}
		}
	}
	return nil
}

// nearness is the distance below which two points are one.
func (m Mesh) nearness() float64 {
	low, high := m.Bounds()
	return 1e-9 * high.vec().Minus(low.vec()).Length()
}

// coincident finds two points not farther apart than tol.
func (m Mesh) coincident(tol float64) (i, j int, found bool) {
	at := newPlaces(tol, len(m.Points))
	for j, p := range m.Points {
		if i := at.find(p.vec()); i >= 0 {
			return i, j, true
		}
		at.add(p.vec(), j)
	}
	return 0, 0, false
}

// partAt names the part at a point for an error.
func (m Mesh) partAt(point int) string {
	for _, t := range m.Triangles {
		if t.has(point) {
			return fmt.Sprintf(", of part %q", m.Parts[t.Part])
		}
	}
	return ""
}

func (t Triangle) has(point int) bool { return t.A == point || t.B == point || t.C == point }

// Manifold says where the mesh is not one skin with two sides, or nothing: an
// edge of three or more triangles, as where a baffle meets the skin, or an edge
// whose two triangles face opposite ways.
func (m Mesh) Manifold() error {
	if err := m.Check(); err != nil {
		return err
	}
	edges := m.edges()
	for i, t := range m.Triangles {
		c := t.corners()
		for k := range c {
			a, b := c[k], c[(k+1)%3]
			sides := edges.at(a, b)
			if len(sides) > 2 {
				return fmt.Errorf("edge from point %d to point %d%s: got %d triangles, want one or two: keep one skin with Only", a, b, m.partAt(a), len(sides))
			}
			for _, o := range sides {
				if o != i && m.Triangles[o].runs(a, b) {
					return fmt.Errorf("%s and %s face opposite ways at the edge from point %d to point %d: turn one part over with Flipped", m.triangle(min(i, o)), m.triangle(max(i, o)), a, b)
				}
			}
		}
	}
	return nil
}

// runs reports whether the triangle has the edge in the direction from a to b.
func (t Triangle) runs(a, b int) bool {
	return t.A == a && t.B == b || t.B == a && t.C == b || t.C == a && t.A == b
}

// Closed says where the mesh does not enclose air, or nothing: it is Manifold
// and has no open loop.
func (m Mesh) Closed() error {
	if err := m.Manifold(); err != nil {
		return err
	}
	open := m.openLoops()
	if len(open) == 0 {
		return nil
	}
	l := open[0]
	more := ""
	if len(open) > 1 {
		more = fmt.Sprintf(" and %d more", len(open)-1)
	}
	p := m.Points[l[0]]
	return fmt.Errorf("open loop of %d edges, %.4g m round, through point %d at (%.4g, %.4g, %.4g) m%s%s: close it with a part joined there",
		len(l)-1, m.PathLength(l), l[0], p.X, p.Y, p.Z, m.partAt(l[0]), more)
}

package flatten

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/fabric/surface"
)

// A cloth is a mesh with the triangles at each edge. Unlike a mesh in space, it
// may have points in one place: the two sides of a slit.
type cloth struct {
	mesh  surface.Mesh
	edges map[[2]int][]int // triangles by edge, lower point first
}

// slim is the height of a triangle over its longest side below which it is only
// a line.
const slim = 1e-6

func link(a, b int) [2]int { return [2]int{min(a, b), max(a, b)} }

func corners(t surface.Triangle) [3]int { return [3]int{t.A, t.B, t.C} }

// newCloth checks what each triangle is made of.
func newCloth(m surface.Mesh) (cloth, error) {
	c := cloth{m, make(map[[2]int][]int, 3*len(m.Triangles)/2)}
	if len(m.Triangles) == 0 {
		return c, fmt.Errorf("mesh: got no triangles, want at least one")
	}
	for i, p := range m.Points {
		if v := p.X + p.Y + p.Z; v-v != 0 {
			return c, fmt.Errorf("point %d: got (%g, %g, %g) m, want finite lengths", i, p.X, p.Y, p.Z)
		}
	}
	for i, t := range m.Triangles {
		if t.Part < 0 || t.Part >= len(m.Parts) {
			return c, fmt.Errorf("triangle %d: part: got number %d, want 0 to %d", i, t.Part, len(m.Parts)-1)
		}
		for k, p := range corners(t) {
			if p < 0 || p >= len(m.Points) {
				return c, fmt.Errorf("part %q, triangle %d: corner: got point %d, want 0 to %d", m.Parts[t.Part], i, p, len(m.Points)-1)
			}
			e := link(p, corners(t)[(k+1)%3])
			c.edges[e] = append(c.edges[e], i)
		}
		f := flatTriangle(m, t)
		if longest := max(f.x[1], math.Hypot(f.x[2], f.y[2]), math.Hypot(f.x[2]-f.x[1], f.y[2])); !(f.y[2]*f.x[1] >= slim*longest*longest) {
			return c, fmt.Errorf("part %q, triangle %d: its corners %d, %d and %d lie on a line: leave it out or move a corner", m.Parts[t.Part], i, t.A, t.B, t.C)
		}
	}
	return c, nil
}

// manifold says where the cloth is not one skin with two sides.
func (c cloth) manifold() error {
	for i, t := range c.mesh.Triangles {
		v := corners(t)
		for k := range v {
			a, b := v[k], v[(k+1)%3]
			sides := c.edges[link(a, b)]
			if len(sides) > 2 {
				return fmt.Errorf("part %q, edge from point %d to point %d: got %d triangles, want one or two: cut along it by a seam", c.mesh.Parts[t.Part], a, b, len(sides))
			}
			for _, o := range sides {
				if o != i && runs(c.mesh.Triangles[o], a, b) {
					return fmt.Errorf("part %q, triangles %d and %d face opposite ways at the edge from point %d to point %d: turn one part over with Flipped",
						c.mesh.Parts[t.Part], min(i, o), max(i, o), a, b)
				}
			}
		}
	}
	return nil
}

// runs reports whether the triangle has the edge in the direction from a to b.
func runs(t surface.Triangle, a, b int) bool {
	return t.A == a && t.B == b || t.B == a && t.C == b || t.C == a && t.A == b
}

// rims are the open loops, the cloth to the left, each point once. A point at
// which two of them touch is an error.
func (c cloth) rims() ([][]int, error) {
	next := map[int]int{}
	var starts []int
	for _, t := range c.mesh.Triangles {
		v := corners(t)
		for k := range v {
			a, b := v[k], v[(k+1)%3]
			if len(c.edges[link(a, b)]) > 1 {
				continue
			}
			if _, twice := next[a]; twice {
				return nil, fmt.Errorf("part %q, point %d: two pieces of the surface meet in this point only: want an edge between them or none", c.mesh.Parts[t.Part], a)
			}
			next[a] = b
			starts = append(starts, a)
		}
	}
	var rims [][]int
	seen := map[int]bool{}
	for _, start := range starts {
		var rim []int
		for at := start; !seen[at]; at = next[at] {
			seen[at] = true
			rim = append(rim, at)
		}
		if len(rim) > 0 {
			rims = append(rims, rim)
		}
	}
	return rims, nil
}

// used lists the points that triangles have.
func (c cloth) used() []int {
	var list []int
	seen := make([]bool, len(c.mesh.Points))
	for _, t := range c.mesh.Triangles {
		for _, p := range corners(t) {
			if !seen[p] {
				seen[p] = true
				list = append(list, p)
			}
		}
	}
	slices.Sort(list)
	return list
}

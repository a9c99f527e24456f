package surface

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Moved is the mesh moved by lengths along x, y and z.
func (m Mesh) Moved(x, y, z units.Length) Mesh {
	return m.mapped(func(v vec) vec { return v.Plus(vec{x, y, z}) })
}

// TurnedX is the mesh turned about the x axis, y toward z.
func (m Mesh) TurnedX(angle units.Angle) Mesh { return m.turned(1, 2, angle) }

// TurnedY is the mesh turned about the y axis, z toward x.
func (m Mesh) TurnedY(angle units.Angle) Mesh { return m.turned(2, 0, angle) }

// TurnedZ is the mesh turned about the z axis, x toward y.
func (m Mesh) TurnedZ(angle units.Angle) Mesh { return m.turned(0, 1, angle) }

func (m Mesh) turned(i, j int, angle float64) Mesh {
	sin, cos := math.Sincos(angle)
	return m.mapped(func(v vec) vec {
		v[i], v[j] = v[i]*cos-v[j]*sin, v[i]*sin+v[j]*cos
		return v
	})
}

func (m Mesh) mapped(f func(vec) vec) Mesh {
	m = m.clone()
	for i, p := range m.Points {
		m.Points[i] = point(f(p.vec()))
	}
	return m
}

// Flipped is the mesh turned inside out: its triangles face the other way.
func (m Mesh) Flipped() Mesh {
	m = m.clone()
	for i, t := range m.Triangles {
		m.Triangles[i].B, m.Triangles[i].C = t.C, t.B
	}
	return m
}

// Named is the mesh with a prefix before the names of its parts and seams, so
// that two alike can be told apart when joined: "left tube".
func (m Mesh) Named(prefix string) Mesh {
	m = m.clone()
	for i := range m.Parts {
		m.Parts[i] = prefix + " " + m.Parts[i]
	}
	for i := range m.Seams {
		m.Seams[i].Name = prefix + " " + m.Seams[i].Name
	}
	return m
}

// Only is the mesh of the named parts, with the seams that lie on their edges.
// A part that the mesh does not have is an error.
func (m Mesh) Only(parts ...string) (Mesh, error) {
	keep := make([]bool, len(m.Parts))
	for _, name := range parts {
		p, err := m.part(name)
		if err != nil {
			return Mesh{}, err
		}
		keep[p] = true
	}
	return m.kept(keep), nil
}

// Without is the mesh without the named parts. A part that the mesh does not
// have is an error.
func (m Mesh) Without(parts ...string) (Mesh, error) {
	keep := make([]bool, len(m.Parts))
	for p := range keep {
		keep[p] = true
	}
	for _, name := range parts {
		p, err := m.part(name)
		if err != nil {
			return Mesh{}, err
		}
		keep[p] = false
	}
	return m.kept(keep), nil
}

func (m Mesh) kept(keep []bool) Mesh {
	var out Mesh
	part := make([]int, len(m.Parts))
	for p, name := range m.Parts {
		if keep[p] {
			part[p] = len(out.Parts)
			out.Parts = append(out.Parts, name)
		}
	}
	place := make([]int, len(m.Points))
	for i := range place {
		place[i] = -1
	}
	at := func(p int) int {
		if place[p] < 0 {
			place[p] = len(out.Points)
			out.Points = append(out.Points, m.Points[p])
		}
		return place[p]
	}
	for _, t := range m.Triangles {
		if keep[t.Part] {
			out.Triangles = append(out.Triangles, Triangle{at(t.A), at(t.B), at(t.C), part[t.Part]})
		}
	}
	edges := out.edges()
	for _, s := range m.Seams {
		path := make([]int, len(s.Points))
		whole := true
		for i, p := range s.Points {
			path[i] = place[p]
			whole = whole && path[i] >= 0 && (i == 0 || len(edges.at(path[i-1], path[i])) > 0)
		}
		if whole {
			out.Seams = append(out.Seams, Seam{s.Name, path})
		}
	}
	return out
}

// Joined sews meshes together: points not farther apart than within become one,
// parts of the same name become one part. within is 0 or more; outside it panics.
// Triangles that shrink to a line are left out.
//
// A part that would meet itself and lose a triangle in which it is not a line is
// found by Check afterwards.
func Joined(within units.Length, meshes ...Mesh) Mesh {
	argument.Demand("surface: Joined", argument.NotNegative("within", within))
	var out Mesh
	triangles := 0
	for _, m := range meshes {
		triangles += len(m.Triangles)
	}
	at := newPlaces(within, triangles/2) // about two triangles for each point
	out.Triangles = make([]Triangle, 0, triangles)
	for _, m := range meshes {
		place := make([]int, len(m.Points))
		for i, p := range m.Points {
			place[i] = at.find(p.vec())
			if place[i] < 0 {
				place[i] = len(out.Points)
				out.Points = append(out.Points, p)
				at.add(p.vec(), place[i])
			}
		}
		part := make([]int, len(m.Parts))
		for i, name := range m.Parts {
			part[i] = slices.Index(out.Parts, name)
			if part[i] < 0 {
				part[i] = len(out.Parts)
				out.Parts = append(out.Parts, name)
			}
		}
		for _, t := range m.Triangles {
			n := Triangle{place[t.A], place[t.B], place[t.C], part[t.Part]}
			if n.A != n.B && n.B != n.C && n.C != n.A {
				out.Triangles = append(out.Triangles, n)
			}
		}
		for _, s := range m.Seams {
			out.addSeam(s.Name, s.Points, place)
		}
	}
	return out
}

// addSeam adds a seam whose points lie elsewhere now, unless it is there already.
func (m *Mesh) addSeam(name string, points, place []int) {
	var path []int
	for _, p := range points {
		if q := place[p]; len(path) == 0 || path[len(path)-1] != q {
			path = append(path, q)
		}
	}
	if len(path) < 2 || slices.ContainsFunc(m.Seams, func(s Seam) bool {
		back := slices.Clone(s.Points)
		slices.Reverse(back)
		return s.Name == name && (slices.Equal(s.Points, path) || slices.Equal(back, path))
	}) {
		return
	}
	m.Seams = append(m.Seams, Seam{m.freeSeam(name), path})
}

// freeSeam is a seam's name, with a number when another one has it.
func (m Mesh) freeSeam(name string) string {
	free := name
	for n := 2; slices.ContainsFunc(m.Seams, func(s Seam) bool { return s.Name == free }); n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

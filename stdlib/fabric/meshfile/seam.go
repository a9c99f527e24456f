package meshfile

import (
	"cmp"
	"container/heap"
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Creases is the mesh with a seam along every edge at which it is bent by more
// than an angle, and along every edge of three or more triangles. The seams are
// "crease 1", "crease 2" and so on, each from where three or more meet to the next
// such point, or closed.
//
// angle is 0 to 180°. A mesh that surface.Mesh.Check finds wrong is an error, as is one
// without such an edge.
//
// Source: geometry (angle between the normals of two triangles).
func Creases(mesh surface.Mesh, angle units.Angle) (surface.Mesh, error) {
	err := cmp.Or(argument.Within("creases: angle", angle, 0, math.Pi), mesh.Check())
	if err != nil {
		return surface.Mesh{}, err
	}
	sides := map[[2]int][]int{}
	ways := newWays(mesh, func(a, b, triangle int) {
		sides[[2]int{a, b}] = append(sides[[2]int{a, b}], triangle)
	})
	bent := map[int][]int{}
	for a, to := range ways.to {
		for _, b := range to {
			t := sides[[2]int{min(a, b), max(a, b)}]
			if len(t) > 2 || len(t) == 2 && bend(mesh, t[0], t[1]) > angle {
				bent[a] = append(bent[a], b)
			}
		}
	}
	if len(bent) == 0 {
		return surface.Mesh{}, fmt.Errorf("creases: got no edge bent by more than %.4g°: take a smaller angle", angle/units.Deg)
	}
	var seams []surface.Seam
	for i, line := range lines(bent, len(mesh.Points)) {
		seams = append(seams, surface.Seam{Name: fmt.Sprintf("crease %d", i+1), Points: line})
	}
	return with(mesh, seams...)
}

// with is a mesh with more seams, in memory of its own.
func with(mesh surface.Mesh, seams ...surface.Seam) (surface.Mesh, error) {
	mesh = surface.Mesh{
		Points: slices.Clone(mesh.Points), Triangles: slices.Clone(mesh.Triangles),
		Parts: slices.Clone(mesh.Parts), Seams: slices.Clone(mesh.Seams),
	}
	for i, s := range mesh.Seams {
		mesh.Seams[i].Points = slices.Clone(s.Points)
	}
	mesh.Seams = append(mesh.Seams, seams...)
	return mesh, mesh.Check()
}

// bend is the angle between the normals of two triangles.
func bend(mesh surface.Mesh, i, j int) float64 {
	x, y, z := mesh.Normal(i)
	u, v, w := mesh.Normal(j)
	return math.Acos(math.Max(-1, math.Min(1, x*u+y*v+z*w)))
}

// lines walks edges, given from both ends, from fork to fork, then those that
// have none. It uses bent up.
func lines(bent map[int][]int, points int) (all [][]int) {
	fork := make([]bool, points)
	for p, to := range bent {
		fork[p] = len(to) != 2
	}
	take := func(a, b int) {
		bent[a] = slices.DeleteFunc(bent[a], func(p int) bool { return p == b })
		bent[b] = slices.DeleteFunc(bent[b], func(p int) bool { return p == a })
	}
	for _, closed := range []bool{false, true} {
		for start := range points {
			for (closed || fork[start]) && len(bent[start]) > 0 {
				line := []int{start}
				for at := start; len(bent[at]) > 0 && (at == start && len(line) == 1 || !fork[at]); {
					next := bent[at][0]
					take(at, next)
					line = append(line, next)
					at = next
				}
				all = append(all, line)
			}
		}
	}
	return all
}

// SeamAlong is the mesh with one more seam: the shortest way along its edges from
// place to place. Each place is taken at the point of the mesh nearest to it; a seam
// that ends at its first place is closed.
//
// A mesh that surface.Mesh.Check finds wrong is an error, and so are fewer than two places,
// two places at one point, a name that is taken and places between which no edges lead.
//
// Source: E. W. Dijkstra, A note on two problems in connexion with graphs, Numerische
// Mathematik 1 (1959) 269-271.
func SeamAlong(mesh surface.Mesh, name string, places []surface.Point) (surface.Mesh, error) {
	if err := mesh.Check(); err != nil {
		return surface.Mesh{}, err
	}
	if len(places) < 2 {
		return surface.Mesh{}, fmt.Errorf("seam %q: got %d places, want two or more", name, len(places))
	}
	if slices.ContainsFunc(mesh.Seams, func(s surface.Seam) bool { return s.Name == name }) {
		return surface.Mesh{}, fmt.Errorf("seam %q: got a name that another seam of the mesh has", name)
	}
	ways := newWays(mesh, nil)
	var path []int
	for i, p := range places {
		next := mesh.Nearest(p.X, p.Y, p.Z)
		if next < 0 {
			return surface.Mesh{}, fmt.Errorf("seam %q: place %d: got (%g, %g, %g) m, want finite lengths", name, i+1, p.X, p.Y, p.Z)
		}
		if i == 0 {
			path = []int{next}
			continue
		}
		from := path[len(path)-1]
		leg := ways.shortest(from, next)
		if len(leg) == 0 {
			return surface.Mesh{}, fmt.Errorf("seam %q: from place %d to place %d: points %d and %d of the mesh: want two different points that edges join", name, i, i+1, from, next)
		}
		path = append(path, leg...)
	}
	return with(mesh, surface.Seam{Name: name, Points: path})
}

// ways lists the points that an edge joins to each point, in rising order.
type ways struct {
	mesh surface.Mesh
	to   [][]int
}

// newWays calls each, when given, for every edge of every triangle, lower point first.
func newWays(mesh surface.Mesh, each func(a, b, triangle int)) ways {
	w := ways{mesh, make([][]int, len(mesh.Points))}
	for i, t := range mesh.Triangles {
		c := [3]int{t.A, t.B, t.C}
		for k := range c {
			a, b := c[k], c[(k+1)%3]
			w.to[a], w.to[b] = append(w.to[a], b), append(w.to[b], a)
			if each != nil {
				each(min(a, b), max(a, b), i)
			}
		}
	}
	for p := range w.to {
		slices.Sort(w.to[p])
		w.to[p] = slices.Compact(w.to[p])
	}
	return w
}

// shortest is the way from one point to another without the first, or nothing.
func (w ways) shortest(from, to int) []int {
	far := make([]float64, len(w.to))
	before := make([]int, len(w.to))
	for p := range far {
		far[p], before[p] = math.Inf(1), -1
	}
	far[from] = 0
	front := &front{{0, from}}
	for front.Len() > 0 {
		at := heap.Pop(front).(reached)
		if at.point == to {
			break
		}
		if at.far > far[at.point] {
			continue
		}
		for _, p := range w.to[at.point] {
			a, b := w.mesh.Points[at.point], w.mesh.Points[p]
			if d := at.far + position(b).Minus(position(a)).Length(); d < far[p] {
				far[p], before[p] = d, at.point
				heap.Push(front, reached{d, p})
			}
		}
	}
	var path []int
	for p := to; p != from && p >= 0; p = before[p] {
		path = append(path, p)
	}
	if len(path) > 0 && before[path[len(path)-1]] != from {
		return nil
	}
	slices.Reverse(path)
	return path
}

// reached is a point and how far it is.
type reached struct {
	far   float64
	point int
}

// front is a heap of points, the nearest on top; of equal ones the lower point.
type front []reached

func (f front) Len() int { return len(f) }
func (f front) Less(i, j int) bool {
	return cmp.Or(cmp.Compare(f[i].far, f[j].far), cmp.Compare(f[i].point, f[j].point)) < 0
}
func (f front) Swap(i, j int) { f[i], f[j] = f[j], f[i] }
func (f *front) Push(x any)   { *f = append(*f, x.(reached)) }
func (f *front) Pop() any {
	last := (*f)[len(*f)-1]
	*f = (*f)[:len(*f)-1]
	return last
}

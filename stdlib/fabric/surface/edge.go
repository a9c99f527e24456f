package surface

import (
	"fmt"
	"math"
)

// edges lists the triangles at each edge: those of the edges from point p to a
// higher one are the places from start[p] to start[p+1], in the order of that one.
type edges struct {
	start        []int
	to, triangle []int
}

func (m Mesh) edges() edges {
	e := edges{start: make([]int, len(m.Points)+1)}
	each := func(f func(triangle, low, high int)) {
		for i, t := range m.Triangles {
			c := t.corners()
			for k := range c {
				f(i, min(c[k], c[(k+1)%3]), max(c[k], c[(k+1)%3]))
			}
		}
	}
	each(func(_, low, _ int) { e.start[low+1]++ })
	for p := range m.Points {
		e.start[p+1] += e.start[p]
	}
	e.to, e.triangle = make([]int, 3*len(m.Triangles)), make([]int, 3*len(m.Triangles))
	filled := make([]int, len(m.Points))
	each(func(i, low, high int) {
		k := e.start[low] + filled[low]
		for ; k > e.start[low] && e.to[k-1] > high; k-- {
			e.to[k], e.triangle[k] = e.to[k-1], e.triangle[k-1]
		}
		e.to[k], e.triangle[k] = high, i
		filled[low]++
	})
	return e
}

// at lists the triangles at the edge between two points.
func (e edges) at(a, b int) []int {
	low, high := min(a, b), max(a, b)
	from := e.start[low]
	for from < e.start[low+1] && e.to[from] < high {
		from++
	}
	to := from
	for to < e.start[low+1] && e.to[to] == high {
		to++
	}
	return e.triangle[from:to]
}

// Boundary lists the open loops: closed lines of points along edges that belong
// to one triangle only, with the surface to the left, each ending where it began.
// A mesh that Check finds wrong is an error.
func (m Mesh) Boundary() ([]Seam, error) {
	if err := m.Check(); err != nil {
		return nil, fmt.Errorf("boundary: %w", err)
	}
	var loops []Seam
	for i, l := range m.openLoops() {
		loops = append(loops, Seam{fmt.Sprintf("loop %d", i+1), l})
	}
	return loops, nil
}

// BoundaryPoints lists the points of the open loops, each once.
func (m Mesh) BoundaryPoints() ([]int, error) {
	loops, err := m.Boundary()
	var points []int
	for _, l := range loops {
		points = append(points, l.Points[1:]...)
	}
	return points, err
}

func (m Mesh) openLoops() [][]int {
	edges := m.edges()
	next := map[int][]int{} // along edges of one triangle
	var from []int
	for _, t := range m.Triangles {
		c := t.corners()
		for k := range c {
			if a, b := c[k], c[(k+1)%3]; len(edges.at(a, b)) == 1 {
				next[a] = append(next[a], b)
				from = append(from, a)
			}
		}
	}
	var loops [][]int
	for _, start := range from {
		if len(next[start]) == 0 {
			continue
		}
		loop := []int{start}
		for at := start; len(next[at]) > 0; {
			to := next[at][0]
			next[at] = next[at][1:]
			loop = append(loop, to)
			at = to
			if at == start {
				break
			}
		}
		loops = append(loops, loop)
	}
	return loops
}

// places finds points that were put near a place.
type places struct {
	tol  float64
	side float64          // of a cell: some times the tolerance, and not so small that few points share it
	last map[[3]int64]int // place in all of the last that was put into a cell
	all  []placed
}

type placed struct {
	at     vec
	index  int
	before int // place in all of the one put into the same cell before, -1 without one
}

// newPlaces has room for a count of points before it grows.
func newPlaces(tol float64, count int) *places {
	return &places{tol, math.Max(8*tol, 1e-6), make(map[[3]int64]int, count), make([]placed, 0, count)}
}

// cell is the cube that holds a place. Far out all places share one.
func (p *places) cell(v vec) (cell [3]int64) {
	const far = 1 << 60
	for i := range v {
		cell[i] = int64(math.Max(-far, math.Min(far, math.Floor(v[i]/p.side))))
	}
	return cell
}

func (p *places) add(v vec, index int) {
	c := p.cell(v)
	before, ok := p.last[c]
	if !ok {
		before = -1
	}
	p.last[c] = len(p.all)
	p.all = append(p.all, placed{v, index, before})
}

// find is the index put within the tolerance of v, the first one of its cell, -1
// when there is none.
func (p *places) find(v vec) int {
	low := p.cell(v.Minus(vec{p.tol, p.tol, p.tol}))
	high := p.cell(v.Plus(vec{p.tol, p.tol, p.tol}))
	for x := low[0]; x <= high[0]; x++ {
		for y := low[1]; y <= high[1]; y++ {
			for z := low[2]; z <= high[2]; z++ {
				k, ok := p.last[[3]int64{x, y, z}]
				first := -1
				for ; ok && k >= 0; k = p.all[k].before {
					if p.all[k].at.Minus(v).Length() <= p.tol {
						first = p.all[k].index
					}
				}
				if first >= 0 {
					return first
				}
			}
		}
	}
	return -1
}

package flatten

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/ldl"
)

// conformal finds the map whose triangles differ least, by area, from turned and
// scaled ones: for each, (a-d)² + (b+c)² of its gradient. The ends of the axis
// stay where they are put, and then all is scaled to the surface's area.
func (s *skin) conformal() ([]float64, error) {
	x := make([]float64, 2*len(s.mesh.Points))
	a, b := s.mesh.Points[s.p], s.mesh.Points[s.q]
	x[2*s.q] = math.Sqrt((b.X-a.X)*(b.X-a.X) + (b.Y-a.Y)*(b.Y-a.Y) + (b.Z-a.Z)*(b.Z-a.Z))
	sys := newSystem(len(x), 2*s.p, 2*s.p+1, 2*s.q, 2*s.q+1)
	blocks := make([]ldl.Block, len(s.tris))
	right := make([]float64, sys.n)
	for t := range s.tris {
		tri := &s.tris[t]
		var one, two [6]float64 // a - d and b + c as functions of the unknowns
		for k := range 3 {
			one[2*k], one[2*k+1] = tri.dx[k], -tri.dy[k]
			two[2*k], two[2*k+1] = tri.dy[k], tri.dx[k]
		}
		values := make([]float64, 36)
		index := sys.index(tri)
		for i := range 6 {
			for j := range 6 {
				v := tri.area * (one[i]*one[j] + two[i]*two[j])
				values[6*i+j] = v
				if index[i] >= 0 && index[j] < 0 {
					right[index[i]] -= v * x[2*tri.corner[j/2]+j%2]
				}
			}
		}
		blocks[t] = ldl.Block{Index: index, Values: values}
	}
	f, err := sys.factor(blocks)
	if err != nil {
		return nil, fmt.Errorf("conformal map: %w", err)
	}
	f.Solve(right)
	for i, at := range sys.place {
		if at >= 0 {
			x[i] = right[at]
		}
	}
	return s.scaled(x), nil
}

// scaled gives the flat piece the surface's area.
func (s *skin) scaled(x []float64) []float64 {
	flat, full := 0.0, 0.0
	for t := range s.tris {
		a, b, c, d := s.gradient(t, x)
		flat += s.tris[t].area * (a*d - b*c)
		full += s.tris[t].area
	}
	scale := math.Sqrt(full / math.Abs(flat))
	for i := range x {
		x[i] *= scale
	}
	return x
}

package flatten

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/ldl"
)

// The strain energy of a triangle, over its area, is the square of its map's
// distance from the nearest turn: (large-1)² + (small-1)² of its scales.
func (s *skin) energy(x []float64) float64 {
	sum := 0.0
	for t := range s.tris {
		large, small := s.scales(t, x)
		sum += s.tris[t].area * ((large-1)*(large-1) + (small-1)*(small-1))
	}
	return sum
}

// slope is the energy's derivative by the triangle's gradient (a, b, c, d), and
// its second derivative 2·(I - weight·k·kᵀ), which is kept from being negative.
func (s *skin) slope(t int, x []float64) (first [4]float64, k [4]float64, weight float64) {
	a, b, c, d := s.gradient(t, x)
	sum := math.Hypot(a+d, c-b) // of the scales
	cos, sin := (a+d)/sum, (c-b)/sum
	if sum == 0 {
		cos, sin = 1, 0
	}
	first = [4]float64{2 * (a - cos), 2 * (b + sin), 2 * (c - sin), 2 * (d - cos)}
	// The turn's own derivative, of length 1.
	k = [4]float64{-sin / math.Sqrt2, -cos / math.Sqrt2, cos / math.Sqrt2, -sin / math.Sqrt2}
	return first, k, min(1, 2/sum)
}

// relax moves the points to the least energy by Newton's method with a shortened
// step where the full one does not help. The axis keeps its start and direction.
func (s *skin) relax(x []float64) (steps int, err error) {
	const most = 200
	sys := newSystem(len(x), 2*s.p, 2*s.p+1, 2*s.q+1)
	size := 0.0
	for t := range s.tris {
		size += s.tris[t].area
	}
	size = math.Sqrt(size)
	energy := s.energy(x)
	for steps = 1; steps <= most; steps++ {
		blocks, right := s.linear(sys, x)
		f, err := sys.factor(blocks)
		if err != nil {
			return steps, fmt.Errorf("least strain: %w", err)
		}
		gain := 0.0 // that the linear law promises, twice
		push := append([]float64(nil), right...)
		f.Solve(right)
		longest := 0.0
		for i := range right {
			gain += right[i] * push[i]
			longest = max(longest, math.Abs(right[i]))
		}
		if longest <= 1e-13*size {
			return steps, nil
		}
		step := 1.0
		for {
			next := s.energyAfter(sys, x, right, step)
			if next <= energy-1e-4*step*gain || longest*step <= 1e-9*size && next <= energy*(1+1e-12)+1e-28*size*size {
				energy = next
				break
			}
			if step /= 2; step < 1e-10 {
				return steps, nil // no lower: rounding is all that is left
			}
		}
		sys.move(x, right, step)
		if longest*step <= 1e-11*size {
			return steps, nil
		}
	}
	return most, fmt.Errorf("least strain: not found in %d steps: cut the surface into more panels", most)
}

func (s *skin) energyAfter(sys *system, x, move []float64, step float64) float64 {
	moved := append([]float64(nil), x...)
	sys.move(moved, move, step)
	return s.energy(moved)
}

func (s *system) move(x, move []float64, step float64) {
	for i, at := range s.place {
		if at >= 0 {
			x[i] += step * move[at]
		}
	}
}

// linear is Newton's system at x: second derivatives, and the pull down.
func (s *skin) linear(sys *system, x []float64) (blocks []ldl.Block, right []float64) {
	blocks = make([]ldl.Block, len(s.tris))
	right = make([]float64, sys.n)
	for t := range s.tris {
		tri := &s.tris[t]
		first, k, weight := s.slope(t, x)
		var pull, turn [6]float64
		for i := range 3 {
			pull[2*i] = first[0]*tri.dx[i] + first[1]*tri.dy[i]
			pull[2*i+1] = first[2]*tri.dx[i] + first[3]*tri.dy[i]
			turn[2*i] = k[0]*tri.dx[i] + k[1]*tri.dy[i]
			turn[2*i+1] = k[2]*tri.dx[i] + k[3]*tri.dy[i]
		}
		values := make([]float64, 36)
		index := sys.index(tri)
		for i := range 6 {
			for j := range 6 {
				v := -weight * turn[i] * turn[j]
				if i%2 == j%2 {
					v += tri.dx[i/2]*tri.dx[j/2] + tri.dy[i/2]*tri.dy[j/2]
				}
				values[6*i+j] = 2 * tri.area * v
			}
			if index[i] >= 0 {
				right[index[i]] -= tri.area * pull[i]
			}
		}
		blocks[t] = ldl.Block{Index: index, Values: values}
	}
	return blocks, right
}

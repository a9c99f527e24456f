package balance

import (
	"fmt"
	"math"
	"sync"

	"tautline/stdlib/internal/ldl"
	"tautline/stdlib/internal/vector"
)

// Vec is a point or a force in space.
type Vec = vector.Vector

// A System is what is to be balanced: elements between points, dead loads, and
// which directions of which points are unknown.
type System struct {
	X        []Vec // where the points are
	Patches  []Patch
	Segments []Segment
	Load     []Vec
	Held     []Span         // ways in which each point is held
	unknown  [][3]int       // of each point, along x, y and z or its frame, -1 where it is held or carries nothing
	frames   map[int][3]Vec // of points that are held askew
	unknowns int

	blocks []ldl.Block
	plan   *ldl.Plan
	tau    float64 // tension and
	size   float64 // extent that the damping is measured by

	damping float64 // of the search
}

// Number gives the unknowns their numbers. A point that no element reaches is
// left where it is.
func (s *System) Number(holds []Hold) error {
	s.unknown = make([][3]int, len(s.X))
	for _, e := range s.Patches {
		for _, p := range e.Corners {
			s.unknown[p] = [3]int{1, 1, 1}
		}
	}
	for _, e := range s.Segments {
		for _, p := range e.Corners {
			s.unknown[p] = [3]int{1, 1, 1}
		}
	}
	for p, u := range s.unknown {
		if u[0] == 0 && s.Load[p] != (Vec{}) {
			return fmt.Errorf("load at point %d: no triangle and no cable reaches it", p)
		}
	}
	s.hold(holds)
	for p := range s.unknown {
		for d, is := range s.unknown[p] {
			s.unknown[p][d] = -1
			if is != 0 {
				s.unknown[p][d] = s.unknowns
				s.unknowns++
			}
		}
	}
	if s.unknowns == 0 {
		return fmt.Errorf("supports: they hold every point, want some free to move")
	}
	return nil
}

// pull is the elastic energy, and by how much elements pull points against the
// loads: what is out of balance. weight is the sum of the sizes of the forces at
// the point where that is greatest.
func (s *System) pull(x []Vec) (energy float64, out []Vec, weight float64) {
	energies := make([]float64, len(s.Patches))
	pulls := make([][3]Vec, len(s.Patches))
	shared(len(s.Patches), func(i int) {
		e := &s.Patches[i]
		energies[i], pulls[i] = e.pull(x)
		if e.Pressure != 0 {
			push := e.Push(x)
			for k := range pulls[i] {
				pulls[i][k] = pulls[i][k].Minus(push)
			}
		}
	})
	out = make([]Vec, len(x))
	sizes := make([]float64, len(x))
	add := func(p int, f Vec) {
		out[p] = out[p].Plus(f)
		sizes[p] += f.Length()
	}
	for i, e := range s.Patches {
		energy += energies[i]
		for k, p := range e.Corners {
			add(p, pulls[i][k])
		}
	}
	for i := range s.Segments {
		e := &s.Segments[i]
		part, at := e.pull(x)
		energy += part
		add(e.Corners[0], at[0])
		add(e.Corners[1], at[1])
	}
	for p, l := range s.Load {
		if l != (Vec{}) {
			add(p, l.Times(-1))
		}
		weight = math.Max(weight, sizes[p])
	}
	return energy, out, weight
}

// Work is what pressure and loads do on the straight way from x to x + d. The
// pressure's force is of the second degree in the way, so Simpson's rule is exact.
func (s *System) Work(x, d []Vec) float64 {
	sum := 0.0
	for p, l := range s.Load {
		sum += l.Dot(d[p])
	}
	at := make([]Vec, len(x))
	for _, c := range []struct{ way, share float64 }{{0, 1.0 / 6}, {0.5, 4.0 / 6}, {1, 1.0 / 6}} {
		for p := range x {
			at[p] = x[p].Plus(d[p].Times(c.way))
		}
		for i := range s.Patches {
			if e := &s.Patches[i]; e.Pressure != 0 {
				push := e.Push(at)
				for _, p := range e.Corners {
					sum += c.share * push.Dot(d[p])
				}
			}
		}
	}
	return sum
}

// Stiffness assembles the stiffness at x with damping.
func (s *System) Stiffness(damping float64) *ldl.Matrix {
	if s.blocks == nil {
		s.blocks = make([]ldl.Block, len(s.Patches)+len(s.Segments))
		for i := range s.blocks {
			corners := []int(nil)
			if i < len(s.Patches) {
				corners = s.Patches[i].Corners[:]
			} else {
				corners = s.Segments[i-len(s.Patches)].Corners[:]
			}
			b := &s.blocks[i]
			for _, p := range corners {
				b.Index = append(b.Index, s.unknown[p][:]...)
			}
			b.Values = make([]float64, len(b.Index)*len(b.Index))
		}
	}
	shared(len(s.blocks), func(i int) {
		k := s.blocks[i].Values
		if i >= len(s.Patches) {
			e := &s.Segments[i-len(s.Patches)]
			e.stiffen(s.X, damping*s.tau, k)
			s.turn(e.Corners[:], &s.blocks[i])
			return
		}
		clear(k)
		e := &s.Patches[i]
		e.smooth(damping*s.tau, damping*s.tau/(s.size*s.size), k)
		e.stiffen(s.X, k)
		s.turn(e.Corners[:], &s.blocks[i])
	})
	return ldl.Assemble(s.unknowns, s.blocks)
}

// shared does work i of n on two goroutines, each work with its own result.
func shared(n int, work func(i int)) {
	var wait sync.WaitGroup
	wait.Go(func() {
		for i := range n / 2 {
			work(i)
		}
	})
	for i := n / 2; i < n; i++ {
		work(i)
	}
	wait.Wait()
}

// Free lists the numbers of the unknowns out of vectors at points.
func (s *System) Free(v []Vec) []float64 {
	out := make([]float64, s.unknowns)
	for p, u := range s.unknown {
		at := v[p]
		if axes, turned := s.frames[p]; turned {
			at = along(axes, at)
		}
		for d, n := range u {
			if n >= 0 {
				out[n] = at[d]
			}
		}
	}
	return out
}

// spread is the reverse of Free: 0 where a point is held.
func (s *System) spread(v []float64) []Vec {
	out := make([]Vec, len(s.X))
	for p, u := range s.unknown {
		for d, n := range u {
			if n >= 0 {
				out[p][d] = v[n]
			}
		}
		if axes, turned := s.frames[p]; turned {
			out[p] = back(axes, out[p])
		}
	}
	return out
}

// Place is the number of point p among those that are free every way, -1 if it is
// not free.
func (s *System) Place(p int) int {
	if u := s.unknown[p][0]; u >= 0 {
		return u / 3
	}
	return -1
}

// Unknowns counts the unknowns.
func (s *System) Unknowns() int { return s.unknowns }

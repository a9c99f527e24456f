package surface

import (
	"fmt"
	"math"
	"sync"

	"tautline/stdlib/internal/ldl"
)

// A system is what is to be balanced: elements between points, dead loads, and
// which directions of which points are unknown.
type system struct {
	x        []vec // where the points are
	patches  []patch
	segments []segment
	load     []vec
	unknown  [][3]int // of each point, -1 where it is held or carries nothing
	unknowns int

	blocks []ldl.Block
	plan   *ldl.Plan
	tau    float64 // tension that the damping is measured by
}

// number gives the unknowns their numbers. A point that no element reaches is
// left where it is.
func (s *system) number(supports []Support) error {
	s.unknown = make([][3]int, len(s.x))
	for _, e := range s.patches {
		for _, p := range e.corners {
			s.unknown[p] = [3]int{1, 1, 1}
		}
	}
	for _, e := range s.segments {
		for _, p := range e.corners {
			s.unknown[p] = [3]int{1, 1, 1}
		}
	}
	for p, u := range s.unknown {
		if u[0] == 0 && s.load[p] != (vec{}) {
			return fmt.Errorf("load at point %d: no triangle and no cable reaches it", p)
		}
	}
	for _, g := range supports {
		for _, p := range g.Points {
			for d, free := range []bool{g.FreeX, g.FreeY, g.FreeZ} {
				if !free {
					s.unknown[p][d] = 0
				}
			}
		}
	}
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
func (s *system) pull(x []vec) (energy float64, out []vec, weight float64) {
	energies := make([]float64, len(s.patches))
	pulls := make([][3]vec, len(s.patches))
	shared(len(s.patches), func(i int) {
		e := &s.patches[i]
		energies[i], pulls[i] = e.pull(x)
		if e.pressure != 0 {
			push := e.push(x)
			for k := range pulls[i] {
				pulls[i][k] = pulls[i][k].minus(push)
			}
		}
	})
	out = make([]vec, len(x))
	sizes := make([]float64, len(x))
	add := func(p int, f vec) {
		out[p] = out[p].plus(f)
		sizes[p] += f.length()
	}
	for i, e := range s.patches {
		energy += energies[i]
		for k, p := range e.corners {
			add(p, pulls[i][k])
		}
	}
	for i := range s.segments {
		e := &s.segments[i]
		part, at := e.pull(x)
		energy += part
		add(e.corners[0], at[0])
		add(e.corners[1], at[1])
	}
	for p, l := range s.load {
		if l != (vec{}) {
			add(p, l.times(-1))
		}
		weight = math.Max(weight, sizes[p])
	}
	return energy, out, weight
}

// work is what the pressure does on the straight way from x to x + d. Its force
// is of the second degree in the way, so Simpson's rule is exact.
func (s *system) work(x, d []vec) float64 {
	sum := 0.0
	at := make([]vec, len(x))
	for _, c := range []struct{ way, share float64 }{{0, 1.0 / 6}, {0.5, 4.0 / 6}, {1, 1.0 / 6}} {
		for p := range x {
			at[p] = x[p].plus(d[p].times(c.way))
		}
		for i := range s.patches {
			if e := &s.patches[i]; e.pressure != 0 {
				push := e.push(at)
				for _, p := range e.corners {
					sum += c.share * push.dot(d[p])
				}
			}
		}
	}
	return sum
}

// stiffness assembles the stiffness at x with damping.
func (s *system) stiffness(damping float64) *ldl.Matrix {
	if s.blocks == nil {
		s.blocks = make([]ldl.Block, len(s.patches)+len(s.segments))
		for i := range s.blocks {
			corners := []int(nil)
			if i < len(s.patches) {
				corners = s.patches[i].corners[:]
			} else {
				corners = s.segments[i-len(s.patches)].corners[:]
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
		if i >= len(s.patches) {
			s.segments[i-len(s.patches)].stiffen(s.x, damping, k)
			return
		}
		clear(k)
		s.patches[i].smooth(damping, k)
		s.patches[i].stiffen(s.x, k)
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

// free lists the numbers of the unknowns out of vectors at points.
func (s *system) free(v []vec) []float64 {
	out := make([]float64, s.unknowns)
	for p, u := range s.unknown {
		for d, n := range u {
			if n >= 0 {
				out[n] = v[p][d]
			}
		}
	}
	return out
}

// spread is the reverse of free: 0 where a point is held.
func (s *system) spread(v []float64) []vec {
	out := make([]vec, len(s.x))
	for p, u := range s.unknown {
		for d, n := range u {
			if n >= 0 {
				out[p][d] = v[n]
			}
		}
	}
	return out
}

// balance moves the points until no force is out of balance, or the steps are
// used up: by Newton's method, damped so that each step lowers the energy.
//
// Source: Levenberg-Marquardt damping as trust region: Nocedal and Wright,
// Numerical Optimization, chapters 4 and 10.
func (s *system) balance(tol float64, steps int) (taken int, rest, weight float64) {
	energy, out, weight := s.pull(s.x)
	s.tau = s.tensionScale(out)
	damping := 1.0
	for taken = 0; ; taken++ {
		g := s.free(out)
		rest = ldl.Most(g)
		if rest <= tol*weight || taken == steps {
			return taken, rest, weight
		}
		k := s.stiffness(damping * s.tau)
		if s.plan == nil {
			s.plan = ldl.Analyse(k)
		}
		f, err := s.plan.Factor(k, 0)
		if err != nil || f.Minus > 0 {
			damping = math.Max(damping*5, 1e-6)
			continue
		}
		step := make([]float64, len(g))
		for i, v := range g {
			step[i] = -v
		}
		f.Solve(step)
		d := s.spread(step)
		next := make([]vec, len(s.x))
		for p := range next {
			next[p] = s.x[p].plus(d[p])
		}
		nextEnergy, nextOut, nextWeight := s.pull(next)
		gain := energy - nextEnergy + s.work(s.x, d)
		for p, l := range s.load {
			gain += l.dot(d[p])
		}
		promise := 0.0 // of the quadratic model, damping left out
		kd := make([]float64, len(g))
		k.Mul(kd, step)
		for i := range g {
			promise -= g[i]*step[i] + kd[i]*step[i]/2
		}
		better := ldl.Most(s.free(nextOut)) < rest
		blurred := promise <= 1e-12*(math.Abs(energy)+math.Abs(nextEnergy)) // too small a gain to be seen in the energy
		switch {
		case gain >= 0.75*promise || blurred && better:
			damping /= 8
		case gain >= 0.1*promise:
		case gain > 1e-4*promise:
			damping *= 4
		default:
			damping *= 8
			continue
		}
		if damping < 1e-9 {
			damping = 1e-9
		}
		s.x, energy, out, weight = next, nextEnergy, nextOut, nextWeight
	}
}

// tensionScale is a tension of the order that loads will bring about.
func (s *system) tensionScale(out []vec) float64 {
	forces := 0.0
	for _, f := range out {
		forces += f.length()
	}
	low, high := s.x[0], s.x[0]
	for _, v := range s.x {
		for d := range 3 {
			low[d], high[d] = math.Min(low[d], v[d]), math.Max(high[d], v[d])
		}
	}
	size := high.minus(low).length()
	for _, e := range s.patches {
		forces = math.Max(forces, e.film*size)
	}
	if forces == 0 {
		return 1
	}
	return forces / size
}

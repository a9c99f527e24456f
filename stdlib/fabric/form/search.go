package form

import (
	"fmt"
	"math"
	"sync"

	"tautline/stdlib/internal/ldl"
	"tautline/stdlib/internal/vector"
)

// vec is a point or a force in space.
type vec = vector.Vector

// A system is what is to be balanced: elements between points, dead loads, and
// which directions of which points are unknown.
type system struct {
	x        []vec // where the points are
	patches  []patch
	segments []segment
	load     []vec
	unknown  [][3]int       // of each point, along x, y and z or its frame, -1 where it is held or carries nothing
	held     []span         // ways in which each point is held
	frames   map[int][3]vec // of points that are held askew
	unknowns int

	blocks []ldl.Block
	plan   *ldl.Plan
	tau    float64 // tension and
	size   float64 // extent that the damping is measured by
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
	s.hold(supports)
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
				pulls[i][k] = pulls[i][k].Minus(push)
			}
		}
	})
	out = make([]vec, len(x))
	sizes := make([]float64, len(x))
	add := func(p int, f vec) {
		out[p] = out[p].Plus(f)
		sizes[p] += f.Length()
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
			add(p, l.Times(-1))
		}
		weight = math.Max(weight, sizes[p])
	}
	return energy, out, weight
}

// work is what pressure and loads do on the straight way from x to x + d. The
// pressure's force is of the second degree in the way, so Simpson's rule is exact.
func (s *system) work(x, d []vec) float64 {
	sum := 0.0
	for p, l := range s.load {
		sum += l.Dot(d[p])
	}
	at := make([]vec, len(x))
	for _, c := range []struct{ way, share float64 }{{0, 1.0 / 6}, {0.5, 4.0 / 6}, {1, 1.0 / 6}} {
		for p := range x {
			at[p] = x[p].Plus(d[p].Times(c.way))
		}
		for i := range s.patches {
			if e := &s.patches[i]; e.pressure != 0 {
				push := e.push(at)
				for _, p := range e.corners {
					sum += c.share * push.Dot(d[p])
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
			e := &s.segments[i-len(s.patches)]
			e.stiffen(s.x, damping*s.tau, k)
			s.turn(e.corners[:], &s.blocks[i])
			return
		}
		clear(k)
		e := &s.patches[i]
		e.smooth(damping*s.tau, damping*s.tau/(s.size*s.size), k)
		e.stiffen(s.x, k)
		s.turn(e.corners[:], &s.blocks[i])
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

// spread is the reverse of free: 0 where a point is held.
func (s *system) spread(v []float64) []vec {
	out := make([]vec, len(s.x))
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

// A place is where the points are in the search.
type place struct {
	x      []vec
	energy float64 // elastic
	out    []vec   // forces out of balance
	rest   float64 // greatest of them at an unknown
	weight float64 // greatest sum of the sizes of forces at a point
}

func (s *system) at(x []vec) place {
	energy, out, weight := s.pull(x)
	return place{x, energy, out, ldl.Most(s.free(out)), weight}
}

// balance moves the points until no force is out of balance, or the steps are
// used up: by Newton's method, damped and shortened so that each step lowers the
// energy.
//
// Source: Nocedal and Wright, Numerical Optimization, chapters 3, 4 and 10.
func (s *system) balance(tol float64, steps int) (end place, taken int, status Status) {
	now := s.at(s.x)
	s.measure(now.out)
	first, damping := now.x, 1.0
	for now.rest > tol*now.weight {
		switch {
		case taken == steps:
			return now, taken, Stopped
		case farthest(first, now.x) > 50*s.size:
			return now, taken, RunAway
		}
		taken++
		k := s.stiffness(damping)
		if s.plan == nil {
			s.plan = ldl.Analyse(k)
		}
		f, err := s.plan.Factor(k, 0)
		if err != nil || f.Minus > 0 { // the energy has no least place near by
			damping = math.Max(damping*8, 1e-6)
			continue
		}
		step := s.free(now.out)
		for i := range step {
			step[i] = -step[i]
		}
		f.Solve(step)
		next, share, good := s.shorten(now, step, k)
		switch {
		case share == 0:
			damping *= 16
			continue
		case share < 1:
			damping *= 2
		case good:
			damping = math.Max(damping/8, 1e-9)
		}
		now, s.x = next, next.x
	}
	return now, taken, Balanced
}

// farthest is the longest way from a point to where it is in another place.
func farthest(a, b []vec) float64 {
	most := 0.0
	for p := range a {
		most = math.Max(most, b[p].Minus(a[p]).Length())
	}
	return most
}

// shorten goes along a step as far as lowers the energy: a share of 1 or of halves
// of it, 0 when none does. good says that the whole step gained what its
// quadratic model promised.
func (s *system) shorten(now place, step []float64, k *ldl.Matrix) (next place, share float64, good bool) {
	ks := make([]float64, len(step))
	k.Mul(ks, step)
	force := s.free(now.out)
	slope, bend := 0.0, 0.0
	for i, v := range step {
		slope -= force[i] * v
		bend += ks[i] * v
	}
	d := s.spread(step)
	for share = 1; share > 1e-3; share /= 2 {
		part := make([]vec, len(d))
		x := make([]vec, len(d))
		for p := range d {
			part[p] = d[p].Times(share)
			x[p] = now.x[p].Plus(part[p])
		}
		next = s.at(x)
		gain := now.energy - next.energy + s.work(now.x, part)
		promise := share*slope - share*share*bend/2
		if promise <= 1e-12*(math.Abs(now.energy)+math.Abs(next.energy)) { // a gain too small to be seen
			if next.rest < now.rest {
				return next, share, share == 1
			}
			continue
		}
		if gain >= 0.1*promise {
			return next, share, share == 1 && gain >= 0.7*promise
		}
	}
	return now, 0, false
}

// measure takes the extent of the points and a tension of the order that the loads
// will bring about.
func (s *system) measure(out []vec) {
	low, high := s.x[0], s.x[0]
	for _, v := range s.x {
		for d := range 3 {
			low[d], high[d] = math.Min(low[d], v[d]), math.Max(high[d], v[d])
		}
	}
	s.size = high.Minus(low).Length()
	for _, f := range out {
		s.tau += f.Length() / s.size
	}
	for _, e := range s.patches {
		s.tau = math.Max(s.tau, e.film)
	}
	if s.tau == 0 {
		s.tau = 1
	}
}

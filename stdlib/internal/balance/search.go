package balance

import (
	"math"

	"tautline/stdlib/internal/ldl"
)

// Status says how a search for balance ended.
type Status string

// How a search ended.
const (
	Balanced Status = "balanced" // no force is out of balance beyond the tolerance
	Stopped  Status = "stopped"  // the steps were used up before
	RunAway  Status = "run away" // a point moved fifty times the extent: nothing holds the load
)

// A Place is where the points are in the search.
type Place struct {
	X      []Vec
	Energy float64 // elastic
	Out    []Vec   // forces out of balance
	Rest   float64 // greatest of them at an unknown
	Weight float64 // greatest sum of the sizes of forces at a point
}

// At is the place with the points at x.
func (s *System) At(x []Vec) Place {
	energy, out, weight := s.pull(x)
	return Place{x, energy, out, ldl.Most(s.Free(out)), weight}
}

// patience is how many steps Newton's method alone may take over loose cloth; of few
// triangles, whose steps cost little and whose folds are no finer than they, more.
const patience = 30

// Balance moves the points until no force is out of balance, the greatest at most
// tol of the greatest pull at a point, or the steps are used up. floor is the line
// force that was left across wrinkles, 0 where Newton's method alone was enough.
//
// Cloth that is loose and not in balance after 30 steps or more begins anew, so soft that it
// strains by some 0.1, and is made as stiff as it is in parts, each from the form
// before, with a floor: the wrinkles find their place while they are shallow. The
// floor is taken away at the end where a form without it lies near by.
func (s *System) Balance(tol float64, steps int) (end Place, taken int, floor float64, status Status) {
	first := s.X
	s.Measure()
	s.damping = 1
	end, taken, status = s.descend(first, tol, min(max(patience, 30000/max(1, len(s.Patches))), steps))
	if status != Stopped || taken == steps {
		return end, taken, 0, status
	}
	if end.Rest > 1e-3*end.Weight && s.loose() {
		s.X, s.damping = first, 1
		var more int
		more, floor = s.stiffenUp(first, steps-taken)
		taken += more
	}
	end, more, status := s.descend(first, tol, steps-taken)
	taken += more
	if floor > 0 && status == Balanced {
		bare, more, ok := s.bare(first, end, tol, steps-taken)
		taken += more
		if ok {
			return bare, taken, 0, Balanced
		}
	}
	return end, taken, floor, status
}

// bare goes on from a form without its floor. ok says that this found balance and
// turned no triangle over; otherwise the form stays as it was.
func (s *System) bare(first []Vec, from Place, tol float64, steps int) (end Place, taken int, ok bool) {
	laws := make([]Law, len(s.Patches))
	for i := range s.Patches {
		laws[i] = s.Patches[i].Law
		s.Patches[i].Law.Floor = 0
	}
	s.damping = 1e-3
	end, taken, status := s.descend(first, tol, min(patience, steps))
	ok = status == Balanced
	for i := range s.Patches {
		e := &s.Patches[i]
		ok = ok && e.side(from.X, 0).Cross(e.side(from.X, 1)).Dot(e.side(end.X, 0).Cross(e.side(end.X, 1))) > 0
	}
	if !ok {
		s.X = from.X
		for i, l := range laws {
			s.Patches[i].Law = l
		}
	}
	return end, taken, ok
}

// stiffenUp brings the cloth near its form from soft to stiff, and gives it a floor.
func (s *System) stiffenUp(first []Vec, steps int) (taken int, floor float64) {
	laws := make([]Law, len(s.Patches))
	for i, e := range s.Patches {
		laws[i] = e.Law
	}
	for soft := s.softness(); soft < 1; soft *= 8 {
		floor = s.floor()
		for i, l := range laws {
			s.Patches[i].Law = l.softer(soft, floor)
		}
		_, more, _ := s.descend(first, 1e-3, steps-taken)
		taken += more
		s.damping = 1e-3
	}
	floor = s.floor()
	for i, l := range laws {
		s.Patches[i].Law = l.softer(1, floor)
	}
	return taken, floor
}

// floor is the line force to be left across wrinkles, a share of the mean pull.
//
// Where only the meridians of a balloon carry, cloth without a floor may slide round
// it at no cost, gather in folds at some lines of the mesh, and fold back over itself
// there to hold more air than any real one could: without a floor that is the least
// energy, on a fine mesh the more so. What such a fold gains is as its depth times its
// width, what it costs against a floor as its depth; so a floor that falls a little
// more slowly than the size of the triangles forbids it, and vanishes as the mesh is
// refined. The numbers 0.4 and 0.6 are by trial on discs of 8 to 32 rings.
func (s *System) floor() float64 {
	area, count, pull := 0.0, 0.0, 0.0
	for i := range s.Patches {
		if e := &s.Patches[i]; e.Film == 0 && e.Area > 0 {
			force, _, _ := e.Law.Respond(Strain(e.Stretch(s.X)))
			_, high := Principal(force, 1)
			area, count, pull = area+e.Area, count+1, pull+e.Area*high
		}
	}
	mean := pull / area
	if mean == 0 { // it lies as cut
		mean = s.tau / 2
	}
	return 0.4 * mean * math.Pow(math.Sqrt(area/count)/s.size, 0.6)
}

// softness is the share of its stiffness with which the cloth strains by some 0.1.
func (s *System) softness() float64 {
	most := 0.0
	for _, e := range s.Patches {
		most = max(most, e.Law.Warp, e.Law.Weft)
	}
	return 10 * s.tau / most
}

// loose reports whether more than a twentieth of the cloth is wrinkled or slack.
func (s *System) loose() bool {
	whole, loose := 0.0, 0.0
	for i := range s.Patches {
		if e := &s.Patches[i]; e.Film == 0 {
			whole += e.Area
			if e.Area > 0 && e.Law.State(Strain(e.Stretch(s.X))) != Taut {
				loose += e.Area
			}
		}
	}
	return loose > whole/20
}

// descend is Newton's method, damped and shortened so that each step lowers the
// energy.
//
// Source: Nocedal and Wright, Numerical Optimization, chapters 3, 4 and 10.
func (s *System) descend(first []Vec, tol float64, steps int) (end Place, taken int, status Status) {
	now := s.At(s.X)
	failed := 0.0 // damping that was too little
	for now.Rest > tol*now.Weight {
		switch {
		case taken == steps:
			return now, taken, Stopped
		case farthest(first, now.X) > 50*s.size:
			return now, taken, RunAway
		}
		taken++
		k := s.Stiffness(s.damping)
		if s.plan == nil {
			s.plan = ldl.Analyse(k)
		}
		f, err := s.plan.Factor(k, 0)
		if err != nil || f.Minus > 0 { // the energy has no least place near by
			failed = s.damping
			s.damping = math.Max(s.damping*8, 1e-6)
			continue
		}
		step := s.Free(now.Out)
		for i := range step {
			step[i] = -step[i]
		}
		f.Solve(step)
		next, share, good := s.shorten(now, step, k)
		switch {
		case share == 0:
			s.damping *= 16
			continue
		case share < 1:
			s.damping *= 2
		case good && s.damping/8 > failed:
			s.damping = math.Max(s.damping/8, 1e-9)
		case good: // less was too little a while ago
			s.damping, failed = s.damping/2, failed/4
		}
		now, s.X = next, next.X
	}
	return now, taken, Balanced
}

// farthest is the longest way from a point to where it is in another Place.
func farthest(a, b []Vec) float64 {
	most := 0.0
	for p := range a {
		most = math.Max(most, b[p].Minus(a[p]).Length())
	}
	return most
}

// shorten goes along a step as far as lowers the energy: a share of 1 or of halves
// of it, 0 when none does. good says that the whole step gained what its
// quadratic model promised.
func (s *System) shorten(now Place, step []float64, k *ldl.Matrix) (next Place, share float64, good bool) {
	ks := make([]float64, len(step))
	k.Mul(ks, step)
	force := s.Free(now.Out)
	slope, bend := 0.0, 0.0
	for i, v := range step {
		slope -= force[i] * v
		bend += ks[i] * v
	}
	d := s.spread(step)
	for share = 1; share > 1e-3; share /= 2 {
		part := make([]Vec, len(d))
		x := make([]Vec, len(d))
		for p := range d {
			part[p] = d[p].Times(share)
			x[p] = now.X[p].Plus(part[p])
		}
		next = s.At(x)
		gain := now.Energy - next.Energy + s.Work(now.X, part)
		promise := share*slope - share*share*bend/2
		if promise <= 1e-12*(math.Abs(now.Energy)+math.Abs(next.Energy)) { // a gain too small to be seen
			if next.Rest < now.Rest {
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

// Measure takes the extent of the points and a tension of the order that the loads
// will bring about.
func (s *System) Measure() {
	low, high := s.X[0], s.X[0]
	for _, v := range s.X {
		for d := range 3 {
			low[d], high[d] = math.Min(low[d], v[d]), math.Max(high[d], v[d])
		}
	}
	s.size = high.Minus(low).Length()
	for _, f := range s.At(s.X).Out {
		s.tau += f.Length() / s.size
	}
	for _, e := range s.Patches {
		s.tau = math.Max(s.tau, e.Film)
	}
	if s.tau == 0 {
		s.tau = 1
	}
}

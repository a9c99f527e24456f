package tether

import "math"

// The movement u of a rigid body, three ways and three turns, is where the energy
// of its one-way springs is least under the load f:
//
//	E(u) = Σ max(0, p - k·b·u)²/(2·k) + Σ friction - f·u
//
// b is the wrench of a unit force of the spring on the body. E is convex and its
// gradient piecewise linear, so Newton's method on the springs that act, with a
// line search, comes to the least energy in a few steps; without friction it ends
// there exactly. A direction along which E falls without end is a movement that
// nothing stops.

type vector [6]float64

func dot(a, b *vector) float64 {
	return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] + a[3]*b[3] + a[4]*b[4] + a[5]*b[5]
}

func (a *vector) add(s float64, b *vector) {
	for i := range a {
		a[i] += s * b[i]
	}
}

func (a *vector) largest() float64 {
	m := 0.0
	for _, v := range a {
		m = math.Max(m, math.Abs(v))
	}
	return m
}

// A spring pulls or presses one way only: a strap, or a foot on the ground.
type spring struct {
	b    vector
	k, p float64 // stiffness, force at no movement (below 0: slack)
}

func (s *spring) force(u *vector) float64 { return s.p - s.k*dot(&s.b, u) }

// A grip is the friction of a foot: an elastic hold along the ground up to a
// bound.
type grip struct {
	east, north vector
	k, bound    float64
}

// A body is a rigid body between springs and grips. Moments are over, and turns
// times, a length that makes them of the size of forces and ways.
type body struct {
	springs []spring
	grips   []grip
	off     int     // number of the spring that is lost; -1 none
	size    float64 // the length that turns are times
}

// The outcome of a search for equilibrium.
type verdict int

const (
	found     verdict = iota
	lost              // nothing stops the movement
	undecided         // the search did not come to an end
)

const (
	precision = 1e-13 // of the residual force against the forces at work, aimed at
	enough    = 1e-9  // and taken when rounding allows no better
	farthest  = 1e3   // movement over the size of the body that counts as without end
)

// residual is the force that is not in balance, and the size of the forces at
// work.
func (b *body) residual(f, u *vector) (r vector, scale float64) {
	r, scale = *f, f.largest()
	for i := range b.springs {
		s := &b.springs[i]
		if t := s.force(u); t > 0 && i != b.off {
			r.add(t, &s.b)
			scale = math.Max(scale, t)
		}
	}
	for i := range b.grips {
		g := &b.grips[i]
		if g.bound <= 0 {
			continue
		}
		east, north, _ := g.hold(u)
		r.add(-east, &g.east)
		r.add(-north, &g.north)
	}
	return r, scale
}

// hold is the friction against a movement, and how far it is beyond the bound: 1
// or less holds, more slips.
func (g *grip) hold(u *vector) (east, north, over float64) {
	east, north = g.k*dot(&g.east, u), g.k*dot(&g.north, u)
	over = math.Sqrt(east*east+north*north) / g.bound
	if over > 1 {
		east, north = east/over, north/over
	}
	return east, north, over
}

// tangent is the stiffness of the springs that act.
func (b *body) tangent(u *vector) (h [6]vector) {
	outer := func(k float64, x, y *vector) {
		for i := range 6 {
			kx := k * x[i]
			for j := 0; j <= i; j++ {
				h[i][j] += kx * y[j]
			}
		}
	}
	for i := range b.springs {
		if s := &b.springs[i]; i != b.off && s.force(u) >= 0 {
			outer(s.k, &s.b, &s.b)
		}
	}
	for i := range b.grips {
		g := &b.grips[i]
		if g.bound <= 0 {
			continue
		}
		east, north, over := g.hold(u)
		if over <= 1 {
			outer(g.k, &g.east, &g.east)
			outer(g.k, &g.north, &g.north)
			continue
		}
		var across vector // square to the slip, where the hold turns with it
		across.add(-north/g.bound, &g.east)
		across.add(east/g.bound, &g.north)
		outer(g.k/over, &across, &across)
	}
	return h
}

// newton is the step that the tangent asks for. A little is added to its
// diagonal, so that a way which nothing holds gives a very long step.
func newton(h *[6]vector, r *vector) (step vector) {
	most := 0.0
	for i := range 6 {
		most = math.Max(most, h[i][i])
	}
	if most == 0 {
		most = 1
	}
	for i := range 6 {
		h[i][i] += 1e-12 * most
		for j := 0; j <= i; j++ {
			sum := h[i][j]
			for k := range j {
				sum -= h[i][k] * h[j][k]
			}
			if i == j {
				h[i][i] = math.Sqrt(math.Max(sum, 1e-13*most))
			} else {
				h[i][j] = sum / h[j][j]
			}
		}
	}
	for i := range 6 {
		sum := r[i]
		for k := range i {
			sum -= h[i][k] * step[k]
		}
		step[i] = sum / h[i][i]
	}
	for i := 5; i >= 0; i-- {
		sum := step[i]
		for k := i + 1; k < 6; k++ {
			sum -= h[k][i] * step[k]
		}
		step[i] = sum / h[i][i]
	}
	return step
}

// settle moves u to the equilibrium under f, its grips held to their bounds. When
// it is lost, way is the movement that nothing stops.
func (b *body) settle(f, u *vector) (v verdict, way vector) {
	r, scale := b.residual(f, u)
	for range 200 {
		if r.largest() <= precision*scale {
			return found, way
		}
		h := b.tangent(u)
		step := newton(&h, &r)
		along, ok := b.search(f, u, &r, &step)
		if !ok {
			return lost, step
		}
		before := r.largest()
		u.add(along, &step)
		if r, scale = b.residual(f, u); along == 1 && r.largest() >= 0.5*before && r.largest() <= enough*scale {
			return found, way // as close as rounding allows
		}
	}
	if r.largest() <= enough*scale {
		return found, way
	}
	return undecided, way
}

// search is how far to go along a step: to where the energy falls at no more than
// a tenth of its rate at the start. It reports false when the energy falls
// without end.
func (b *body) search(f, u, r, step *vector) (along float64, ok bool) {
	start := dot(r, step)
	rate := func(a float64) float64 {
		at := *u
		at.add(a, step)
		r, _ := b.residual(f, &at)
		return dot(&r, step)
	}
	size := step.largest()
	low, high, atLow, atHigh := 0.0, 1.0, start, rate(1)
	for atHigh > 0.1*start {
		if high*size > farthest*b.size {
			return 0, false
		}
		low, atLow = high, atHigh
		high *= 4
		atHigh = rate(high)
	}
	for range 200 {
		middle := low + (high-low)*atLow/(atLow-atHigh)
		if high > 10*low { // orders of magnitude apart
			middle = math.Sqrt(math.Max(low, 1e-6*high) * high)
		}
		switch at := rate(middle); {
		case math.Abs(at) <= 0.1*start || middle <= low || middle >= high:
			return middle, true
		case at > 0:
			low, atLow, atHigh = middle, at, atHigh/2 // halved, so that no end stays
		default:
			high, atHigh, atLow = middle, at, atLow/2
		}
	}
	return low, true
}

package tether

import "math"

// Friction makes the bound of each foot's grip depend on how the foot presses.
// Energy no longer decides; what is sought is a movement at which bounds and
// pressing agree.

// A floor is the friction of a body's feet: the i-th grip rubs under the spring
// first+i.
type floor struct {
	first int
	mu    []float64
}

// press sets the bounds of the grips to what they may rub with at u.
func (b *body) press(fl floor, u *vector) {
	for i := range b.grips {
		b.grips[i].bound = fl.mu[i] * math.Max(0, b.springs[fl.first+i].force(u))
	}
}

func (b *body) bounds() (bounds []float64) {
	for i := range b.grips {
		bounds = append(bounds, b.grips[i].bound)
	}
	return bounds
}

func (b *body) bind(bounds []float64) {
	for i := range b.grips {
		b.grips[i].bound = bounds[i]
	}
}

// agree moves u to where the forces are in balance with bounds that follow the
// pressing, by Newton's method with steps shortened so that the forces left over
// fall. Where no short step helps, a few whole ones are tried. It reports whether
// it got there.
func (b *body) agree(f, u *vector, fl floor) bool {
	b.press(fl, u)
	r, scale := b.residual(f, u)
	leaps := 5
	for range 60 {
		if r.largest() <= precision*scale {
			return true
		}
		step, ok := eliminate(b.slope(u, fl), r)
		if !ok {
			return false
		}
		before, along := dot(&r, &r), 1.0
		for {
			at := *u
			at.add(along, &step)
			b.press(fl, &at)
			next, size := b.residual(f, &at)
			if dot(&next, &next) <= (1-0.2*along)*before {
				*u, r, scale = at, next, size
				break
			}
			if along /= 2; along < 1e-3 {
				if r.largest() <= enough*scale {
					b.press(fl, u)
					return true
				}
				if leaps--; leaps < 0 {
					return false
				}
				u.add(1, &step)
				b.press(fl, u)
				r, scale = b.residual(f, u)
				break
			}
		}
	}
	return false
}

// relax brings bounds and pressing to agree in turns: the body settles with given
// bounds, the bounds go part of the way to what the pressing allows. It is slower
// than agree and gets there from farther off. The bounds begin high enough for the
// body to settle; where they become so low that it is lost, they go less far, and
// it is lost for good when they can go no farther.
func (b *body) relax(f, u *vector, fl floor) (v verdict, way vector) {
	b.press(fl, u)
	start := *u
	for range 60 {
		if v, way = b.settle(f, u); v == found {
			break
		}
		*u = start
		for i := range b.grips {
			b.grips[i].bound *= 2
		}
	}
	share, last := 1.0, math.Inf(1)
	for round := range 500 {
		if v != found {
			return v, way
		}
		if round%10 == 9 {
			near, bounds := *u, b.bounds()
			if b.agree(f, &near, fl) {
				*u = near
				return found, way
			}
			b.bind(bounds)
		}
		good, at := b.bounds(), *u
		change, scale := 0.0, f.largest()
		want := make([]float64, len(good))
		for i := range b.grips {
			press := math.Max(0, b.springs[fl.first+i].force(u))
			want[i] = fl.mu[i] * press
			change, scale = math.Max(change, math.Abs(want[i]-good[i])), math.Max(scale, press)
		}
		if change <= 1e-10*scale {
			return found, way
		}
		if change > 0.9*last {
			share = math.Max(share/2, 1.0/64)
		}
		last = change
		for part := share; part > 1e-5; part /= 2 {
			for i := range b.grips {
				b.grips[i].bound = good[i] + part*(want[i]-good[i])
			}
			if v, way = b.settle(f, u); v == found {
				break
			}
			*u = at
		}
	}
	return undecided, way
}

// slope is how fast the forces in balance change with the movement, the bounds
// of slipping grips following the pressing.
func (b *body) slope(u *vector, fl floor) [6]vector {
	h := b.tangent(u)
	for i := range 6 {
		for j := range i {
			h[j][i] = h[i][j]
		}
	}
	for i := range b.grips {
		g := &b.grips[i]
		if g.bound <= 0 {
			continue
		}
		east, north, over := g.hold(u)
		if over <= 1 {
			continue
		}
		foot := &b.springs[fl.first+i]
		var rub vector
		rub.add(fl.mu[i]*foot.k*east/g.bound, &g.east)
		rub.add(fl.mu[i]*foot.k*north/g.bound, &g.north)
		for r := range 6 {
			for c := range 6 {
				h[r][c] -= rub[r] * foot.b[c]
			}
		}
	}
	return h
}

// eliminate solves six equations by Gauss's method with pivots from the column.
// It reports false when they have no single solution.
func eliminate(h [6]vector, r vector) (vector, bool) {
	most := 0.0
	for i := range h {
		most = math.Max(most, h[i].largest())
	}
	for n := range 6 {
		pivot := n
		for i := n + 1; i < 6; i++ {
			if math.Abs(h[i][n]) > math.Abs(h[pivot][n]) {
				pivot = i
			}
		}
		if math.Abs(h[pivot][n]) <= 1e-13*most {
			return r, false
		}
		h[n], h[pivot], r[n], r[pivot] = h[pivot], h[n], r[pivot], r[n]
		for i := n + 1; i < 6; i++ {
			share := h[i][n] / h[n][n]
			r[i] -= share * r[n]
			for j := n; j < 6; j++ {
				h[i][j] -= share * h[n][j]
			}
		}
	}
	for n := 5; n >= 0; n-- {
		for j := n + 1; j < 6; j++ {
			r[n] -= h[n][j] * r[j]
		}
		r[n] /= h[n][n]
	}
	return r, true
}

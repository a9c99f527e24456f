package tether

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// drawBody draws a body on straps that point outward and down, and on feet.
func drawBody(t *rapid.T) *body {
	b := &body{off: -1, size: 2}
	number := func(low, high float64, what string) float64 { return rapid.Float64Range(low, high).Draw(t, what) }
	unit := func(r, d [3]float64) vector {
		v := vector(wrenchOf(r, d))
		for i := 3; i < 6; i++ {
			v[i] /= b.size
		}
		return v
	}
	n := rapid.IntRange(4, 9).Draw(t, "straps")
	for i := range n {
		sin, cos := math.Sincos((float64(i) + number(-0.3, 0.3, "bearing")) * 2 * math.Pi / float64(n))
		turn := number(-0.6, 0.6, "splay")
		down := number(0.3, 1, "down")
		d := [3]float64{sin + turn*cos, cos - turn*sin, -down}
		L := math.Sqrt(1 + turn*turn + down*down)
		for k := range d {
			d[k] /= L
		}
		b.springs = append(b.springs, spring{unit([3]float64{2 * sin, 2 * cos, number(0, 1.5, "height")}, d), number(2e4, 4e5, "stiffness"), number(-300, 500, "at rest")})
	}
	for i := range 4 {
		sin, cos := math.Sincos(float64(i)*math.Pi/2 + 0.3)
		at := [3]float64{2 * sin, 2 * cos, 0}
		k := number(1e5, 1e6, "ground")
		b.springs = append(b.springs, spring{unit(at, [3]float64{0, 0, 1}), k, 0})
		b.grips = append(b.grips, grip{unit(at, [3]float64{1, 0, 0}), unit(at, [3]float64{0, 1, 0}), k, 0})
	}
	return b
}

func drawForce(t *rapid.T) (f vector) {
	for i := range f {
		f[i] = rapid.Float64Range(-2000, 2000).Draw(t, "load")
	}
	f[2] -= 3000
	return f
}

// energy is what settle makes least, written down apart from it.
func (b *body) energy(f, u *vector) (e float64) {
	for _, s := range b.springs {
		if t := s.p - s.k*dot(&s.b, u); t > 0 {
			e += t * t / (2 * s.k)
		}
	}
	for _, g := range b.grips {
		way := math.Hypot(dot(&g.east, u), dot(&g.north, u))
		if yield := g.bound / g.k; way <= yield {
			e += g.k * way * way / 2
		} else {
			e += g.bound * (way - yield/2)
		}
	}
	return e - dot(f, u)
}

// In balance, less than 1e-9 of the forces is left over, and no movement nearby
// has less energy.
func TestLeastEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, f := drawBody(t), drawForce(t)
		for i := range b.grips {
			b.grips[i].bound = rapid.Float64Range(0, 500).Draw(t, "bound")
		}
		var u vector
		if v, _ := b.settle(&f, &u); v != found {
			return
		}
		r, scale := b.residual(&f, &u)
		if r.largest() > 1e-9*scale {
			t.Errorf("%g N left over, forces up to %g N", r.largest(), scale)
		}
		least := b.energy(&f, &u)
		for range 20 {
			near := u
			for i := range near {
				near[i] += rapid.Float64Range(-0.05, 0.05).Draw(t, "way")
			}
			if e := b.energy(&f, &near); e < least-1e-12*(math.Abs(least)+scale*u.largest()) {
				t.Errorf("energy %.15g at the equilibrium, %.15g beside it", least, e)
			}
		}
	})
}

// With friction that follows the pressing, no foot rubs with more than its
// coefficient times its pressing, against its movement, and the forces balance.
func TestFrictionFollowsPressing(t *testing.T) {
	agreed := 0
	rapid.Check(t, func(t *rapid.T) {
		b, f := drawBody(t), drawForce(t)
		fl := floor{first: len(b.springs) - 4}
		for range b.grips {
			fl.mu = append(fl.mu, rapid.Float64Range(0.05, 0.6).Draw(t, "friction"))
		}
		var u vector
		if !b.agree(&f, &u, fl) {
			if v, _ := b.relax(&f, &u, fl); v != found {
				return
			}
		}
		agreed++
		left, scale := f, f.largest()
		for _, s := range b.springs {
			T := math.Max(0, s.p-s.k*dot(&s.b, &u))
			left.add(T, &s.b)
			scale = math.Max(scale, T)
		}
		for i, g := range b.grips {
			press := math.Max(0, b.springs[fl.first+i].force(&u))
			east, north := -g.k*dot(&g.east, &u), -g.k*dot(&g.north, &u)
			if rub := math.Hypot(east, north); rub > fl.mu[i]*press {
				east, north = east*fl.mu[i]*press/rub, north*fl.mu[i]*press/rub
			}
			left.add(east, &g.east)
			left.add(north, &g.north)
		}
		if left.largest() > 1e-8*scale { // bounds agree to 1e-10, with levers and four feet
			t.Errorf("%g N left over, forces up to %g N", left.largest(), scale)
		}
	})
	if agreed < 30 {
		t.Errorf("only %d draws came to agree", agreed)
	}
}

package tether_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/anchoring/tether"
	"tautline/stdlib/anchoring/windload"
)

// drawSet draws a set of straps that stand around a body on feet, each strap
// outward and down.
func drawSet(t *rapid.T, least, most int, friction bool) tether.Set {
	s := tether.Set{Density: 1.25, Factors: plain(), Mass: rapid.Float64Range(0, 400).Draw(t, "mass"), Centre: anchoring.Point{Z: rapid.Float64Range(0.1, 2).Draw(t, "centre")}}
	n := rapid.IntRange(least, most).Draw(t, "anchors")
	for i := range n {
		bearing := (float64(i) + rapid.Float64Range(-0.3, 0.3).Draw(t, "bearing")) * 2 * math.Pi / float64(n)
		eye := anchoring.At(bearing, rapid.Float64Range(1, 3).Draw(t, "eye"), rapid.Float64Range(0.2, 2).Draw(t, "height"))
		splay := rapid.Float64Range(0.05, 0.6).Draw(t, "splay") * rapid.SampledFrom([]float64{-1, 1}).Draw(t, "way") // a strap that aims at the axis cannot stop a turn
		out := anchoring.At(bearing+splay, rapid.Float64Range(0.5, 3).Draw(t, "reach"), 0)
		a := tether.Anchor{Name: string(rune('A' + i)), Eye: eye, Ground: anchoring.Point{X: eye.X + out.X, Y: eye.Y + out.Y},
			Holding: rapid.Float64Range(500, 5000).Draw(t, "holding"), Stiffness: rapid.Float64Range(2e4, 4e5).Draw(t, "stiffness")}
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 1:
			a.Pretension = rapid.Float64Range(0, 500).Draw(t, "pretension")
		case 2:
			a.Slack = rapid.Float64Range(0, 0.005).Draw(t, "slack")
		}
		s.Anchors = append(s.Anchors, a)
	}
	mu := 0.0
	if friction {
		mu = rapid.Float64Range(0.05, 0.6).Draw(t, "friction")
	}
	for i := range 4 {
		s.Feet = append(s.Feet, tether.Foot{At: anchoring.At(float64(i)*math.Pi/2+0.3, 2, 0), Stiffness: rapid.Float64Range(1e5, 1e6).Draw(t, "ground"), Friction: mu})
	}
	return s
}

func drawLoad(t *rapid.T) windload.Load {
	force, towards, height := rapid.Float64Range(100, 5000).Draw(t, "force"), rapid.Float64Range(0, 6.28).Draw(t, "towards"), rapid.Float64Range(0, 2).Draw(t, "lever")
	sin, cos := math.Sincos(towards)
	l := windload.Load{East: force * sin, North: force * cos, Lift: rapid.Float64Range(0, 3000).Draw(t, "lift"), AboutUp: rapid.Float64Range(-500, 500).Draw(t, "turn")}
	l.AboutEast, l.AboutNorth = -force*cos*height, force*sin*height
	return l
}

// balance is the largest force or moment that straps, feet without friction,
// weight and load leave over.
func balance(s tether.Set, l windload.Load, h tether.Held) float64 {
	sum := [6]float64{l.East, l.North, l.Lift, l.AboutEast, l.AboutNorth, l.AboutUp}
	put := func(at anchoring.Point, x, y, z float64) {
		for i, v := range [6]float64{x, y, z, at.Y*z - at.Z*y, at.Z*x - at.X*z, at.X*y - at.Y*x} {
			sum[i] += v
		}
	}
	put(s.Centre, 0, 0, -s.Mass*9.80665)
	for i, a := range s.Anchors {
		x, y, z := a.Ground.X-a.Eye.X, a.Ground.Y-a.Eye.Y, a.Ground.Z-a.Eye.Z
		T := h.Tension[i] / math.Sqrt(x*x+y*y+z*z)
		put(a.Eye, T*x, T*y, T*z)
	}
	for i, f := range s.Feet {
		put(f.At, 0, 0, h.Press[i])
	}
	most := 0.0
	for _, v := range sum {
		most = math.Max(most, math.Abs(v))
	}
	return most
}

// In every equilibrium no strap pushes and no foot pulls; the forces balance the
// load; and they are the only ones: all ways to choose which straps and feet act
// are tried, each solved as a linear structure by another method, and just the one
// that was found fits all of them.
func TestOnlyOneEquilibrium(t *testing.T) {
	held, gone := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		set, load := drawSet(t, 3, 5, false), drawLoad(t)
		h, err := set.Under(load)
		if err != nil {
			t.Fatal(err)
		}
		press, ok := calm(set)
		if !ok {
			return // it does not stand on all its feet
		}
		fits := everyChoice(set, load, press)
		if h.State == tether.StateFar {
			return
		}
		if !h.Stands {
			gone++
			if len(fits) > 0 {
				t.Fatalf("got %q, but %v balances the load", h.State, fits[0])
			}
			return
		}
		held++
		force := append(append([]float64{}, h.Tension...), h.Press...)
		scale := 1.0
		for _, f := range force {
			if f < 0 {
				t.Errorf("a strap pushes or a foot pulls: %v", force)
			}
			scale = math.Max(scale, f)
		}
		if left := balance(set, load, h); left > 1e-8*scale { // 1e-9 of the forces, with levers up to some 6 m
			t.Errorf("%g N are not in balance, largest force %g N", left, scale)
		}
		if scale > 1e5 {
			return // straps so badly placed that elimination cannot tell them from none
		}
		if len(fits) == 0 {
			t.Fatalf("no choice of straps and feet balances the load, but %v was found", force)
		}
		for _, fit := range fits {
			for i, f := range fit {
				if math.Abs(f-force[i]) > 1e-6*scale {
					t.Errorf("another choice balances the load, too: %v, found %v", fit, force)
				}
			}
		}
	})
	if held < 5 || gone < 1 {
		t.Errorf("%d held and %d lost: the test does not try both", held, gone)
	}
}

// calm is how the feet press in calm, under weight and pretension, when all do.
func calm(s tether.Set) (press []float64, ok bool) {
	var k [6][7]float64
	k[0][0], k[1][1], k[5][5] = 1e5, 1e5, 1e5 // held
	k[2][6] = -s.Mass * 9.80665
	for _, a := range s.Anchors {
		x, y, z := a.Ground.X-a.Eye.X, a.Ground.Y-a.Eye.Y, a.Ground.Z-a.Eye.Z
		T := a.Pretension / math.Sqrt(x*x+y*y+z*z)
		k[2][6] += T * z
		k[3][6] += T * (a.Eye.Y*z - a.Eye.Z*y)
		k[4][6] += T * (a.Eye.Z*x - a.Eye.X*z)
	}
	for _, f := range s.Feet {
		b := [6]float64{0, 0, 1, f.At.Y, -f.At.X}
		for r := range 6 {
			for c := range 6 {
				k[r][c] += f.Stiffness * b[r] * b[c]
			}
		}
	}
	u, ok := eliminate(k)
	for _, f := range s.Feet {
		press = append(press, -f.Stiffness*(u[2]+f.At.Y*u[3]-f.At.X*u[4]))
		ok = ok && press[len(press)-1] >= 0
	}
	return press, ok
}

// everyChoice solves the body for every choice of acting straps and feet and
// returns the forces of each choice that is consistent: acting ones do not push
// the wrong way, the others would not act. Gauss elimination with full pivoting.
func everyChoice(s tether.Set, l windload.Load, press []float64) (fits [][]float64) {
	type link struct {
		b    [6]float64
		k, p float64
	}
	var links []link
	put := func(at anchoring.Point, x, y, z, k, p float64) {
		links = append(links, link{[6]float64{x, y, z, at.Y*z - at.Z*y, at.Z*x - at.X*z, at.X*y - at.Y*x}, k, p})
	}
	for _, a := range s.Anchors {
		x, y, z := a.Ground.X-a.Eye.X, a.Ground.Y-a.Eye.Y, a.Ground.Z-a.Eye.Z
		L := math.Sqrt(x*x + y*y + z*z)
		put(a.Eye, x/L, y/L, z/L, a.Stiffness, a.Pretension-a.Stiffness*a.Slack)
	}
	for i, f := range s.Feet {
		put(f.At, 0, 0, 1, f.Stiffness, press[i])
	}
	f := [6]float64{l.East, l.North, l.Lift - s.Mass*9.80665, l.AboutEast, l.AboutNorth, l.AboutUp}
choice:
	for mask := range 1 << len(links) {
		var k [6][7]float64
		for i := range 6 {
			k[i][6] = f[i]
		}
		for j, link := range links {
			if mask>>j&1 == 1 {
				for r := range 6 {
					k[r][6] += link.p * link.b[r]
					for c := range 6 {
						k[r][c] += link.k * link.b[r] * link.b[c]
					}
				}
			}
		}
		u, ok := eliminate(k)
		if !ok {
			continue
		}
		forces, scale := make([]float64, len(links)), 1.0
		for j, link := range links {
			forces[j] = link.p
			for r := range 6 {
				forces[j] -= link.k * link.b[r] * u[r]
			}
			scale = math.Max(scale, math.Abs(forces[j]))
		}
		for j := range links {
			if acts := mask>>j&1 == 1; acts && forces[j] < -1e-9*scale || !acts && forces[j] > 1e-9*scale {
				continue choice
			} else if !acts {
				forces[j] = 0
			}
		}
		fits = append(fits, forces)
	}
	return fits
}

// eliminate solves six equations; it reports false when they have no single
// solution.
func eliminate(k [6][7]float64) (u [6]float64, ok bool) {
	var column [6]int
	most := 0.0
	for r := range 6 {
		column[r] = r
		for c := range 6 {
			most = math.Max(most, math.Abs(k[r][c]))
		}
	}
	for n := range 6 {
		pr, pc := n, n
		for r := n; r < 6; r++ {
			for c := n; c < 6; c++ {
				if math.Abs(k[r][c]) > math.Abs(k[pr][pc]) {
					pr, pc = r, c
				}
			}
		}
		if math.Abs(k[pr][pc]) <= 1e-9*most {
			return u, false
		}
		k[n], k[pr] = k[pr], k[n]
		for r := range 6 {
			k[r][n], k[r][pc] = k[r][pc], k[r][n]
		}
		column[n], column[pc] = column[pc], column[n]
		for r := n + 1; r < 6; r++ {
			share := k[r][n] / k[n][n]
			for c := n; c < 7; c++ {
				k[r][c] -= share * k[n][c]
			}
		}
	}
	for n := 5; n >= 0; n-- {
		sum := k[n][6]
		for c := n + 1; c < 6; c++ {
			sum -= k[n][c] * u[column[c]]
		}
		u[column[n]] = sum / k[n][n]
	}
	return u, true
}

package balance

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func someCloth(t *rapid.T) Law {
	warp := rapid.Float64Range(10, 1000).Draw(t, "warp")
	weft := warp * rapid.Float64Range(0.2, 5).Draw(t, "weft over warp")
	poisson := 0.9 * rapid.Float64Range(0, 1).Draw(t, "Poisson's ratio") * math.Min(1, math.Sqrt(warp/weft))
	return Orthotropic(warp, weft, poisson, warp*rapid.Float64Range(0.01, 1).Draw(t, "shear over warp"))
}

// The tension field is the least energy over all contractions into wrinkles: no
// contraction in any direction on a fine grid has less, and across the wrinkles
// there is neither tension nor shear.
func TestTensionFieldHasLeastEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := someCloth(t)
		part := rapid.Float64Range(-1, 1)
		e := Flow{part.Draw(t, "warp strain"), part.Draw(t, "weft strain"), part.Draw(t, "shear strain")}
		if e.dot(e) < 1e-12 {
			t.Skip("strains too small for the tolerances")
		}
		s, _, energy, in := l.relax(e)
		whole := e.dot(l.times(e)) / 2
		least := whole
		for i := range 720 {
			n, _ := across(math.Pi * float64(i) / 720)
			if depth := -n.dot(l.times(e)) / n.dot(l.times(n)); depth > 0 {
				w := Flow{e[0] + depth*n[0], e[1] + depth*n[1], e[2] + depth*n[2]}
				least = math.Min(least, w.dot(l.times(w))/2)
			}
		}
		if in == Slack {
			if _, high := Principal(e, 0.5); high > 1e-12 {
				t.Fatalf("strain %v: slack, though it is stretched by %g somewhere", e, high)
			}
			return
		}
		if energy > least+1e-12*whole || energy < least-1e-4*whole { // the grid's step squared
			t.Fatalf("strain %v: got energy %g, least on the grid %g, without wrinkles %g", e, energy, least, whole)
		}
		if low, high := Principal(s, 1); low < -1e-12*(l.Warp+l.Weft) {
			t.Fatalf("strain %v: got principal forces %g and %g, want no compression", e, low, high)
		}
	})
}

// Forces are the slope of the energy, and the tangent is the slope of the forces,
// by central differences, with a floor and without. No direction carries less than
// the floor, and what carries more follows the law.
func TestForcesAreSlopeOfEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := someCloth(t)
		l.Floor = rapid.Float64Range(0, 0.05).Draw(t, "floor over warp") * l.Warp
		part := rapid.Float64Range(-0.1, 0.1)
		e := Flow{part.Draw(t, "warp strain"), part.Draw(t, "weft strain"), part.Draw(t, "shear strain")}
		s, tangent, _ := l.Respond(e)
		plain := l.times(e)
		if low, _ := Principal(plain, 1); low >= l.Floor && s != plain {
			t.Fatalf("strain %v: got forces %v, want %v: all above the floor", e, s, plain)
		}
		if low, _ := Principal(s, 1); low < l.Floor-1e-12*(l.Warp+l.Weft) {
			t.Fatalf("strain %v: got forces %v, want none below the floor of %g", e, s, l.Floor)
		}
		regime := func(e, s Flow) [2]bool { return [2]bool{s == Flow{l.Floor, l.Floor}, s == l.times(e)} }
		det := l.Warp*l.Weft - l.Cross*l.Cross
		far := func(e Flow) float64 { // from the strains at which the direction of wrinkles is any
			return math.Sqrt(math.Pow(e[0]-l.Floor*(l.Weft-l.Cross)/det, 2) + math.Pow(e[1]-l.Floor*(l.Warp-l.Cross)/det, 2) + e[2]*e[2])
		}
		const h = 1e-7
		for i := range 3 {
			up, down := e, e
			up[i] += h
			down[i] -= h
			su, _, eu := l.Respond(up)
			sd, _, ed := l.Respond(down)
			size := l.Warp + l.Weft
			if got := (eu - ed) / (2 * h); math.Abs(got-s[i]) > 1e-6*size {
				t.Fatalf("strain %v: slope %d of the energy is %g, force %g", e, i, got, s[i])
			}
			if regime(e, s) != regime(up, su) || regime(e, s) != regime(down, sd) || far(e) < 1e-2 {
				continue // the tangent jumps, or turns fast
			}
			for k := range 3 {
				if got := (su[k] - sd[k]) / (2 * h); math.Abs(got-tangent[k][i]) > 1e-4*size {
					t.Fatalf("strain %v: slope %d of force %d is %g, tangent %g", e, i, k, got, tangent[k][i])
				}
			}
		}
	})
}

package form

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func someFabric(t *rapid.T) Fabric {
	warp := rapid.Float64Range(10, 1000).Draw(t, "warp")
	weft := warp * rapid.Float64Range(0.2, 5).Draw(t, "weft over warp")
	return Fabric{Warp: warp, Weft: weft,
		Poisson: 0.9 * rapid.Float64Range(0, 1).Draw(t, "Poisson's ratio") * math.Min(1, math.Sqrt(warp/weft)),
		Shear:   warp * rapid.Float64Range(0.01, 1).Draw(t, "shear over warp")}
}

// The tension field is the least energy over all contractions into wrinkles: no
// contraction in any direction on a fine grid has less, and across the wrinkles
// there is neither tension nor shear.
func TestTensionFieldHasLeastEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := someFabric(t).law()
		part := rapid.Float64Range(-1, 1)
		e := flow{part.Draw(t, "warp strain"), part.Draw(t, "weft strain"), part.Draw(t, "shear strain")}
		if e.dot(e) < 1e-12 {
			t.Skip("strains too small for the tolerances")
		}
		s, _, energy, in := l.respond(e)
		whole := e.dot(l.times(e)) / 2
		least := whole
		for i := range 720 {
			n, _ := across(math.Pi * float64(i) / 720)
			if depth := -n.dot(l.times(e)) / n.dot(l.times(n)); depth > 0 {
				w := flow{e[0] + depth*n[0], e[1] + depth*n[1], e[2] + depth*n[2]}
				least = math.Min(least, w.dot(l.times(w))/2)
			}
		}
		if in == slack {
			if _, high := principal(e, 0.5); high > 1e-12 {
				t.Fatalf("strain %v: slack, though it is stretched by %g somewhere", e, high)
			}
			return
		}
		if energy > least+1e-12*whole || energy < least-1e-4*whole { // the grid's step squared
			t.Fatalf("strain %v: got energy %g, least on the grid %g, without wrinkles %g", e, energy, least, whole)
		}
		if low, high := principal(s, 1); low < -1e-12*(l.warp+l.weft) {
			t.Fatalf("strain %v: got principal forces %g and %g, want no compression", e, low, high)
		}
	})
}

// Forces are the slope of the energy, and the tangent is the slope of the forces,
// by central differences.
func TestForcesAreSlopeOfEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := someFabric(t).law()
		part := rapid.Float64Range(-0.1, 0.1)
		e := flow{part.Draw(t, "warp strain"), part.Draw(t, "weft strain"), part.Draw(t, "shear strain")}
		s, tangent, _, _ := l.respond(e)
		regime := func(e, s flow) [2]bool { return [2]bool{s == flow{}, s == l.times(e)} }
		const h = 1e-7
		for i := range 3 {
			up, down := e, e
			up[i] += h
			down[i] -= h
			su, _, eu, _ := l.respond(up)
			sd, _, ed, _ := l.respond(down)
			size := l.warp + l.weft
			if got := (eu - ed) / (2 * h); math.Abs(got-s[i]) > 1e-6*size {
				t.Fatalf("strain %v: slope %d of the energy is %g, force %g", e, i, got, s[i])
			}
			if regime(e, s) != regime(up, su) || regime(e, s) != regime(down, sd) || math.Sqrt(e.dot(e)) < 1e-2 {
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

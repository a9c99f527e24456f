package anchoring_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// Statics of a box in the design wind of the play-inflatable method, worked by
// hand.
func TestBlock(t *testing.T) {
	b := anchoring.Block{Width: 5, Height: 3, Depth: 4, Mass: 150}
	force := anchoring.PlayInflatableWind().Force(b.Face())
	proof.Near(t, "wind force", force, 1718.780, 1e-6)
	for _, c := range []struct {
		factors            anchoring.Factors
		tipping, slideOver float64
	}{
		{anchoring.AmusementFactors(), 1.051600, 3.505335},
		{anchoring.EquilibriumFactors(), 1.460556, 4.868520},
	} {
		tipping := b.OverturningMoment(force, c.factors) / b.RightingMoment(c.factors)
		proof.Near(t, c.factors.Name+", tipping", tipping, c.tipping, 1e-6)
		sliding := b.SlidingForce(force, c.factors) / b.FrictionForce(0.4, c.factors)
		proof.Near(t, c.factors.Name+", sliding", sliding, c.slideOver, 1e-6)
	}

	f := anchoring.EquilibriumFactors()
	proof.Near(t, "moment without factor", b.OverturningMoment(force, f)/f.Wind, 2578.169, 1e-6)
	proof.Near(t, "weight's moment without factor", b.RightingMoment(f)/f.PermanentFavourable, 2941.995, 1e-6)
	proof.Near(t, "straps against tipping", b.OverturningTension(force, 45*units.Deg, f), 431.144, 1e-6)
	proof.Near(t, "straps against sliding", b.SlidingTension(force, 0.4, 45*units.Deg, f), 2069.409, 1e-6)
	proof.Near(t, "straps against sliding when wet", b.SlidingTension(force, 0.2, 45*units.Deg, f), 2726.356, 1e-6)

	calm := b.OverturningTension(force/10, 45*units.Deg, f) + b.SlidingTension(force/10, 0.4, 45*units.Deg, f)
	proof.Near(t, "straps in a breeze", calm, 0, 0)
	proof.Panics(t, "take the factors of a standard", func() { b.RightingMoment(anchoring.Factors{}) })
	proof.Panics(t, "strap's hold along the ground", func() { b.SlidingTension(force, 0, 90*units.Deg, f) })
}

// With the strap tension that was asked for, the box is just in balance; a
// heavier box or a rougher ground never needs more.
func TestBlockProperties(t *testing.T) {
	f := anchoring.EquilibriumFactors()
	rapid.Check(t, func(t *rapid.T) {
		b := anchoring.Block{
			Width:  rapid.Float64Range(1, 10).Draw(t, "width"),
			Height: rapid.Float64Range(0.5, 5).Draw(t, "height"),
			Depth:  rapid.Float64Range(1, 10).Draw(t, "depth"),
			Mass:   rapid.Float64Range(0, 500).Draw(t, "mass"),
		}
		force := anchoring.PlayInflatableWind().Force(b.Face())
		angle := rapid.Float64Range(0.1, 1.4).Draw(t, "angle")
		mu := rapid.Float64Range(0.05, 1).Draw(t, "mu")

		weight := 0.9 * b.Mass * units.Gn
		if T := b.SlidingTension(force, mu, angle, f); T > 0 {
			held := T*math.Cos(angle) + mu*(weight+T*math.Sin(angle))
			if math.Abs(held-1.5*force) > 1e-9*held {
				t.Errorf("sliding: straps and friction hold %g, want %g", held, 1.5*force)
			}
		}
		if T := b.OverturningTension(force, angle, f); T > 0 {
			held := T*math.Sin(angle)*b.Depth + weight*b.Depth/2
			if pushed := 1.5 * force * b.Height / 2; math.Abs(held-pushed) > 1e-9*held {
				t.Errorf("tipping: straps and weight hold %g, want %g", held, pushed)
			}
		}
		heavier := b
		heavier.Mass += rapid.Float64Range(0, 500).Draw(t, "more mass")
		rougher := mu + rapid.Float64Range(0, 1).Draw(t, "more friction")
		if heavier.OverturningTension(force, angle, f) > b.OverturningTension(force, angle, f) ||
			heavier.SlidingTension(force, mu, angle, f) > b.SlidingTension(force, mu, angle, f) ||
			b.SlidingTension(force, rougher, angle, f) > b.SlidingTension(force, mu, angle, f) {
			t.Error("more mass or friction needs more strap tension")
		}
	})
}

package anchoring_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// Equilibrium of a block under a sloping strap; values computed apart from this
// code.
func TestBallastMass(t *testing.T) {
	proof.Near(t, "weight at 45°", anchoring.BallastWeight(1600, 45*units.Deg, 0.4), 3959.798, 1e-6)
	for _, c := range []struct{ degrees, mu, mass float64 }{
		{45, 0.4, 403.787}, {30, 0.5, 364.169}, {30, 0.4, 434.817}, {0, 0.4, 407.886},
		{60, 0.3, 413.220}, {90, 0.4, 163.155}, {90, 0.05, 163.155},
	} {
		// The masses are printed to a gram, 3e-6 of the smallest.
		proof.Near(t, "mass", anchoring.BallastMass(1600, c.degrees*units.Deg, c.mu), c.mass, 3e-6)
	}
	proof.Panics(t, "anchoring: BallastMass: friction coefficient: got 0, want more than 0", func() { anchoring.BallastMass(1600, 0, 0) })
	proof.Panics(t, "strap angle: got 45, want 0 to 1.57", func() { anchoring.BallastMass(1600, 45, 0.4) })
}

// What 163 kg holds: far less than the 1600 N it is taken for.
func TestSlipTension(t *testing.T) {
	weight := 163 * units.Kg * units.Gn
	for _, c := range []struct{ degrees, tension float64 }{
		{0, 639.394}, {15, 597.869}, {30, 599.792}, {45, 645.885}, {60, 755.418}, {75, 991.017}, {90, 1598.484},
	} {
		proof.Near(t, "slip tension", anchoring.SlipTension(weight, c.degrees*units.Deg, 0.4), c.tension, 1e-6)
	}
	worst := anchoring.WorstStrapAngle(0.4)
	proof.Near(t, "worst angle", worst, 21.8014*units.Deg, 1e-6)
	proof.Near(t, "tension at the worst angle", anchoring.SlipTension(weight, worst, 0.4), 593.662, 1e-6)
	proof.Near(t, "lift alone at 45°", anchoring.LiftTension(weight, 45*units.Deg), 2260.598, 1e-6)
}

// More ballast or more friction never holds less; no angle is worse than the
// worst; what holds the slip tension is the ballast it was asked of; sliding
// comes before lifting.
func TestBallastProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		weight := rapid.Float64Range(10, 2e4).Draw(t, "weight")
		angle := rapid.Float64Range(0.01, math.Pi/2).Draw(t, "angle")
		mu := rapid.Float64Range(0.05, 1).Draw(t, "mu")
		more := rapid.Float64Range(1, 3).Draw(t, "more")
		holds := anchoring.SlipTension(weight, angle, mu)
		atLeast := func(what string, got, least float64) {
			if got < least*(1-1e-12) {
				t.Errorf("%s: got %.15g, want at least %.15g", what, got, least)
			}
		}
		atLeast("more ballast", anchoring.SlipTension(weight*more, angle, mu), holds)
		atLeast("more friction", anchoring.SlipTension(weight, angle, mu*more), holds)
		atLeast("any angle", holds, anchoring.SlipTension(weight, anchoring.WorstStrapAngle(mu), mu))
		atLeast("lifting", anchoring.LiftTension(weight, angle), holds)
		if back := anchoring.BallastWeight(holds, angle, mu); math.Abs(back-weight) > 1e-12*weight {
			t.Errorf("ballast for the slip tension: got %.15g, want %.15g", back, weight)
		}
	})
}

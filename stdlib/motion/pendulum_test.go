package motion_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion"
	"tautline/stdlib/units"
)

// A weight on a rope of 2 m; ratios to the period of small swings from the
// complete elliptic integral, as scipy.special.ellipk gives it. The series
// 1+t²/16+11t⁴/3072 would give 1.176012 at 90°.
func TestRope(t *testing.T) {
	p := motion.Pendulum{Mass: 70, Arm: 2}
	small := p.Period(0)
	proof.Near(t, "small swings", small, 2.83749123, 2e-9) // nine digits
	for degrees, want := range map[float64]float64{20: 1.007669, 30: 1.017409, 45: 1.039973, 90: 1.180341} {
		proof.Near(t, "ratio", p.Period(degrees*deg)/small, want, 5e-7) // seven digits
	}
	// Let go at 60°: √(g·L) at the bottom; the rope there bears 3-2·cos of the
	// weight, on the way 3·cos 30° - 2·cos 60°.
	proof.Near(t, "speed", 2*p.Speed(60*deg, 0), 4.42869055, 2e-9)
	weight := 70 * units.Gn
	proof.Near(t, "at the bottom", p.Pull(60*deg, 0)/weight, 2, 1e-12)
	proof.Near(t, "from level", p.Pull(90*deg, 0)/weight, 3, 1e-12)
	proof.Near(t, "on the way", p.Pull(-60*deg, 30*deg)/weight, 1.598076, 3e-7)
	proof.Near(t, "never there", p.Speed(10*deg, 30*deg), 0, 0)
	proof.Near(t, "let go", p.Pull(60*deg, 60*deg)/weight, 0.5, 1e-12)
}

// A uniform rod of 2 m: hung at its end, half way out, and at L/√12, where the
// period is least.
func TestRod(t *testing.T) {
	rod := func(arm float64) float64 {
		return motion.Pendulum{Mass: 12, Arm: arm, Inertia: 12 * (4.0/12 + arm*arm)}.Period(0)
	}
	proof.Near(t, "at its end", rod(1), 2.31680189, 2e-9)
	proof.Near(t, "half way", rod(0.5), 2.16716973, 2e-9)
	least := 2 / math.Sqrt(12)
	proof.Near(t, "least", rod(least), 2.15602710, 2e-9)
	if rod(least*1.01) < rod(least) || rod(least*0.99) < rod(least) {
		t.Error("another arm gives a shorter period")
	}
}

// The period of a swing of 2 rad found by time steps.
func TestPeriodBySteps(t *testing.T) {
	p := motion.Pendulum{Mass: 50, Arm: 1.2, Inertia: 90}
	bend := func(q float64) float64 { return -50 * units.Gn * 1.2 * math.Sin(q) / 90 }
	q, w, h, quarter := 2.0, 0.0, 1e-5, 0.0
	for q > 0 { // leap frog, second order: 1e-9
		w += h / 2 * bend(q)
		q += h * w
		w += h / 2 * bend(q)
		quarter += h
	}
	quarter += q / -w // back to where it passed the bottom
	proof.Near(t, "period", p.Period(2), 4*quarter, 1e-8)
	proof.Near(t, "speed", p.Speed(2, 0), -w, 1e-8)
	proof.Panics(t, "Pendulum.Period: inertia about the axis: got 1", func() { motion.Pendulum{Mass: 1, Arm: 2, Inertia: 1}.Period(1) })
	proof.Panics(t, "amplitude: got 4", func() { p.Period(4) })
}

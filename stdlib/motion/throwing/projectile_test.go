package throwing_test

import (
	"math"
	"testing"

	"tautline/stdlib/fabric/landing"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion/throwing"
	"tautline/stdlib/units"
)

// Constant acceleration worked outside this code in double precision, with g =
// 9.80665 m/s², to the digits printed.
func TestProjectile(t *testing.T) {
	for _, c := range []struct{ v, deg, h, reach, time, impact, steep float64 }{
		{3, 0, 1.2, 1.484111525, 0.494703842, 5.704030154, 58.268190510},
		{3, 45, 1.2, 1.604235685, 0.756243954, 5.704030154, 68.167248646},
		{3, -20, 1.2, 1.130501506, 0.401018191, 5.704030154, 60.381299936},
		{0, 0, 1.2, 0, 0.494703842, 4.851387430, 90},
		{3, 90, 1.2, 0, 0.887564067, 5.704030154, 90},
		{5, 45, 0, 2.549290532, 0.721048249, 5, 45},
		{3, 27.74185346862755, 1.2, 1.744947608, 0, 5.704030154, 0}, // farthest of this speed and height
		{4, 30.690054090505186, 1.5, 2.748923422, 0, 0, 0},
	} {
		p := throwing.Projectile{Speed: c.v, Angle: c.deg * units.Deg, Height: c.h}
		proof.Near(t, "range", p.Range(), c.reach, 1e-9)
		for _, q := range []struct {
			what      string
			got, want float64
			tol       float64
		}{{"time", p.Time(), c.time, 2e-9}, {"impact", p.Impact(), c.impact, 2e-10}, {"steepness", p.Steepness() / units.Deg, c.steep, 2e-10}} {
			if q.want != 0 {
				proof.Near(t, q.what, q.got, q.want, q.tol)
			}
		}
	}
	// The same from package landing, which asks only for the worst direction.
	worst := landing.Throw{Speed: 3, Height: 1.2}
	best := throwing.Projectile{Speed: 3, Height: 1.2, Angle: worst.Angle()}
	proof.Near(t, "farthest", best.Range(), worst.Reach(), 1e-14)
	proof.Near(t, "as fast", best.Impact(), worst.ImpactSpeed(), 1e-14)
	proof.Near(t, "ceiling", throwing.Projectile{Speed: 3, Height: 1.2}.Ceiling(2), -0.520383, 1e-6)
	// A pendulum of 2 m let go at 60° is at the bottom as fast as after a fall of 1 m.
	proof.Near(t, "pendulum", throwing.Projectile{Height: 2 * (1 - math.Cos(60*units.Deg))}.Impact(), 4.42869055, 1e-8)
	proof.Panics(t, "angle: got 2", func() { throwing.Projectile{Speed: 1, Angle: 2}.Range() })
	proof.Panics(t, "speed: got 0", func() { throwing.Projectile{Height: 1}.Ceiling(1) })
}

// No trajectory passes the ceiling, and at each distance some trajectory touches
// it: the height of many angles, tried one by one.
func TestCeiling(t *testing.T) {
	const v, h = 3.0, 1.2
	for _, x := range []float64{0.2, 0.7, 1.2, 1.7} {
		most := math.Inf(-1)
		for k := -9000; k <= 9000; k++ {
			sin, cos := math.Sincos(float64(k) * 0.01 * units.Deg * 0.9999)
			at := x / (v * cos)
			most = math.Max(most, h+v*sin*at-units.Gn/2*at*at)
		}
		proof.Near(t, "highest", throwing.Projectile{Speed: v, Height: h}.Ceiling(x), most, 1e-6) // half a step of the angle squared, over a height of 0.08 m
	}
}

// A rod of 1.8 m that falls over, followed in small steps until its foot presses no
// more; then the flight of its middle.
func TestTopple(t *testing.T) {
	const l = 0.9
	angle, rate := 1e-6, 0.0
	for last := math.Inf(1); ; {
		const h = 1e-5
		bend := 3 * units.Gn * math.Sin(angle) / (4 * l)
		rate += h * bend
		angle += h * rate
		pressed := units.Gn - l*(bend*math.Sin(angle)+rate*rate*math.Cos(angle)) // over the mass; least where it is none
		if pressed > last && angle > 1 {
			break
		}
		last = pressed
	}
	got := throwing.NewTopple(l)
	proof.Near(t, "angle", got.Angle, angle, 1e-4)
	proof.Near(t, "away", got.Away, l*rate*math.Cos(angle), 3e-4)
	proof.Near(t, "down", got.Down, l*rate*math.Sin(angle), 3e-4)
	proof.Near(t, "out", got.Out, l*math.Sin(angle), 1e-4)
	proof.Near(t, "energy", (got.Away*got.Away+got.Down*got.Down)*2/3, units.Gn*(l-got.Over), 1e-12) // a rod about its end: 4/3 of that of its middle
	flight := throwing.Projectile{Speed: math.Sqrt(units.Gn * l), Angle: -got.Angle, Height: 1 + got.Over}
	proof.Near(t, "reach", got.Reach(1), got.Out+flight.Range(), 1e-12)
	proof.Near(t, "impact", got.Impact(1), flight.Impact(), 1e-12)
	proof.Panics(t, "middle: got 0", func() { throwing.NewTopple(0) })
}

func TestFormulaLines(t *testing.T) {
	p := throwing.Projectile{Speed: 3, Angle: 0.3, Height: 1.2}
	d := throwing.NewTopple(0.9)
	proof.Formulas(t, []proof.Call{
		proof.Of("Projectile.Time", throwing.Projectile.Time, [][]any{{p}}),
		proof.Of("Projectile.Range", throwing.Projectile.Range, [][]any{{p}}),
		proof.Of("Projectile.Impact", throwing.Projectile.Impact, [][]any{{p}}),
		proof.Of("Projectile.Steepness", throwing.Projectile.Steepness, [][]any{{p}}),
		proof.Of("Projectile.Ceiling", throwing.Projectile.Ceiling, [][]any{{p, 1.1}}),
		proof.Of("Topple.Reach", throwing.Topple.Reach, [][]any{{d, 1.1}}),
		proof.Of("Topple.Impact", throwing.Topple.Impact, [][]any{{d, 1.1}}),
		proof.Of("DrawsFor", throwing.DrawsFor, [][]any{{0.99, 0.95}}),
	})
}

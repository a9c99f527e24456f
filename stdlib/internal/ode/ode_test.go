package ode_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/internal/ode"
	"tautline/stdlib/internal/proof"
)

// A mass on a spring: the closed form is a cosine, its first passage through 0 a
// quarter of the period.
func TestOscillator(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(0.1, 100).Draw(t, "angular frequency")
		s := ode.System{
			Derivative: func(_ float64, y, dydt []float64) { dydt[0], dydt[1] = y[1], -w*w*y[0] },
			Scale:      []float64{1, w}, Tolerance: 1e-11,
		}
		run, err := s.Run(0, []float64{1, 0}, 10/w)
		if err != nil {
			t.Fatal(err)
		}
		for i, at := range run.T {
			if y := run.Y[i]; math.Abs(y[0]-math.Cos(w*at)) > 1e-8 || math.Abs(y[1]+w*math.Sin(w*at)) > 1e-8*w {
				t.Fatalf("at %g: got %g, want %g and %g", at, y, math.Cos(w*at), -w*math.Sin(w*at))
			}
		}
		s.Events = []func(float64, []float64) float64{
			func(_ float64, y []float64) float64 { return y[0] + 0.5 },
			func(_ float64, y []float64) float64 { return y[0] },
		}
		run, err = s.Run(0, []float64{1, 0}, 10/w)
		if err != nil {
			t.Fatal(err)
		}
		if at, _ := run.Last(); run.Event != 1 || math.Abs(at*w-math.Pi/2) > 1e-8 {
			t.Errorf("event %d at %g, want 1 at %g", run.Event, at, math.Pi/2/w)
		}
	})
}

// Free fall ends on the ground after √(2h/g), closed form.
func TestFallEndsOnTheGround(t *testing.T) {
	fall := ode.System{
		Derivative: func(_ float64, y, dydt []float64) { dydt[0], dydt[1] = y[1], -9.80665 },
		Events:     []func(float64, []float64) float64{func(_ float64, y []float64) float64 { return y[0] }},
		Scale:      []float64{1, 1}, Tolerance: 1e-9,
	}
	run := proof.Must(fall.Run(0, []float64{2, 0}, 10))(t)
	at, y := run.Last()
	proof.Near(t, "time", at, math.Sqrt(2*2/9.80665), 1e-12)
	proof.Near(t, "speed", y[1], -math.Sqrt(2*2*9.80665), 1e-12)
}

// A pole cannot be stepped over: y' = y² from 1 goes to infinity at t = 1.
func TestStuck(t *testing.T) {
	pole := ode.System{
		Derivative: func(_ float64, y, dydt []float64) { dydt[0] = y[0] * y[0] },
		Scale:      []float64{1}, Tolerance: 1e-9,
	}
	_, err := pole.Run(0, []float64{1}, 2)
	proof.Fails(t, "pole", err, "at 0.99999")
	lost := ode.System{
		Derivative: func(_ float64, y, dydt []float64) { dydt[0] = math.NaN() },
		Scale:      []float64{1}, Tolerance: 1e-9,
	}
	_, err = lost.Run(0, []float64{1}, 2)
	proof.Fails(t, "not a number", err, "no step is short enough")
}

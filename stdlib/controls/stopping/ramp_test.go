package stopping

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion"

	"pgregory.net/rapid"
)

// From 1 rad/s and still speeding up by 2 rad/s², at most 4 rad/s² and 20 rad/s³,
// by hand: 0.3 s until 4 rad/s² of slowing are there, 0.075 s of them, 0.2 s to let
// go; 1·0.3 + 0.045 - 0.09 in the first, from 0.7 rad/s at -4 rad/s² in the second,
// 20·0.2³/6 in the third.
func TestRampByHand(t *testing.T) {
	r := newRamp(motion.AxisState{Position: 5, Speed: 1, Acceleration: 2}, 0, 4, 20)
	proof.Near(t, "time", r.length, 0.575, 1e-12)
	first := 1*0.3 + 2*0.3*0.3/2 - 20*0.3*0.3*0.3/6
	second := 0.7*0.075 - 4*0.075*0.075/2
	proof.Near(t, "angle", r.at(r.length).Position, 5+first+second+20*0.2*0.2*0.2/6, 1e-12)
	proof.Near(t, "in the middle", r.at(0.3).Acceleration, -4, 1e-12)
}

// Without acceleration at the start it is the stop of package motion, which is
// held to closed forms. Whatever the start: it ends as wanted, jumps nowhere,
// keeps the limits once inside, and the mirrored one mirrors it.
func TestRamps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		v, to, a0 := draw("speed", -3, 3), draw("to", -3, 3), draw("acceleration", -6, 6)
		a, j := draw("a", 0.5, 8), draw("j", 2, 80)
		near := func(what string, got, want, bound float64) {
			t.Helper()
			if !(math.Abs(got-want) <= bound) {
				t.Fatalf("%s: got %.12g, want %.12g", what, got, want)
			}
		}
		s, err := motion.NewStop(math.Abs(v), 0, motion.Limits{Speed: 9, Acceleration: a, Jerk: j})
		if err != nil {
			t.Fatal(err)
		}
		plain := newRamp(motion.AxisState{Speed: v}, 0, a, j)
		near("time", plain.length, s.Time, 1e-9)
		near("angle", math.Abs(plain.at(plain.length).Position), s.Angle, 1e-9)
		r := newRamp(motion.AxisState{Speed: v, Acceleration: a0}, to, a, j)
		end := r.at(r.length)
		near("end speed", end.Speed, to, 1e-9)
		near("end acceleration", end.Acceleration, 0, 1e-6) // the root of a difference
		mirror := newRamp(motion.AxisState{Speed: -v, Acceleration: -a0}, -to, a, j)
		near("mirrored", mirror.at(r.length/3).Position, -r.at(r.length/3).Position, 1e-12)
		const n = 300
		before := r.at(0)
		for i := 1; i <= n; i++ {
			at := r.at(r.length * float64(i) / n)
			near("acceleration", at.Acceleration, before.Acceleration, j*r.length/n*(1+1e-9)+1e-9)
			if most := math.Max(a, math.Abs(a0)); math.Abs(at.Acceleration) > most*(1+1e-9) {
				t.Fatalf("got %g rad/s², beyond %g", at.Acceleration, most)
			}
			before = at
		}
	})
}

// No other ramp is faster: with a lower limit of acceleration it takes longer.
func TestRampIsFastest(t *testing.T) {
	start := motion.AxisState{Speed: 2, Acceleration: -1}
	last := 0.0
	for _, a := range []float64{8, 6, 4, 2, 1.2} {
		if length := newRamp(start, 0, a, 30).length; length < last {
			t.Errorf("with %g rad/s²: got %g s, less than with more", a, length)
		} else {
			last = length
		}
	}
}

package exposure_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion/exposure"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

// Sections of a Butterworth low pass of 5 Hz as scipy.signal.butter(4, 5,
// output="sos") prints them, twelve digits.
func TestButterworth(t *testing.T) {
	for _, c := range []struct{ rate, a1, a2, c1, c2, gain float64 }{
		{100, -1.47967421693, 0.555821543282, -1.70096433194, 0.788499739815, 4.16599204407e-4},
		{200, -1.72593339504, 0.747447371908, -1.86380049208, 0.887032999653, 3.12389769171e-5},
		{500, -1.88660958262, 0.890339736284, -1.94921595803, 0.953069895328, 8.98486146397e-7},
		{1000, -1.94263823054, 0.94359727847, -1.97526963485, 0.976244792359, 5.84514243314e-8},
	} {
		f := exposure.RideFilter(c.rate)
		wide, sharp := f.Sections[0], f.Sections[1]
		if wide.A1 < sharp.A1 {
			wide, sharp = sharp, wide
		}
		const tol = 1e-11
		proof.Near(t, "a1", wide.A1, c.a1, tol)
		proof.Near(t, "a2", wide.A2, c.a2, tol)
		proof.Near(t, "a1", sharp.A1, c.c1, tol)
		proof.Near(t, "a2", sharp.A2, c.c2, tol)
		proof.Near(t, "gain", wide.B0*sharp.B0, c.gain, tol)
	}
	proof.Panics(t, "sample 2: got NaN", func() { exposure.RideFilter(100).Apply([]float64{0, math.NaN()}, 0) })
	proof.Panics(t, "sampling rate: got 9, want more than 10", func() { exposure.RideFilter(9) })
}

// Gain, impulse and step response, as scipy.signal.sosfreqz and sosfilt give them.
func TestResponse(t *testing.T) {
	f := exposure.RideFilter(200)
	for hz, want := range map[float64]float64{2: 0.99967698, 5: 0.70710678, 10: 0.06085285, 20: 0.00344215} {
		proof.Near(t, "gain", f.Gain(hz), want, 3e-6) // digits printed
	}
	impulse := make([]float64, 6)
	impulse[0] = 1
	for i, want := range []float64{4.1660e-4, 2.99145e-3, 1.040574e-2, 2.409266e-2, 4.300386e-2, 6.442081e-2} {
		proof.Near(t, "impulse", exposure.RideFilter(100).Apply(impulse, 0)[i], want, 3e-6)
	}
	step := make([]float64, 101)
	for i := range step {
		step[i] = 1
	}
	out := f.Apply(step, 0)
	most := 0.0
	for i, v := range out {
		if v > out[int(most)] {
			most = float64(i)
		}
	}
	proof.Near(t, "highest", most, 35, 0)
	for n, want := range map[int]float64{5: 0.0154796, 10: 0.1234074, 15: 0.3575202, 20: 0.6522873, 30: 1.0632276, 35: 1.1090979, 50: 0.9882520, 100: 0.9977083} {
		proof.Near(t, "step", out[n], want, 3e-6)
	}
	for _, v := range f.Apply(step, 1) { // settled before, nothing moves
		proof.Near(t, "settled", v, 1, 1e-11)
	}
	// A ramp comes out late by the sum of 1/Q over the corner, 0.0831784 s for an
	// analogue filter, which a sampled one comes near at a high rate.
	const rate = 5000
	ramp := make([]float64, 5*rate)
	for i := range ramp {
		ramp[i] = float64(i) / rate
	}
	last := len(ramp) - 1
	proof.Near(t, "delay", ramp[last]-exposure.RideFilter(rate).Apply(ramp, 0)[last], 0.0831784, 5e-6)
}

// invented is no standard's.
var invented = exposure.Curve{
	Direction: "+z", Restraint: "none", Level: []float64{2 * units.Gn, 3 * units.Gn, 4 * units.Gn, 6 * units.Gn}, Time: []float64{40, 12, 4, 1},
	Document: "invented for this test", Clause: "none",
}

func trace(parts ...[2]float64) []float64 {
	var out []float64
	for _, p := range parts {
		for range int(math.Round(p[1] / 0.01)) {
			out = append(out, p[0]*units.Gn)
		}
	}
	return out
}

// By hand: 5 g for half a second within 3.5 g within 2.5 g. The peak counts
// towards the levels that it stands on, and 3.5 g governs.
func TestAssess(t *testing.T) {
	z := trace([2]float64{1, 5}, [2]float64{5, 0.5}, [2]float64{3.5, 2.5}, [2]float64{2.5, 5}, [2]float64{1, 1})
	a := proof.Must(exposure.Assess(z, 0.01, invented))(t)
	proof.Near(t, "utilisation", a.Utilisation, 0.375, 1e-12)
	proof.Near(t, "level", a.Level, 3.5*units.Gn, 1e-12)
	proof.Near(t, "time", a.Time, 3, 1e-12)
	proof.Near(t, "allowed", a.Allowed, 8, 1e-12)
	for g, want := range map[float64]float64{5: 2.5, 3.5: 8, 2.5: 26} {
		proof.Near(t, "allowed", invented.Allowed(g*units.Gn), want, 1e-12)
	}
	for g, want := range map[float64]float64{3: 3, 2.5: 8, 4: 0.5} {
		proof.Near(t, "longest", exposure.Longest(z, 0.01, g*units.Gn), want, 1e-12)
	}
	a = proof.Must(exposure.Assess(trace([2]float64{5, 3}), 0.01, invented))(t)
	proof.Near(t, "too long", a.Utilisation, 1.2, 1e-12)
	a = proof.Must(exposure.Assess(trace([2]float64{1, 1}, [2]float64{6.5, 0.1}), 0.01, invented))(t)
	if !math.IsInf(a.Utilisation, 1) || a.Level != 6.5*units.Gn {
		t.Errorf("above all levels: got %+v", a)
	}
	short := invented
	short.Shortest = 0.2
	if a = proof.Must(exposure.Assess(trace([2]float64{1, 1}, [2]float64{6.5, 0.1}), 0.01, short))(t); a.Utilisation != 0 {
		t.Errorf("shorter than judged: got %+v", a)
	}
	if a = proof.Must(exposure.Assess(trace([2]float64{1, 60}), 0.01, invented))(t); a.Utilisation != 0 || a.Peak != units.Gn {
		t.Errorf("below all levels: got %+v", a)
	}
}

// The quick search finds what trying every level finds.
func TestEveryLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var z []float64
		for _, v := range rapid.SliceOfN(rapid.IntRange(0, 60), 1, 60).Draw(t, "tenths of g") {
			z = append(z, float64(v)/10*units.Gn)
		}
		a, err := exposure.Assess(z, 0.5, invented)
		if err != nil {
			t.Fatal(err)
		}
		most := 0.0
		for _, level := range z {
			most = max(most, exposure.Longest(z, 0.5, level)/invented.Allowed(level))
		}
		if math.Abs(most-a.Utilisation) > 1e-12 {
			t.Fatalf("got %g at %g m/s², every level tried gives %g", a.Utilisation, a.Level, most)
		}
	})
}

func TestAssessAll(t *testing.T) {
	n := 200
	x, y, z := make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range n {
		x[i], y[i], z[i] = -3, 4*math.Sin(float64(i)), 30
	}
	all := proof.Must(exposure.AssessAll(x, y, z, 0.01, []exposure.Curve{invented}, "none"))(t)
	if len(all) != 5 || !all[3].Entered || all[3].Utilisation == 0 || all[3].Source != "invented for this test, none" {
		t.Fatalf("got %+v", all)
	}
	for i, peak := range []float64{-3, 3, 4, 30, -30} {
		proof.Near(t, all[i].Direction, all[i].Peak, peak, 1e-2)
		if i != 3 && (all[i].Entered || all[i].Utilisation != 0 || all[i].Source != "limit to be entered from the bought standard, with edition and clause") {
			t.Errorf("%s: got %+v", all[i].Direction, all[i])
		}
	}
	if all = proof.Must(exposure.AssessAll(x, y, z, 0.01, []exposure.Curve{invented}, "lap bar"))(t); all[3].Entered {
		t.Error("a curve for another restraint was used")
	}
	_, err := exposure.AssessAll(x, y[1:], z, 0.01, nil, "none")
	proof.Fails(t, "lists", err, "got 200, 199 and 200 samples")
	_, err = exposure.AssessAll(nil, nil, nil, 0.01, nil, "none")
	proof.Fails(t, "nothing", err, "got no samples")
	z[3] = math.NaN()
	_, err = exposure.AssessAll(x, y, z, 0.01, nil, "none")
	proof.Fails(t, "not a number", err, "sample 4: got NaN")
}

func TestCurves(t *testing.T) {
	two := proof.Must(exposure.NewCurves([]string{"+z", "+z", "y", "y"}, []string{"none", "none", "none", "none"},
		[]float64{10, 20, 5, 10}, []float64{9, 3, 2, 1}, []string{"A", "A", "A", "A"}, []string{"1", "1", "2", "2"}))(t)
	if len(two) != 2 || two[1].Direction != "y" || two[1].Clause != "2" || two[0].Time[1] != 3 {
		t.Errorf("got %+v", two)
	}
	_, err := exposure.NewCurves([]string{"+z"}, nil, nil, nil, nil, nil)
	proof.Fails(t, "columns", err, "got columns of 1 and 0 rows")
	_, err = exposure.NewCurves([]string{"y", "y"}, []string{"", ""}, []float64{1, 2}, []float64{2, 1}, []string{"A", "B"}, []string{"1", "1"})
	proof.Fails(t, "documents", err, "want one document")
	for _, c := range []struct {
		change func(*exposure.Curve)
		words  string
	}{
		{func(c *exposure.Curve) { c.Direction = "up" }, "direction: want"},
		{func(c *exposure.Curve) { c.Clause = "" }, "want both, from the bought standard"},
		{func(c *exposure.Curve) { c.Time = c.Time[1:] }, "got 4 levels and 3 times"},
		{func(c *exposure.Curve) { c.Time = []float64{1, 2, 3, 4} }, "want rising levels and falling times"},
		{func(c *exposure.Curve) { c.Level = []float64{0, 1, 2, 3} }, "point 1: level: got 0"},
		{func(c *exposure.Curve) { c.Time = []float64{40, 12, 4, 0} }, "point 4: time: got 0"},
		{func(c *exposure.Curve) { c.Shortest = -1 }, "shortest: got -1"},
	} {
		bad := invented
		c.change(&bad)
		_, err := exposure.Assess([]float64{1}, 0.01, bad)
		proof.Fails(t, c.words, err, c.words)
	}
}

func TestDraw(t *testing.T) {
	var s sheet.Sheet
	fig := s.NewFigure("felt", "duration", "acceleration")
	z := trace([2]float64{1, 1}, [2]float64{3, 0.5}, [2]float64{1, 1})
	if err := exposure.Draw(fig, "felt", z, 0.01, invented); err != nil {
		t.Fatal(err)
	}
	c := fig.Curves[0]
	proof.Near(t, "whole trace", float64(c.X[0]), 2.5, 1e-12)
	proof.Near(t, "at its lowest", float64(c.Y[0]), units.Gn, 1e-12)
	proof.Near(t, "peak", float64(c.Y[len(c.Y)-1]), 3*units.Gn, 1e-12)
	if len(fig.Curves) != 2 {
		t.Errorf("got %d curves", len(fig.Curves))
	}
	if err := exposure.Draw(fig, "felt", z, 0.01, exposure.Curve{}); err != nil || len(fig.Curves) != 3 {
		t.Errorf("without a limit: %v, %d curves", err, len(fig.Curves))
	}
}

func BenchmarkApply(b *testing.B) {
	z := make([]float64, 200*180)
	f := exposure.RideFilter(200)
	for b.Loop() {
		f.Apply(z, units.Gn)
	}
}

package vibration_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion/vibration"
	"tautline/stdlib/units"
)

// ISO 2631-1:1997, Table 3 and its one for Wf, by 1000: at nominal frequencies
// the transfer function comes within half a per cent.
func TestWeightings(t *testing.T) {
	for _, c := range []struct {
		w    vibration.Weighting
		hz   float64
		want float64
	}{
		{vibration.Wk(), 0.5, 0.418}, {vibration.Wk(), 1, 0.482}, {vibration.Wk(), 2, 0.531}, {vibration.Wk(), 4, 0.967},
		{vibration.Wk(), 8, 1.036}, {vibration.Wk(), 16, 0.768},
		{vibration.Wd(), 1, 1.0110}, {vibration.Wd(), 2, 0.8902}, {vibration.Wd(), 4, 0.5119}, {vibration.Wd(), 8, 0.2531},
		{vibration.Wf(), 0.1, 0.6951}, {vibration.Wf(), 0.16, 1.0060}, {vibration.Wf(), 0.2, 0.9920}, {vibration.Wf(), 0.25, 0.8543},
		{vibration.Wf(), 0.315, 0.6191}, {vibration.Wf(), 0.5, 0.2239},
	} {
		proof.Near(t, c.w.Name, c.w.Gain(c.hz), c.want, 0.005)
	}
	proof.Near(t, "nothing at rest", vibration.Wk().Gain(0), 0, 0)
	proof.Panics(t, "frequency: got -1", func() { vibration.Wk().Gain(-1) })
}

// A sine of amplitude 1 that the weighting leaves alone for 60 s: closed forms.
func TestDose(t *testing.T) {
	const n, step = 6000, 0.01
	sine := func(hz, amplitude float64) []float64 {
		out := make([]float64, n)
		for i := range out {
			out[i] = units.Gn + amplitude*math.Sin(2*math.Pi*hz*step*float64(i))
		}
		return out
	}
	w := vibration.Wk()
	a := proof.Must(vibration.Weigh(w, sine(2, 1/w.Gain(2)), step))(t)
	proof.Near(t, "rms", a.Rms, 0.7071068, 1e-6)
	proof.Near(t, "crest", a.Crest, math.Sqrt2, 2e-3) // fifty samples a wave miss its top by at most 1-cos(π/50)
	proof.Near(t, "time", a.Duration, 60, 1e-12)
	proof.Near(t, "dose", a.Dose(60).Value, 2.177939, 1e-6)
	proof.Near(t, "estimated", a.Dose(60).Estimated, 2.755186, 1e-6)
	proof.Near(t, "total", vibration.Total(0.3, 0.2, 0.5), 0.710493, 1e-6)
	proof.Near(t, "daily", vibration.Daily(1.2, 2*units.H), 0.6, 1e-12)
	// Vertical 0.2 Hz, 0.5 m/s² rms, 20 min.
	s := proof.Must(vibration.Weigh(vibration.Wf(), sine(0.2, 0.5*math.Sqrt2), step))(t)
	proof.Near(t, "sickness", vibration.Sickness(s.Rms, 20*units.Min), 17.1821, 1e-3)
	proof.Near(t, "illness", vibration.Illness(s.Rms, 20*units.Min), 0.05727, 1e-3)
}

func TestBadSamples(t *testing.T) {
	_, err := vibration.Weigh(vibration.Wk(), []float64{1}, 0.1)
	proof.Fails(t, "count", err, "got 1 samples")
	_, err = vibration.Weigh(vibration.Wk(), []float64{1, math.NaN()}, 0.1)
	proof.Fails(t, "finite", err, "sample 2: got NaN")
	_, err = vibration.Weigh(vibration.Wk(), []float64{1, 2}, 0)
	proof.Fails(t, "step", err, "step: got 0")
	_, err = vibration.Weigh(vibration.Weighting{Name: "W"}, []float64{1, 2}, 1)
	proof.Fails(t, "weighting", err, `weighting "W": low end: got 0`)
}

func TestFormulaLines(t *testing.T) {
	proof.Formulas(t, []proof.Call{
		proof.Of("Total", vibration.Total, [][]any{{0.3, 0.2, 0.5}}),
		proof.Of("Daily", vibration.Daily, [][]any{{1.2, 7200.0}}),
	})
}

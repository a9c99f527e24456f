package vibration

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/dsp/fourier"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Weighed is a weighted vibration in short.
type Weighed struct {
	Rms      units.Acceleration
	Peak     units.Acceleration // greatest, without sign
	Crest    units.Number       // peak over rms; over 9 the rms says too little
	Fourth   units.Acceleration // root mean quad: fourth root of the mean fourth power
	Duration units.Time
	Source   string
}

// Weigh weights equally spaced samples.
//
// The samples are taken as recurring; their mean is taken out. Fewer than two
// samples, samples that are not finite, and a step that is not more than 0 are
// errors.
//
// Source: ISO 2631-1:1997, 6.1 and 6.3 (from memory: verify against the document).
func Weigh(w Weighting, samples []units.Acceleration, step units.Time) (Weighed, error) {
	if err := w.check(); err != nil {
		return Weighed{}, fmt.Errorf("vibration: weighting %q: %w", w.Name, err)
	}
	if err := argument.Positive("vibration: step", step); err != nil {
		return Weighed{}, err
	}
	n := len(samples)
	if n < 2 {
		return Weighed{}, fmt.Errorf("vibration: got %d samples, want two or more", n)
	}
	for i, v := range samples {
		if v-v != 0 {
			return Weighed{}, fmt.Errorf("vibration: sample %d: got %g, want a finite number", i+1, v)
		}
	}
	fft := fourier.NewFFT(n)
	c := fft.Coefficients(nil, samples)
	for i := range c {
		c[i] *= w.transfer(fft.Freq(i) / step)
	}
	if n%2 == 0 { // the highest frequency has no phase
		c[n/2] = complex(real(c[n/2]), 0)
	}
	out := Weighed{Duration: float64(n) * step, Source: w.Source}
	var second, fourth float64
	for _, v := range fft.Sequence(nil, c) {
		v /= float64(n)
		out.Peak = math.Max(out.Peak, math.Abs(v))
		second += v * v
		fourth += v * v * v * v
	}
	out.Rms = math.Sqrt(second / float64(n))
	out.Fourth = math.Pow(fourth/float64(n), 0.25)
	if out.Rms > 0 {
		out.Crest = out.Peak / out.Rms
	}
	return out, nil
}

// A DoseValue is a vibration dose in the document's unit, m/s^1.75, as a number.
type DoseValue struct {
	Value     units.Number // from the fourth powers
	Estimated units.Number // 1.4 times rms times the fourth root of the time; for steady vibration only
}

// Dose is the vibration dose value of a weighted vibration that goes on for a
// time. A time that is not 0 or more panics.
//
// Source: ISO 2631-1:1997, 6.3.2 and Annex B (from memory: verify against the
// document).
func (w Weighed) Dose(duration units.Time) DoseValue {
	argument.Demand("vibration: Weighed.Dose", argument.NotNegative("duration", duration))
	root := math.Pow(duration, 0.25)
	return DoseValue{Value: w.Fourth * root, Estimated: 1.4 * w.Rms * root}
}

// Total is the vibration of all three directions together, for health.
//
//	av = sqrt(1.4*1.4*x*x + 1.4*1.4*y*y + z*z)
//
// x, y and z are weighted rms accelerations of a seated person, 0 or more;
// outside it panics.
//
// Source: ISO 2631-1:1997, 6.5 and 7.2.3 (from memory: verify against the
// document).
func Total(x, y, z units.Acceleration) units.Acceleration {
	argument.Demand("vibration: Total", argument.NotNegative("x", x), argument.NotNegative("y", y), argument.NotNegative("z", z))
	return math.Sqrt(1.4*1.4*x*x + 1.4*1.4*y*y + z*z)
}

// Daily is the vibration over eight hours that is worth as much as one over a
// shorter or longer time.
//
//	A8 = a*sqrt(duration/28800)
//
// a is a weighted rms acceleration; both are 0 or more, outside it panics.
//
// Source: ISO 2631-1:1997, Annex B; directive 2002/44/EC, Annex, B (from memory:
// verify against the documents).
func Daily(a units.Acceleration, duration units.Time) units.Acceleration {
	argument.Demand("vibration: Daily", argument.NotNegative("acceleration", a), argument.NotNegative("duration", duration))
	return a * math.Sqrt(duration/28800)
}

// Sickness is the motion sickness dose value of a vertical sway, in the
// document's unit, m/s^1.5, as a number.
//
// rms is the acceleration weighted with Wf; both are 0 or more, outside it
// panics.
//
// Source: ISO 2631-1:1997, Annex D (from memory: verify against the document).
func Sickness(rms units.Acceleration, duration units.Time) units.Number {
	argument.Demand("vibration: Sickness", argument.NotNegative("rms", rms), argument.NotNegative("duration", duration))
	return rms * math.Sqrt(duration)
}

// Illness is the share of a mixed crowd of adults not used to it that may be sick
// after a vertical sway: a third of the sickness dose, in per cent.
//
// rms is the acceleration weighted with Wf; both are 0 or more, outside it
// panics. It is known for 20 minutes to six hours; for shorter rides it is a
// comparison only.
//
// Source: ISO 2631-1:1997, Annex D (from memory: verify against the document).
func Illness(rms units.Acceleration, duration units.Time) units.Number {
	return Sickness(rms, duration) / 3 * units.Percent
}

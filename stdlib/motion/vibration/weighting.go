package vibration

import (
	"math"
	"math/cmplx"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Weighting is a frequency weighting: band limits, a transition from
// acceleration to velocity, and an upward step. A frequency of 0 leaves its part
// out.
type Weighting struct {
	Name      string
	Low, High units.Frequency // f1 and f2: ends of the band
	F3, F4    units.Frequency // transition; F3 of 0 is endless
	Q4        units.Number
	F5, F6    units.Frequency // step
	Q5, Q6    units.Number
	Source    string
}

const origin = "ISO 2631-1:1997, Annex A, Table A.1 (from memory: verify against the document)"

// Wk is the weighting of the vertical, for seat and feet.
func Wk() Weighting {
	return Weighting{"Wk", 0.4, 100, 12.5, 12.5, 0.63, 2.37, 3.35, 0.91, 0.91, origin}
}

// Wd is the weighting of both horizontal directions at the seat.
func Wd() Weighting {
	return Weighting{Name: "Wd", Low: 0.4, High: 100, F3: 2, F4: 2, Q4: 0.63, Source: origin}
}

// Wf is the weighting of the vertical for motion sickness.
func Wf() Weighting {
	return Weighting{"Wf", 0.08, 0.63, 0, 0.25, 0.86, 0.0625, 0.1, 0.80, 0.80, origin}
}

// Gain is by how much the weighting raises or lowers a frequency.
//
// The frequency is 0 or more; outside it panics, as it does when a frequency or a
// quality of the weighting is not 0 or more.
//
// Source: ISO 2631-1:1997, Annex A (from memory: verify against the document).
func (w Weighting) Gain(frequency units.Frequency) units.Number {
	argument.Demand("vibration: Weighting.Gain", argument.NotNegative("frequency", frequency), w.check())
	return cmplx.Abs(w.transfer(frequency))
}

func (w Weighting) check() error {
	for _, err := range []error{
		argument.Positive("low end", w.Low), argument.Above("high end", w.High, w.Low), argument.NotNegative("f3", w.F3),
		argument.NotNegative("f4", w.F4), argument.NotNegative("f5", w.F5), argument.NotNegative("f6", w.F6),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// transfer is the weighting at a frequency, with its phase.
func (w Weighting) transfer(f float64) complex128 {
	if f == 0 {
		return 0
	}
	p := complex(0, 2*math.Pi*f)
	rate := func(f float64) complex128 { return complex(2*math.Pi*f, 0) }
	second := func(f, q float64) complex128 { // 1 + p/(Q·w) + (p/w)²
		return 1 + p/(rate(f)*complex(q, 0)) + p*p/(rate(f)*rate(f))
	}
	low := rate(w.Low) / p
	h := 1 / (1 + complex(math.Sqrt2, 0)*low + low*low) / second(w.High, math.Sqrt2/2)
	if w.F4 > 0 {
		if w.F3 > 0 {
			h *= 1 + p/rate(w.F3)
		}
		h /= second(w.F4, w.Q4)
	}
	if w.F5 > 0 && w.F6 > 0 {
		h *= second(w.F5, w.Q5) / second(w.F6, w.Q6) * complex(w.F5*w.F5/(w.F6*w.F6), 0)
	}
	return h
}

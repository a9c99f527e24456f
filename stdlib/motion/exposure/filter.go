package exposure

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Filter is a Butterworth low pass of four poles that runs once, forward, over
// equally spaced samples. It is made by Butterworth.
type Filter struct {
	Corner, Rate units.Frequency
	Sections     []Section // two
}

// A Section is one of the two second-order parts of a filter:
// y = B0·x + B1·x₁ + B2·x₂ - A1·y₁ - A2·y₂, where ₁ is one sample and ₂ two
// samples ago.
type Section struct{ B0, B1, B2, A1, A2 units.Number }

// Butterworth is the low pass of four poles whose gain at the corner is 1/√2.
//
// The sampling rate is more than twice the corner; outside it panics.
//
// Source: bilinear transform with the corner pre-warped, derived here; the
// sections have quality factors of 0.541196 and 1.306563.
func Butterworth(corner, rate units.Frequency) Filter {
	argument.Demand("exposure: Butterworth", argument.Positive("corner", corner), argument.Above("sampling rate", rate, 2*corner))
	f := Filter{Corner: corner, Rate: rate}
	k := math.Tan(math.Pi * corner / rate)
	for _, pole := range []float64{1, 3} {
		q := 1 / (2 * math.Cos(pole*math.Pi/8))
		n := 1 / (1 + k/q + k*k)
		f.Sections = append(f.Sections, Section{k * k * n, 2 * k * k * n, k * k * n, 2 * (k*k - 1) * n, (1 - k/q + k*k) * n})
	}
	return f
}

// RideFilter is the filter through which accelerations of rides are read: 5 Hz,
// four poles, once forward.
//
// The sampling rate is more than 10 Hz; outside it panics.
//
// Source: ASTM F2137, edition and clause from memory: verify against the document.
func RideFilter(rate units.Frequency) Filter { return Butterworth(5*units.Hz, rate) }

// Apply runs the filter over samples. before is what was felt for a long time
// before the first sample: one g along z for a rider who sat still.
//
// It panics when the filter was not made by Butterworth or a number is not
// finite.
//
// Source: difference equation of a Section.
func (f Filter) Apply(samples []units.Acceleration, before units.Acceleration) []units.Acceleration {
	argument.Demand("exposure: Filter.Apply", argument.Within("sections", float64(len(f.Sections)), 2, 2), argument.Finite("before", before))
	out := make([]float64, len(samples))
	copy(out, samples)
	for i, x := range samples {
		if x-x != 0 {
			panic(fmt.Sprintf("exposure: Filter.Apply: sample %d: got %g, want a finite number", i+1, x))
		}
	}
	for _, s := range f.Sections {
		// Transposed form. Settled, a section of gain 1 has before everywhere.
		first, second := before*(1-s.B0), before*(s.B2-s.A2)
		for i, x := range out {
			y := s.B0*x + first
			first, second = s.B1*x-s.A1*y+second, s.B2*x-s.A2*y
			out[i] = y
		}
	}
	return out
}

// Gain is by how much the filter lowers a lasting wave of a frequency, 0 or more
// and below half the sampling rate; outside it panics.
//
// Source: bilinear transform of a Butterworth low pass, derived here.
func (f Filter) Gain(frequency units.Frequency) units.Number {
	argument.Demand("exposure: Filter.Gain", argument.Within("frequency", frequency, 0, f.Rate/2))
	ratio := math.Tan(math.Pi*frequency/f.Rate) / math.Tan(math.Pi*f.Corner/f.Rate)
	return 1 / math.Sqrt(1+math.Pow(ratio, 8))
}

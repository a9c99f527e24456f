package contact

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A HeadInjury is the head injury criterion of a blow.
type HeadInjury struct {
	Value      units.Number // in the document's unit, g^2.5·s, as a number
	Start, End units.Time   // of the window that gives it, from the first sample
	Mean       units.Acceleration
}

// NewHeadInjury is the head injury criterion of the resultant acceleration of a
// head in equally spaced samples, over windows of at most a length.
//
// It is the greatest (t₂-t₁)·a^2.5 over all windows, a the mean over the window in
// g, the samples joined by straight lines. Windows are 15 ms or 36 ms in most
// documents; 0 leaves them free. Fewer than two samples, samples below 0 or not
// finite, and a step that is not more than 0 are errors.
//
// Caution: a value below a document's limit, 1000 in most, is no proof of safety:
// at 1000 about one adult in six is gravely hurt (from memory), a child sooner.
//
// Source: definition of the HIC, SAE J885 and EN 1177:2018 (from memory: verify
// against the documents).
func NewHeadInjury(samples []units.Acceleration, step units.Time, window units.Time) (HeadInjury, error) {
	n := len(samples)
	if n < 2 {
		return HeadInjury{}, fmt.Errorf("head injury: got %d samples, want two or more", n)
	}
	for _, err := range []error{argument.Positive("step", step), argument.NotNegative("window", window)} {
		if err != nil {
			return HeadInjury{}, fmt.Errorf("head injury: %w", err)
		}
	}
	sum := make([]float64, n) // integral up to each sample, in g·s
	for i, v := range samples {
		if !(v >= 0) || math.IsInf(v, 1) {
			return HeadInjury{}, fmt.Errorf("head injury: sample %d: got %g, want a finite number, 0 or more", i+1, v)
		}
		if i > 0 {
			sum[i] = sum[i-1] + (samples[i-1]+v)/2*step/units.Gn
		}
	}
	longest := n - 1
	if window > 0 {
		longest = min(longest, int(math.Floor(window/step*(1+1e-9))))
	}
	if longest < 1 {
		return HeadInjury{}, fmt.Errorf("head injury: got a window of %g s and a step of %g s, want a step no longer", window, step)
	}
	var h HeadInjury
	for i := range n {
		for j := i + 1; j <= min(i+longest, n-1); j++ {
			t := float64(j-i) * step
			mean := (sum[j] - sum[i]) / t
			if v := t * mean * mean * math.Sqrt(mean); v > h.Value {
				h = HeadInjury{v, float64(i) * step, float64(j) * step, mean * units.Gn}
			}
		}
	}
	return h, nil
}

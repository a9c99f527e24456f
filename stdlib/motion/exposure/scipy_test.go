package exposure_test

import (
	"fmt"
	"math"
	"os/exec"
	"strings"
	"testing"
	"time"

	"tautline/stdlib/motion/exposure"
	"tautline/stdlib/units"
)

// The ride filter on three minutes of samples at 200 Hz, settled at the start, by
// scipy: the best of five, and the sum of what comes out.
const filtered = `
import time
import numpy as np
from scipy.signal import butter, sosfilt, sosfilt_zi
z = 9.80665*(1 + 0.5*np.sin(0.37*np.arange(200*180)))
sos = butter(4, 5, fs=200, output='sos')
zi = sosfilt_zi(sos)*9.80665
best = 1e9
for _ in range(5):
    start = time.perf_counter()
    out, _ = sosfilt(sos, z, zi=zi)
    best = min(best, time.perf_counter() - start)
print(best, np.abs(out).sum(), out[-1])
`

// BenchmarkAgainstScipy reports how many times as long as scipy the same filter
// takes on the same samples.
func BenchmarkAgainstScipy(b *testing.B) {
	var out []byte
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(python, "-c", "import scipy.signal").Run() == nil {
			var err error
			if out, err = exec.Command(python, "-c", filtered).Output(); err != nil {
				b.Fatalf("scipy: %v", err)
			}
			break
		}
	}
	if out == nil {
		b.Skip("no Python with scipy here")
	}
	var seconds, sum, last float64
	if _, err := fmt.Sscan(strings.TrimSpace(string(out)), &seconds, &sum, &last); err != nil {
		b.Fatal(err)
	}
	z := make([]float64, 200*180)
	for i := range z {
		z[i] = units.Gn * (1 + 0.5*math.Sin(0.37*float64(i)))
	}
	f := exposure.RideFilter(200)
	var got []float64
	start := time.Now()
	for b.Loop() {
		got = f.Apply(z, units.Gn)
	}
	ours := time.Since(start).Seconds() / float64(b.N)
	total := 0.0
	for _, v := range got {
		total += math.Abs(v)
	}
	if math.Abs(total-sum) > 1e-9*sum || math.Abs(got[len(got)-1]-last) > 1e-9*math.Abs(last) {
		b.Errorf("got a sum of %.12g and %.12g at the end, scipy %.12g and %.12g", total, got[len(got)-1], sum, last)
	}
	b.ReportMetric(ours/seconds, "of-scipy")
}

package stopping_test

import (
	"fmt"
	"math"
	"os/exec"
	"testing"
	"time"

	"tautline/stdlib/controls/stopping"
	"tautline/stdlib/motion"
	"tautline/stdlib/units"
)

// The swing of TestBrakedPendulum from the power off to rest, by scipy's solver of
// order 8 with an event at speed 0: each stretch of the brake by itself, the best
// of three rounds of fifty.
const braked = `
import sys, time
import numpy as np
from scipy.integrate import solve_ivp
q0, w0 = float(sys.argv[1]), float(sys.argv[2])
J, lift, way = 6 + 90*0.81 + 5, 90*9.80665*0.9, np.sign(w0)
def slope(t, y):
    brake = 500*min(max((t - 0.03)/0.05, 0), 1)
    return [y[1], (lift*np.sin(y[0]) - way*(20 + brake))/J]
def rest(t, y): return y[1]*way
rest.terminal, rest.direction = True, -1
def stop():
    t, y = 0.0, [q0, w0]
    for end in (0.03, 0.08, 5.0):
        s = solve_ivp(slope, (t, end), y, method='DOP853', rtol=1e-8, atol=1e-10, events=rest)
        t, y = s.t[-1], s.y[:, -1]
        if s.status == 1: break
    return t, y[0]
best = 1e9
for _ in range(3):
    start = time.perf_counter()
    for _ in range(50): t, q = stop()
    best = min(best, (time.perf_counter() - start)/50)
print(best, t, q)
`

// BenchmarkAgainstScipy reports how many times as long as scipy a stop takes that
// both work out: here with three axes and what a seat feels, there one equation.
func BenchmarkAgainstScipy(b *testing.B) {
	c := chain(0)
	c.Bodies = []motion.Body{{Name: "rider", Part: "roll", Mass: 90, At: motion.Point{Z: 0.9}, X: 6, Y: 6, Z: 1}}
	c.Pitch = stopping.Axle{Deceleration: 4, Jerk: 40, Inertia: 5, Friction: 20, Brake: 500, Delay: 0.03, Rise: 0.05}
	c.Notice, c.Control = 0, 0
	ride, err := programme(motion.Level{Pitch: motion.Wave{Amplitude: 13 * deg, Period: 2}}).Ride(c.Base)
	if err != nil {
		b.Fatal(err)
	}
	const moment = 8.05 * units.S
	from := ride.At(moment).Pitch
	out := []byte(nil)
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(python, "-c", "import scipy.integrate").Run() == nil {
			if out, err = exec.Command(python, "-c", braked, fmt.Sprint(from.Position), fmt.Sprint(from.Speed)).Output(); err != nil {
				b.Fatalf("scipy: %v", err)
			}
			break
		}
	}
	if out == nil {
		b.Skip("no Python with scipy here")
	}
	var seconds, rest, at float64
	if _, err := fmt.Sscan(string(out), &seconds, &rest, &at); err != nil {
		b.Fatal(err)
	}
	var s stopping.Course
	start := time.Now()
	for b.Loop() {
		if s, err = c.Stop(ride, moment, stopping.Fault{}); err != nil {
			b.Fatal(err)
		}
	}
	ours := time.Since(start).Seconds() / float64(b.N)
	if end := s.PitchAngle[len(s.PitchAngle)-1]; math.Abs(s.Rest[1]-rest) > 1e-6 || math.Abs(end-at) > 1e-6 {
		b.Errorf("got rest after %g s at %g rad, scipy %g s, %g rad", s.Rest[1], end, rest, at)
	}
	b.ReportMetric(ours/seconds, "of-scipy")
}

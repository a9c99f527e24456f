// Package ode integrates ordinary differential equations with a step that the
// error sets, and finds where a run ends.
//
//	fall := ode.System{
//		Derivative: func(t float64, y, dydt []float64) { dydt[0], dydt[1] = y[1], -9.80665 },
//		Events:     []func(t float64, y []float64) float64{func(t float64, y []float64) float64 { return y[0] }},
//		Scale:      []float64{1, 1},
//		Tolerance:  1e-9,
//	}
//	run, err := fall.Run(0, []float64{2, 0}, 10) // ends on the ground
package ode

import (
	"fmt"
	"math"
)

// A System is dy/dt = f(t, y) with what ends a run of it.
type System struct {
	Derivative func(t float64, y, dydt []float64)
	Tolerance  float64                                // of one step, relative to Scale and y
	Scale      []float64                              // a size of each y below which only its absolute error counts
	Longest    float64                                // longest step; 0 means a hundredth of the run
	Events     []func(t float64, y []float64) float64 // the run ends where one falls from above 0 to 0
}

// A Run is the solution at the steps that were taken.
type Run struct {
	T     []float64
	Y     [][]float64 // one row for each T
	Event int         // what ended the run; -1 when its time was over
}

// Last is the state at the end.
func (r Run) Last() (t float64, y []float64) { return r.T[len(r.T)-1], r.Y[len(r.Y)-1] }

// most steps that a run may take before it counts as stuck.
const most = 1_000_000

// Run integrates from y at the time from until the time to or the first event.
//
// Each step is one of Dormand and Prince's pair of orders 5 and 4, repeated
// shorter until the difference of both is within the tolerance. An event inside
// a step is closed in on by halving the step.
//
// Source: Dormand and Prince, A family of embedded Runge-Kutta formulae, Journal
// of Computational and Applied Mathematics 6 (1980) 19-26; step control as in
// Hairer, Nørsett and Wanner, Solving Ordinary Differential Equations I, II.4.
func (s System) Run(from float64, y []float64, to float64) (Run, error) {
	longest := s.Longest
	if longest == 0 {
		longest = (to - from) / 100
	}
	t, h := from, longest/100
	y = append([]float64(nil), y...)
	steps := newStepper(s, len(y))
	run := Run{T: []float64{t}, Y: [][]float64{y}, Event: -1}
	for range most {
		if t >= to {
			return run, nil
		}
		h = math.Min(h, math.Min(longest, to-t))
		next, off := steps.step(t, y, h)
		if math.IsNaN(off) {
			off = math.Inf(1)
		}
		if off > 1 {
			h *= math.Max(0.2, 0.9*math.Pow(off, -0.2))
			if !(t+h > t) {
				return run, fmt.Errorf("at %g: no step is short enough, the state is %g", t, y)
			}
			continue
		}
		event, share := steps.first(t, y, h, next)
		if event >= 0 {
			next, _ = steps.step(t, y, share*h)
			h *= share
		}
		t, y = t+h, next
		run.T, run.Y = append(run.T, t), append(run.Y, y)
		if event >= 0 {
			run.Event = event
			return run, nil
		}
		h *= math.Min(5, 0.9*math.Pow(math.Max(off, 1e-10), -0.2))
	}
	return run, fmt.Errorf("at %g: not done after %d steps, the state is %g", t, most, y)
}

// first is the event that comes first in a step and the share of the step after
// which it does, -1 if none.
func (s *stepper) first(t float64, y []float64, h float64, next []float64) (event int, share float64) {
	event, share = -1, 1
	for i, f := range s.Events {
		if f(t, y) <= 0 || f(t+h, next) > 0 {
			continue
		}
		low, high := 0.0, 1.0
		for {
			middle := low + (high-low)/2
			if middle <= low || middle >= high {
				break
			}
			at, _ := s.step(t, y, middle*h)
			if f(t+middle*h, at) > 0 {
				low = middle
			} else {
				high = middle
			}
		}
		if event < 0 || high < share {
			event, share = i, high
		}
	}
	return event, share
}

// The pair of Dormand and Prince, table 2: times, weights of the slopes before
// for each stage (the last row makes the step), weights of the error.
var (
	times  = [7]float64{0, 1. / 5, 3. / 10, 4. / 5, 8. / 9, 1, 1}
	stages = [7][6]float64{
		{},
		{1. / 5},
		{3. / 40, 9. / 40},
		{44. / 45, -56. / 15, 32. / 9},
		{19372. / 6561, -25360. / 2187, 64448. / 6561, -212. / 729},
		{9017. / 3168, -355. / 33, 46732. / 5247, 49. / 176, -5103. / 18656},
		{35. / 384, 0, 500. / 1113, 125. / 192, -2187. / 6784, 11. / 84},
	}
	errors = [7]float64{71. / 57600, 0, -71. / 16695, 71. / 1920, -17253. / 339200, 22. / 525, -1. / 40}
)

// A stepper takes steps of a system, with room for the slopes of one step.
type stepper struct {
	System
	slopes [7][]float64
}

func newStepper(s System, size int) *stepper {
	st := &stepper{System: s}
	for i := range st.slopes {
		st.slopes[i] = make([]float64, size)
	}
	return st
}

// step is the state after one step and its error over the tolerance.
func (s *stepper) step(t float64, y []float64, h float64) (next []float64, off float64) {
	next = make([]float64, len(y))
	for i, slope := range s.slopes {
		copy(next, y)
		for j := range i {
			for k := range next {
				next[k] += h * stages[i][j] * s.slopes[j][k]
			}
		}
		s.Derivative(t+times[i]*h, next, slope)
	}
	for k := range next {
		e := 0.0
		for i := range s.slopes {
			e += h * errors[i] * s.slopes[i][k]
		}
		share := math.Abs(e) / (s.Tolerance * (s.Scale[k] + math.Max(math.Abs(y[k]), math.Abs(next[k]))))
		off = math.Max(off, share) // not a number if one is not
	}
	return next, off
}

package exposure

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// A Stay is how long a trace stays at or above a level without a break, at most.
type Stay struct {
	Level units.Acceleration
	Time  units.Time
}

// Longest is the longest time without a break that the samples are at or above a
// level. Each sample stands for one step.
//
// The step is more than 0, the level finite; outside it panics.
//
// Source: derived here.
func Longest(samples []units.Acceleration, step units.Time, level units.Acceleration) units.Time {
	argument.Demand("exposure: Longest", argument.Positive("step", step), argument.Finite("level", level))
	run, most := 0, 0
	for _, v := range samples {
		if run++; v < level {
			run = 0
		}
		most = max(most, run)
	}
	return float64(most) * step
}

// stays are, for each sample, how long the trace stays without a break at or
// above that sample: what can govern lies among them.
func stays(samples []float64, step float64) []Stay {
	// Every sample's run ends where a lower one comes; open holds the samples,
	// each higher than the one before, whose run goes on.
	type start struct {
		level float64
		from  int
	}
	var open []start
	var out []Stay
	shut := func(i int, level float64) (from int) {
		from = i
		for len(open) > 0 && open[len(open)-1].level >= level {
			s := open[len(open)-1]
			open = open[:len(open)-1]
			if s.level > level {
				out = append(out, Stay{s.level, float64(i-s.from) * step})
			}
			from = s.from
		}
		return from
	}
	for i, v := range samples {
		from := shut(i, v)
		open = append(open, start{v, from})
	}
	shut(len(samples), math.Inf(-1))
	return out
}

// An Assessment is a trace held against a limit curve.
type Assessment struct {
	Direction   string
	Entered     bool               // a curve was at hand; if not, nothing is judged
	Peak        units.Acceleration // greatest in the direction
	Level       units.Acceleration // at which time used over time allowed is greatest
	Time        units.Time         // that the trace stays there
	Allowed     units.Time
	Utilisation units.Number // Time over Allowed; infinite above the last level
	Source      string       // document and clause, or that the limit is still to be entered
}

// Assess holds filtered samples of one direction against a limit curve.
//
// At every level that the trace reaches, the longest time without a break at or
// above it is compared with what the curve allows: a peak counts towards the
// lower levels that it stands on. Each sample stands for one step.
//
// No samples, samples that are not finite, a step that is not more than 0 and a
// curve that makes no sense are errors.
//
// Caution: this judges one direction at a time. Documents limit directions
// together, changes of direction and onset too; those rules have to be judged
// from the document.
//
// Source: the curve's document; the comparison is derived here.
func Assess(samples []units.Acceleration, step units.Time, c Curve) (Assessment, error) {
	if err := c.Check(); err != nil {
		return Assessment{}, err
	}
	if err := checkSamples(samples, step); err != nil {
		return Assessment{}, err
	}
	a := Assessment{Direction: c.Direction, Entered: true, Peak: math.Inf(-1), Source: c.Document + ", " + c.Clause}
	for _, s := range stays(samples, step) {
		a.Peak = math.Max(a.Peak, s.Level)
		if s.Time < c.Shortest {
			continue
		}
		allowed := c.allowed(s.Level)
		used := s.Time / allowed
		if used > a.Utilisation || math.IsInf(used, 1) && s.Level > a.Level {
			a.Level, a.Time, a.Allowed, a.Utilisation = s.Level, s.Time, allowed, used
		}
	}
	return a, nil
}

func checkSamples(samples []float64, step float64) error {
	if len(samples) == 0 {
		return fmt.Errorf("exposure: got no samples, want at least one")
	}
	for i, v := range samples {
		if v-v != 0 {
			return fmt.Errorf("exposure: sample %d: got %g, want a finite number", i+1, v)
		}
	}
	return argument.Positive("exposure: step", step)
}

// AssessAll holds filtered accelerations along x, y and z against every curve of
// a restraint. A direction without a curve comes back with Entered false: its
// limit has to be entered from the bought standard.
//
// Lists of different length, and what is an error in Assess, are errors.
//
// Caution: each direction is judged by itself. Documents limit directions
// together, changes of direction and onset too; those rules have to be judged
// from the document.
//
// Source: the curves' documents.
func AssessAll(x, y, z []units.Acceleration, step units.Time, curves []Curve, restraint string) ([]Assessment, error) {
	if len(x) != len(y) || len(x) != len(z) {
		return nil, fmt.Errorf("exposure: got %d, %d and %d samples, want as many along each axis", len(x), len(y), len(z))
	}
	var out []Assessment
	for _, direction := range []string{"+x", "-x", "y", "+z", "-z"} {
		samples := make([]float64, len(x))
		for i := range x {
			samples[i] = directions[direction](x[i], y[i], z[i])
		}
		if err := checkSamples(samples, step); err != nil {
			return nil, err
		}
		a := Assessment{Direction: direction, Peak: peak(samples), Source: "limit to be entered from the bought standard, with edition and clause"}
		for _, c := range curves {
			if c.Direction != direction || c.Restraint != restraint {
				continue
			}
			var err error
			if a, err = Assess(samples, step, c); err != nil {
				return nil, err
			}
		}
		out = append(out, a)
	}
	return out, nil
}

func peak(samples []float64) float64 {
	most := math.Inf(-1)
	for _, v := range samples {
		most = math.Max(most, v)
	}
	return most
}

// Draw draws, over the time, the greatest acceleration that the samples keep up
// that long, and the limit where a curve is given.
//
// The figure's x axis is a time, its y axis an acceleration. What is an error in
// Assess is one here; a curve without a direction is left out.
//
// Source: as Assess.
func Draw(fig *sheet.Figure, name string, samples []units.Acceleration, step units.Time, c Curve) error {
	if err := checkSamples(samples, step); err != nil {
		return err
	}
	fig.Axes("Time", "Acceleration")
	// Of the stays, those that no other outlasts at as high a level.
	longest := map[float64]float64{}
	for _, s := range stays(samples, step) {
		if level, ok := longest[s.Time]; !ok || s.Level > level {
			longest[s.Time] = s.Level
		}
	}
	n := len(samples)
	var times, levels []float64
	top := math.Inf(-1)
	for i := n; i >= 1; i-- {
		if level, ok := longest[float64(i)*step]; ok && level > top {
			top = level
			times, levels = append(times, float64(i)*step), append(levels, level)
		}
	}
	// As a stair: a level that is kept up for long is kept up for less, too.
	var stairX, stairY []float64
	for i := range times {
		if i > 0 {
			stairX, stairY = append(stairX, times[i]), append(stairY, levels[i-1])
		}
		stairX, stairY = append(stairX, times[i]), append(stairY, levels[i])
	}
	fig.Curve(name, append(stairX, 0), append(stairY, top))
	if c.Direction == "" {
		return nil
	}
	if err := c.Check(); err != nil {
		return err
	}
	fig.Curve("allowed, "+c.Document+", "+c.Clause, c.Time, c.Level)
	return nil
}

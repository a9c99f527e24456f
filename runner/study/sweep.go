package study

import (
	"context"
	"fmt"
	"maps"
	"math"
	"slices"

	"tautline/runner/check"
	"tautline/runner/engine"
	"tautline/runner/lower"
	"tautline/runner/outcome"
)

const (
	maxSteps  = 10_000
	interior  = 8    // points put between two that differ, in one round
	fineness  = 1e-6 // of the sweep, to which a turn is found
	maxRounds = 20   // enough for 1e-6 of any sweep six times over; faults can hold it up
)

// Sweep runs prog with steps values of one given, evenly from from to to with
// both ends, and finds where its checks turn: between two values at which a check
// is known and once holds, once fails, it looks closer until the turn is known
// to 1e-6 of the sweep. from and to are in SI base units, in either order. limits
// bound one run; progress, if not nil, hears how many runs are done of how many.
func Sweep(ctx context.Context, plan *check.Plan, prog *lower.Program, given string, from, to float64, steps int, limits engine.Limits, progress func(done, total int)) (*outcome.Swept, error) {
	if _, err := Given(plan, prog, given); err != nil {
		return nil, err
	}
	switch {
	case !finite(from) || !finite(to) || !finite(to-from):
		return nil, fmt.Errorf("sweep of %s: got from %g to %g, want finite values", given, from, to)
	case from == to:
		return nil, fmt.Errorf("sweep of %s: got the same value from and to, want two: say where it begins and where it ends", given)
	case steps < 2 || steps > maxSteps:
		return nil, fmt.Errorf("sweep of %s: got %d steps, want 2 to %d: both ends count", given, steps, maxSteps)
	}
	s := &sweeper{lab: lab{ctx: ctx, prog: prog, limits: limits, progress: progress}, given: given, trials: map[float64]trial{}}
	values := evenly(min(from, to), max(from, to), steps)
	nominal := prog.Givens[given]
	if _, err := s.try(append([]float64{nominal}, values...)); err != nil {
		return nil, err
	}
	if err := standing(s.trials[nominal]); err != nil {
		return nil, err
	}
	swept := s.collect(nominal, values)
	if err := s.findTurns(swept); err != nil {
		return nil, err
	}
	return swept, nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// evenly is n values from low to high, both exactly.
func evenly(low, high float64, n int) []float64 {
	values := make([]float64, n)
	for i := range values {
		values[i] = low + (high-low)*float64(i)/float64(n-1)
	}
	values[n-1] = high
	return values
}

// A sweeper keeps what each value of the given led to.
type sweeper struct {
	lab
	given  string
	trials map[float64]trial
}

// try runs the values that are new, and reports whether any was.
func (s *sweeper) try(values []float64) (bool, error) {
	var fresh []float64
	var variants []engine.Variant
	for _, v := range values {
		if _, ok := s.trials[v]; !ok {
			s.trials[v] = trial{}
			fresh = append(fresh, v)
			variants = append(variants, engine.Variant{s.given: v})
		}
	}
	if len(fresh) == 0 {
		return false, nil
	}
	trials, err := s.run(variants)
	for i, v := range fresh {
		s.trials[v] = trials[i]
	}
	return true, err
}

// collect makes the courses of the checks over the values.
func (s *sweeper) collect(nominal float64, values []float64) *outcome.Swept {
	out := &outcome.Swept{Given: s.given, Nominal: nominal, Values: values}
	all := []trial{s.trials[nominal]}
	for _, v := range values {
		all = append(all, s.trials[v])
		out.Faults = append(out.Faults, s.trials[v].fault)
	}
	for _, id := range allChecks(all) {
		c := &outcome.Course{Check: id, Nominal: all[0].checks[id]}
		for _, t := range all[1:] {
			c.Points = append(c.Points, t.checks[id])
		}
		out.Courses = append(out.Courses, c)
	}
	return out
}

// findTurns looks closer wherever a check turns, at all checks in one round of
// runs, and notes the turns.
func (s *sweeper) findTurns(out *outcome.Swept) error {
	low, high := out.Values[0], out.Values[len(out.Values)-1]
	fine := fineness * (high - low)
	for range maxRounds {
		var closer []float64
		for _, c := range out.Courses {
			for _, b := range s.brackets(c.Check, low, high) {
				if b.high-b.low > fine {
					closer = append(closer, evenly(b.low, b.high, interior+2)...)
				}
			}
		}
		if fresh, err := s.try(closer); err != nil {
			return err
		} else if !fresh {
			break
		}
	}
	for _, c := range out.Courses {
		for _, b := range s.brackets(c.Check, low, high) {
			turn := outcome.Turn{At: b.low, Fails: true}
			if b.rights {
				turn = outcome.Turn{At: b.high}
			}
			c.Turns = append(c.Turns, turn)
		}
	}
	return nil
}

// A bracket is two neighbouring values of which a check holds at one.
type bracket struct {
	low, high float64
	rights    bool // it holds at high
}

// brackets finds where a check turns among the values tried from low to high.
// One where the check is not known is passed over.
func (s *sweeper) brackets(id outcome.CheckID, low, high float64) []bracket {
	var found []bracket
	last, known := 0.0, false
	for _, v := range slices.Sorted(maps.Keys(s.trials)) {
		j := s.trials[v].checks[id]
		if v < low || v > high || !j.Known {
			continue
		}
		if known && j.Holds != s.trials[last].checks[id].Holds {
			found = append(found, bracket{last, v, j.Holds})
		}
		last, known = v, true
	}
	return found
}

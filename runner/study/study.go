// Package study asks of a notebook which given moves which check, and where a
// check first fails.
//
//	swept, err := study.Sweep(ctx, plan, prog, "r", 0.30, 0.45, 21, engine.Limits{}, nil)
//	tol, err := study.Tolerances(ctx, plan, prog, out, 400, 1, engine.Limits{}, nil)
//
// Both run the notebook's program many times with other numbers for its givens
// and compare its checks. What they find is plain data of package outcome.
//
// Invariant: the same program and arguments give the same result, on however
// many processors.
package study

import (
	"context"
	"fmt"

	"tautline/runner/engine"
	"tautline/runner/lower"
	"tautline/runner/outcome"
)

// The most runs that a study makes at a time. More tell no more.
const maxRuns = 100_000

// A trial is what a study keeps of one run.
type trial struct {
	order  []outcome.CheckID
	checks map[outcome.CheckID]outcome.Judged
	fault  string
}

// judge takes the checks of a sample. One put again with the same text, as in a
// loop, is another check.
func judge(s outcome.Sample) trial {
	t := trial{checks: map[outcome.CheckID]outcome.Judged{}, fault: s.Fault}
	count := map[string]int{}
	for _, c := range s.Checks {
		id := outcome.CheckID{What: c.What, Nth: count[c.What]}
		count[c.What]++
		t.order = append(t.order, id)
		t.checks[id] = outcome.Judged{Known: true, Demand: float64(c.Demand), Utilisation: float64(c.Utilisation), Holds: c.Holds}
	}
	return t
}

// A lab runs variants of one program and counts them.
type lab struct {
	ctx         context.Context
	prog        *lower.Program
	limits      engine.Limits
	progress    func(done, total int)
	done, total int
}

// run returns a trial for each variant, in their order.
func (l *lab) run(variants []engine.Variant) ([]trial, error) {
	trials := make([]trial, len(variants))
	l.total += len(variants)
	err := engine.Study(l.ctx, l.prog, variants, l.limits, func(i int, s outcome.Sample) {
		trials[i] = judge(s)
		l.done++
		if l.progress != nil {
			l.progress(l.done, l.total)
		}
	})
	return trials, err
}

// allChecks lists the checks of some trials, those of the first first, each
// further one as it first appears.
func allChecks(trials []trial) []outcome.CheckID {
	var all []outcome.CheckID
	seen := map[outcome.CheckID]bool{}
	for _, t := range trials {
		for _, id := range t.order {
			if !seen[id] {
				seen[id] = true
				all = append(all, id)
			}
		}
	}
	return all
}

// standing refuses a program that does not run with the notebook's own numbers.
func standing(t trial) error {
	if t.fault != "" {
		return fmt.Errorf("the notebook itself does not run to its end: %s", t.fault)
	}
	if len(t.order) == 0 {
		return fmt.Errorf("the notebook checks nothing: say what must hold with sheet.AtMost, sheet.AtLeast, sheet.Within or sheet.Holds")
	}
	return nil
}

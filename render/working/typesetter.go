// Package working sets a calculation line as a reader works it by hand: the
// formula in symbols, the same with numbers put in, the result in its unit, with
// as many digits as give that result again.
package working

import (
	"tautline/render/mathml"
	"tautline/runner/check"
	"tautline/runner/outcome"
	"tautline/stdlib/quantity"
)

// MaxFormula is the width in letters beyond which a formula is set in rows,
// and maxExpanded that beyond which a library function stands as its name.
const (
	MaxFormula  = 64
	maxExpanded = 80
)

// A Typesetter sets what a plan computes, with the values that a run of it gave:
// formulas in symbols and with their numbers put in, results in the unit that a
// reader expects.
type Typesetter struct {
	Plan    *check.Plan
	Out     *outcome.Outcome
	System  quantity.System
	Symbols mathml.Options // to set an expression with its names
}

// New is the typesetter of a run; out may be that of a plan that was not run.
func New(plan *check.Plan, out *outcome.Outcome) *Typesetter {
	ts := &Typesetter{Plan: plan, Out: out}
	ts.Symbols = ts.symbolOptions()
	ts.System, _ = quantity.ParseSystem(plan.Notebook.Title.System)
	return ts
}

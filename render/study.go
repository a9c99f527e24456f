package render

import (
	"fmt"
	"go/ast"
	"html/template"
	"math"
	"slices"
	"strings"

	"tautline/render/mathml"
	"tautline/runner/check"
	"tautline/runner/outcome"
	"tautline/stdlib/quantity"
)

// AssembleStudy makes the study of a notebook's tolerances. checks are those of
// the report that it stands in, to lead to; nil for a page of its own.
func AssembleStudy(plan *check.Plan, out *outcome.Outcome, tol *outcome.Toleranced, checks []*Check) *Study {
	a := newAssembler(newDraft(plan), out)
	s := &Study{Samples: tol.Samples, Seed: tol.Seed, Faulted: tol.Faulted, Fault: tol.Fault, Unvaried: tol.Unvaried}
	var gs []varied
	for _, t := range tol.Givens {
		g := a.varied(t.Given)
		gs = append(gs, g)
		row := &ToleranceGiven{Symbol: g.symbol, Text: g.text, Value: g.exact(t.Value), PlusMinus: g.difference(t.PlusMinus)}
		if checks != nil {
			row.ID = lineID(t.Given)
		}
		s.Givens = append(s.Givens, row)
	}
	anchors := anchorsOf(checks)
	for _, c := range tol.Checks {
		row := &StudyCheck{ID: anchors[c.Check], What: label(c.Check), Nominal: shareOf(c.Nominal), Of: tol.Samples - c.Missing, Fails: c.Fails}
		k, high, worst := c.Worst()
		row.Worst = shareOf(worst)
		if k >= 0 {
			row.By = fmt.Sprintf("%s at %s", gs[k].text, gs[k].end(tol.Givens[k], high))
		}
		row.Greatest = Share{Known: row.Of > 0, Utilisation: c.Greatest, Holds: c.Fails == 0}
		s.Checks = append(s.Checks, row)
		if t := tornado(c, tol.Givens, gs); len(t.Bars) > 0 {
			s.Tornadoes = append(s.Tornadoes, t)
		}
	}
	s.governingFirst(tol)
	return s
}

// governingFirst puts the tornado of the check that governs among those that have
// one in front, the rest by their place in the notebook.
func (s *Study) governingFirst(tol *outcome.Toleranced) {
	var first *Check
	for _, c := range tol.Checks {
		k := &Check{What: label(c.Check), Utilisation: c.Nominal.Utilisation, Holds: c.Nominal.Holds}
		if c.Mover() >= 0 && (first == nil || governs(k, first)) {
			first = k
		}
	}
	for i, t := range s.Tornadoes {
		if t.What == first.What {
			s.Tornadoes = slices.Insert(slices.Delete(s.Tornadoes, i, i+1), 0, t)
			return
		}
	}
}

// tornado gathers the givens that move a check, the farthest first.
func tornado(c *outcome.Sensitivity, tolerances []outcome.Tolerance, gs []varied) *Tornado {
	t := &Tornado{What: label(c.Check), Nominal: c.Nominal.Utilisation}
	var widths []float64
	for k, e := range c.Effects {
		w := c.Width(e)
		if w == 0 {
			continue
		}
		g, tol := gs[k], tolerances[k]
		bar := Bar{Given: fmt.Sprintf("%s %s ± %s", g.text, g.exact(tol.Value), g.difference(tol.PlusMinus)),
			At: [2]string{g.end(tol, false).String(), g.end(tol, true).String()}, Low: math.NaN(), High: math.NaN()}
		if e.Low.Known {
			bar.Low = e.Low.Utilisation
		}
		if e.High.Known {
			bar.High = e.High.Utilisation
		}
		at := 0
		for at < len(widths) && widths[at] >= w {
			at++
		}
		widths = slices.Insert(widths, at, w)
		t.Bars = slices.Insert(t.Bars, at, bar)
	}
	return t
}

// label names a check: by its text, and by its number when others have the same.
func label(id outcome.CheckID) string {
	if id.Nth == 0 {
		return id.What
	}
	return fmt.Sprintf("%s (%d)", id.What, id.Nth+1)
}

// anchorsOf finds the checks of a report as a study names them.
func anchorsOf(checks []*Check) map[outcome.CheckID]string {
	anchors, count := map[outcome.CheckID]string{}, map[string]int{}
	for _, c := range checks {
		anchors[outcome.CheckID{What: c.What, Nth: count[c.What]}] = c.ID
		count[c.What]++
	}
	return anchors
}

// Sentence says how many checks a study found to fail.
func (s *Study) Sentence() string {
	var fail []string
	for _, c := range s.Checks {
		switch {
		case c.Fails > 0:
			fail = append(fail, fmt.Sprintf("%s in %d of %d samples", c.What, c.Fails, c.Of))
		case c.By != "" && c.Worst.Fails():
			fail = append(fail, fmt.Sprintf("%s with %s", c.What, c.By))
		}
	}
	switch {
	case s.Faulted == s.Samples:
		return "No sample could be computed."
	case len(fail) == 0 && s.Faulted > 0:
		return "In the samples that could be computed every check holds."
	case len(fail) == 0:
		return "Within the tolerances every check holds."
	}
	return fmt.Sprintf("Within the tolerances %d of %d checks can fail: %s.", len(fail), len(s.Checks), strings.Join(fail, "; "))
}

// Failing says in how many samples the check fails.
func (c *StudyCheck) Failing() string { return fmt.Sprintf("%d of %d", c.Fails, c.Of) }

// A varied given is one whose number a study changes.
type varied struct {
	symbol template.HTML
	text   string
	unit   quantity.Unit
}

// varied finds how a given is shown: in the unit it was written in.
func (a *assembler) varied(name string) varied {
	f := mathml.Set(ast.NewIdent(name), a.symbols)
	n := a.plan.Names[name]
	v, _ := a.nameValue(n)
	return varied{whole(f), f.Text, a.unitFor(n, a.plan.ObjectMeasure(n.Object), v)}
}

func (g varied) exact(v float64) Quantity { return exactIn(v, g.unit) }

// rounded is a value that was computed, not chosen.
func (g varied) rounded(v float64) Quantity { return quantityIn(v, g.unit) }

// difference shows a width: 5 K for a temperature in °C.
func (g varied) difference(v float64) Quantity { return differenceIn(v, g.unit) }

// differenceIn is a difference of values that are shown in a unit: between
// temperatures it has no zero point.
func differenceIn(v float64, u quantity.Unit) Quantity { return exactIn(v, differenceUnit(u)) }

func differenceUnit(u quantity.Unit) quantity.Unit {
	if u.Offset != 0 {
		u.Offset, u.Symbol = 0, strings.NewReplacer("°C", "K", "°F", "Δ°F").Replace(u.Symbol)
	}
	return u
}

func (g varied) end(t outcome.Tolerance, high bool) Quantity {
	if high {
		return g.exact(t.Value + t.PlusMinus)
	}
	return g.exact(t.Value - t.PlusMinus)
}

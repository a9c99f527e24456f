// Package sensitivity makes what a report says of a study: which given moves which
// check, within the tolerances or along a sweep.
package sensitivity

import (
	"fmt"
	"math"
	"slices"

	"tautline/render/chart"
	"tautline/render/report"
	"tautline/render/working"
	"tautline/runner/check"
	"tautline/runner/outcome"
)

// Tolerances makes the study of a notebook's tolerances. checks are those of
// the report that it stands in, to lead to; nil for a page of its own.
func Tolerances(plan *check.Plan, out *outcome.Outcome, tol *outcome.Toleranced, checks []*report.Check) *report.Study {
	ts := working.New(plan, out)
	s := &report.Study{Samples: tol.Samples, Seed: tol.Seed, Faulted: tol.Faulted, Fault: tol.Fault, Unvaried: tol.Unvaried}
	var gs []varied
	for _, t := range tol.Givens {
		g := variedOf(ts, t.Given)
		gs = append(gs, g)
		row := &report.ToleranceGiven{Symbol: g.symbol, Text: g.text, Value: g.exact(t.Value), PlusMinus: g.difference(t.PlusMinus)}
		if checks != nil {
			row.ID = report.LineID(t.Given)
		}
		s.Givens = append(s.Givens, row)
	}
	anchors := anchorsOf(checks)
	for _, c := range tol.Checks {
		row := &report.StudyCheck{ID: anchors[c.Check], What: label(c.Check), Nominal: report.ShareOf(c.Nominal), Of: tol.Samples - c.Missing, Fails: c.Fails}
		k, high, worst := c.Worst()
		row.Worst = report.ShareOf(worst)
		if k >= 0 {
			row.By = fmt.Sprintf("%s at %s", gs[k].text, gs[k].end(tol.Givens[k], high))
		}
		row.Greatest = report.Share{Known: row.Of > 0, Utilisation: c.Greatest, Holds: c.Fails == 0}
		s.Checks = append(s.Checks, row)
		if t := tornado(c, tol.Givens, gs); len(t.Bars) > 0 {
			s.Tornadoes = append(s.Tornadoes, t)
		}
	}
	s.Tornadoes = governingFirst(s.Tornadoes, tol)
	return s
}

// governingFirst puts the tornado of the check that governs among those that have
// one in front, the rest by their place in the notebook.
func governingFirst(ts []*chart.Tornado, tol *outcome.Toleranced) []*chart.Tornado {
	var first *report.Check
	for _, c := range tol.Checks {
		k := &report.Check{What: label(c.Check), Utilisation: c.Nominal.Utilisation, Holds: c.Nominal.Holds}
		if c.Mover() >= 0 && (first == nil || report.Governs(k, first)) {
			first = k
		}
	}
	for i, t := range ts {
		if t.What == first.What {
			return slices.Insert(slices.Delete(ts, i, i+1), 0, t)
		}
	}
	return ts
}

// tornado gathers the givens that move a check, the farthest first.
func tornado(c *outcome.Sensitivity, tolerances []outcome.Tolerance, gs []varied) *chart.Tornado {
	t := &chart.Tornado{What: label(c.Check), Nominal: c.Nominal.Utilisation}
	var widths []float64
	for k, e := range c.Effects {
		w := c.Width(e)
		if w == 0 {
			continue
		}
		g, tol := gs[k], tolerances[k]
		bar := chart.Bar{Given: fmt.Sprintf("%s %s ± %s", g.text, g.exact(tol.Value), g.difference(tol.PlusMinus)),
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
func anchorsOf(checks []*report.Check) map[outcome.CheckID]string {
	anchors, count := map[outcome.CheckID]string{}, map[string]int{}
	for _, c := range checks {
		anchors[outcome.CheckID{What: c.What, Nth: count[c.What]}] = c.ID
		count[c.What]++
	}
	return anchors
}

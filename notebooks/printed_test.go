package notebooks

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"tautline/runner"
	"tautline/stdlib/sheet"
)

// proved holds every number of a notebook that a test compared with its own.
var proved = map[float64]bool{}

// unproved lists the numbers that a report prints and no test before this has
// compared with its own: those of names that the designer did not choose, of tables,
// and what the checks judge.
func unproved(res *runner.Result) []string {
	known := map[float64]bool{}
	for name, n := range res.Plan.Names {
		if n.Given {
			numbersIn(res.Outcome.Values[name], "", func(_ string, v float64) { known[v], known[-v] = true, true })
		}
	}
	var out []string
	say := func(what string, v float64) {
		if !proved[v] && !known[v] && !math.IsNaN(v) {
			out = append(out, fmt.Sprintf("%s: %.9g", what, v))
		}
	}
	for _, c := range res.Plan.Cells {
		for _, n := range c.Names {
			if v := res.Outcome.Values[n.Ident]; !n.Given && v.Kind == sheet.KindNumber {
				say(n.Ident, float64(v.Number))
			}
		}
	}
	for _, e := range res.Outcome.Entries {
		switch {
		case e.Table != nil:
			for _, col := range e.Table.Columns {
				for i, v := range col.Numbers {
					say(fmt.Sprintf("table %q, %s, row %d", e.Table.Title, col.Head, i+1), float64(v))
				}
			}
		case e.Check != nil && e.Check.Rule != sheet.RuleHolds:
			say(fmt.Sprintf("check %q", e.Check.What), float64(e.Check.Demand))
		}
	}
	return slices.Compact(out)
}

// numbersIn calls say with each number in a value and its place.
func numbersIn(v sheet.Value, place string, say func(place string, v float64)) {
	if v.Kind == sheet.KindNumber {
		say(place, float64(v.Number))
	}
	for i, item := range v.Items {
		numbersIn(item, fmt.Sprintf("%s.%d", place, i), say)
	}
}

// allProved fails for each number of a notebook that is printed and that no test
// before this compared with its own.
func allProved(t *testing.T, res *runner.Result) {
	t.Helper()
	if list := unproved(res); len(list) > 0 {
		t.Errorf("%d numbers are printed and not asserted:\n\t%s", len(list), strings.Join(list, "\n\t"))
	}
}

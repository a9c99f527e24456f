package sensitivity

import (
	"go/ast"
	"html/template"

	"tautline/render/mathml"
	"tautline/render/report"
	"tautline/render/working"
	"tautline/runner/outcome"
	"tautline/stdlib/quantity"
)

// A varied given is one whose number a study changes.
type varied struct {
	symbol template.HTML
	text   string
	unit   quantity.Unit
}

// variedOf finds how a given is shown: in the unit it was written in.
func variedOf(ts *working.Typesetter, name string) varied {
	f := mathml.Set(ast.NewIdent(name), ts.Symbols)
	n := ts.Plan.Names[name]
	v, _ := ts.NameValue(n)
	return varied{working.Whole(f), f.Text, ts.UnitFor(n, ts.Plan.ObjectMeasure(n.Object), v)}
}

// exact is a value that was chosen.
func (g varied) exact(v float64) report.Quantity { return report.Exactly(v, g.unit) }

// rounded is a value that was computed, not chosen.
func (g varied) rounded(v float64) report.Quantity { return report.In(v, g.unit) }

// difference shows a width: 5 K for a temperature in °C.
func (g varied) difference(v float64) report.Quantity { return report.Difference(v, g.unit) }

// end is the value at one end of a tolerance.
func (g varied) end(t outcome.Tolerance, high bool) report.Quantity {
	if high {
		return g.exact(t.Value + t.PlusMinus)
	}
	return g.exact(t.Value - t.PlusMinus)
}

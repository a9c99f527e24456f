package assembly

import (
	"go/ast"
	"reflect"
	"sync"

	"tautline/render/mathml"
	"tautline/render/report"
	"tautline/render/working"
	"tautline/runner/check"
	"tautline/runner/check/graph"
	"tautline/runner/document"
	"tautline/runner/outcome"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// A Draft is what a report says that does not depend on what a run computes: the
// formulas in symbols, and what rests on what. It is made while the run goes on
// and serves every run of the same plan.
//
//	d := assembly.Begin(plan)
//	… d.Report(out, findings, id) …
type Draft struct {
	plan     *check.Plan
	bare     *working.Typesetter // without an outcome
	graph    *graph.Graph
	formulas map[ast.Expr]worked

	mu      sync.Mutex
	numbers map[ast.Expr]worked           // with their numbers, as a run last had them
	figures map[string]*report.FigurePart // by anchor, as a run last had them
}

// worked is a formula as the report sets it.
type worked struct {
	shown   ast.Expr // with the library's formulas in place of calls
	formula mathml.Formula
	key     string // of the numbers put in
}

// Begin makes the draft of a plan without errors.
func Begin(plan *check.Plan) *Draft {
	d := newDraft(plan)
	d.graph = plan.Graph()
	for _, c := range plan.Cells {
		for _, n := range c.Names {
			if e := working.SetFrom(n); e != nil && !n.Given && !n.Changed && !d.bare.IsFilledLater(e) {
				shown, formula := d.bare.Expanded(e)
				d.formulas[e] = worked{shown: shown, formula: formula}
			}
		}
	}
	return d
}

// newDraft is a draft with nothing in it yet.
func newDraft(plan *check.Plan) *Draft {
	d := &Draft{plan: plan, formulas: map[ast.Expr]worked{}, numbers: map[ast.Expr]worked{}, figures: map[string]*report.FigurePart{}}
	d.bare = working.New(plan, unrun(plan))
	return d
}

// unrun is the outcome of a plan that was not run.
func unrun(plan *check.Plan) *outcome.Outcome {
	return &outcome.Outcome{Cells: make([]outcome.State, len(plan.Cells))}
}

// Report makes the report of one run. findings are what parsing and checking
// found. It may be called from several goroutines.
func (d *Draft) Report(out *outcome.Outcome, findings []document.Diagnostic, id report.Identity) *report.Report {
	return assemble(d, out, findings, id, true)
}

// symbolic is e as it is shown, and its formula in symbols.
func (d *Draft) symbolic(e ast.Expr) (ast.Expr, mathml.Formula) {
	if w, ok := d.formulas[e]; ok {
		return w.shown, w.formula
	}
	return d.bare.Expanded(e)
}

// numeric is the formula of e with the numbers put in that give v in unit u. A
// run with the same numbers as the one before has the same formula.
func (d *Draft) numeric(ts *working.Typesetter, e, shown ast.Expr, v sheet.Value, u quantity.Unit) mathml.Formula {
	key := ts.NumbersKey(shown, v, u)
	d.mu.Lock()
	w, ok := d.numbers[e]
	d.mu.Unlock()
	if ok && w.key == key {
		return w.formula
	}
	digits := quantity.DefaultDigits
	if v.Kind == sheet.KindNumber {
		digits = ts.EnoughDigits(shown, float64(v.Number), u)
	}
	w = worked{formula: mathml.Set(shown, ts.NumberOptions(digits)), key: key}
	d.mu.Lock()
	d.numbers[e] = w
	d.mu.Unlock()
	return w.formula
}

// figure is the part for a picture. One that shows what a run last had in its
// place is drawn already.
func (d *Draft) figure(id string, p report.Picture) *report.FigurePart {
	d.mu.Lock()
	defer d.mu.Unlock()
	part := d.figures[id]
	if part == nil || !reflect.DeepEqual(part.Picture, p) {
		part = &report.FigurePart{ID: id, Picture: p}
		d.figures[id] = part
	}
	return part
}

package assembly

import (
	"fmt"
	"go/ast"
	"math"

	"tautline/render/chart"
	"tautline/render/drawing"
	"tautline/render/report"
	"tautline/runner/check/dimension"
	"tautline/runner/document"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// table makes a table with each column in one unit.
func (a *assembler) table(t *sheet.Table) {
	part := &report.TablePart{ID: a.id("table"), Title: t.Title}
	for _, c := range t.Columns {
		col := report.Column{Head: c.Head}
		if c.Texts != nil {
			col.Cells = c.Texts
		} else {
			vs := plain(c.Numbers)
			u := a.UnitOf(a.column(c.Site, "Table.Column"), vs...)
			col.Unit, col.Numeric = u.Symbol, true
			for _, v := range vs {
				col.Cells = append(col.Cells, quantity.Format(v, u, 0))
			}
		}
		part.Columns = append(part.Columns, col)
	}
	a.add(part)
}

// column is the argument that holds the numbers of a table's column.
func (a *assembler) column(site int, method string) []ast.Expr {
	if args := a.arguments(a.Plan.Sites[site].Stmt, method); len(args) > 1 {
		return args[1:]
	}
	return nil
}

// id is the anchor of the next table, figure, check or caution. The dot keeps
// it apart from those of headings.
func (a *assembler) id(kind string) string {
	a.count[kind]++
	return fmt.Sprintf("%s.%d", kind, a.count[kind])
}

// An axis gathers what is drawn along one axis of a figure.
type axis struct {
	a       *assembler
	label   string
	alias   sheet.Alias // of what the library draws; may be empty
	measure dimension.Measure
	unit    quantity.Unit
	fixed   bool // by the title block
	values  []float64
}

// take notes values and the argument that they came from. It reports when
// their dimension differs from what the axis has.
func (x *axis) take(args []ast.Expr, i int, vs ...float64) {
	x.values = append(x.values, vs...)
	if i >= len(args) {
		return
	}
	m := x.a.Plan.Measure(args[i])
	if !m.Known {
		return
	}
	if id, ok := ast.Unparen(args[i]).(*ast.Ident); ok && !x.fixed {
		if u, ok := x.a.Preferred(id.Name, m); ok {
			x.unit, x.fixed = u, true
		}
	}
	if x.measure.Known && !x.measure.Dimension.Equal(m.Dimension) {
		x.a.doubts = append(x.a.doubts, document.Diagnostic{Severity: document.Error, File: x.a.Plan.Notebook.File,
			Range:   x.a.Plan.Range(args[i]),
			Message: fmt.Sprintf("%s: got a %s on an axis of %s", x.label, m.Dimension.Name(), x.measure.Dimension.Name()),
			Hint:    "draw it in a figure of its own"})
		return
	}
	if !x.measure.Known || x.measure.Alias == "" {
		x.measure = m
	}
}

// finish chooses the unit. What has no dimension that anyone told says so.
func (x *axis) finish() chart.Axis {
	if x.fixed {
		return chart.Axis{Label: x.label, Unit: x.unit.Symbol}
	}
	unit, told := quantity.ChooseAs(string(x.alias), quantity.Largest(x.values), x.a.System)
	if x.measure.Known || !told {
		unit = x.measure.Unit(x.a.System, x.values...)
	}
	x.unit = unit
	if !x.measure.Known && !told && len(x.values) > 0 {
		return chart.Axis{Label: x.label, Unit: "SI base units"}
	}
	return chart.Axis{Label: x.label, Unit: unit.Symbol}
}

func (x *axis) scale(v float64) float64 { return x.unit.FromSI(v) }

// figure makes a plot with each axis in one unit.
func (a *assembler) figure(f *sheet.Figure) {
	x, y := &axis{a: a, label: f.XLabel, alias: f.XAlias}, &axis{a: a, label: f.YLabel, alias: f.YAlias}
	for _, c := range f.Curves {
		args := a.arguments(a.Plan.Sites[c.Site].Stmt, "Figure.Curve")
		x.take(args, 1, plain(c.X)...)
		y.take(args, 2, plain(c.Y)...)
	}
	for _, m := range f.Marks {
		args := a.arguments(a.Plan.Sites[m.Site].Stmt, "Figure.Mark")
		x.take(args, 1, float64(m.X))
		y.take(args, 2, float64(m.Y))
	}
	for _, l := range f.Limits {
		if l.Upright {
			x.take(a.arguments(a.Plan.Sites[l.Site].Stmt, "Figure.LimitX"), 1, float64(l.At))
		} else {
			y.take(a.arguments(a.Plan.Sites[l.Site].Stmt, "Figure.LimitY"), 1, float64(l.At))
		}
	}
	out := &chart.Figure{Title: f.Title, X: x.finish(), Y: y.finish()}
	out.X.Log, out.Y.Log = bool(f.XPowers), bool(f.YPowers)
	for _, c := range f.Curves {
		out.Curves = append(out.Curves, chart.Curve{Name: c.Name, X: each(plain(c.X), x.scale), Y: each(plain(c.Y), y.scale)})
	}
	for _, m := range f.Marks {
		out.Marks = append(out.Marks, chart.Mark{Name: m.Name, X: x.scale(float64(m.X)), Y: y.scale(float64(m.Y))})
	}
	for _, l := range f.Limits {
		on := y
		if l.Upright {
			on = x
		}
		out.Limits = append(out.Limits, chart.Limit{Name: l.Name, At: on.scale(float64(l.At)), Upright: l.Upright})
	}
	a.picture(out)
}

// picture adds a figure, a drawing, a rose or a motion.
func (a *assembler) picture(p report.Picture) {
	part := a.draft.figure(a.id("figure"), p)
	a.add(part)
	go part.Drawn() // while the rest is assembled
}

// drawing makes a picture to scale, its lengths written in one unit.
func (a *assembler) drawing(d *sheet.Drawing) {
	out := &drawing.Drawing{Drawing: d}
	out.Unit = a.lengthUnit(out.Longest())
	a.picture(out)
}

// lengthUnit suits the longest of what is drawn.
func (a *assembler) lengthUnit(longest float64) quantity.Unit {
	unit, _ := quantity.ChooseAs("Length", longest, a.System)
	return unit
}

// rose makes a rose with its values in one unit.
func (a *assembler) rose(r *sheet.Rose) {
	v := &axis{a: a, label: r.Title, alias: r.Alias}
	for _, c := range r.Curves {
		v.take(a.arguments(a.Plan.Sites[c.Site].Stmt, "Rose.Curve"), 2, plain(c.Values)...)
	}
	for _, l := range r.Limits {
		v.take(a.arguments(a.Plan.Sites[l.Site].Stmt, "Rose.Limit"), 1, float64(l.At))
	}
	out := &drawing.Rose{Title: r.Title, Unit: v.finish().Unit}
	for _, c := range r.Curves {
		out.Curves = append(out.Curves, drawing.RoseCurve{Name: c.Name, Angles: plain(c.Angles), Values: each(plain(c.Values), v.scale)})
	}
	for _, l := range r.Limits {
		out.Limits = append(out.Limits, drawing.RoseLimit{Name: l.Name, At: v.scale(float64(l.At))})
	}
	a.picture(out)
}

func each(vs []float64, f func(float64) float64) []float64 {
	out := make([]float64, len(vs))
	for i, v := range vs {
		out[i] = f(v)
	}
	return out
}

func plain(vs []sheet.Float) []float64 {
	out := make([]float64, len(vs))
	for i, v := range vs {
		out[i] = float64(v)
	}
	return out
}

// caveat says what is wrong with a number, if anything.
func caveat(v float64, m dimension.Measure) string {
	switch {
	case math.IsNaN(v):
		return "not a number"
	case math.IsInf(v, 0):
		return "infinite"
	case !m.Known:
		return "dimension unknown: the number is in SI base units"
	}
	return ""
}

// motion makes a motion, its lengths written as in a drawing of all its frames.
func (a *assembler) motion(m *sheet.Motion) {
	out := &drawing.Motion{Motion: m}
	out.Unit = a.lengthUnit(out.Longest())
	a.picture(out)
}

// trial makes the row of a trial at its place and in the table of trials.
func (a *assembler) trial(p *sheet.Prediction, site int, stmt ast.Stmt) {
	var unit quantity.Unit
	if args := a.arguments(stmt, "Trial"); len(args) > 2 {
		unit = a.UnitOf(args[1:3], float64(p.Value))
	}
	t := report.NewTrial(p.What, float64(p.Value), float64(p.Tolerance), unit)
	t.ID, t.Instrument, t.Line = a.id("trial"), p.Instrument, a.Plan.Sites[site].Range.Start.Line
	a.report.Trials = append(a.report.Trials, t)
	a.add(&report.TrialPart{Trial: t})
}

package render

import (
	"fmt"
	"go/ast"
	"math"

	"tautline/runner/check"
	"tautline/runner/document"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// table makes a table with each column in one unit.
func (a *assembler) table(t *sheet.Table) {
	part := &TablePart{ID: a.id("table"), Title: t.Title}
	for _, c := range t.Columns {
		col := Column{Head: c.Head}
		if c.Texts != nil {
			col.Cells = c.Texts
		} else {
			vs := plain(c.Numbers)
			u := a.unitOf(a.column(c.Site, "Table.Column"), vs...)
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
	if args := a.arguments(a.plan.Sites[site].Stmt, method); len(args) > 1 {
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

func lineID(name string) string { return "line." + name }

// An axis gathers what is drawn along one axis of a figure.
type axis struct {
	a       *assembler
	label   string
	alias   sheet.Alias // of what the library draws; may be empty
	measure check.Measure
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
	m := x.a.plan.Measure(args[i])
	if !m.Known {
		return
	}
	if id, ok := ast.Unparen(args[i]).(*ast.Ident); ok && !x.fixed {
		if u, ok := x.a.preferred(id.Name, m); ok {
			x.unit, x.fixed = u, true
		}
	}
	if x.measure.Known && !x.measure.Dimension.Equal(m.Dimension) {
		x.a.doubts = append(x.a.doubts, document.Diagnostic{Severity: document.Error, File: x.a.plan.Notebook.File,
			Range:   x.a.plan.Range(args[i]),
			Message: fmt.Sprintf("%s: got a %s on an axis of %s", x.label, m.Dimension.Name(), x.measure.Dimension.Name()),
			Hint:    "draw it in a figure of its own"})
		return
	}
	if !x.measure.Known || x.measure.Alias == "" {
		x.measure = m
	}
}

// finish chooses the unit. What has no dimension that anyone told says so.
func (x *axis) finish() Axis {
	if x.fixed {
		return Axis{Label: x.label, Unit: x.unit.Symbol}
	}
	unit, told := quantity.ChooseAs(string(x.alias), quantity.Largest(x.values), x.a.system)
	if x.measure.Known || !told {
		unit = x.measure.Unit(x.a.system, x.values...)
	}
	x.unit = unit
	if !x.measure.Known && !told && len(x.values) > 0 {
		return Axis{Label: x.label, Unit: "SI base units"}
	}
	return Axis{Label: x.label, Unit: unit.Symbol}
}

func (x *axis) scale(v float64) float64 { return x.unit.FromSI(v) }

// figure makes a plot with each axis in one unit.
func (a *assembler) figure(f *sheet.Figure) {
	x, y := &axis{a: a, label: f.XLabel, alias: f.XAlias}, &axis{a: a, label: f.YLabel, alias: f.YAlias}
	for _, c := range f.Curves {
		args := a.arguments(a.plan.Sites[c.Site].Stmt, "Figure.Curve")
		x.take(args, 1, plain(c.X)...)
		y.take(args, 2, plain(c.Y)...)
	}
	for _, m := range f.Marks {
		args := a.arguments(a.plan.Sites[m.Site].Stmt, "Figure.Mark")
		x.take(args, 1, float64(m.X))
		y.take(args, 2, float64(m.Y))
	}
	for _, l := range f.Limits {
		if l.Upright {
			x.take(a.arguments(a.plan.Sites[l.Site].Stmt, "Figure.LimitX"), 1, float64(l.At))
		} else {
			y.take(a.arguments(a.plan.Sites[l.Site].Stmt, "Figure.LimitY"), 1, float64(l.At))
		}
	}
	out := &Figure{Title: f.Title, X: x.finish(), Y: y.finish()}
	out.X.Log, out.Y.Log = bool(f.XPowers), bool(f.YPowers)
	for _, c := range f.Curves {
		out.Curves = append(out.Curves, Curve{c.Name, each(plain(c.X), x.scale), each(plain(c.Y), y.scale)})
	}
	for _, m := range f.Marks {
		out.Marks = append(out.Marks, Mark{m.Name, x.scale(float64(m.X)), y.scale(float64(m.Y))})
	}
	for _, l := range f.Limits {
		on := y
		if l.Upright {
			on = x
		}
		out.Limits = append(out.Limits, Limit{l.Name, on.scale(float64(l.At)), l.Upright})
	}
	a.picture(out)
}

// picture adds a figure, a drawing, a rose or a motion.
func (a *assembler) picture(p Picture) {
	part := a.draft.figure(a.id("figure"), p)
	a.add(part)
	go part.picture() // while the rest is assembled
}

// drawing makes a picture to scale, its lengths written in one unit.
func (a *assembler) drawing(d *sheet.Drawing) {
	out := &Drawing{Drawing: d}
	out.Unit = a.lengthUnit(out)
	a.picture(out)
}

// lengthUnit suits the longest dimension, or the whole where there is none.
func (a *assembler) lengthUnit(d *Drawing) quantity.Unit {
	longest := 0.0
	for _, s := range d.Shapes {
		if s.Kind == sheet.ShapeDimension {
			longest = max(longest, math.Hypot(float64(s.X[1]-s.X[0]), float64(s.Y[1]-s.Y[0])))
		}
	}
	if low, high, _ := d.extent(); longest == 0 {
		longest = max(high.x-low.x, high.y-low.y)
	}
	unit, _ := quantity.ChooseAs("Length", longest, a.system)
	return unit
}

// rose makes a rose with its values in one unit.
func (a *assembler) rose(r *sheet.Rose) {
	v := &axis{a: a, label: r.Title, alias: r.Alias}
	for _, c := range r.Curves {
		v.take(a.arguments(a.plan.Sites[c.Site].Stmt, "Rose.Curve"), 2, plain(c.Values)...)
	}
	for _, l := range r.Limits {
		v.take(a.arguments(a.plan.Sites[l.Site].Stmt, "Rose.Limit"), 1, float64(l.At))
	}
	out := &Rose{Title: r.Title, Unit: v.finish().Unit}
	for _, c := range r.Curves {
		out.Curves = append(out.Curves, RoseCurve{c.Name, plain(c.Angles), each(plain(c.Values), v.scale)})
	}
	for _, l := range r.Limits {
		out.Limits = append(out.Limits, RoseLimit{l.Name, v.scale(float64(l.At))})
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
func caveat(v float64, m check.Measure) string {
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

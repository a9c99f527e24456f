package sheet

import (
	"fmt"

	"tautline/stdlib/units"
)

// A Figure is a plot of curves, marks and limits over two axes. Every x has
// one dimension and every y one.
type Figure struct {
	Title            string
	XLabel, YLabel   string // what is drawn; the unit is added by the report
	Curves           []Curve
	Marks            []Mark
	Limits           []Limit
	XAlias, YAlias   Alias  `json:",omitempty"` // dimensions, where the library draws
	XPowers, YPowers Ruling `json:",omitempty"` // how the axes are divided

	sheet *Sheet
	index int
}

// An Alias is the name of a dimension in package units, such as "Pressure". Not
// for cells.
type Alias string

// A Ruling is how an axis is divided: evenly, or by powers of ten. Not for cells.
type Ruling bool

type (
	// Curve is a line through points. Not for cells.
	Curve struct {
		Site int
		Name string
		X, Y []Float
	}
	// Mark is a named point. Not for cells.
	Mark struct {
		Site int
		Name string
		X, Y Float
	}
	// Limit is a named line across the figure, at one y (or x when Upright).
	// Not for cells.
	Limit struct {
		Site    int
		Name    string
		At      Float
		Upright bool
	}
)

// NewFigure puts an empty figure on the sheet. The labels say what is drawn on
// each axis, without a unit.
func NewFigure(title, xLabel, yLabel string) *Figure { return own.NewFigure(title, xLabel, yLabel) }

// NewFigure is the function NewFigure on this sheet. Not for cells.
func (s *Sheet) NewFigure(title, xLabel, yLabel string) *Figure {
	f := &Figure{Title: title, XLabel: xLabel, YLabel: yLabel, sheet: s}
	f.index = s.put(Entry{Figure: f}, len(title)+len(xLabel)+len(yLabel))
	return f
}

// Axes says what a function of the library draws on each axis, each as an alias
// of package units such as "Pressure". The report finds the dimension of what a
// cell draws by itself. Not for cells.
func (f *Figure) Axes(x, y string) {
	f.grow(len(x) + len(y))
	f.XAlias, f.YAlias = Alias(x), Alias(y)
}

// LogX divides the x axis by powers of ten, evenly: for what runs from ten to a
// million. A point at 0 or less has no place on it and is left out, as a gap.
func (f *Figure) LogX() {
	f.XPowers = true
	f.grow(0)
}

// LogY divides the y axis as LogX does the x axis.
func (f *Figure) LogY() {
	f.YPowers = true
	f.grow(0)
}

// Curve draws a line through the points (xs[i], ys[i]). It panics when the
// lengths differ.
func (f *Figure) Curve(name string, xs, ys []units.Any) {
	if len(xs) != len(ys) {
		panic(fmt.Errorf("sheet: Figure.Curve %q: got %d x and %d y values, want the same count", name, len(xs), len(ys)))
	}
	room("Figure.Curve", len(f.Curves))
	f.grow(16*len(xs) + len(name))
	f.Curves = append(f.Curves, Curve{f.sheet.site(), name, floats(xs), floats(ys)})
}

// Mark draws a named point at (x, y).
func (f *Figure) Mark(name string, x, y units.Any) {
	room("Figure.Mark", len(f.Marks))
	f.grow(32 + len(name))
	f.Marks = append(f.Marks, Mark{f.sheet.site(), name, Float(x), Float(y)})
}

// LimitY draws a named line across the figure at y.
func (f *Figure) LimitY(name string, y units.Any) {
	room("Figure.LimitY", len(f.Limits))
	f.grow(32 + len(name))
	f.Limits = append(f.Limits, Limit{f.sheet.site(), name, Float(y), false})
}

// LimitX draws a named upright line at x.
func (f *Figure) LimitX(name string, x units.Any) {
	room("Figure.LimitX", len(f.Limits))
	f.grow(32 + len(name))
	f.Limits = append(f.Limits, Limit{f.sheet.site(), name, Float(x), true})
}

// maxDrawn is how many curves, marks and limits a figure takes, of each.
const maxDrawn = 500

// room panics when so many were drawn that there is no room for another.
func room(method string, drawn int) {
	if drawn == maxDrawn {
		panic(fmt.Errorf("sheet: %s: more than %d: draw those that a reader can tell apart", method, maxDrawn))
	}
}

func (f *Figure) grow(size int) {
	f.sheet.grow(size)
	f.sheet.touch(f.index)
}

func floats(vs []float64) []Float {
	fs := make([]Float, len(vs))
	for i, v := range vs {
		fs[i] = Float(v)
	}
	return fs
}

package sheet

import (
	"fmt"
	"math"

	"tautline/stdlib/units"
)

// A Drawing is a picture to scale: x to the right, y upward, both in lengths.
// What is seen from the side or in space is projected before it is drawn.
//
//	d := sheet.NewDrawing("Landing bed from above")
//	d.Outline([]units.Length{0, 6 * units.M, 6 * units.M, 0}, []units.Length{0, 0, 5 * units.M, 5 * units.M})
//	d.Circle(3*units.M, 2.5*units.M, 1*units.M)
//	d.Dimension(0, 0, 6*units.M, 0, -0.5*units.M)
//	d.Compass()
//
// What is drawn later covers what was drawn before; arrows, dimensions, marks
// and texts stand above all. Every method panics when a number is not finite or
// a name is missing where one is needed to read the picture.
type Drawing struct {
	Title  string
	Shapes []Shape
	Tones  *Scale `json:",omitempty"` // of the shaded patches
	Free   bool   `json:",omitempty"` // not to scale

	sheet  *Sheet
	index  int
	labels int
}

// A Shape is one thing in a Drawing. Not for cells.
type Shape struct {
	Kind  ShapeKind
	Name  string  `json:",omitempty"`
	X, Y  []Float `json:",omitempty"` // its points; the centre of a circle
	Value Float   `json:",omitzero"`  // radius of a circle, offset of a dimension, number of a patch
}

// ShapeKind is the kind of a Shape. Not for cells.
type ShapeKind string

// The kinds of shapes.
const (
	ShapeOutline   ShapeKind = "outline"
	ShapeArea      ShapeKind = "area"
	ShapeLine      ShapeKind = "line"
	ShapeThin      ShapeKind = "thin"
	ShapeCircle    ShapeKind = "circle"
	ShapeArrow     ShapeKind = "arrow"
	ShapeDimension ShapeKind = "dimension"
	ShapeText      ShapeKind = "text"
	ShapeMark      ShapeKind = "mark"
	ShapePatch     ShapeKind = "patch"
	ShapeCompass   ShapeKind = "compass"
)

// A Scale says which numbers the tones of patches stand for. Not for cells.
type Scale struct {
	Name      string
	Low, High Float
}

// maxLabels is how many labels a drawing takes: each looks for a place that the
// others leave.
const maxLabels = 1000

// farthest is the largest coordinate that a drawing takes.
const farthest = 1e9 * units.M

// NewDrawing puts an empty drawing on the sheet.
func NewDrawing(title string) *Drawing { return own.NewDrawing(title) }

// NewDrawing is the function NewDrawing on this sheet. Not for cells.
func (s *Sheet) NewDrawing(title string) *Drawing {
	d := &Drawing{Title: title, sheet: s}
	d.index = s.put(Entry{Drawing: d}, len(title))
	return d
}

// Outline draws a closed shape with a heavy edge: what the picture is about.
// The last point is joined to the first.
func (d *Drawing) Outline(xs, ys []units.Length) { d.add("Outline", ShapeOutline, "", xs, ys, 3, 0) }

// Area draws a closed, hatched shape. The legend explains its name; areas of
// one name look alike.
func (d *Drawing) Area(name string, xs, ys []units.Length) {
	d.add("Area", ShapeArea, d.named("Area", name), xs, ys, 3, 0)
}

// Line draws a line through points. The legend explains its name; lines of one
// name look alike.
func (d *Drawing) Line(name string, xs, ys []units.Length) {
	d.add("Line", ShapeLine, d.named("Line", name), xs, ys, 2, 0)
}

// Thin draws a thin line without a name: what helps to read the picture.
func (d *Drawing) Thin(xs, ys []units.Length) { d.add("Thin", ShapeThin, "", xs, ys, 2, 0) }

// Circle draws a circle of a radius, at least 0, about (x, y), with a heavy
// edge.
func (d *Drawing) Circle(x, y, radius units.Length) {
	if !(radius >= 0 && radius <= farthest) {
		panic(fmt.Errorf("sheet: Drawing.Circle: radius: got %g m, want 0 to %g m", radius, farthest))
	}
	d.add("Circle", ShapeCircle, "", []float64{x}, []float64{y}, 1, radius)
}

// Arrow draws an arrow from (x0, y0) to its head at (x1, y1): a force, a
// direction, what a label points at. The label stands beside it and may be
// empty.
func (d *Drawing) Arrow(label string, x0, y0, x1, y1 units.Length) {
	d.add("Arrow", ShapeArrow, label, []float64{x0, x1}, []float64{y0, y1}, 2, 0)
}

// Dimension draws a dimension line with the distance from (x0, y0) to (x1, y1).
// The line stands off by offset: to the left of the way from the first point to
// the second when positive, to the right when negative.
func (d *Drawing) Dimension(x0, y0, x1, y1, offset units.Length) {
	d.add("Dimension", ShapeDimension, "", []float64{x0, x1}, []float64{y0, y1}, 2, offset)
}

// Text writes a label with its middle at (x, y), or near it when something else
// is written there.
func (d *Drawing) Text(label string, x, y units.Length) {
	d.add("Text", ShapeText, d.named("Text", label), []float64{x}, []float64{y}, 1, 0)
}

// Mark draws a point with its name beside it.
func (d *Drawing) Mark(name string, x, y units.Length) {
	d.add("Mark", ShapeMark, name, []float64{x}, []float64{y}, 1, 0)
}

// Shade draws a closed patch in the tone of a number, such as a utilisation, or
// a stress over its unit. All tones of a drawing share one scale, which stands
// below it: from the least to the greatest number, unless Scale sets it.
func (d *Drawing) Shade(xs, ys []units.Length, value units.Number) {
	if value-value != 0 {
		panic(fmt.Errorf("sheet: Drawing.Shade: value: got %g, want a finite number", value))
	}
	d.add("Shade", ShapePatch, "", xs, ys, 3, value)
}

// Scale names the number that the tones of Shade stand for, and says which
// number has the first tone and which the last. Numbers beyond them have the
// tone of the end that they are beyond. low is less than high.
func (d *Drawing) Scale(name string, low, high units.Number) {
	if !(low < high) || math.IsInf(low, 0) || math.IsInf(high, 0) {
		panic(fmt.Errorf("sheet: Drawing.Scale %q: got low %g and high %g, want finite numbers, low less than high", name, low, high))
	}
	d.grow(32 + len(name))
	d.Tones = &Scale{name, Float(low), Float(high)}
}

// Schematic says that the picture is not to scale, such as a chart of steps over
// time or blocks joined by lines: no scale is written under it.
func (d *Drawing) Schematic() {
	d.grow(1)
	d.Free = true
}

// Compass says that north is up, the direction of y, and shows it.
func (d *Drawing) Compass() {
	d.add("Compass", ShapeCompass, "", nil, nil, 0, 0)
}

// add appends a shape of at least so many points.
func (d *Drawing) add(method string, kind ShapeKind, name string, xs, ys []float64, least int, value float64) {
	if len(xs) != len(ys) {
		panic(fmt.Errorf("sheet: Drawing.%s: got %d x and %d y values, want the same count", method, len(xs), len(ys)))
	}
	if len(xs) < least {
		panic(fmt.Errorf("sheet: Drawing.%s: got %d points, want at least %d", method, len(xs), least))
	}
	for i := range xs {
		if !(math.Abs(xs[i]) <= farthest && math.Abs(ys[i]) <= farthest) {
			panic(fmt.Errorf("sheet: Drawing.%s: point %d: got (%g, %g) m, want finite lengths, at most %g m", method, i+1, xs[i], ys[i], farthest))
		}
	}
	if kind == ShapeDimension && !(math.Abs(value) <= farthest) {
		panic(fmt.Errorf("sheet: Drawing.Dimension: offset: got %g m, want a finite length, at most %g m", value, farthest))
	}
	if kind == ShapeDimension || name != "" && kind != ShapeArea && kind != ShapeLine {
		if d.labels++; d.labels > maxLabels {
			panic(fmt.Errorf("sheet: Drawing.%s: more than %d labels: write only those that a reader looks for", method, maxLabels))
		}
	}
	d.grow(48 + len(name) + 16*len(xs))
	d.Shapes = append(d.Shapes, Shape{kind, name, floats(xs), floats(ys), Float(value)})
}

func (d *Drawing) named(method, name string) string {
	if name == "" {
		panic(fmt.Errorf("sheet: Drawing.%s: got no name, want one", method))
	}
	return name
}

func (d *Drawing) grow(size int) {
	d.sheet.grow(size)
	d.sheet.touch(d.index)
}

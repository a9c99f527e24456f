// Package chart draws numbers: figures with axes, and tornadoes. A chart knows its
// units and nothing of the notebook that it comes from.
package chart

import (
	"bytes"
	"fmt"
	"html"
	"html/template"
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"

	"tautline/render/lettering"
)

// A figure is drawn by gonum/plot in colours that stand for roles. Afterwards
// each becomes a CSS variable of the page, so that the same drawing serves a
// light screen, a dark one and paper. It is drawn twice, wide and for a phone,
// because text in a drawing that is scaled down cannot be read; CSS shows one.

// dashes of the curves: what tells them apart without colour.
var dashes = [lettering.CurveInks][]vg.Length{nil, {8, 3}, {2, 2.5}, {9, 3, 2, 3}, {14, 4}, {5, 2, 1.5, 2, 1.5, 2}}

// Name is the figure's title.
func (f *Figure) Name() string { return f.Title }

// SVG draws the figure as inline SVG. id starts every id in it.
func (f *Figure) SVG(id string) (template.HTML, error) {
	var b strings.Builder
	for _, fr := range lettering.Frames {
		s, err := f.draw(fr, id+"."+fr.Class)
		if err != nil {
			return "", err
		}
		b.WriteString(s)
	}
	return template.HTML(b.String()), nil
}

func (f *Figure) draw(fr lettering.Frame, id string) (string, error) {
	x, y := f.ranges()
	style := lettering.TextStyle(fr.Size, lettering.InkText)
	ends := f.endLabels(style, fr.Width*0.3)
	head := fr.Size * 2.2 // for the label of the y axis
	side := vg.Length(fr.Size)
	need := vg.Length(0)
	for _, e := range ends {
		side = max(side, e.width+18)
		need += e.height + 3
	}
	height := max(fr.Height, need+5*fr.Size)

	canvas := vgsvg.New(fr.Width, height)
	dc := draw.New(canvas)
	p := axes(f, x, y, fr)
	p.Add(&plotArea{Figure: f, style: style, ends: ends})
	p.Draw(draw.Crop(dc, 1, -side, 1, -head))
	name := style
	name.Color, name.YAlign = lettering.InkSoft, draw.YTop
	dc.FillText(name, vg.Point{X: dc.Min.X, Y: dc.Max.Y - 1}, lettering.Fit(style, y.title(f.Y), fr.Width))

	var raw bytes.Buffer
	if _, err := canvas.WriteTo(&raw); err != nil {
		return "", fmt.Errorf("render: figure %q: %w", f.Title, err)
	}
	open := fmt.Sprintf(`<svg class="plot %s" viewBox="0 0 %g %g" role="img" aria-labelledby="%s.t %[4]s.d">`+
		`<title id="%[4]s.t">%[5]s</title><desc id="%[4]s.d">%[6]s</desc>`,
		fr.Class, fr.Width.Points(), math.Ceil(height.Points()), html.EscapeString(id),
		html.EscapeString(lettering.OneLine(f.Title)), html.EscapeString(f.words(x, y)))
	return restyle(raw.Bytes(), open), nil
}

// restyle puts our own opening tag in the place of the SVG writer's, and
// attributes with our variables in the place of its styles.
func restyle(raw []byte, open string) string {
	_, rest, _ := bytes.Cut(raw, []byte("<svg"))
	_, rest, _ = bytes.Cut(rest, []byte(">"))
	var b strings.Builder
	b.Grow(len(open) + len(rest))
	b.WriteString(open)
	for { // the SVG writer escapes the quotes in a text, so this finds its styles alone
		before, after, ok := bytes.Cut(rest, []byte(`style="`))
		if !ok {
			b.Write(rest)
			return b.String()
		}
		b.Write(bytes.TrimRight(before, " \n\t"))
		style, end, _ := bytes.Cut(after, []byte(`"`))
		b.WriteString(presentation(lettering.InkVars.Replace(string(style))))
		rest = end
	}
}

// presentation writes a style as attributes, which a page may have that allows
// no style of its own to an element.
func presentation(style string) string {
	var b strings.Builder
	for property := range strings.SplitSeq(style, ";") {
		if name, value, ok := strings.Cut(property, ":"); ok {
			fmt.Fprintf(&b, ` %s="%s"`, strings.TrimSpace(name), strings.TrimSpace(value))
		}
	}
	return b.String()
}

// axes makes the empty plot: ticks, grid, and the label of the x axis.
func axes(f *Figure, x, y span, fr lettering.Frame) *plot.Plot {
	p := plot.New()
	p.BackgroundColor = nil
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = x.low, x.high, y.low, y.high
	if x.log {
		p.X.Scale = plot.LogScale{}
	}
	if y.log {
		p.Y.Scale = plot.LogScale{}
	}
	p.X.Tick.Marker, p.Y.Tick.Marker = plot.ConstantTicks(x.ticks()), plot.ConstantTicks(y.ticks())
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		a.Padding = 0
		a.LineStyle = draw.LineStyle{Color: lettering.InkSoft, Width: 0.8}
		a.Tick.LineStyle = a.LineStyle
		a.Tick.Length = 4
		align := a.Tick.Label
		a.Tick.Label = lettering.TextStyle(fr.Size, lettering.InkSoft)
		a.Tick.Label.XAlign, a.Tick.Label.YAlign = align.XAlign, align.YAlign
	}
	p.Y.LineStyle.Width, p.Y.Tick.Length = 0, 0
	align := p.X.Label.TextStyle
	p.X.Label.TextStyle = lettering.TextStyle(fr.Size, lettering.InkSoft)
	p.X.Label.TextStyle.XAlign, p.X.Label.TextStyle.YAlign = align.XAlign, align.YAlign
	p.X.Label.Text = lettering.Fit(p.X.Label.TextStyle, x.title(f.X), fr.Width*0.8)
	p.X.Label.Padding = 3
	return p
}

// finite reports whether a point can be drawn. Values beyond 1e150 cannot: the
// width of their range would overflow.
func finite(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.Abs(v) > 1e150 {
			return false
		}
	}
	return true
}

// holds reports whether a value has a place on the axis.
func (a Axis) holds(v float64) bool { return finite(v) && (!a.Log || v > 1e-150) }

// holds reports whether a point can be drawn.
func (f *Figure) holds(x, y float64) bool { return f.X.holds(x) && f.Y.holds(y) }

// holdsLimit reports whether a limit can be drawn.
func (f *Figure) holdsLimit(l Limit) bool {
	if l.Upright {
		return f.X.holds(l.At)
	}
	return f.Y.holds(l.At)
}

// len is the count of points that have both an x and a y.
func (c *Curve) len() int { return min(len(c.X), len(c.Y)) }

// ranges returns what the axes span: every finite point, mark and limit.
func (f *Figure) ranges() (x, y span) {
	x, y = newSpan(f.X.Log), newSpan(f.Y.Log)
	for _, c := range f.Curves {
		for i := range c.len() {
			if f.holds(c.X[i], c.Y[i]) {
				x.add(c.X[i])
				y.add(c.Y[i])
			}
		}
	}
	for _, m := range f.Marks {
		if f.holds(m.X, m.Y) {
			x.add(m.X)
			y.add(m.Y)
		}
	}
	for _, l := range f.Limits {
		switch {
		case !f.holdsLimit(l):
		case l.Upright:
			x.add(l.At)
		default:
			y.add(l.At)
		}
	}
	return x.nice(), y.nice()
}

// words describes the figure to who cannot see it.
func (f *Figure) words(x, y span) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s upwards over %s.", f.Y.words("value"), f.X.words("value"))
	for _, c := range f.Curves {
		first, last, low, high, gaps := -1, -1, math.Inf(1), math.Inf(-1), 0
		for i := range c.len() {
			if !f.holds(c.X[i], c.Y[i]) {
				gaps++
				continue
			}
			if first < 0 {
				first = i
			}
			last, low, high = i, min(low, c.Y[i]), max(high, c.Y[i])
		}
		if first < 0 {
			fmt.Fprintf(&b, " Curve %q has no points.", lettering.OneLine(c.Name))
			continue
		}
		fmt.Fprintf(&b, " Curve %q: from %s at %s to %s at %s, lowest %s, highest %s.", lettering.OneLine(c.Name),
			lettering.Number(c.Y[first]), lettering.Number(c.X[first]), lettering.Number(c.Y[last]), lettering.Number(c.X[last]), lettering.Number(low), lettering.Number(high))
		if gaps > 0 {
			fmt.Fprintf(&b, " %d of its points cannot be drawn.", gaps)
		}
	}
	for _, m := range f.Marks {
		fmt.Fprintf(&b, " Mark %q at %s, %s.", lettering.OneLine(m.Name), lettering.Number(m.X), lettering.Number(m.Y))
	}
	for _, l := range f.Limits {
		axis := "y"
		if l.Upright {
			axis = "x"
		}
		fmt.Fprintf(&b, " Limit %q at %s = %s.", lettering.OneLine(l.Name), axis, lettering.Number(l.At))
	}
	if x.empty && y.empty {
		b.WriteString(" Nothing to draw.")
	}
	return b.String()
}

func (a Axis) words(otherwise string) string {
	label := lettering.Named(a.Label, a.Unit, otherwise)
	if a.Log {
		label += ", by powers of ten"
	}
	return label
}

// A Figure is a plot whose numbers are already in the units of its axes.
type Figure struct {
	Title  string
	X, Y   Axis
	Curves []Curve
	Marks  []Mark
	Limits []Limit
}

// An Axis has what is drawn along it and in which unit; one that is Log is
// divided by powers of ten.
type Axis struct {
	Label, Unit string
	Log         bool
}

type (
	// Curve is a line through points; a point that is not finite is a gap.
	Curve struct {
		Name string
		X, Y []float64
	}
	// Mark is a named point.
	Mark struct {
		Name string
		X, Y float64
	}
	// Limit is a named line across the plot at one y, or at one x when Upright.
	Limit struct {
		Name    string
		At      float64
		Upright bool
	}
)

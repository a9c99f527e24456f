package chart

import (
	"math"
	"sort"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"tautline/render/lettering"
)

// A plotArea is what stands between the axes of a figure: grid, limits, curves,
// marks and their labels. Labels stand at what they name, where they cover
// least; there is no legend to look things up in.
type plotArea struct {
	*Figure
	style draw.TextStyle
	ends  []endLabel

	dots  []vg.Point     // along every curve, a few units apart
	taken []vg.Rectangle // by labels and marks
}

// An endLabel names a curve at its right end.
type endLabel struct {
	curve         int
	lines         []string
	width, height vg.Length
}

// endLabels breaks the names of the curves into lines of at most width.
func (f *Figure) endLabels(style draw.TextStyle, width vg.Length) []endLabel {
	var labels []endLabel
	for i := range f.Curves {
		name := lettering.OneLine(f.Curves[i].Name)
		if name == "" {
			continue
		}
		lines := lettering.Wrap(style, name, width)
		e := endLabel{curve: i, lines: lines, height: vg.Length(len(lines)) * style.Font.Size * 1.2}
		for _, l := range lines {
			e.width = max(e.width, style.Width(l))
		}
		labels = append(labels, e)
	}
	return labels
}

// Plot draws on c, which covers the area between the axes.
func (d *plotArea) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	d.grid(c, p, x, y)
	paths := make([][][]vg.Point, len(d.Curves))
	for i := range d.Curves {
		paths[i] = d.paths(d.Curves[i], x, y)
		d.trace(paths[i])
	}
	d.limits(c, x, y)
	for i, ps := range paths {
		stroke(c, ps, draw.LineStyle{Color: lettering.CurveInk(i), Width: 1.8, Dashes: dashes[(i+i/lettering.CurveInks)%lettering.CurveInks]})
	}
	d.marks(c, x, y)
	d.limitNames(c, x, y)
	d.markNames(c, x, y)
	d.names(c, paths)
	if len(d.dots)+len(d.Marks)+len(d.Limits) == 0 {
		s := d.style
		s.Color, s.XAlign = lettering.InkSoft, draw.XCenter
		c.FillText(s, c.Center(), "nothing to draw")
	}
}

func (d *plotArea) grid(c draw.Canvas, p *plot.Plot, x, y func(float64) vg.Length) {
	line := draw.LineStyle{Color: lettering.InkGrid, Width: 0.7}
	for _, t := range p.X.Tick.Marker.Ticks(p.X.Min, p.X.Max) {
		c.StrokeLine2(line, x(t.Value), c.Min.Y, x(t.Value), c.Max.Y)
	}
	for _, t := range p.Y.Tick.Marker.Ticks(p.Y.Min, p.Y.Max) {
		line.Color = lettering.InkGrid
		if t.Value == 0 && !d.Y.Log {
			line.Color = lettering.InkSoft
		}
		c.StrokeLine2(line, c.Min.X, y(t.Value), c.Max.X, y(t.Value))
	}
}

// paths are the runs of points that can be drawn, thinned to what an eye can see.
func (f *Figure) paths(c Curve, x, y func(float64) vg.Length) [][]vg.Point {
	var paths [][]vg.Point
	gap := true
	for i := range c.len() {
		if !f.holds(c.X[i], c.Y[i]) {
			gap = true
			continue
		}
		pt := vg.Point{X: x(c.X[i]), Y: y(c.Y[i])}
		if gap {
			paths = append(paths, nil)
			gap = false
		}
		path := &paths[len(paths)-1]
		if n := len(*path); n > 1 && near((*path)[n-2], (*path)[n-1]) {
			(*path)[n-1] = pt
			continue
		}
		*path = append(*path, pt)
	}
	return paths
}

func near(a, b vg.Point) bool { return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) < 0.35 }

// stroke draws runs of points; a run of one point is a dot.
func stroke(c draw.Canvas, paths [][]vg.Point, line draw.LineStyle) {
	for _, path := range paths {
		if len(path) == 1 {
			c.DrawGlyph(draw.GlyphStyle{Color: line.Color, Radius: 2.5, Shape: draw.CircleGlyph{}}, path[0])
			continue
		}
		c.StrokeLines(line, path)
	}
}

// trace remembers where the curves run.
func (d *plotArea) trace(paths [][]vg.Point) {
	const pitch = 5
	for _, path := range paths {
		for i, a := range path {
			d.dots = append(d.dots, a)
			if i+1 == len(path) {
				break
			}
			b := path[i+1]
			n := int(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y)) / pitch)
			for k := 1; k <= n; k++ {
				t := vg.Length(k) / vg.Length(n+1)
				d.dots = append(d.dots, vg.Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)})
			}
		}
	}
}

// limits draws the limits, and lets the labels know where they run.
func (d *plotArea) limits(c draw.Canvas, x, y func(float64) vg.Length) {
	line := draw.LineStyle{Color: lettering.InkLimit, Width: 1.3, Dashes: []vg.Length{5, 4}}
	for _, l := range d.Limits {
		if !d.holdsLimit(l) {
			continue
		}
		path := []vg.Point{{X: c.Min.X, Y: y(l.At)}, {X: c.Max.X, Y: y(l.At)}}
		if l.Upright {
			path = []vg.Point{{X: x(l.At), Y: c.Min.Y}, {X: x(l.At), Y: c.Max.Y}}
		}
		c.StrokeLines(line, path)
		d.trace([][]vg.Point{path})
	}
}

func (d *plotArea) limitNames(c draw.Canvas, x, y func(float64) vg.Length) {
	for _, l := range d.Limits {
		if !d.holdsLimit(l) {
			continue
		}
		name := d.fitIn(c, l.Name)
		w, h := d.style.Width(name), d.style.Font.Size
		var spots []vg.Point // middle of the left edge
		for f := vg.Length(0); f <= 1; f += 0.25 {
			if l.Upright {
				at, v := x(l.At), c.Max.Y-h-f*(c.Max.Y-c.Min.Y-2*h)
				spots = append(spots, vg.Point{X: at + 5, Y: v}, vg.Point{X: at - 5 - w, Y: v})
			} else {
				at, u := y(l.At), c.Min.X+5+f*(c.Max.X-c.Min.X-w-10)
				spots = append(spots, vg.Point{X: u, Y: at + 0.95*h}, vg.Point{X: u, Y: at - 0.85*h})
			}
		}
		d.label(c, name, lettering.InkLimit, spots)
	}
}

func (d *plotArea) marks(c draw.Canvas, x, y func(float64) vg.Length) {
	const r = lettering.MarkRadius
	for _, m := range d.Marks {
		if d.holds(m.X, m.Y) {
			at := vg.Point{X: x(m.X), Y: y(m.Y)}
			c.DrawGlyph(draw.GlyphStyle{Color: lettering.InkText, Radius: r, Shape: draw.CircleGlyph{}}, at)
			d.taken = append(d.taken, vg.Rectangle{Min: vg.Point{X: at.X - r, Y: at.Y - r}, Max: vg.Point{X: at.X + r, Y: at.Y + r}})
		}
	}
}

func (d *plotArea) markNames(c draw.Canvas, x, y func(float64) vg.Length) {
	for _, m := range d.Marks {
		if !d.holds(m.X, m.Y) {
			continue
		}
		at := vg.Point{X: x(m.X), Y: y(m.Y)}
		name := d.fitIn(c, m.Name)
		w, h := d.style.Width(name), d.style.Font.Size
		var spots []vg.Point
		for _, far := range []vg.Length{1, 2, 3.5} {
			dx, dy := lettering.MarkRadius+5*far, far*0.9*h
			spots = append(spots,
				vg.Point{X: at.X + dx, Y: at.Y + dy}, vg.Point{X: at.X + dx, Y: at.Y - dy},
				vg.Point{X: at.X - dx - w, Y: at.Y + dy}, vg.Point{X: at.X - dx - w, Y: at.Y - dy},
				vg.Point{X: at.X - w/2, Y: at.Y + dy + lettering.MarkRadius}, vg.Point{X: at.X - w/2, Y: at.Y - dy - lettering.MarkRadius})
		}
		d.label(c, name, lettering.InkText, spots)
	}
}

func (d *plotArea) fitIn(c draw.Canvas, name string) string {
	return lettering.Fit(d.style, lettering.OneLine(name), 0.6*(c.Max.X-c.Min.X))
}

// label writes text at the best of spots: a clear one, and rather an early one.
func (d *plotArea) label(c draw.Canvas, text string, k lettering.Ink, spots []vg.Point) {
	if text == "" {
		return
	}
	w, h := d.style.Width(text), d.style.Font.Size
	best, most := spots[0], math.Inf(-1)
	for i, s := range spots {
		box := vg.Rectangle{Min: vg.Point{X: s.X, Y: s.Y - h/2}, Max: vg.Point{X: s.X + w, Y: s.Y + h/2}}
		score := min(d.clearance(box), 4) - 0.15*float64(i)
		if box.Min.X < c.Min.X || box.Max.X > c.Max.X || box.Min.Y < c.Min.Y || box.Max.Y > c.Max.Y {
			score -= 100
		}
		if score > most {
			best, most = s, score
		}
	}
	best.X = min(max(best.X, c.Min.X+2), max(c.Min.X+2, c.Max.X-w))
	style := d.style
	style.Color = k
	c.FillText(style, best, text)
	d.taken = append(d.taken, vg.Rectangle{Min: vg.Point{X: best.X, Y: best.Y - h/2}, Max: vg.Point{X: best.X + w, Y: best.Y + h/2}})
}

// clearance is how far box is from every curve and label, negative when it
// covers one.
func (d *plotArea) clearance(box vg.Rectangle) float64 {
	free := math.Inf(1)
	for _, t := range d.taken {
		dx, dy := max(t.Min.X-box.Max.X, box.Min.X-t.Max.X), max(t.Min.Y-box.Max.Y, box.Min.Y-t.Max.Y)
		if dx < 0 && dy < 0 {
			free = min(free, -20)
		}
	}
	for _, p := range d.dots {
		dx, dy := max(box.Min.X-p.X, p.X-box.Max.X, 0), max(box.Min.Y-p.Y, p.Y-box.Max.Y, 0)
		free = min(free, math.Hypot(float64(dx), float64(dy)))
	}
	if free < 1 {
		free -= 5
	}
	return free
}

// names writes the curves' names in a column at the right, each as near to the
// height of its curve's end as the others leave room, joined by a thin line.
func (d *plotArea) names(c draw.Canvas, paths [][][]vg.Point) {
	var ps []placed
	for _, e := range d.ends {
		if runs := paths[e.curve]; len(runs) > 0 {
			last := runs[len(runs)-1]
			end := last[len(last)-1]
			ps = append(ps, placed{e, end, end.Y})
		}
	}
	sort.SliceStable(ps, func(i, j int) bool { return ps[i].end.Y > ps[j].end.Y })
	spread(ps, c.Min.Y, c.Max.Y)
	left := c.Max.X + 14
	for _, p := range ps {
		if left-p.end.X > 20 || math.Abs(float64(p.y-p.end.Y)) > 3 {
			line := draw.LineStyle{Color: lettering.CurveInk(p.curve), Width: 0.7}
			c.StrokeLine2(line, p.end.X+3, p.end.Y, left-3, p.y)
		}
		style := d.style
		style.Color = lettering.CurveInk(p.curve)
		step := d.style.Font.Size * 1.2
		top := p.y + step*vg.Length(len(p.lines)-1)/2
		for i, line := range p.lines {
			c.FillText(style, vg.Point{X: left, Y: top - vg.Length(i)*step}, line)
		}
	}
}

// A placed label stands with its middle at y.
type placed struct {
	endLabel
	end vg.Point // of its curve
	y   vg.Length
}

// spread moves labels, sorted from the top, apart: to the mean of where they
// come when each gives way downwards and when each gives way upwards, then
// between floor and ceiling.
func spread(ps []placed, floor, ceiling vg.Length) {
	const gap = 3
	apart := func(i int) vg.Length { return (ps[i-1].height+ps[i].height)/2 + gap }
	up := make([]vg.Length, len(ps))
	for i := len(ps) - 1; i >= 0; i-- {
		up[i] = ps[i].y
		if i+1 < len(ps) {
			up[i] = max(up[i], up[i+1]+apart(i+1))
		}
	}
	down := vg.Length(math.Inf(1))
	for i := range ps {
		if i > 0 {
			down -= apart(i)
		}
		down = min(down, ps[i].y)
		ps[i].y = (down + up[i]) / 2
	}
	for i := range ps {
		ps[i].y = min(ps[i].y, ceiling-ps[i].height/2)
		ceiling = ps[i].y - ps[i].height/2 - gap
	}
	for i := len(ps) - 1; i >= 0; i-- {
		ps[i].y = max(ps[i].y, floor+ps[i].height/2)
		floor = ps[i].y + ps[i].height/2 + gap
	}
}

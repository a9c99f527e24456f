// Package drawing draws shapes: drawings to scale, drawings that follow one another
// in time, and roses. A pen writes them, with labels where they cover least.
package drawing

import (
	"fmt"
	"html"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/plot/vg"

	"tautline/render/lettering"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// A drawing is written twice, as figures are, wide and for a phone. The wide one
// takes a scale that reads as a plain ratio when the page is printed: so many px
// are a millimetre of paper, and the stylesheet prints it at that width.

// A Drawing is a picture to scale.
type Drawing struct {
	*sheet.Drawing
	Unit quantity.Unit // of what is written in it
}

// Name is the drawing's title.
func (d *Drawing) Name() string { return d.Title }

// Longest is the longest dimension, or the whole where there is none, in metres.
func (d *Drawing) Longest() float64 {
	longest := 0.0
	for _, s := range d.Shapes {
		if s.Kind == sheet.ShapeDimension {
			longest = max(longest, math.Hypot(float64(s.X[1]-s.X[0]), float64(s.Y[1]-s.Y[0])))
		}
	}
	if low, high, _ := d.extent(); longest == 0 {
		longest = max(high.x-low.x, high.y-low.y)
	}
	return longest
}

const (
	perMillimetre = 672.0 / 120 // px of the wide frame; report.css prints it 120 mm wide
	Tones         = 9           // of patches: --tone1 to --tone9 in report.css
)

// A sketch is one size of a drawing being written.
type sketch struct {
	*Drawing
	*pen
	id       string  // escaped
	scale    float64 // px to a metre
	ratio    string  // on paper; empty when none is promised
	origin   point   // of the drawing's lengths on the page
	areas    []string
	lines    []string
	patches  bool
	decimals int
}

// SVG draws the drawing as inline SVG. id starts every id in it.
func (d *Drawing) SVG(id string) (template.HTML, error) {
	var b strings.Builder
	for i, fr := range lettering.Frames {
		s := &sketch{Drawing: d, pen: newPen(fr), id: html.EscapeString(id + "." + fr.Class)}
		b.WriteString(s.draw(i == 0))
	}
	return template.HTML(b.String()), nil
}

func (s *sketch) draw(onPaper bool) string {
	low, high, ok := s.extent()
	top, bottom := 0.0, s.place(low, high, onPaper)
	s.list()
	s.measures(low, high)
	s.ground(bottom)
	if ok {
		s.hatches()
		s.shapes()
		s.annotations()
		top, bottom = s.room.used()
		top, bottom = min(top, s.at(0, sheet.Float(high.y)).y), max(bottom, s.at(0, sheet.Float(low.y)).y)
		bottom = s.footer(bottom)
	} else {
		s.write(point{s.width / 2, bottom / 2}, "middle", "soft", "nothing to draw")
	}
	return s.pen.svg("drawing", s.id, s.Title, s.words(low, high), top-0.3*s.em(), bottom)
}

// measures sets to how many decimals lengths are written in a picture of a size.
func (s *sketch) measures(low, high point) {
	s.decimals = max(0, 4-int(math.Round(math.Log10(max(high.x-low.x, high.y-low.y)/s.Unit.Factor))))
}

// extent is the box about all shapes, in metres; false when there is none.
func (d *Drawing) extent() (low, high point, ok bool) {
	low, high = point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	add := func(x, y float64) {
		low, high = point{min(low.x, x), min(low.y, y)}, point{max(high.x, x), max(high.y, y)}
	}
	for _, s := range d.Shapes {
		reach := 0.0
		if s.Kind == sheet.ShapeCircle {
			reach = float64(s.Value)
		}
		for i := range s.X {
			x, y := float64(s.X[i]), float64(s.Y[i])
			add(x-reach, y-reach)
			add(x+reach, y+reach)
			if s.Kind == sheet.ShapeDimension {
				way := point{float64(s.X[1] - s.X[0]), float64(s.Y[1] - s.Y[0])}.unit()
				add(x-way.y*float64(s.Value), y+way.x*float64(s.Value))
			}
		}
	}
	if low.x > high.x {
		return point{}, point{1, 1}, false
	}
	if size := high.minus(low); max(size.x, size.y) < 1e-6 { // m: a point
		low, high = point{low.x - 0.5, low.y - 0.5}, point{high.x + 0.5, high.y + 0.5}
	}
	return low, high, true
}

// place chooses the scale and returns the height of the ground.
func (s *sketch) place(low, high point, onPaper bool) float64 {
	pad := 2.4 * s.em()
	most := point{s.width - 2*pad, 1.6 * s.Frame.Height.Points()}
	size := high.minus(low)
	s.scale = min(most.x/size.x, most.y/size.y)
	if onPaper {
		s.scale, s.ratio = plainRatio(s.scale)
	}
	s.origin = point{(s.width-size.x*s.scale)/2 - low.x*s.scale, pad + high.y*s.scale}
	return size.y*s.scale + 2*pad
}

// plainRatio is the greatest scale, at most so many px to a metre, that is a
// plain ratio on paper.
func plainRatio(most float64) (scale float64, ratio string) {
	ratios := []float64{1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8}
	full := 1000 * perMillimetre
	for power := -9; power <= 12; power++ {
		for _, r := range ratios {
			if n := r * math.Pow10(power); n >= 1 && full/n <= most {
				return full / n, "1 : " + lettering.Typeset(strconv.FormatFloat(n, 'f', -1, 64))
			}
		}
	}
	return most, ""
}

// at is the place of a length on the page.
func (s *sketch) at(x, y sheet.Float) point {
	return point{s.origin.x + float64(x)*s.scale, s.origin.y - float64(y)*s.scale}
}

func (s *sketch) points(shape sheet.Shape) []point {
	ps := make([]point, len(shape.X))
	for i := range ps {
		ps[i] = s.at(shape.X[i], shape.Y[i])
	}
	return ps
}

// list finds the names that the legend explains.
func (s *sketch) list() {
	for _, shape := range s.Shapes {
		switch {
		case shape.Kind == sheet.ShapeArea && !slices.Contains(s.areas, shape.Name):
			s.areas = append(s.areas, shape.Name)
		case shape.Kind == sheet.ShapeLine && !slices.Contains(s.lines, shape.Name):
			s.lines = append(s.lines, shape.Name)
		case shape.Kind == sheet.ShapePatch:
			s.patches = true
		}
	}
}

// hatch is what fills the areas, in squares of 8 px: what tells them apart without
// colour.
var hatch = [lettering.CurveInks]string{"M0 8L8 0M-1 1L1 -1M7 9L9 7", "M0 0L8 8M-1 7L1 9M7 -1L9 1", "M0 4H8", "M4 0V8", "M0 4H8M4 0V8", "M2 2h.01M6 6h.01"}

// A look is the colour and the hatch or the dashes of the i-th named thing, each
// from 0: as many as can be before a pair comes again.
func look(i int) (colour, pattern int) {
	return i % lettering.CurveInks, (i + i/lettering.CurveInks) % lettering.CurveInks
}

// hatches defines the fills of the areas.
func (s *sketch) hatches() {
	for i := range min(len(s.areas), lettering.CurveInks*lettering.CurveInks) {
		colour, pattern := look(i)
		class := "hatch"
		if pattern == lettering.CurveInks-1 {
			class = "hatch dots"
		}
		fmt.Fprintf(s, `<pattern id="%s.h%d" width="8" height="8" patternUnits="userSpaceOnUse"><path class="%s k%d" d="%s"/></pattern>`, s.id, i+1, class, colour+1, hatch[pattern])
	}
}

// shapes draws the geometry in the order it was put.
func (s *sketch) shapes() {
	low, high := s.tones()
	for i := 0; i < len(s.Shapes); i++ {
		shape := s.Shapes[i]
		ps := s.points(shape)
		switch shape.Kind {
		case sheet.ShapePatch:
			i = s.tonedRun(i, low, high)
		case sheet.ShapeArea:
			s.area(slices.Index(s.areas, shape.Name), trail(ps, true))
			s.room.trace(append(ps, ps[0])...)
		case sheet.ShapeOutline:
			s.path("heavy", trail(ps, true))
			s.room.trace(append(ps, ps[0])...)
		case sheet.ShapeLine:
			s.path(lineClass(slices.Index(s.lines, shape.Name)+len(s.areas)), trail(ps, false))
			s.room.trace(ps...)
		case sheet.ShapeThin:
			s.path("thin", trail(ps, false))
			s.room.trace(ps...)
		case sheet.ShapeCircle:
			r := float64(shape.Value) * s.scale
			s.circle("heavy", ps[0], r)
			s.room.trace(arc(ps[0], r)...)
		}
	}
}

// arc is a circle as points.
func arc(middle point, radius float64) []point {
	ps := make([]point, 73)
	for i := range ps {
		sin, cos := math.Sincos(float64(i) * math.Pi / 36)
		ps[i] = middle.plus(point{radius * cos, radius * sin})
	}
	return ps
}

func (s *sketch) area(i int, d string) {
	colour, _ := look(i)
	fmt.Fprintf(s, `<path class="tint k%d" d="%s"/><path class="edge k%[1]d" fill="url(#%[3]s.h%[4]d)" d="%[2]s"/>`, colour+1, d, s.id, i%(lettering.CurveInks*lettering.CurveInks)+1)
}

// lineClass is the look of the i-th named thing.
func lineClass(i int) string {
	colour, pattern := look(i)
	return fmt.Sprintf("named k%d d%d", colour+1, pattern+1)
}

// tones is what the first and the last tone stand for.
func (d *Drawing) tones() (low, high float64) {
	if d.Tones != nil {
		return float64(d.Tones.Low), float64(d.Tones.High)
	}
	low, high = math.Inf(1), math.Inf(-1)
	for _, s := range d.Shapes {
		if s.Kind == sheet.ShapePatch {
			low, high = min(low, float64(s.Value)), max(high, float64(s.Value))
		}
	}
	if low == high {
		return low - 0.5, high + 0.5
	}
	return low, high
}

func tone(v, low, high float64) int {
	share := (v/2 - low/2) / (high/2 - low/2) // halves, which no difference of floats is too large for
	return int(min(max(Tones*share, 0), Tones-1))
}

// tonedRun draws the patches of one tone that follow one another as one path,
// and returns the index of the last.
func (s *sketch) tonedRun(i int, low, high float64) int {
	k := tone(float64(s.Shapes[i].Value), low, high)
	var d strings.Builder
	for ; i < len(s.Shapes); i++ {
		shape := s.Shapes[i]
		if shape.Kind != sheet.ShapePatch || tone(float64(shape.Value), low, high) != k {
			break
		}
		ps := s.points(shape)
		if turn(ps) < 0 { // or two that overlap would make a hole
			slices.Reverse(ps)
		}
		appendTrail(&d, ps, true)
	}
	s.path(fmt.Sprintf("tone t%d", k+1), d.String())
	return i - 1
}

// turn is twice the area that points go about, negative the other way round.
func turn(ps []point) float64 {
	sum := 0.0
	for i, a := range ps {
		b := ps[(i+1)%len(ps)]
		sum += (a.x-ps[0].x)*(b.y-ps[0].y) - (b.x-ps[0].x)*(a.y-ps[0].y)
	}
	return sum
}

// annotations draws what stands above the geometry: first all lines, then the
// labels, those that can move least first.
func (s *sketch) annotations() {
	each := func(kind sheet.ShapeKind, do func(sheet.Shape, []point)) {
		for _, shape := range s.Shapes {
			if shape.Kind == kind {
				do(shape, s.points(shape))
			}
		}
	}
	each(sheet.ShapeArrow, func(_ sheet.Shape, ps []point) { s.arrow(ps[0], ps[1]) })
	each(sheet.ShapeMark, func(_ sheet.Shape, ps []point) {
		s.circle("mark", ps[0], lettering.MarkRadius)
		s.room.take(spot{at: ps[0]}, 2*lettering.MarkRadius, 2*lettering.MarkRadius)
	})
	var dims []dimension
	each(sheet.ShapeDimension, func(shape sheet.Shape, ps []point) {
		dims = append(dims, s.dimension(shape, ps[0], ps[1]))
	})
	for _, d := range dims {
		s.label(d.text, "ink", d.spots...)
	}
	text := 0.35 * s.width
	if s.Free { // words are what a diagram is made of
		text = 0.62 * s.width
	}
	each(sheet.ShapeText, func(shape sheet.Shape, ps []point) {
		b := s.wrap(shape.Name, text)
		s.label(b, "ink", s.on(ps[0], b)...)
	})
	each(sheet.ShapeMark, func(shape sheet.Shape, ps []point) {
		b := s.wrap(shape.Name, 0.35*s.width)
		s.label(b, "ink", s.around(ps[0], lettering.MarkRadius, b)...)
	})
	each(sheet.ShapeArrow, func(shape sheet.Shape, ps []point) {
		b := s.wrap(shape.Name, 0.35*s.width)
		s.label(b, "ink", s.besideArrow(ps[0], ps[1], b)...)
	})
}

func (s *sketch) arrow(from, to point) {
	direction := from.toward(to)
	const head = 10
	if to.minus(from).length() > head {
		s.line("arrow", from, to.along(direction, -0.8*head))
	}
	s.head("arrowhead", to, direction, head)
	s.room.trace(from, to)
	s.room.take(spot{at: to.along(direction, -head/2.0)}, 0.8*head, 0.8*head)
}

// besideArrow are the spots for an arrow's label: behind its tail, beside its
// middle, before its head.
func (s *sketch) besideArrow(from, to point, b block) []spot {
	d := from.toward(to)
	across := d.left()
	reach := func(d point) float64 { return math.Abs(d.x)*b.width/2 + math.Abs(d.y)*b.height/2 + 4 }
	var spots []spot
	spots = append(spots, spot{at: from.along(d, -reach(d))})
	for _, f := range []float64{0.5, 0.25, 0.75} {
		middle := from.plus(to.minus(from).times(f))
		spots = append(spots, spot{at: middle.along(across, reach(across))}, spot{at: middle.along(across, -reach(across))})
	}
	return append(spots, spot{at: to.along(d, reach(d))})
}

// A dimension is the label of a dimension line and where it may stand.
type dimension struct {
	text  block
	spots []spot
}

// dimension draws a dimension line between two points.
func (s *sketch) dimension(shape sheet.Shape, a, b point) dimension {
	const head, over, gap = 8, 4, 3
	u := a.toward(b)
	side := u.left()
	off := float64(shape.Value) * s.scale
	if off != 0 {
		off = math.Copysign(max(math.Abs(off), 1.5*s.em()), off)
	}
	p, q := a.along(side, off), b.along(side, off)
	if sign := math.Copysign(1, off); math.Abs(off) > gap {
		s.line("dim", a.along(side, sign*gap), p.along(side, sign*over))
		s.line("dim", b.along(side, sign*gap), q.along(side, sign*over))
		s.room.trace(a, p)
		s.room.trace(b, q)
	}
	long := q.minus(p).length()
	if long > 3*head {
		s.line("dim", p, q)
		s.head("dimhead", p, u.times(-1), head)
		s.head("dimhead", q, u, head)
		s.room.trace(p, q)
	} else { // no room between: the arrows come from outside
		s.line("dim", p.along(u, -2*head), q.along(u, 2*head))
		s.head("dimhead", p, u, head)
		s.head("dimhead", q, u.times(-1), head)
		s.room.trace(p.along(u, -2*head), q.along(u, 2*head))
	}
	text := s.block(s.length(math.Hypot(float64(shape.X[1]-shape.X[0]), float64(shape.Y[1]-shape.Y[0]))))
	turn := math.Atan2(u.y, u.x) * 180 / math.Pi
	if turn >= 89.9 {
		turn -= 180
	} else if turn < -90.1 {
		turn += 180
	}
	sin, cos := math.Sincos(turn * math.Pi / 180)
	up := point{sin, -cos}.times(0.7 * s.em())
	middle := p.middle(q)
	d := dimension{text: text}
	if text.width+4 <= long {
		third := u.times((long - text.width) / 2 * 0.7)
		for _, m := range []point{middle, middle.plus(third), middle.minus(third)} {
			d.spots = append(d.spots, spot{at: m.plus(up), turn: turn}, spot{at: m.minus(up), turn: turn})
		}
		return d
	}
	beyond := u.times(long/2 + text.width/2 + 2*head + 3)
	up = up.times(1.4) // over the ends of the extension lines
	for _, m := range []point{middle.plus(up), middle.minus(up), middle.plus(beyond), middle.minus(beyond)} {
		d.spots = append(d.spots, spot{at: m, turn: turn})
	}
	return d
}

// length writes a length in the drawing's unit, to the same decimals everywhere
// in it.
func (s *sketch) length(v float64) string {
	return lettering.Typeset(lettering.TrimZeros(strconv.FormatFloat(s.Unit.FromSI(v), 'f', s.decimals, 64)))
}

// footer writes what explains the picture below it, and returns where it ends.
func (s *sketch) footer(top float64) float64 {
	y := top
	if !s.Free {
		y = s.scaleBar(top)
	}
	if s.patches {
		y = s.toneBar(y + 0.9*s.em())
	}
	if len(s.areas)+len(s.lines) > 0 {
		y = s.legend(y+0.5*s.em(), slices.Concat(s.areas, s.lines), func(i int, left, right, top, bottom float64) {
			if i < len(s.areas) {
				s.area(i, box(left, right, top, bottom))
			} else {
				s.line(lineClass(i), point{left, (top + bottom) / 2}, point{right, (top + bottom) / 2})
			}
		})
	}
	return y + 0.4*s.em()
}

// scaleBar draws the scale bar, says the unit of dimensions and the scale on
// paper, and where north is.
func (s *sketch) scaleBar(top float64) float64 {
	long := lettering.NiceStep(0.22 * s.width / s.scale / s.Unit.Factor)
	px := long * s.Unit.Factor * s.scale
	if px > 0.4*s.width {
		long, px = long/2, px/2
	}
	left, base, tall := 0.5*s.measure("0")+1, top+2.7*s.em(), 0.42*s.em()
	s.path("box full", box(left, left+px/2, base, base+tall))
	s.path("box", box(left+px/2, left+px, base, base+tall))
	s.write(point{left, base - 0.4*s.em()}, "middle", "soft", "0")
	end := lettering.Typeset(lettering.TrimZeros(strconv.FormatFloat(long, 'f', 9, 64))) + "\u00a0" + s.Unit.Symbol
	s.write(point{left + px, base - 0.4*s.em()}, "middle", "soft", end)
	var notes []string
	if slices.ContainsFunc(s.Shapes, func(sh sheet.Shape) bool { return sh.Kind == sheet.ShapeDimension }) {
		notes = append(notes, "dimensions in "+s.Unit.Symbol)
	}
	if s.ratio != "" {
		notes = append(notes, s.ratio+" where printed at full size")
	}
	x := left + px + 0.5*s.measure(end) + 1.4*s.em()
	s.write(point{x, base + tall}, "start", "soft", lettering.Fit(s.style, strings.Join(notes, "; "), vg.Length(s.width-x-3*s.em())))
	if slices.ContainsFunc(s.Shapes, func(sh sheet.Shape) bool { return sh.Kind == sheet.ShapeCompass }) {
		s.compass(point{s.width - 1.2*s.em(), base - 0.1*s.em()})
	}
	return base + tall + 0.9*s.em()
}

// compass draws a needle that points up, to north.
func (s *sketch) compass(at point) {
	h, w := 1.5*s.em(), 0.5*s.em()
	up, down, right, left := at.plus(point{0, -h}), at.plus(point{0, h}), at.plus(point{w, 0}), at.plus(point{-w, 0})
	s.path("box", trail([]point{up, right, down, left}, true))
	s.path("box full", trail([]point{up, right, left}, true))
	s.write(point{at.x, at.y - h - 0.3*s.em()}, "middle", "ink", "N")
}

// toneBar explains the tones of patches.
func (s *sketch) toneBar(y float64) float64 {
	low, high := s.tones()
	if s.Tones != nil && s.Tones.Name != "" {
		s.write(point{0, y + 0.8*s.em()}, "start", "ink", s.fit(s.Tones.Name, s.width))
		y += 1.3 * s.em()
	}
	least, most := low, high
	for _, shape := range s.Shapes {
		if shape.Kind == sheet.ShapePatch {
			least, most = min(least, float64(shape.Value)), max(most, float64(shape.Value))
		}
	}
	wide, tall := min(0.9*s.width, 330)/Tones, 0.95*s.em()
	for k := range Tones {
		x := 1 + wide*float64(k)
		s.path(fmt.Sprintf("tonebar t%d", k+1), box(x, x+wide, y, y+tall))
	}
	first, last := lettering.Number(low), lettering.Number(high)
	if least < low {
		first = "≤ " + first
	}
	if most > high {
		last = "≥ " + last
	}
	base := y + tall + 1.05*s.em()
	s.write(point{1, base}, "start", "soft", first)
	s.write(point{1 + wide*Tones/2, base}, "middle", "soft", lettering.Number((low+high)/2))
	s.write(point{1 + wide*Tones, base}, "end", "soft", last)
	return base + 0.5*s.em()
}

// words describes the drawing to who cannot see it.
func (s *sketch) words(low, high point) string {
	var b strings.Builder
	wide := func(v float64) string { return s.length(v) + " " + s.Unit.Symbol }
	if s.Free {
		b.WriteString("A picture not to scale.")
	} else {
		fmt.Fprintf(&b, "A picture to scale, %s wide and %s high.", wide(high.x-low.x), wide(high.y-low.y))
	}
	texts := map[sheet.ShapeKind][]string{}
	for _, shape := range s.Shapes {
		text := lettering.OneLine(shape.Name)
		if shape.Kind == sheet.ShapeDimension {
			text = wide(math.Hypot(float64(shape.X[1]-shape.X[0]), float64(shape.Y[1]-shape.Y[0])))
		}
		if text != "" && !slices.Contains(texts[shape.Kind], text) {
			texts[shape.Kind] = append(texts[shape.Kind], text)
		}
		if shape.Kind == sheet.ShapeCompass {
			b.WriteString(" North is up.")
		}
	}
	const most = 40
	for _, list := range []struct {
		word string
		kind sheet.ShapeKind
	}{{"Areas", sheet.ShapeArea}, {"Lines", sheet.ShapeLine}, {"Dimensions", sheet.ShapeDimension}, {"Arrows", sheet.ShapeArrow}, {"Marks", sheet.ShapeMark}, {"Texts", sheet.ShapeText}} {
		if all := texts[list.kind]; len(all) > most {
			fmt.Fprintf(&b, " %s: %s and %d more.", list.word, strings.Join(all[:most], "; "), len(all)-most)
		} else if len(all) > 0 {
			fmt.Fprintf(&b, " %s: %s.", list.word, strings.Join(all, "; "))
		}
	}
	if s.patches {
		low, high := s.tones()
		name := "a number"
		if s.Tones != nil && s.Tones.Name != "" {
			name = lettering.OneLine(s.Tones.Name)
		}
		fmt.Fprintf(&b, " Patches in tones of %s from %s to %s.", name, lettering.Number(low), lettering.Number(high))
	}
	return b.String()
}

package drawing

import (
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"tautline/render/lettering"
)

// A pen writes the SVG of drawings and roses: shapes in classes of the page's
// stylesheet, and labels where they cover least.
type pen struct {
	strings.Builder
	lettering.Frame
	style  draw.TextStyle
	width  float64
	height float64 // of the ground on which labels may stand
	room   room
}

// A point of the page: x to the right, y downward, in px.
type point struct{ x, y float64 }

func (p point) plus(q point) point             { return point{p.x + q.x, p.y + q.y} }
func (p point) minus(q point) point            { return point{p.x - q.x, p.y - q.y} }
func (p point) times(f float64) point          { return point{p.x * f, p.y * f} }
func (p point) length() float64                { return math.Hypot(p.x, p.y) }
func (p point) toward(q point) point           { return q.minus(p).unit() }
func (p point) middle(q point) point           { return p.plus(q).times(0.5) }
func (p point) left() point                    { return point{p.y, -p.x} }
func (p point) along(d point, f float64) point { return p.plus(d.times(f)) }

// unit is p with length 1; to the right when p has none.
func (p point) unit() point {
	if l := p.length(); l > 0 {
		return p.times(1 / l)
	}
	return point{1, 0}
}

func newPen(fr lettering.Frame) *pen {
	return &pen{Frame: fr, style: lettering.TextStyle(fr.Size, lettering.InkText), width: fr.Width.Points()}
}

// ground sets how high the part of the picture is on which labels may stand.
func (p *pen) ground(height float64) {
	p.height = height
	p.room = newRoom(p.width, height)
}

func (p *pen) em() float64 { return p.Size.Points() }

// svg is what was written from top to bottom, as a picture.
func (p *pen) svg(class, id, title, words string, top, bottom float64) string {
	id = html.EscapeString(id)
	return fmt.Sprintf(`<svg class="plot %s %s" viewBox="0 %s %s %s" role="img" aria-labelledby="%s.t %[6]s.d"><title id="%[6]s.t">%[7]s</title><desc id="%[6]s.d">%[8]s</desc><g font-size="%[9]s">%[10]s</g></svg>`,
		class, p.Class, coordinate(math.Floor(top)), coordinate(p.width), coordinate(math.Ceil(bottom)-math.Floor(top)), id, html.EscapeString(lettering.OneLine(title)), html.EscapeString(words), coordinate(p.em()), p.String())
}

// legend explains names, each beside a swatch that is drawn by its number, and
// returns where it ends.
func (p *pen) legend(y float64, names []string, swatch func(i int, left, right, top, bottom float64)) float64 {
	const wide = 26
	x, row, next := 0.0, 1.55*p.em(), y
	for i, name := range names {
		text := p.wrap(name, p.width-wide-8)
		whole := wide + 8 + text.width
		if x > 0 && x+whole > p.width {
			x, y = 0, next
		}
		swatch(i, x+1, x+wide, y+0.15*p.em(), y+1.05*p.em())
		for k, line := range text.lines {
			p.write(point{x + wide + 7, y + (0.95+1.2*float64(k))*p.em()}, "start", "ink", line)
		}
		x += whole + 1.6*p.em()
		next = max(next, y+row+1.2*p.em()*float64(max(0, len(text.lines)-1)))
	}
	return next
}

// box is a rectangle.
func box(left, right, top, bottom float64) string {
	return trail([]point{{left, top}, {right, top}, {right, bottom}, {left, bottom}}, true)
}

// trail is the d attribute of a line through points, a closed one when asked.
func trail(points []point, closed bool) string {
	var b strings.Builder
	appendTrail(&b, points, closed)
	return b.String()
}

func appendTrail(b *strings.Builder, points []point, closed bool) {
	var last point
	for i, at := range points {
		switch {
		case i == 0:
			b.WriteByte('M')
		case i+1 < len(points) && at.minus(last).length() < 0.35: // nobody sees it
			continue
		default:
			b.WriteByte('L')
		}
		last = at
		b.WriteString(coordinate(at.x) + " " + coordinate(at.y))
	}
	if closed {
		b.WriteByte('Z')
	}
}

// coordinate writes v to a tenth.
func coordinate(v float64) string {
	s := strings.TrimSuffix(strconv.FormatFloat(v, 'f', 1, 64), ".0")
	if s == "-0" {
		return "0"
	}
	return s
}

func (p *pen) path(class, d string) { fmt.Fprintf(p, `<path class="%s" d="%s"/>`, class, d) }

func (p *pen) line(class string, points ...point) { p.path(class, trail(points, false)) }

func (p *pen) circle(class string, at point, radius float64) {
	fmt.Fprintf(p, `<circle class="%s" cx="%s" cy="%s" r="%s"/>`, class, coordinate(at.x), coordinate(at.y), coordinate(radius))
}

// head draws the head of an arrow that ends at a point in a direction.
func (p *pen) head(class string, at, direction point, size float64) {
	back, side := at.along(direction, -size), direction.left().times(0.32*size)
	p.path(class, trail([]point{at, back.plus(side), back.minus(side)}, true))
}

// write puts one line of text with its base at a point. The text of a notebook
// comes by way of fit or wrap, which make it one that a picture can hold.
func (p *pen) write(at point, anchor, class, text string) {
	fmt.Fprintf(p, `<text x="%s" y="%s" text-anchor="%s" class="%s">%s</text>`, coordinate(at.x), coordinate(at.y), anchor, class, html.EscapeString(text))
}

// measure is how wide a text is. The page's font may be a little wider than the
// one that is measured.
func (p *pen) measure(text string) float64 { return 1.03 * p.style.Width(text).Points() }

// fit cuts a text down to a width.
func (p *pen) fit(text string, width float64) string {
	return lettering.Fit(p.style, lettering.OneLine(text), vg.Length(width/1.03))
}

// A block is a label of one or more lines.
type block struct {
	lines         []string
	width, height float64
}

// wrap breaks a label into lines of at most width, as even as can be.
func (p *pen) wrap(text string, width float64) block {
	best := p.block(lettering.Wrap(p.style, lettering.OneLine(text), vg.Length(width/1.03))...)
	for narrower := 0.9 * width; len(best.lines) > 1 && narrower > 0.5*width; narrower *= 0.9 {
		b := p.block(lettering.Wrap(p.style, lettering.OneLine(text), vg.Length(narrower/1.03))...)
		if len(b.lines) > len(best.lines) || b.width >= best.width || strings.HasSuffix(b.lines[len(b.lines)-1], "…") {
			break
		}
		best = b
	}
	return best
}

func (p *pen) block(lines ...string) block {
	b := block{lines: lines, height: 1.2*p.em()*float64(len(lines)) - 0.3*p.em()}
	for _, l := range lines {
		b.width = max(b.width, p.measure(l))
	}
	return b
}

// A spot is where a label may stand: its middle, its turn in degrees, clockwise,
// and how much worse it is than another that covers as much.
type spot struct {
	at    point
	turn  float64
	worse float64
}

// label writes a block at the spot where it covers least, the earlier of two
// alike.
func (p *pen) label(b block, class string, spots ...spot) {
	if len(b.lines) == 0 {
		return
	}
	best, least := spots[0], math.Inf(1)
	for i, s := range spots {
		s = p.inside(s, b)
		if price := p.room.price(s, b.width, b.height) + s.worse + 0.5*float64(i); price < least {
			best, least = s, price
		}
	}
	p.room.take(best, b.width, b.height)
	step := 1.2 * p.em()
	first := -step * float64(len(b.lines)-1) / 2
	for i, line := range b.lines {
		base := first + float64(i)*step + 0.35*p.em()
		if best.turn == 0 {
			p.write(point{best.at.x, best.at.y + base}, "middle", class, line)
			continue
		}
		fmt.Fprintf(p, `<text transform="translate(%s %s) rotate(%s)" y="%s" text-anchor="middle" class="%s">%s</text>`, coordinate(best.at.x), coordinate(best.at.y),
			coordinate(best.turn), coordinate(base), class, html.EscapeString(line))
	}
}

// inside moves a spot so that a block there stays on the ground.
func (p *pen) inside(s spot, b block) spot {
	sin, cos := math.Sincos(s.turn * math.Pi / 180)
	w := (math.Abs(cos)*b.width + math.Abs(sin)*b.height) / 2
	h := (math.Abs(sin)*b.width + math.Abs(cos)*b.height) / 2
	s.at.x = min(max(s.at.x, w+1), max(p.width-w-1, w+1))
	s.at.y = min(max(s.at.y, h+1), max(p.height-h-1, h+1))
	return s
}

// around are spots beside something of a radius: right, left, above, below,
// corners, near ones first.
func (p *pen) around(at point, radius float64, b block) []spot {
	var spots []spot
	for _, far := range []float64{1, 2.2, 4} {
		dx, dy := radius+b.width/2+4*far, radius+b.height/2+1+2*far
		for _, d := range []point{{dx, -dy / 2}, {dx, dy / 2}, {-dx, -dy / 2}, {-dx, dy / 2}, {0, -dy}, {0, dy}, {dx * 0.8, -dy}, {-dx * 0.8, -dy}, {dx * 0.8, dy}, {-dx * 0.8, dy}} {
			spots = append(spots, spot{at: at.plus(d)})
		}
	}
	return spots
}

// on are spots on a point and about it, the worse the farther. Rather than move
// far, a label crosses lines.
func (p *pen) on(at point, b block) []spot {
	spots := []spot{{at: at}}
	half, whole, row := b.width/2+8, b.width+6, b.height+3
	for _, d := range []point{{0, row / 2}, {b.width / 4, 0}, {0, row}, {half, 0}, {half, row}, {0, 2 * row}, {whole, 0}, {whole, row}, {0, 3 * row}, {whole, 2 * row}} {
		for _, sign := range []point{{1, -1}, {1, 1}, {-1, -1}, {-1, 1}} {
			off := point{sign.x * d.x, sign.y * d.y}
			spots = append(spots, spot{at: at.plus(off), worse: 10 + 0.5*off.length()})
		}
	}
	return spots
}

// A room remembers what of the ground is taken, in squares of a few px.
type room struct {
	columns, rows int
	squares       []uint8
}

const square = 2.0

func newRoom(width, height float64) room {
	r := room{columns: int(width/square) + 1, rows: int(height/square) + 1}
	r.squares = make([]uint8, r.columns*r.rows)
	return r
}

func (r *room) at(p point) *uint8 {
	x, y := int(math.Floor(p.x/square)), int(math.Floor(p.y/square))
	if x < 0 || y < 0 || x >= r.columns || y >= r.rows {
		return nil
	}
	return &r.squares[y*r.columns+x]
}

// trace takes the squares that a line runs through.
func (r *room) trace(points ...point) {
	const pitch = square / 2
	for i, a := range points {
		if c := r.at(a); c != nil {
			*c |= 1
		}
		if i == 0 {
			continue
		}
		b := points[i-1]
		n := int(b.minus(a).length() / pitch)
		for k := 1; k < n; k++ {
			if c := r.at(a.plus(b.minus(a).times(float64(k) / float64(n)))); c != nil {
				*c |= 1
			}
		}
	}
}

// used is how far up and down the ground anything was drawn.
func (r *room) used() (top, bottom float64) {
	first, last := len(r.squares), 0
	for i, c := range r.squares {
		if c != 0 {
			first, last = min(first, i), i
		}
	}
	return float64(first/r.columns) * square, float64(last/r.columns+1) * square
}

// each visits the squares under a box about a spot.
func (r *room) each(s spot, width, height float64, visit func(*uint8)) {
	sin, cos := math.Sincos(s.turn * math.Pi / 180)
	across, down := int(width/square)+1, int(height/square)+1
	for i := range across + 1 {
		for k := range down + 1 {
			u, v := width*(float64(i)/float64(across)-0.5), height*(float64(k)/float64(down)-0.5)
			if c := r.at(point{s.at.x + u*cos - v*sin, s.at.y + u*sin + v*cos}); c != nil {
				visit(c)
			}
		}
	}
}

// price is how much a box covers: a line little, another label much.
func (r *room) price(s spot, width, height float64) float64 {
	sum := 0.0
	r.each(s, width, height, func(c *uint8) {
		switch {
		case *c&2 != 0:
			sum += 10
		case *c != 0:
			sum++
		}
	})
	return sum
}

// take keeps a box for a label.
func (r *room) take(s spot, width, height float64) {
	r.each(s, width, height, func(c *uint8) { *c |= 2 })
}

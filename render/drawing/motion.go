package drawing

import (
	"fmt"
	"html"
	"html/template"
	"slices"
	"strings"

	"tautline/render/lettering"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// A motion is a reel of frames side by side, which the stylesheet moves on by one
// frame at each step, behind a window as wide as one. So it needs no script and no
// style of its own; a box under it, which a reader ticks, stops it. On paper stand
// some of the frames instead.

// A Motion is drawings that follow one another in time.
type Motion struct {
	*sheet.Motion
	Unit quantity.Unit // of what is written in it
}

// Name is the motion's title.
func (m *Motion) Name() string { return m.Title }

// Longest is that of a drawing of all the frames.
func (m *Motion) Longest() float64 { return m.sheetOf(m.Frames, 0).Longest() }

// window is the size of a frame of the reel, for the desk and the phone alike.
var window = lettering.Frame{Class: "", Width: 400, Height: 220, Size: 12}

// stills is how many frames are printed.
const stills = 4

// SVG draws the motion as inline SVG, with its boxes. id starts every id in it.
func (m *Motion) SVG(id string) (template.HTML, error) {
	var b strings.Builder
	if len(m.Frames) < 2 {
		return m.sheetOf(m.Frames, 1).SVG(id)
	}
	b.WriteString(`<div class="motion">`)
	for _, box := range [][2]string{{"halt", "Stand still"}, {"move", "Move"}} {
		at := html.EscapeString(id + "." + box[0])
		fmt.Fprintf(&b, `<input type="checkbox" class="%s" id="%s"/><label for="%s">%s</label>`, box[0], at, at, box[1])
	}
	b.WriteString(m.film(id))
	b.WriteString(`</div><div class="stills">`)
	for i, columns := range []int{stills, stills / 2} {
		s := &sketch{Drawing: m.sheetOf(m.stills(), columns), pen: newPen(lettering.Frames[i]), id: html.EscapeString(id + "." + lettering.Frames[i].Class)}
		b.WriteString(s.draw(i == 0))
	}
	b.WriteString("</div>")
	return template.HTML(b.String()), nil
}

// film is the window and the reel behind it.
func (m *Motion) film(id string) string {
	s := &sketch{Drawing: m.sheetOf(m.Frames, 0), pen: newPen(window), id: html.EscapeString(id + ".film")}
	low, high, _ := s.extent()
	bottom := s.place(low, high, false)
	s.list()
	s.measures(low, high)
	s.ground(bottom)
	s.hatches()
	fmt.Fprintf(s, `<g class="reel n%d s%.0f">`, len(m.Frames), 1000*float64(m.Step))
	for k, f := range m.Frames {
		shapes := *f
		shapes.Tones = s.Tones
		one := &sketch{Drawing: &Drawing{&shapes, m.Unit}, pen: newPen(window), id: s.id, scale: s.scale, origin: s.origin, areas: s.areas, lines: s.lines, decimals: s.decimals}
		one.ground(bottom)
		one.shapes()
		one.annotations()
		one.write(point{s.width - 0.5*s.em(), bottom - 0.5*s.em()}, "end", "soft", m.time(k))
		fmt.Fprintf(s, `<g transform="translate(%s)">%s</g>`, coordinate(float64(k)*s.width), one.String())
	}
	s.WriteString("</g>")
	words := fmt.Sprintf("%d pictures, one after another in %s, over and over. %s", len(m.Frames), m.time(len(m.Frames)), s.words(low, high))
	return s.pen.svg("film", s.id, m.Title, words, 0, s.footer(bottom))
}

// time is when a frame is shown.
func (m *Motion) time(frame int) string {
	return lettering.Number(float64(frame)*float64(m.Step)) + "\u00a0s"
}

// stills are the frames to print, evenly over the time.
func (m *Motion) stills() []*sheet.Drawing {
	low, high, _ := m.sheetOf(m.Frames, 0).extent()
	x, y := low.x/2+high.x/2, low.y-0.12*(high.y-low.y)
	var some []*sheet.Drawing
	for i := range stills {
		k := i * len(m.Frames) / stills
		f := *m.Frames[k]
		f.Shapes = append(slices.Clone(f.Shapes), sheet.Shape{Kind: sheet.ShapeText, Name: m.time(k), X: []sheet.Float{sheet.Float(x)}, Y: []sheet.Float{sheet.Float(y)}})
		some = append(some, &f)
	}
	return some
}

// sheetOf is one drawing with all the frames, in rows of so many; one on the other
// when it is 0.
func (m *Motion) sheetOf(fs []*sheet.Drawing, columns int) *Drawing {
	all := &sheet.Drawing{Title: m.Title}
	for _, f := range fs {
		all.Shapes = append(all.Shapes, f.Shapes...)
		all.Free = all.Free || f.Free
		if all.Tones == nil {
			all.Tones = f.Tones
		}
	}
	out := &Drawing{all, m.Unit}
	if low, high := out.tones(); all.Tones == nil && low < high {
		all.Tones = &sheet.Scale{Low: sheet.Float(low), High: sheet.Float(high)}
	}
	if columns == 0 {
		return out
	}
	low, high, _ := out.extent()
	step := high.minus(low).times(1.06)
	all.Shapes = nil
	for i, f := range fs {
		off := point{step.x * float64(i%columns), -step.y * float64(i/columns)}
		for _, shape := range f.Shapes {
			shape.X, shape.Y = moved(shape.X, off.x), moved(shape.Y, off.y)
			all.Shapes = append(all.Shapes, shape)
		}
	}
	return out
}

func moved(vs []sheet.Float, by float64) []sheet.Float {
	out := make([]sheet.Float, len(vs))
	for i, v := range vs {
		out[i] = v + sheet.Float(by)
	}
	return out
}

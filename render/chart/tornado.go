package chart

import (
	"fmt"
	"html"
	"html/template"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"tautline/render/lettering"
)

// A tornado is drawn as the figures are: twice, wide and for a phone, in the
// page's variables. A hollow bar reaches to the check with the given at its
// least, a solid one with the given at its greatest, so that the two can be told
// apart without colour.

const (
	barHeight = 13
	farthest  = 10.0 // utilisation beyond which a bar is cut off
	narrowest = 0.04 // that a scale covers, so that what hardly moves a check looks it
)

// A Tornado shows how far each given moves one check, the farthest first.
type Tornado struct {
	What    string
	Nominal float64 // utilisation
	Bars    []Bar
}

// A Bar is a check's utilisation with one given at either end of its tolerance;
// NaN where it could not be computed.
type Bar struct {
	Given     string // its symbol, value and tolerance
	At        [2]string
	Low, High float64
}

// A tornadoFrame is one size of a tornado.
type tornadoFrame struct {
	lettering.Frame
	labels draw.TextStyle
	left   vg.Length // where bars and their ends' labels begin
	row    vg.Length // height of one given
	above  vg.Length // of it, for the given's label over the bar
	ends   bool      // labels of the ends say the given's value too
	x      func(float64) vg.Length
}

// SVG draws the tornado as inline SVG. id starts every id in it.
func (t *Tornado) SVG(id string) template.HTML {
	var b strings.Builder
	for i, fr := range lettering.Frames {
		f := tornadoFrame{Frame: fr, labels: lettering.TextStyle(fr.Size, lettering.InkText), row: 30, ends: true}
		if i > 0 { // a phone: the label stands over its bar
			f.row, f.above, f.ends = 42, 18, false
		}
		t.draw(&b, &f, id+"."+fr.Class)
	}
	return template.HTML(b.String())
}

func (t *Tornado) draw(b *strings.Builder, f *tornadoFrame, id string) {
	x := t.span()
	low, high := t.margins(f)
	if f.above == 0 {
		for _, bar := range t.Bars {
			f.left = max(f.left, f.labels.Width(bar.Given)+14)
		}
		f.left = min(f.left, 0.4*f.Width)
	}
	from, to := f.left+low, f.Width-high
	f.x = func(u float64) vg.Length {
		return from + (to-from)*vg.Length((min(u, farthest)-x.low)/(x.high-x.low))
	}
	top := 2 * f.Size
	bottom := top + f.row*vg.Length(len(t.Bars))
	fmt.Fprintf(b, `<svg class="plot tornado %s" viewBox="0 0 %.0f %.0f" role="img" aria-labelledby="%s.t %[4]s.d"><title id="%[4]s.t">%[5]s</title><desc id="%[4]s.d">%[6]s</desc>`,
		f.Class, f.Width.Points(), (bottom + 3.2*f.Size).Points(), html.EscapeString(id), html.EscapeString("What moves "+lettering.OneLine(t.What)), html.EscapeString(t.words()))
	fmt.Fprintf(b, `<g font-size="%g">`, f.Size.Points())
	t.scale(b, f, x, top, bottom)
	for i, bar := range t.Bars {
		t.bar(b, f, bar, top+f.row*vg.Length(i))
	}
	t.posts(b, f, x, top, bottom)
	b.WriteString("</g></svg>")
}

// span is what the scale covers: every end, the check as computed, and the limit
// when it is near.
func (t *Tornado) span() span {
	low, high := t.Nominal, t.Nominal
	for _, bar := range t.Bars {
		for _, u := range []float64{bar.Low, bar.High} {
			if !math.IsNaN(u) {
				low, high = min(low, u, farthest), max(high, min(u, farthest))
			}
		}
	}
	if wide := high - low; 1 > low-0.6*wide && 1 < high+0.6*wide {
		low, high = min(low, 1), max(high, 1)
	}
	if short := narrowest - (high - low); short > 0 {
		low, high = low-short/2, high+short/2
	}
	s := span{low: low, high: high}
	s.step = lettering.NiceStep((high - low) / 4)
	s.low, s.high = low-0.04*(high-low), high+0.04*(high-low)
	return s
}

// margins is the room that the labels of the ends need on either side.
func (t *Tornado) margins(f *tornadoFrame) (low, high vg.Length) {
	for _, bar := range t.Bars {
		left := bar.leftmost(t.Nominal)
		low = max(low, f.labels.Width(bar.end(left, f.ends))+9)
		high = max(high, f.labels.Width(bar.end(1-left, f.ends))+9)
	}
	return max(low, 20), max(high, 20)
}

// scale draws the grid and its labels.
func (t *Tornado) scale(b *strings.Builder, f *tornadoFrame, x span, top, bottom vg.Length) {
	decimals := max(0, -int(math.Floor(math.Log10(100*x.step)+1e-9)))
	for k := math.Ceil(x.low/x.step - 1e-9); k*x.step <= x.high*(1+1e-9); k++ {
		u := k * x.step
		at := f.x(u)
		f.line(b, at, top, at, bottom, "stroke:var(--grid);stroke-width:.8")
		f.text(b, at, bottom+1.25*f.Size, "middle", "--soft", lettering.Typeset(strconv.FormatFloat(100*u, 'f', decimals, 64)))
	}
	f.text(b, (f.x(x.low)+f.x(x.high))/2, bottom+2.7*f.Size, "middle", "--soft", "utilisation (%)")
}

// posts draws what the bars are judged by, over them: the limit and the check as
// computed.
func (t *Tornado) posts(b *strings.Builder, f *tornadoFrame, x span, top, bottom vg.Length) {
	if 1 >= x.low && 1 <= x.high {
		f.line(b, f.x(1), top-0.4*f.Size, f.x(1), bottom, "stroke:var(--limit);stroke-width:1.3;stroke-dasharray:5 4")
		f.topLabel(b, 1, "limit", "--limit", 1 >= t.Nominal)
	}
	f.line(b, f.x(t.Nominal), top-0.4*f.Size, f.x(t.Nominal), bottom, "stroke:var(--ink);stroke-width:1.3")
	f.topLabel(b, t.Nominal, "as computed "+percentOf(t.Nominal), "--ink", t.Nominal > 1)
}

// topLabel names an upright line above the bars, right or left of it.
func (f *tornadoFrame) topLabel(b *strings.Builder, u float64, name, ink string, right bool) {
	w := f.labels.Width(name)
	anchor, at := "end", max(f.x(u)-3, w)
	if right {
		anchor, at = "start", min(f.x(u)+3, f.Width-w)
	}
	f.text(b, at, 1.05*f.Size, anchor, ink, name)
}

// bar draws one given: its label, its two ends and their labels.
func (t *Tornado) bar(b *strings.Builder, f *tornadoFrame, bar Bar, top vg.Length) {
	middle := top + f.above + (f.row-f.above)/2
	base := middle + 0.36*f.Size
	if f.above > 0 {
		f.text(b, 0, top+f.above-2, "start", "--ink", lettering.Fit(f.labels, bar.Given, f.Width))
	} else {
		f.text(b, 0, base, "start", "--ink", lettering.Fit(f.labels, bar.Given, f.left-14))
	}
	ends := [2]float64{bar.Low, bar.High}
	order := [2]int{0, 1} // the longer is drawn first
	if math.Abs(bar.High-t.Nominal) > math.Abs(bar.Low-t.Nominal) {
		order = [2]int{1, 0}
	}
	for _, k := range order {
		if u := ends[k]; !math.IsNaN(u) {
			from, to := f.x(min(u, t.Nominal)), f.x(max(u, t.Nominal))
			fmt.Fprintf(b, `<rect class="%s" x="%.1f" y="%.1f" width="%.1f" height="%d"/>`, [2]string{"least", "most"}[k],
				from.Points(), middle.Points()-barHeight/2.0, (to - from).Points(), barHeight)
		}
	}
	left := bar.leftmost(t.Nominal)
	for k, u := range ends {
		at := f.x(t.Nominal)
		if !math.IsNaN(u) {
			at = f.x(u)
		}
		if k == left {
			at = min(at, f.x(t.Nominal))
			f.text(b, at-5, base, "end", "--ink", bar.end(k, f.ends))
		} else {
			at = max(at, f.x(t.Nominal))
			f.text(b, at+5, base, "start", "--ink", bar.end(k, f.ends))
		}
	}
}

// leftmost is which end has its label at the left: the one with the lesser
// utilisation.
func (b Bar) leftmost(nominal float64) int {
	low, high := b.Low, b.High
	if math.IsNaN(low) {
		low = 2*nominal - high
	}
	if math.IsNaN(high) {
		high = 2*nominal - low
	}
	if high < low {
		return 1
	}
	return 0
}

// end is the label of an end: the given's value there, if wanted, and the
// utilisation.
func (b Bar) end(k int, withValue bool) string {
	u := [2]float64{b.Low, b.High}[k]
	text := percentOf(u)
	if math.IsNaN(u) {
		text = "no result"
	}
	if withValue {
		return b.At[k] + ": " + text
	}
	return text
}

func percentOf(u float64) string { return lettering.Percent(u, u <= 1) }

// words describes the tornado to who cannot see it.
func (t *Tornado) words() string {
	var b strings.Builder
	fmt.Fprintf(&b, "Utilisation of %s, as computed %s.", lettering.OneLine(t.What), percentOf(t.Nominal))
	for _, bar := range t.Bars {
		fmt.Fprintf(&b, " %s: %s; %s.", bar.Given, bar.end(0, true), bar.end(1, true))
	}
	return b.String()
}

func (f *tornadoFrame) line(b *strings.Builder, x1, y1, x2, y2 vg.Length, style string) {
	fmt.Fprintf(b, `<path d="M%.1f %.1fL%.1f %.1f"%s/>`, x1.Points(), y1.Points(), x2.Points(), y2.Points(), presentation(style))
}

func (f *tornadoFrame) text(b *strings.Builder, x, y vg.Length, anchor, ink, text string) {
	fmt.Fprintf(b, `<text x="%.1f" y="%.1f" text-anchor="%s" fill="var(%s)">%s</text>`, x.Points(), y.Points(), anchor, ink, html.EscapeString(lettering.OneLine(text)))
}

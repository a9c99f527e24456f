package drawing

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/render/lettering"
	"tautline/render/report"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

func newDrawing(unit string) *Drawing {
	return &Drawing{new(sheet.Sheet).NewDrawing("t"), inUnit(unit)}
}

// drawn is a picture as text, checked to be well formed and to have no number
// that is none.
func drawn(t testing.TB, p report.Picture) string {
	t.Helper()
	svg, err := p.SVG("f")
	if err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{"NaN", "Inf", "%!", "e+"} {
		if strings.Contains(string(svg), bad) {
			t.Errorf("the picture has %q", bad)
		}
	}
	d := xml.NewDecoder(strings.NewReader("<x>" + string(svg) + "</x>"))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatalf("the picture is not well formed: %v", err)
		}
	}
	return string(svg)
}

// pathsOf lists the points of the paths of a class, in the wide frame.
func pathsOf(t interface {
	Helper()
	Fatal(...any)
}, svg, class string) [][]point {
	t.Helper()
	wide, _, _ := strings.Cut(svg, "</svg>")
	var all [][]point
	for _, m := range regexp.MustCompile(`<path class="`+class+`" d="([^"]*)"`).FindAllStringSubmatch(wide, -1) {
		var ps []point
		for _, xy := range regexp.MustCompile(`[ML](-?[0-9.]+) (-?[0-9.]+)`).FindAllStringSubmatch(m[1], -1) {
			x, errX := strconv.ParseFloat(xy[1], 64)
			y, errY := strconv.ParseFloat(xy[2], 64)
			if errX != nil || errY != nil {
				t.Fatal(m[0])
			}
			ps = append(ps, point{x, y})
		}
		all = append(all, ps)
	}
	return all
}

// A drawing is to scale: px over metres is one number in x and in y, y is
// upward, all stands inside the frame, and the ratio that the drawing names is
// that of the page printed 120 mm wide.
func TestDrawingIsToScale(t *testing.T) {
	ratio := regexp.MustCompile(`>(?:dimensions in m; )?1 : ([^<]+) where printed at full size<`)
	rapid.Check(t, func(t *rapid.T) {
		w := math.Pow(10, rapid.Float64Range(-2, 4).Draw(t, "w"))
		h := w * math.Pow(10, rapid.Float64Range(-2, 2).Draw(t, "h/w"))
		x, y := rapid.Float64Range(-1000, 1000).Draw(t, "x"), rapid.Float64Range(-1000, 1000).Draw(t, "y")
		d := newDrawing("m")
		d.Outline(lengths(x, x+w, x+w), lengths(y, y, y+h))
		svg, err := d.SVG("f")
		if err != nil {
			t.Fatal(err)
		}
		p := pathsOf(t, string(svg), "heavy")[0]
		dx, dy := p[1].x-p[0].x, p[0].y-p[len(p)-1].y
		const rounding = 0.11 // of two coordinates to a tenth
		if math.Abs(dx*h-dy*w) > rounding*(w+h) {
			t.Errorf("%g m by %g m: got %g by %g px, want one scale", w, h, dx, dy)
		}
		for _, q := range p {
			if q.x < 0 || q.x > 672 || q.y < 0 {
				t.Errorf("got a corner at %g, %g, want it inside 672 px", q.x, q.y)
			}
		}
		m := ratio.FindStringSubmatch(string(svg))
		if m == nil {
			t.Fatalf("%g m by %g m: no ratio in the drawing", w, h)
		}
		text := strings.ReplaceAll(m[1], "\u202f", "")
		n, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		const paper = 0.120 / 672 // m to a px
		if w > h && math.Abs(dx*paper*n-w) > rounding*paper*n || h > w && math.Abs(dy*paper*n-h) > rounding*paper*n {
			t.Errorf("%g m by %g m at 1 : %g: got %g by %g mm on paper", w, h, n, 1000*dx*paper, 1000*dy*paper)
		}
	})
}

// The text of a dimension line is the distance of its points, in the unit of
// the drawing, to about a ten-thousandth of its size.
func TestDimensionText(t *testing.T) {
	for _, c := range []struct {
		unit           string
		x0, y0, x1, y1 float64
		want           string
	}{
		{"m", 0, 0, 3, 4, "5"},
		{"m", 1, 1, 1, 1.35, "0.35"},
		{"mm", 0, 0, 0.7, 0, "700"},
		{"m", 12.3456, 0, 0, 0, "12.346"},
		{"m", 0, 0, 1234.5, 0, "1234.5"},
		{"m", 0, 0, 12345.6, 0, "12\u202f346"},
		{"mm", 0, 0, 0.0123456, 0, "12.346"},
		{"ft", 0, 0, 3.048, 0, "10"},
		{"in", 0, 0, 0, -0.1016, "4"},
		{"m", 2, 2, 2, 2, "0"},
	} {
		d := newDrawing(c.unit)
		d.Dimension(c.x0, c.y0, c.x1, c.y1, 0)
		if svg := drawn(t, d); !strings.Contains(svg, `class="ink">`+c.want+"<") || !strings.Contains(svg, "dimensions in "+c.unit) {
			t.Errorf("dimension from (%g, %g) to (%g, %g) m: want %q in %s, got:\n%s", c.x0, c.y0, c.x1, c.y1, c.want, c.unit, svg)
		}
	}
}

// The dimension line stands on the left of the way from the first point to the
// second when the offset is positive, and is as long as what it measures.
func TestDimensionSide(t *testing.T) {
	for _, c := range []struct {
		x1, y1, offset float64
		above, right   bool
	}{
		{3, 0, 0.5, true, false}, {3, 0, -0.5, false, false}, {0, 3, -0.5, false, true}, {0, 3, 0.5, false, false}, {-3, 0, 0.5, false, false},
	} {
		d := newDrawing("m")
		d.Thin(lengths(0, c.x1), lengths(0, c.y1))
		d.Dimension(0, 0, c.x1, c.y1, c.offset)
		svg := drawn(t, d)
		measured := pathsOf(t, svg, "thin")[0]
		line := pathsOf(t, svg, "dim")[2] // after two extension lines
		got := line[0].minus(measured[0])
		if c.x1 != 0 && (got.y < 0) != c.above || c.y1 != 0 && (got.x > 0) != c.right {
			t.Errorf("dimension to (%g, %g), offset %g: the line stands off by %v px", c.x1, c.y1, c.offset, got)
		}
		if a, b := line[1].minus(line[0]).length(), measured[1].minus(measured[0]).length(); math.Abs(a-b) > 0.2 {
			t.Errorf("dimension to (%g, %g): got %g px long, want %g", c.x1, c.y1, a, b)
		}
	}
}

func TestDrawingEdges(t *testing.T) {
	long := strings.Repeat("a very long name ", 20)
	for name, draw := range map[string]func(d *Drawing){
		"nothing":        func(*Drawing) {},
		"compass alone":  func(d *Drawing) { d.Compass() },
		"scale alone":    func(d *Drawing) { d.Scale("x", 0, 1) },
		"one point":      func(d *Drawing) { d.Mark("m", 3, 4) },
		"empty label":    func(d *Drawing) { d.Mark("", 3, 4); d.Arrow("", 0, 0, 1, 1) },
		"no size":        func(d *Drawing) { d.Dimension(1, 1, 1, 1, 0); d.Arrow("a", 1, 1, 1, 1); d.Circle(1, 1, 0) },
		"flat":           func(d *Drawing) { d.Line("l", lengths(0, 5), lengths(0, 0)) },
		"upright":        func(d *Drawing) { d.Line("l", lengths(0, 0), lengths(0, 5)) },
		"huge":           func(d *Drawing) { d.Thin(lengths(-1e9, 1e9), lengths(-1e9, 1e9)); d.Dimension(-1e9, 0, 1e9, 0, 1e9) },
		"tiny":           func(d *Drawing) { d.Thin(lengths(0, 1e-12), lengths(0, 1e-12)); d.Dimension(0, 0, 1e-12, 0, 1e-13) },
		"tiny, far away": func(d *Drawing) { d.Thin(lengths(1e9, 1e9), lengths(1e9, 1e9-1e-7)) },
		"smallest":       func(d *Drawing) { d.Thin(lengths(0, 5e-324), lengths(0, 0)) },
		"long names": func(d *Drawing) {
			d.Area(long, lengths(0, 1, 1), lengths(0, 0, 1))
			d.Line(long, lengths(0, 1), lengths(0, 1))
			d.Text(long, 0, 0)
			d.Mark(strings.Repeat("x", 300), 1, 1)
			d.Scale(long, 0, 1)
			d.Shade(lengths(0, 1, 1), lengths(0, 0, 1), 1)
		},
		"odd characters": func(d *Drawing) { d.Text("\u202e\x01<&>\xff\n", 0, 0); d.Line("a\x00b", lengths(0, 1), lengths(0, 1)) },
		"one tone":       func(d *Drawing) { d.Shade(lengths(0, 1, 1), lengths(0, 0, 1), 7) },
		"beyond tones": func(d *Drawing) {
			d.Scale("s", 0, 1)
			d.Shade(lengths(0, 1, 1), lengths(0, 0, 1), -1e300)
			d.Shade(lengths(0, 1, 1), lengths(0, 0, 1), 1e300)
		},
		"wide tones": func(d *Drawing) {
			d.Shade(lengths(0, 1, 1), lengths(0, 0, 1), -1.7e308)
			d.Shade(lengths(0, 1, 1), lengths(0, 0, 1), 1.7e308)
		},
		"many": func(d *Drawing) {
			for i := range 60 {
				x := float64(i % 8)
				d.Area(fmt.Sprint("area ", i), lengths(x, x+1, x), lengths(0, 0, 1))
				d.Line(fmt.Sprint("line ", i), lengths(x, x+1), lengths(1, 2))
				d.Mark(fmt.Sprint("mark ", i), x, float64(i/8))
				d.Dimension(x, 0, x+1, 0, -0.1)
			}
		},
	} {
		t.Run(name, func(t *testing.T) {
			d := newDrawing("m")
			draw(d)
			drawn(t, d)
		})
	}
}

// Things of one name look alike and stand once in the legend; of different
// names they differ, in hatch or dashes too, for the first six.
func TestLegend(t *testing.T) {
	d := newDrawing("m")
	for i := range 12 {
		x := float64(i)
		d.Area(fmt.Sprint("area ", i%6), lengths(x, x+1, x), lengths(0, 0, 1))
		d.Line(fmt.Sprint("line ", i%6), lengths(x, x+1), lengths(1, 2))
	}
	svg := drawn(t, d)
	wide, _, _ := strings.Cut(svg, "</svg>")
	fills, dashes := map[string]int{}, map[string]int{}
	for _, m := range regexp.MustCompile(`fill="url\(#(f\.wide\.h\d)\)"`).FindAllStringSubmatch(wide, -1) {
		fills[m[1]]++
	}
	for _, m := range regexp.MustCompile(`class="named k\d (d\d)"`).FindAllStringSubmatch(wide, -1) {
		dashes[m[1]]++
	}
	if len(fills) != 6 || len(dashes) != 6 {
		t.Errorf("got fills %v and dashes %v, want six of each", fills, dashes)
	}
	for what, n := range fills {
		if n != 3 || !strings.Contains(wide, `<pattern id="`+what+`"`) {
			t.Errorf("%s: used %d times, want two areas and a swatch, and defined", what, n)
		}
	}
	if n := strings.Count(wide, ">area 3<"); n != 1 {
		t.Errorf("area 3 is named %d times, want once", n)
	}
}

// Labels stand apart: no two of forty marks in a row of little room cover one
// another where there is room about them.
func TestLabelsStandApart(t *testing.T) {
	d := newDrawing("m")
	d.Outline(lengths(0, 10, 10, 0), lengths(0, 0, 6, 6))
	for i := range 10 {
		d.Mark(fmt.Sprint("mark ", i), 1+0.9*float64(i), 3)
		d.Mark(fmt.Sprint("below ", i), 1+0.9*float64(i), 2.4)
		d.Text(fmt.Sprint("text ", i), 5, 5)
	}
	wide, _, _ := strings.Cut(drawn(t, d), "</svg>")
	type box struct {
		name       string
		x, y, w, h float64
	}
	var boxes []box
	p := newPen(lettering.Frames[0])
	for _, m := range regexp.MustCompile(`<text x="([^"]*)" y="([^"]*)" text-anchor="middle" class="ink">([^<]*)`).FindAllStringSubmatch(wide, -1) {
		x, _ := strconv.ParseFloat(m[1], 64)
		y, _ := strconv.ParseFloat(m[2], 64)
		w := p.style.Width(m[3]).Points()
		boxes = append(boxes, box{m[3], x - w/2, y - 0.7*p.em(), w, 0.7 * p.em()})
	}
	if len(boxes) != 30 {
		t.Fatalf("got %d labels, want 30", len(boxes))
	}
	for i, a := range boxes {
		for _, b := range boxes[:i] {
			if a.x < b.x+b.w && b.x < a.x+a.w && a.y < b.y+b.h && b.y < a.y+a.h {
				t.Errorf("%q covers %q", a.name, b.name)
			}
		}
	}
}

// The tones divide the scale evenly, and what is beyond has that of its end.
func TestTone(t *testing.T) {
	for _, c := range []struct {
		v    float64
		want int
	}{{0, 0}, {0.99, 0}, {1.01, 1}, {4.5, 4}, {8.99, 8}, {9, 8}, {-5, 0}, {50, 8}, {-1e308, 0}, {1e308, 8}} {
		if got := tone(c.v, 0, 9); got != c.want {
			t.Errorf("tone(%g, 0, 9): got %d, want %d", c.v, got, c.want)
		}
	}
}

// Patches of one tone are one path in which none makes a hole in another,
// whichever way round its points go.
func TestPatchesMakeNoHoles(t *testing.T) {
	d := newDrawing("m")
	d.Scale("s", 0, 1)
	d.Shade(lengths(0, 1, 1, 0), lengths(0, 0, 1, 1), 0.5)
	d.Shade(lengths(0, 0, 1, 1), lengths(0, 1, 1, 0), 0.5)
	d.Shade(lengths(0, 1, 1, 0), lengths(0, 0, 1, 1), 0.9)
	svg := drawn(t, d)
	if got := len(pathsOf(t, svg, "tone t5")); got != 1 {
		t.Fatalf("got %d paths of the middle tone, want one", got)
	}
	ps := pathsOf(t, svg, "tone t5")[0]
	if len(ps) != 8 || turn(ps[:4]) <= 0 || turn(ps[4:]) <= 0 {
		t.Errorf("got patches of areas %g and %g, want two of one sign", turn(ps[:4])/2, turn(ps[4:])/2)
	}
}

// What is drawn later covers what was drawn before, but dimensions and labels
// stand above all.
func TestOrder(t *testing.T) {
	d := newDrawing("m")
	xs, ys := lengths(0, 1, 1), lengths(0, 0, 1)
	d.Dimension(0, 0, 1, 0, -0.1)
	d.Thin(xs, ys)
	d.Shade(xs, ys, 1)
	d.Outline(xs, ys)
	svg := drawn(t, d)
	last := -1
	for _, class := range []string{"thin", "tone t", "heavy", "dim"} {
		at := strings.Index(svg, `class="`+class)
		if at < last {
			t.Errorf("%s comes before what it covers", class)
		}
		last = at
	}
}

func TestPlainRatio(t *testing.T) {
	full := 1000 * perMillimetre // px to a metre at 1 : 1
	for _, c := range []struct {
		most float64
		want string
	}{
		{full, "1 : 1"}, {full * 0.99, "1 : 1.25"}, {full / 33, "1 : 40"}, {full / 100, "1 : 100"}, {full / 101, "1 : 125"}, {full / 20000, "1 : 20\u202f000"}, {full * 50, "1 : 1"},
	} {
		scale, got := plainRatio(c.most)
		if got != c.want || scale > c.most {
			t.Errorf("plainRatio(%g): got %g and %q, want at most %g and %q", c.most, scale, got, c.most, c.want)
		}
	}
}

func BenchmarkDrawing(b *testing.B) {
	d := newDrawing("m")
	for i := range 10_000 {
		x, y := float64(i%100), float64(i/100)
		d.Shade(lengths(x, x+1, x+1, x), lengths(y, y, y+1, y+1), math.Sin(x)*math.Cos(y))
	}
	for b.Loop() {
		if _, err := d.SVG("f"); err != nil {
			b.Fatal(err)
		}
	}
}

// A picture that is not to scale has no scale under it and does not speak of one.
func TestSchematicHasNoScale(t *testing.T) {
	d := newDrawing("m")
	d.Area("first", lengths(0, 4, 4, 0), lengths(0, 0, 1, 1))
	for _, c := range []struct {
		want bool
		word string
	}{{true, "printed at full size"}, {true, "A picture to scale"}, {true, ">first<"}} {
		if got := strings.Contains(drawn(t, d), c.word); got != c.want {
			t.Errorf("to scale, %q: got %v, want %v", c.word, got, c.want)
		}
	}
	d.Schematic()
	for _, c := range []struct {
		want bool
		word string
	}{{false, "printed at full size"}, {true, "A picture not to scale"}, {true, ">first<"}} {
		if got := strings.Contains(drawn(t, d), c.word); got != c.want {
			t.Errorf("schematic, %q: got %v, want %v", c.word, got, c.want)
		}
	}
}

// lengths are in metres.
func lengths(vs ...float64) []float64 { return vs }

func inUnit(symbol string) quantity.Unit {
	u, ok := quantity.Lookup(symbol)
	if !ok {
		panic("no unit " + symbol)
	}
	return u
}

package chart

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"tautline/render/lettering"
)

var nan, inf = math.NaN(), math.Inf(1)

func oneCurve(xs, ys []float64) *Figure {
	return &Figure{Title: "t", X: Axis{Label: "x", Unit: "m"}, Y: Axis{Label: "y", Unit: "N"}, Curves: []Curve{{"c", xs, ys}}}
}

// TestFigureEdges draws what a notebook can come to draw, and looks that the
// drawing is well formed and has no number that is none.
func TestFigureEdges(t *testing.T) {
	long := strings.Repeat("a very long name ", 20)
	many := &Figure{Title: "many"}
	for i := range 40 {
		many.Curves = append(many.Curves, Curve{"curve " + lettering.Number(float64(i)), []float64{0, 1}, []float64{0, 1}})
	}
	figures := map[string]*Figure{
		"nothing":         {},
		"no points":       oneCurve(nil, nil),
		"one point":       oneCurve([]float64{1}, []float64{2}),
		"constant":        oneCurve([]float64{0, 1}, []float64{5, 5}),
		"constant zero":   oneCurve([]float64{0, 0}, []float64{0, 0}),
		"gaps":            oneCurve([]float64{0, 1, 2, 3, 4, 5}, []float64{1, nan, 3, 4, inf, 6}),
		"only gaps":       oneCurve([]float64{0, 1}, []float64{nan, nan}),
		"huge":            oneCurve([]float64{-math.MaxFloat64, 0, 1e150}, []float64{-1e150, 0, math.MaxFloat64}),
		"huge and narrow": oneCurve([]float64{0, 1}, []float64{1e16, 1e16 + 2}),
		"tiny":            oneCurve([]float64{0, 5e-324}, []float64{0, 1e-310}),
		"small":           oneCurve([]float64{0, 1e-9}, []float64{0, 3e-12}),
		"lengths differ":  oneCurve([]float64{0, 1, 2}, []float64{0, 1}),
		"negative":        oneCurve([]float64{-5, -1}, []float64{-300, -200}),
		"long names":      {Title: long, X: Axis{Label: long, Unit: "m"}, Y: Axis{Label: long, Unit: "m"}, Curves: []Curve{{long, []float64{0, 1}, []float64{0, 1}}}, Marks: []Mark{{long, 1, 1}}, Limits: []Limit{{long, 1, true}}},
		"one long word":   oneCurve([]float64{0, 1}, []float64{0, 1}),
		"marks alone":     {Marks: []Mark{{"m", 3, 4}, {"none", nan, 1}}},
		"limits alone":    {Limits: []Limit{{"l", 3, false}, {"u", nan, true}}},
		"many curves":     many,
		"odd characters":  {Title: "a\x00b\xff\nc", Curves: []Curve{{"\u202e\x01<&>", []float64{0, 1}, []float64{0, 1}}}},
	}
	for name, f := range map[string]*Figure{
		"log": oneCurve([]float64{1, 1e3, 1e8}, []float64{0.2, 300, 40}), "log, nothing": {}, "log, one": oneCurve([]float64{7}, []float64{7}),
		"log, not above 0": oneCurve([]float64{-1, 0, 1, 10}, []float64{1, 1, 0, 20}), "log, tiny": oneCurve([]float64{5e-324, 1e-150, 1e150}, []float64{1e-149, 1, 1e149}),
		"log, limits": {Limits: []Limit{{"l", 3, false}, {"u", 0, true}}, Marks: []Mark{{"m", 0, 1}}},
	} {
		f.X.Log, f.Y.Log = true, true
		figures[name] = f
	}
	figures["one long word"].Curves[0].Name = strings.Repeat("x", 300)
	for name, f := range figures {
		t.Run(name, func(t *testing.T) {
			svg, err := f.SVG("f")
			if err != nil {
				t.Fatal(err)
			}
			for _, bad := range []string{"NaN", "Inf", "#0000"} {
				if strings.Contains(string(svg), bad) {
					t.Errorf("the drawing has %q", bad)
				}
			}
			d := xml.NewDecoder(strings.NewReader("<x>" + string(svg) + "</x>"))
			for {
				if _, err := d.Token(); errors.Is(err, io.EOF) {
					break
				} else if err != nil {
					t.Fatalf("the drawing is not well formed: %v", err)
				}
			}
		})
	}
}

func TestFigureGapBreaksTheCurve(t *testing.T) {
	c := Curve{X: []float64{0, 1, 2, 3, 4}, Y: []float64{0, 10, nan, 10, 0}}
	scale := func(v float64) vg.Length { return vg.Length(v * 100) }
	paths := (&Figure{}).paths(c, scale, scale)
	if len(paths) != 2 || len(paths[0]) != 2 || len(paths[1]) != 2 {
		t.Errorf("paths of a curve with a gap: got %v, want two runs of two points", paths)
	}
}

// TestLogAxis: powers of ten stand at equal distances, and so do the ends of an
// axis and its ticks at round numbers around what is drawn.
func TestLogAxis(t *testing.T) {
	for _, c := range []struct {
		values []float64
		low    float64
		high   float64
		labels string
	}{
		{[]float64{1e4, 1e8}, 1e4, 1e8, "10⁴ 10⁵ 10⁶ 10⁷ 10⁸"},
		{[]float64{23e3, 7e7}, 1e4, 1e8, "10⁴ 10⁵ 10⁶ 10⁷ 10⁸"},
		{[]float64{18, 220}, 10, 500, "10 20 50 100 200 500"},
		{[]float64{30, 30}, 20, 50, "20 50"},
		{[]float64{1e5, 3e5}, 1e5, 5e5, "10⁵ 2·10⁵ 5·10⁵"},
		{[]float64{0.002, 0.03}, 0.002, 0.05, "0.002 0.005 0.01 0.02 0.05"},
		{nil, 1, 10, "1 2 5 10"},
	} {
		s := newSpan(true)
		for _, v := range c.values {
			s.add(v)
		}
		s = s.nice()
		var labels []string
		for _, tick := range s.ticks() {
			labels = append(labels, tick.Label)
		}
		near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-9*b } // far above the rounding of powers
		if !near(s.low, c.low) || !near(s.high, c.high) || strings.Join(labels, " ") != c.labels {
			t.Errorf("axis of %v: got %g to %g with %q, want %g to %g with %q", c.values, s.low, s.high, labels, c.low, c.high, c.labels)
		}
	}
	f := oneCurve([]float64{1, 10, 100, 0, 1000}, []float64{1, 1, 1, 1, 1})
	f.X.Log = true
	x, y := f.ranges()
	p := axes(f, x, y, lettering.Frames[0])
	at, _ := p.Transforms(&draw.Canvas{Rectangle: vg.Rectangle{Max: vg.Point{X: 300, Y: 100}}})
	for i, want := range []vg.Length{0, 100, 200} { // a power of ten each hundred
		if got := at(math.Pow10(i)); math.Abs(float64(got-want)) > 1e-9 {
			t.Errorf("place of 10^%d: got %v, want %v", i, got, want)
		}
	}
	if runs := f.paths(f.Curves[0], at, at); len(runs) != 2 {
		t.Errorf("runs of a curve with a point at 0: got %d, want 2", len(runs))
	}
}

// TestSpread: labels that all want one place are set apart about it, in their
// order, and stay between floor and ceiling.
func TestSpread(t *testing.T) {
	for _, want := range []vg.Length{2, 50, 98} {
		ps := make([]placed, 4)
		for i := range ps {
			ps[i] = placed{endLabel: endLabel{height: 10}, y: want}
		}
		spread(ps, 0, 100)
		mean := vg.Length(0)
		for i := range ps {
			mean += ps[i].y / 4
			if ps[i].y < 5 || ps[i].y > 95 {
				t.Errorf("label %d that wants %v: got %v, want 5 to 95", i, want, ps[i].y)
			}
			if i > 0 && ps[i-1].y-ps[i].y < 13-1e-9 { // rounding of the sums
				t.Errorf("labels %d and %d that want %v: got %v apart, want 13", i-1, i, want, ps[i-1].y-ps[i].y)
			}
		}
		if want == 50 && math.Abs(float64(mean-want)) > 1e-9 {
			t.Errorf("mean of labels that want %v: got %v", want, mean)
		}
	}
}

// TestRestyleLeavesTextAlone: a name that reads like one of our stand-in
// colours is a name.
func TestRestyleLeavesTextAlone(t *testing.T) {
	svg, err := oneCurve([]float64{0, 1}, []float64{0, 1}).SVG("f")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(svg), `stroke="var(--c1)"`) {
		t.Error("the curve has no colour of the page")
	}
	name := `style="x:#000001"`
	f := oneCurve([]float64{0, 1}, []float64{0, 1})
	f.Curves[0].Name = name
	if svg, err = f.SVG("f"); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(svg), "x:#000001") {
		t.Errorf("the name %s was changed", name)
	}
}

func TestSpanSteps(t *testing.T) {
	for _, tc := range []struct {
		low, high        float64
		from, to, step   float64
		power            int
		first, lastLabel string
	}{
		{0, 10, 0, 10, 2, 0, "0", "10"},
		{0.3, 2.6, 0, 3, 0.5, 0, "0.0", "3.0"},
		{96, 104, 96, 104, 2, 0, "96", "104"},
		{-7, 3, -8, 4, 2, 0, "−8", "4"},
		{0, 2.4e6, 0, 2.5e6, 5e5, 6, "0.0", "2.5"},
		{0, 42000, 0, 50000, 10000, 0, "0", "50\u202f000"},
		{0, 3e-6, 0, 3e-6, 5e-7, -6, "0.0", "3.0"},
	} {
		s := newSpan(false)
		s.add(tc.low)
		s.add(tc.high)
		s = s.nice()
		ticks := s.ticks()
		close := func(a, b float64) bool { return math.Abs(a-b) <= 1e-12*math.Max(math.Abs(a), math.Abs(b)) } // rounding of k*step
		if !close(s.low, tc.from) || !close(s.high, tc.to) || !close(s.step, tc.step) || s.power != tc.power {
			t.Errorf("nice span of %g to %g: got %g to %g by %g, power %d, want %g to %g by %g, power %d",
				tc.low, tc.high, s.low, s.high, s.step, s.power, tc.from, tc.to, tc.step, tc.power)
		}
		if a, b := ticks[0].Label, ticks[len(ticks)-1].Label; a != tc.first || b != tc.lastLabel {
			t.Errorf("tick labels of %g to %g: got %q to %q, want %q to %q", tc.low, tc.high, a, b, tc.first, tc.lastLabel)
		}
	}
}

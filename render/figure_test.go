package render

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
)

var nan, inf = math.NaN(), math.Inf(1)

func oneCurve(xs, ys []float64) *Figure {
	return &Figure{Title: "t", X: Axis{"x", "m"}, Y: Axis{"y", "N"}, Curves: []Curve{{"c", xs, ys}}}
}

// TestFigureEdges draws what a notebook can come to draw, and looks that the
// drawing is well formed and has no number that is none.
func TestFigureEdges(t *testing.T) {
	long := strings.Repeat("a very long name ", 20)
	many := &Figure{Title: "many"}
	for i := range 40 {
		many.Curves = append(many.Curves, Curve{"curve " + number(float64(i)), []float64{0, 1}, []float64{0, 1}})
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
		"long names":      {Title: long, X: Axis{long, "m"}, Y: Axis{long, "m"}, Curves: []Curve{{long, []float64{0, 1}, []float64{0, 1}}}, Marks: []Mark{{long, 1, 1}}, Limits: []Limit{{long, 1, true}}},
		"one long word":   oneCurve([]float64{0, 1}, []float64{0, 1}),
		"marks alone":     {Marks: []Mark{{"m", 3, 4}, {"none", nan, 1}}},
		"limits alone":    {Limits: []Limit{{"l", 3, false}, {"u", nan, true}}},
		"many curves":     many,
		"odd characters":  {Title: "a\x00b\xff\nc", Curves: []Curve{{"\u202e\x01<&>", []float64{0, 1}, []float64{0, 1}}}},
	}
	figures["one long word"].Curves[0].Name = strings.Repeat("x", 300)
	for name, f := range figures {
		t.Run(name, func(t *testing.T) {
			svg, err := f.svg("f")
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
	paths := c.paths(scale, scale)
	if len(paths) != 2 || len(paths[0]) != 2 || len(paths[1]) != 2 {
		t.Errorf("paths of a curve with a gap: got %v, want two runs of two points", paths)
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
	svg, err := oneCurve([]float64{0, 1}, []float64{0, 1}).svg("f")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(svg), `stroke="var(--c1)"`) {
		t.Error("the curve has no colour of the page")
	}
	name := `style="x:#000001"`
	f := oneCurve([]float64{0, 1}, []float64{0, 1})
	f.Curves[0].Name = name
	if svg, err = f.svg("f"); err != nil {
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
		s := newSpan()
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

func TestNumberInWords(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 1.5: "1.5", -0.25: "−0.25", 12345.678: "12\u202f346", 2.5e9: "2.5×10⁹", -3e-7: "−3×10⁻⁷", inf: "infinite"} {
		if got := number(v); got != want {
			t.Errorf("number(%g): got %q, want %q", v, got, want)
		}
	}
}

func BenchmarkFigure(b *testing.B) {
	f := sampleFigure()
	for b.Loop() {
		if _, err := f.svg("f"); err != nil {
			b.Fatal(err)
		}
	}
}

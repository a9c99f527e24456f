package drawing

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tautline/render/lettering"
)

func degrees(vs ...float64) []float64 {
	for i := range vs {
		vs[i] *= math.Pi / 180
	}
	return vs
}

// dialOf sets up the wide frame of a rose whose outermost ring is at most.
func dialOf(most float64) *dial {
	return &dial{Rose: &Rose{}, pen: newPen(lettering.Frames[0]), middle: point{300, 300}, radius: 100, most: most}
}

// North is up and angles turn clockwise: east is to the right.
func TestRoseDirections(t *testing.T) {
	d := dialOf(10)
	for angle, want := range map[float64]point{0: {300, 200}, 90: {400, 300}, 180: {300, 400}, 270: {200, 300}, -90: {200, 300}, 360 + 90: {400, 300}} {
		if got := d.at(angle*math.Pi/180, 10); got.minus(want).length() > 1e-9 {
			t.Errorf("10 of 10 at %g°: got %v, want %v", angle, got, want)
		}
	}
	if got, want := d.at(math.Pi/2, 2.5), (point{325, 300}); got.minus(want).length() > 1e-9 {
		t.Errorf("a quarter at 90°: got %v, want %v", got, want)
	}
}

// A constant value is a circle, not a polygon, and a curve closes only when its
// points go all the way round.
func TestRoseCurves(t *testing.T) {
	d := dialOf(10)
	for name, c := range map[string]struct {
		angles []float64
		turned float64 // by the whole curve, in degrees
	}{
		"eight points":      {degrees(0, 45, 90, 135, 180, 225, 270, 315), 360},
		"three points":      {degrees(10, 130, 250), 360},
		"over north":        {degrees(350, 10, 30), 40},
		"anticlockwise":     {degrees(0, -45, -90, -135, -180, -225, -270, -315), -360},
		"half round":        {degrees(0, 45, 90, 135, 180), 180},
		"ends at the start": {degrees(0, 90, 180, 270, 360), 360},
		"two points":        {degrees(20, 40), 20},
		"one point":         {degrees(20), 0},
	} {
		values := make([]float64, len(c.angles))
		for i := range values {
			values[i] = 7
		}
		ps := d.points(RoseCurve{"c", c.angles, values})
		turned := 0.0
		for i, p := range ps {
			if r := p.minus(d.middle).length(); math.Abs(r-70) > 1e-9 {
				t.Errorf("%s: point %d stands %g px from the middle, want 70", name, i, r)
			}
			if i > 0 {
				a, b := ps[i-1].minus(d.middle), p.minus(d.middle)
				step := math.Atan2(a.x*b.y-a.y*b.x, a.x*b.x+a.y*b.y) * 180 / math.Pi
				if math.Abs(step) > 3+1e-9 {
					t.Errorf("%s: a step of %g°, want at most 3°", name, step)
				}
				turned += step
			}
		}
		if math.Abs(turned-c.turned) > 1e-6 {
			t.Errorf("%s: the curve turns by %g°, want %g°", name, turned, c.turned)
		}
	}
}

func TestRoseEdges(t *testing.T) {
	long := strings.Repeat("a very long name ", 20)
	many := &Rose{Title: "many"}
	for i := range 40 {
		many.Curves = append(many.Curves, RoseCurve{"curve " + lettering.Number(float64(i)), degrees(0, 90, 180), []float64{1, 2, 3}})
		many.Limits = append(many.Limits, RoseLimit{"limit " + lettering.Number(float64(i)), float64(i)})
	}
	for name, r := range map[string]*Rose{
		"nothing":        {},
		"no points":      {Curves: []RoseCurve{{"c", nil, nil}}},
		"zeros":          {Curves: []RoseCurve{{"c", degrees(0, 90), []float64{0, 0}}}, Limits: []RoseLimit{{"l", 0}}},
		"one point":      {Curves: []RoseCurve{{"c", degrees(30), []float64{5}}}},
		"huge":           {Curves: []RoseCurve{{"c", degrees(0, 90), []float64{1e150, 0}}}},
		"tiny":           {Curves: []RoseCurve{{"c", degrees(0, 90), []float64{5e-324, 0}}}},
		"many turns":     {Curves: []RoseCurve{{"c", []float64{1e300, -1e18, 12345}, []float64{1, 2, 3}}}},
		"lengths differ": {Curves: []RoseCurve{{"c", degrees(0, 90, 180), []float64{1, 2}}}},
		"long names":     {Title: long, Unit: "m/s", Curves: []RoseCurve{{long, degrees(0, 90), []float64{1, 2}}}, Limits: []RoseLimit{{long, 1}}},
		"odd characters": {Title: "a\x00b\xff\nc", Curves: []RoseCurve{{"\u202e\x01<&>", degrees(0, 90), []float64{1, 2}}}},
		"many":           many,
	} {
		t.Run(name, func(t *testing.T) { drawn(t, r) })
	}
}

// A limit's name stands in the legend below the rose, where no curve can cross it.
func TestRoseLimitInLegend(t *testing.T) {
	svg := drawn(t, &Rose{Title: "wind", Unit: "m/s", Curves: []RoseCurve{{"all anchors", degrees(0, 90, 180, 270), []float64{11, 10, 12, 9}}}, Limits: []RoseLimit{{"limit of operation", 10}}})
	texts := regexp.MustCompile(`<text x="[0-9.]+" y="([0-9.]+)"[^>]*>([^<]*)</text>`).FindAllStringSubmatch(svg, -1)
	south, found := 0.0, 0
	for _, m := range texts {
		y, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case m[2] == "S":
			south = y
		case strings.HasPrefix(m[2], "limit of operation"):
			found++
			if south == 0 || y <= south {
				t.Errorf("%s: got y = %g, want it below the letter of the south at %g", m[2], y, south)
			}
		}
	}
	if found != len(lettering.Frames) {
		t.Errorf("got the limit's name %d times, want once in each of %d frames", found, len(lettering.Frames))
	}
}

func TestBearing(t *testing.T) {
	for angle, want := range map[float64]string{0: "0°", 90: "90°", -90: "270°", 359.7: "0°", 720: "0°", 135.2: "135°"} {
		if got := bearing(angle * math.Pi / 180); got != want {
			t.Errorf("bearing of %g°: got %s, want %s", angle, got, want)
		}
	}
}

package sketch_test

import (
	"math"
	"strings"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/structure/sketch"
)

var (
	steel = section.Material{E: 210e9, G: 81e9, Density: 7850}
	tube  = section.SHS(0.06, 0.004, section.ColdFormed)
)

// line is a frame of nodes along x, joined one after the other.
func line(xs ...float64) (*frame.Frame, []frame.Node, []frame.Member) {
	f := frame.New()
	var nodes []frame.Node
	var members []frame.Member
	for i, x := range xs {
		nodes = append(nodes, f.Node(x, 0, 0))
		if i > 0 {
			members = append(members, f.Member(nodes[i-1], nodes[i], tube, steel))
		}
	}
	return f, nodes, members
}

// cross is a base of four equal arms of 1.2 m on pads that only push.
func cross() (f *frame.Frame, centre frame.Node) {
	f = frame.New()
	centre = f.Node(0, 0, 0)
	for _, p := range [4][2]float64{{1.2, 0}, {0, 1.2}, {-1.2, 0}, {0, -1.2}} {
		pad := f.Node(p[0], p[1], 0)
		f.Member(centre, pad, tube, steel)
		f.Support(pad, frame.Support{Z: true, Lifts: true})
	}
	f.Support(centre, frame.Support{X: true, Y: true, RZ: true})
	return f, centre
}

func even(nPerM float64) frame.LineLoad { return frame.LineLoad{Z: -nPerM} }

func solve(t *testing.T, f *frame.Frame, c *frame.Case) frame.Result {
	t.Helper()
	return proof.Must(f.Solve(c.Alone()))(t)
}

// kinds counts the shapes of a drawing by kind and name.
func kinds(d *sheet.Drawing) map[string]int {
	count := map[string]int{}
	for _, s := range d.Shapes {
		count[string(s.Kind)+" "+s.Name]++
	}
	return count
}

func TestDraw(t *testing.T) {
	f, centre := cross()
	f.Name(centre, "column")
	q := frame.NewCase("load")
	q.Node(centre, frame.Load{FZ: -6000, MX: 100})
	q.Line(frame.Member(1), even(2000))
	r := solve(t, f, q)
	var s sheet.Sheet

	d := s.NewDrawing("frame")
	sketch.Frame(d, f, sketch.Isometric)
	sketch.Loads(d, f, sketch.Isometric, q.Alone())
	got := kinds(d)
	for what, want := range map[string]int{"line SHS 60x60x4 EN 10219": 4, "outline ": 5, "mark column": 1, "text x": 1, "text z": 1,
		"arrow 6 kN": 1, "text moment 100 N·m about x": 1, "arrow 2 kN/m": 1, "arrow ": 9} {
		if got[what] != want {
			t.Errorf("drawing has %d of %q, want %d: %v", got[what], what, want, got)
		}
	}

	// The centre sinks by w; magnified and drawn upright below its place.
	d = s.NewDrawing("displaced")
	m := sketch.Displaced(d, f, sketch.Front, r, 0)
	w := r.Displacement(centre).Z
	if !(m*math.Abs(w) < 2.4/12*1.5) {
		t.Errorf("magnification %g shows %g m", m, m*math.Abs(w))
	}
	for _, shape := range d.Shapes {
		if strings.HasPrefix(shape.Name, "displaced") && shape.X[0] == 0 {
			proof.Near(t, "centre drawn", float64(shape.Y[0]), m*w, 1e-9)
		}
	}

	d = s.NewDrawing("moments")
	sketch.Moments(d, f, sketch.Front, r)
	if kinds(d)["area bending moment about y"] != 4 {
		t.Errorf("moments: got %v", kinds(d))
	}
	d = s.NewDrawing("use")
	sketch.Used(d, f, sketch.Plan, "utilisation", []float64{0.1, 0.2, 0.3, 0.4}, 1)
	if kinds(d)["patch "] != 4 || kinds(d)["thin "] < 4 || d.Tones == nil || d.Tones.High != 1 {
		t.Errorf("bands: got %v", kinds(d))
	}
	d = s.NewDrawing("sections")
	sketch.Sections(d, f)
	if kinds(d)["outline "] != 2 || kinds(d)["dimension "] != 2 {
		t.Errorf("sections: got %v, want one tube", kinds(d))
	}
	d = s.NewDrawing("shape")
	modes := proof.Must(f.Vibrations(1))(t)
	sketch.Shape(d, f, sketch.Isometric, modes[0].Shape)
	if kinds(d)["line shape"] != 4 {
		t.Errorf("shape: got %v", kinds(d))
	}
	proof.Panics(t, "members: got 0 in the result, want 4", func() { sketch.Moments(d, f, sketch.Plan, frame.Result{}) })
	proof.Panics(t, `View: got "above"`, func() { sketch.Frame(d, f, "above") })
}

// Where two members meet, their common moment is written once: that of a beam in two
// pieces, over its middle support, w·l²/8 = 1 kN·m with spans of 2 m and 2 kN/m.
func TestMomentWrittenOnce(t *testing.T) {
	f, n, m := line(0, 2, 4)
	f.Support(n[0], frame.Support{X: true, Y: true, Z: true, RX: true, RZ: true})
	f.Support(n[1], frame.Support{Y: true, Z: true})
	f.Support(n[2], frame.Support{Y: true, Z: true})
	q := frame.NewCase("even")
	q.Line(m[0], even(2000))
	q.Line(m[1], even(2000))
	var s sheet.Sheet
	d := s.NewDrawing("moments")
	sketch.Moments(d, f, sketch.Front, solve(t, f, q))
	if got := kinds(d)["text 1 kN·m"]; got != 1 {
		t.Errorf("moment over the support written %d times, want once: %v", got, kinds(d))
	}
}

// The moment is drawn on the side that it pulls: above the support of a
// cantilever that hangs down.
func TestMomentSide(t *testing.T) {
	f, n, _ := line(0, 2)
	f.Fix(n[0])
	q := frame.NewCase("tip")
	q.Node(n[1], frame.Load{FZ: -1000})
	var s sheet.Sheet
	d := s.NewDrawing("moments")
	sketch.Moments(d, f, sketch.Front, solve(t, f, q))
	for _, shape := range d.Shapes {
		if shape.Kind == sheet.ShapeArea {
			for _, y := range shape.Y {
				if y < -1e-9 {
					t.Errorf("a point of the moment lies %g below the beam, want it above", y)
				}
			}
			proof.Near(t, "greatest, a tenth of the frame", float64(shape.Y[1]), 0.2, 1e-9)
		}
	}
}

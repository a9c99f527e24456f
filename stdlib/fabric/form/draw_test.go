package form_test

import (
	"math"
	"testing"

	"tautline/stdlib/fabric/form"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
)

// kinds counts the shapes of a drawing by kind and name.
func kinds(d *sheet.Drawing) map[string]int {
	count := map[string]int{}
	for _, s := range d.Shapes {
		count[string(s.Kind)+" "+s.Name]++
	}
	return count
}

// A ball of radius 1 m under 1000 Pa, drawn: its section through the middle is a
// circle of the radius in tones of p·R/2 = 0.5 kN/m; seen from above its top is
// drawn last, from the side of -y its front.
func TestDrawBall(t *testing.T) {
	ball, err := surface.Sphere{Radius: 1, Rows: 24}.Mesh()
	ball = must(t, ball, err)
	e := balanced(t, form.Membrane{Mesh: ball, Fabrics: cloth(0.3), Pressures: []form.Pressure{{Gauge: 1000}}})
	var s sheet.Sheet
	d := s.NewDrawing("section")
	e.DrawSection(d, form.Front, 0.01, form.ToneForce, ball)
	bands, sum := 0, 0.0
	for _, shape := range d.Shapes {
		if shape.Kind != sheet.ShapePatch {
			continue
		}
		bands++
		for i := range shape.X {
			proof.Near(t, "radius of the section", math.Hypot(float64(shape.X[i]), float64(shape.Y[i])), 1, 0.03) // facets and half a band's width
		}
		sum += float64(shape.Value)
	}
	proof.Near(t, "mean tone", sum/float64(bands), 0.5, 0.05) // the greatest line force scatters upward, most at the poles
	if bands < 24 || kinds(d)["thin "] != bands || d.Tones == nil || !(d.Tones.High > 0.5) || d.Tones.Low != 0 {
		t.Errorf("section: got %v, scale %v, want as many thin lines of the mesh as cut as bands", kinds(d), d.Tones)
	}
	for view, want := range map[form.View]surface.Point{form.Plan: {Z: 1}, form.Front: {Y: -1}, form.Side: {X: 1}, form.Isometric: {X: math.Sqrt(1.0 / 3), Y: -math.Sqrt(1.0 / 3), Z: math.Sqrt(1.0 / 3)}} {
		d := s.NewDrawing(string(view))
		e.Draw(d, view, form.ToneStrain)
		if kinds(d)["patch "] != len(ball.Triangles) || kinds(d)["thin "] == 0 {
			t.Fatalf("%s: got %v, want %d patches and the seams", view, kinds(d), len(ball.Triangles))
		}
		var last sheet.Shape
		for _, shape := range d.Shapes {
			if shape.Kind == sheet.ShapePatch {
				last = shape
			}
		}
		// The nearest point of a ball is seen in the middle.
		for i := range last.X {
			if r := math.Hypot(float64(last.X[i]), float64(last.Y[i])); r > 0.3 {
				t.Errorf("%s: the triangle drawn last lies %g from the middle, want the one nearest to the eye, %v", view, r, want)
			}
		}
	}
	d = s.NewDrawing("missed")
	e.DrawSection(d, form.Plan, 7, form.ToneWrinkles, ball)
	if len(d.Shapes) != 0 {
		t.Errorf("a plane that misses the ball: got %v", kinds(d))
	}
	proof.Panics(t, `form: View: got "below"`, func() { e.Draw(d, "below", form.ToneForce) })
	proof.Panics(t, `form: Tone: got "heat"`, func() { e.Draw(d, form.Plan, "heat") })
	proof.Panics(t, "want Plan, Front or Side", func() { e.DrawSection(d, form.Isometric, 0, form.ToneForce, ball) })
}

// A section along the edge of a mesh draws the edge, whichever side it lies on.
func TestDrawSectionAtEdge(t *testing.T) {
	panel, err := surface.Panel{Width: 1, Length: 1, Across: 4, Along: 4}.Mesh()
	panel = must(t, panel, err)
	e := form.Equilibrium{Mesh: panel, Triangles: make([]form.Tension, len(panel.Triangles))}
	e.Triangles[0].Slack = true
	var s sheet.Sheet
	for _, y := range []float64{0, 0.25, 1} {
		d := s.NewDrawing("edge")
		e.DrawSection(d, form.Front, y, form.ToneWrinkles, panel)
		if kinds(d)["patch "] != 4 {
			t.Errorf("at %g: got %v, want four bands", y, kinds(d))
		}
	}
}

// A tie is a mark from above and a line from the side.
func TestDrawCable(t *testing.T) {
	panel, err := surface.Panel{Width: 1, Length: 1, Across: 4, Along: 4}.Mesh()
	panel = must(t, panel, err)
	panel.Points = append(panel.Points, surface.Point{X: 0.5, Y: 0.5, Z: -0.4})
	e := form.Equilibrium{Mesh: panel, Triangles: make([]form.Tension, len(panel.Triangles)),
		Cables: []form.CableForce{{Name: "tie", Points: []int{panel.Nearest(0.5, 0.5, 0), len(panel.Points) - 1}}}}
	e.Cables = append(e.Cables, e.Cables[0]) // of one name: one mark
	e.Cables[1].Points = []int{panel.Nearest(0.25, 0.5, 0), panel.Nearest(0.25, 0.5, 0)}
	var s sheet.Sheet
	for view, want := range map[form.View]string{form.Plan: "mark tie", form.Front: "line tie", form.Isometric: "line tie"} {
		d := s.NewDrawing("tie")
		e.Draw(d, view, form.ToneForce)
		if kinds(d)[want] != 1 {
			t.Errorf("%s: got %v, want one %q", view, kinds(d), want)
		}
	}
}

// A net drawn: a band for each link in the tone of its force, a circle for each
// held point.
func TestDrawNet(t *testing.T) {
	h := hung(t, rim(t, 3, 3, surface.Point{X: 3, Y: 3}))
	var s sheet.Sheet
	d := s.NewDrawing("net")
	h.Draw(d, form.Isometric)
	got := kinds(d)
	for what, want := range map[string]int{"patch ": 24, "circle ": 12, "arrow ": 3, "text x": 1, "text y": 1, "text z": 1} {
		if got[what] != want {
			t.Errorf("%d of %q, want %d: %v", got[what], what, want, got)
		}
	}
	proof.Near(t, "tone", float64(d.Shapes[0].Value), 0.001, 1e-12) // 1 N/m times 1 m in kN
}

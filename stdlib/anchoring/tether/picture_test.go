package tether_test

import (
	"math"
	"testing"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/anchoring/tether"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

func count(d *sheet.Drawing, kind sheet.ShapeKind) (shapes []sheet.Shape) {
	for _, s := range d.Shapes {
		if s.Kind == kind {
			shapes = append(shapes, s)
		}
	}
	return shapes
}

// The plan shows the hull of the feet, a strap and a mark for each anchor; the
// arrows of the forces are as long as the tensions, along the straps.
func TestPlan(t *testing.T) {
	set := heavy(8)
	set.Feet = append(set.Feet, tether.Foot{Stiffness: 1e11}) // in the middle: not on the outline
	d := new(sheet.Sheet).NewDrawing("plan")
	set.Plan(d)
	if o := count(d, sheet.ShapeOutline); len(o) != 1 || len(o[0].X) != 12 {
		t.Errorf("outline: got %v, want one of 12 feet", o)
	}
	marks := count(d, sheet.ShapeMark)
	if len(marks) != 8 || marks[2].Name != "3" || len(count(d, sheet.ShapeLine)) != 8 || len(count(d, sheet.ShapeCompass)) != 1 {
		t.Errorf("plan: got marks %v", marks)
	}
	proof.Near(t, "mark to the east", float64(marks[2].X[0]), 2.95+0.7/math.Tan(40*units.Deg), 1e-12)

	h := proof.Must(set.Solve(11.1, 0))(t)
	d = new(sheet.Sheet).NewDrawing("forces")
	set.Forces(d, h)
	if len(count(d, sheet.ShapeMark)) != 8 {
		t.Errorf("forces: got no plan under them")
	}
	arrows := count(d, sheet.ShapeArrow)
	if len(arrows) != 4 { // wind, and the three straps to windward
		t.Fatalf("arrows: got %v, want 4", arrows)
	}
	length := func(s sheet.Shape) float64 { return math.Hypot(float64(s.X[1]-s.X[0]), float64(s.Y[1]-s.Y[0])) }
	proof.Near(t, "arrows", length(arrows[2])/length(arrows[1]), h.Tension[1]/h.Tension[0], 1e-12)
	if wind := arrows[0]; wind.Name != "wind 11.1 m/s" || !(wind.Y[0] > wind.Y[1] && wind.Y[1] > 3) {
		t.Errorf("wind from the north: got %+v", wind)
	}
	proof.Panics(t, "tensions: got 2, want one for each of 8 anchors", func() { set.Forces(d, tether.Held{Stands: true, Tension: []float64{1, 1}}) })
	set.Forces(d, tether.Held{}) // lost: the wind alone
}

// The section shows the strap's own angle and measures.
func TestSection(t *testing.T) {
	a := tether.Anchor{Holding: 1, Stiffness: 1}.Placed(anchoring.At(1, 2.95, 1.05), 1, 40*units.Deg)
	proof.Near(t, "angle", a.Angle(), 40*units.Deg, 1e-12)
	proof.Near(t, "length", a.Length(), 1.05/math.Sin(40*units.Deg), 1e-12)
	for below, kind := range map[float64]sheet.ShapeKind{0.9: sheet.ShapeLine, 0: sheet.ShapeArea} {
		d := new(sheet.Sheet).NewDrawing("section")
		a.Section(d, 1.4, below, 15*units.Deg)
		if texts := count(d, sheet.ShapeText); len(texts) != 1 || texts[0].Name != "40°" {
			t.Errorf("angle: got %v", texts)
		}
		found := false
		for _, s := range count(d, kind) {
			found = found || s.Name == "stake" || s.Name == "ballast"
		}
		if !found {
			t.Errorf("%g m below ground: no anchor drawn", below)
		}
	}
	proof.Panics(t, "strap angle: got", func() { tether.Anchor{Eye: anchoring.Point{X: 1}}.Section(nil, 1, 1, 0) })
}

func TestSchedule(t *testing.T) {
	set := heavy(8)
	set.Anchors[4].Ground.X -= 1e-4 // still south, to a degree
	set.Anchors[0].Ground.X -= 1e-4 // and still 0° to the north, not 360°
	l := proof.Must(set.Schedule([]float64{1000, 1001, 0, 0, 0, 0, 0, 1600}, 1.25, 0))(t)
	for i, want := range map[int]float64{0: 1250, 1: 1260, 2: 0, 7: 2000} {
		proof.Near(t, "need", l.Need[i], want, 1e-12)
	}
	proof.Near(t, "bearing", l.Bearing[2], 90*units.Deg, 1e-12)
	proof.Near(t, "north", l.Bearing[0], 0, 0)
	proof.Near(t, "south", l.Bearing[4], 180*units.Deg, 1e-12)
	proof.Near(t, "distance", l.Distance[2], 3.78, 1e-12) // 2.95 + 0.7/tan(40°) = 3.7842
	proof.Near(t, "angle", l.Angle[2], 40*units.Deg, 1e-12)
	if l.Name[7] != "8" || len(l.Name) != 8 {
		t.Errorf("got %+v", l)
	}
	l = proof.Must(set.Schedule([]float64{1000, 0, 0, 0, 0, 0, 0, 2000}, 1, 1600))(t)
	for i, want := range map[int]float64{0: 1600, 3: 1600, 7: 2000} {
		proof.Near(t, "need by the rule", l.Need[i], want, 0)
	}
	_, err := set.Schedule(nil, 1, 0)
	proof.Fails(t, "no tensions", err, "tensions: got 0, want one for each of 8 anchors")
	got := tether.Clipped([]float64{0.5, math.Inf(1)}, 2)
	if got[0] != 0.5 || got[1] != 2 {
		t.Errorf("clipped: got %v", got)
	}
}

package joint_test

import (
	"strings"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
	"tautline/stdlib/structure/joint"
)

// A box of welds is seen square to its plate: four lines of one name, and the
// governing end at one of the corners.
func TestDrawWelds(t *testing.T) {
	g := joint.BoxWelds(0.06, 0.1, 0.004)
	c := proof.Must(g.Check(joint.Action{Fz: -5e3, My: 200}, fillet(t, "S355", 470)))(t)
	var s sheet.Sheet
	d := s.NewDrawing("post on its plate")
	g.Draw(d, c)
	lines := 0
	for _, shape := range d.Shapes {
		switch shape.Kind {
		case sheet.ShapeLine:
			lines++
		case sheet.ShapeMark:
			if strings.Contains(shape.Name, "used") && (shape.X[0] != 0.03 && shape.X[0] != -0.03 || shape.Y[0] != 0.05 && shape.Y[0] != -0.05) {
				t.Errorf("governing end drawn at (%g, %g), want a corner", shape.X[0], shape.Y[0])
			}
		}
	}
	if lines != 4 {
		t.Errorf("got %d lines, want 4", lines)
	}
	// In space, x comes forward to the left and y to the right, z stands up.
	g.Welds = append(g.Welds, joint.Weld{Name: "stay", From: joint.Point{}, To: joint.Point{X: 0.1, Y: 0.1, Z: 0.2}, Throat: 0.003})
	e := s.NewDrawing("with a stay")
	g.Draw(e, c)
	for _, shape := range e.Shapes {
		if strings.Contains(shape.Name, "3 mm") {
			proof.Near(t, "stay, sideways", float64(shape.X[1]), 0, 1e-12)
			proof.Near(t, "stay, up", float64(shape.Y[1]), 0.1, 1e-12)
		}
	}
}

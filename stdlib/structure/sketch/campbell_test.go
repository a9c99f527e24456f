package sketch_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/sketch"
	"tautline/stdlib/units"
)

// Frequencies of 3 Hz and 5 Hz are met once in a turn at 180 and 300 turns a minute,
// twice in a turn at 90 and 150: up to 200 turns there are three meetings.
func TestCampbell(t *testing.T) {
	var s sheet.Sheet
	figure := s.NewFigure("spin", "spin", "frequency")
	sketch.Campbell(figure, []frame.VibrationMode{{Frequency: 3}, {Frequency: 5}}, 200*units.Rpm, 1, 2)
	if len(figure.Curves) != 4 || len(figure.Marks) != 3 {
		t.Fatalf("got %d curves and %d marks, want 4 and 3", len(figure.Curves), len(figure.Marks))
	}
	for i, want := range [][2]float64{{90, 3}, {150, 5}, {180, 3}} {
		proof.Near(t, "spin", float64(figure.Marks[i].X), want[0]*2*math.Pi/60, 1e-12)
		proof.Near(t, "frequency", float64(figure.Marks[i].Y), want[1], 1e-12)
	}
}

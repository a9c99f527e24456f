package anchoring_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// East is at a bearing of 90°, and every point lies where its bearing and
// distance say.
func TestPoint(t *testing.T) {
	east := anchoring.At(90*units.Deg, 2, 1)
	proof.Near(t, "X", east.X, 2, 1e-15)
	proof.Near(t, "Y", east.Y, 0, 1e-15)
	proof.Near(t, "bearing of the south-west", anchoring.Point{X: -1, Y: -1}.Bearing(), 225*units.Deg, 1e-15)
	rapid.Check(t, func(t *rapid.T) {
		bearing, distance := rapid.Float64Range(0, 6.28).Draw(t, "bearing"), rapid.Float64Range(0.1, 50).Draw(t, "distance")
		p := anchoring.At(bearing, distance, 3)
		if math.Abs(p.Bearing()-bearing) > 1e-12 && math.Abs(math.Abs(p.Bearing()-bearing)-2*math.Pi) > 1e-12 || math.Abs(p.Distance()-distance) > 1e-12*distance {
			t.Errorf("bearing %g, distance %g: got %g, %g", bearing, distance, p.Bearing(), p.Distance())
		}
	})
	proof.Panics(t, "anchoring: Point.Distance: point, Y: got NaN", func() { anchoring.Point{Y: math.NaN()}.Distance() })
}

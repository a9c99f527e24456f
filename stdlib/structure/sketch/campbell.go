package sketch

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/sheet"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/units"
)

// Campbell draws natural frequencies against the speed of a spinning part, up to
// a speed, with a ray for each order: where a ray crosses a frequency, the part
// shakes it. The figure's axes are speed and frequency.
//
// The speed is more than 0; outside it panics.
func Campbell(figure *sheet.Figure, modes []frame.VibrationMode, top units.AngularSpeed, orders ...units.Number) {
	argument.Demand("sketch: Campbell", argument.Positive("speed", top))
	figure.Axes("AngularSpeed", "Frequency")
	for i, m := range modes {
		figure.Curve(fmt.Sprintf("natural frequency %d", i+1), []units.AngularSpeed{0, top}, []units.Frequency{m.Frequency, m.Frequency})
	}
	for _, k := range orders {
		figure.Curve(fmt.Sprintf("%g in a turn", k), []units.AngularSpeed{0, top}, []units.Frequency{0, k * top / (2 * math.Pi)})
	}
	for _, r := range frame.Resonances(modes, orders...) {
		if r.Speed <= top {
			figure.Mark(fmt.Sprintf("%g in a turn meets %g", r.Order, r.Mode), r.Speed, r.Frequency)
		}
	}
}

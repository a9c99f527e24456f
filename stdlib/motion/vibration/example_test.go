package vibration_test

import (
	"fmt"

	"tautline/stdlib/motion/vibration"
	"tautline/stdlib/units"
)

// The weighting of the vertical passes what shakes a seat at 6 Hz and little of the
// sway of a boat at 0.1 Hz.
func ExampleWeighting_Gain() {
	w := vibration.Wk()
	fmt.Println(w.Gain(6*units.Hz) > 0.9, w.Gain(0.1*units.Hz) < 0.1)
	// Output: true true
}

package vibration_test

import (
	"fmt"
	"math"

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

// A wave of one frequency: its mean fourth power is 3/8 of its peak's, its mean square
// half, so their roots are (3/8)^(1/4)·√2 apart.
func ExampleWeighed() {
	var wave []units.Acceleration
	for k := range 6000 {
		wave = append(wave, math.Sin(2*math.Pi*6*float64(k)/200)*units.MPerS2)
	}
	w, err := vibration.Weigh(vibration.Wk(), wave, 5*units.Ms)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("fourth over rms %.3f\n", w.Fourth/w.Rms)
	// Output: fourth over rms 1.107
}

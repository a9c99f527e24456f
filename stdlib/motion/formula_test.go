package motion_test

import (
	"fmt"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion"
	"tautline/stdlib/units"
)

func TestFormulaLines(t *testing.T) {
	proof.Formulas(t, []proof.Call{
		proof.Of("Velocity.Size", motion.Velocity.Size, [][]any{{motion.Velocity{X: 1, Y: -2, Z: 3}}}),
		proof.Of("Acceleration.Size", motion.Acceleration.Size, [][]any{{motion.Acceleration{X: 1, Y: -2, Z: 3}}}),
		proof.Of("Jerk.Size", motion.Jerk.Size, [][]any{{motion.Jerk{X: 1, Y: -2, Z: 3}}}),
	})
}

// A seat 0.5 m before a pitch axis that swings by 12° every three seconds: it is
// felt most as the bow starts upward, 1 g and 0.5 m times 120°/s².
func Example() {
	limits := motion.Limits{Speed: 60 * units.DegPerS, Acceleration: 120 * units.DegPerS2, Jerk: 1200 * units.DegPerS3}
	tilt := motion.Axis{Low: -20 * units.Deg, High: 20 * units.Deg, Limits: limits}
	base := motion.Base{
		Name: "skiff", Yaw: motion.Axis{Continuous: true, Limits: limits}, Pitch: tilt, Roll: tilt,
		Seats: []motion.Seat{{Name: "bow", At: motion.Point{X: 0.5 * units.M, Z: 0.8 * units.M}}},
	}
	swell := motion.Level{Name: "swell", Duration: 20 * units.S, Pitch: motion.Wave{Amplitude: 12 * units.Deg, Period: 3 * units.S}}
	ride, err := motion.Programme{Name: "sea", Levels: []motion.Level{swell}}.Ride(base)
	if err != nil {
		fmt.Println(err)
		return
	}
	peak := 0.0
	for _, z := range ride.Trace(0, 0.01).Z {
		peak = max(peak, z)
	}
	fmt.Printf("felt upward: at most %.2f g\n", peak/units.Gn)
	// Output: felt upward: at most 1.11 g
}

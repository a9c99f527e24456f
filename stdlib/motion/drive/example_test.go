package drive_test

import (
	"fmt"

	"tautline/stdlib/motion/drive"
	"tautline/stdlib/units"
)

// A gear of 20 to 1 with 90 % under 90 N·m at the axis: 90/(20·0.9) at the motor.
func ExampleTrain() {
	t := drive.Train{Ratio: 20, Efficiency: 0.9, Backward: 0.85}
	still := drive.Demand{Time: []units.Time{0, 1 * units.S}, Torque: []units.Moment{90 * units.Nm, 90 * units.Nm}, Speed: []units.AngularSpeed{1, 1}, Acceleration: []units.AngularAcceleration{0, 0}}
	duty, err := t.Duty(still, drive.InventedMotors()[0])
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f N·m at %.0f rad/s\n", duty.Peak/units.Nm, duty.TopSpeed)
	// Output: 5.0 N·m at 20 rad/s
}

// A ball screw with a lead of 10 mm pushes 2 kN: 2000·0.01/(2·π·0.9) N·m.
func ExampleScrew() {
	s := drive.Screw{Lead: 10 * units.Mm, Efficiency: 0.9, Lever: 200 * units.Mm}
	fmt.Printf("%.2f N·m\n", s.Raise(2*units.KN)/units.Nm)
	// Output: 3.54 N·m
}

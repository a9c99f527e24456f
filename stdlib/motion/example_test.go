package motion_test

import (
	"fmt"

	"tautline/stdlib/motion"
	"tautline/stdlib/units"
)

// A quarter turn from rest to rest within 1 rad/s: the speed is reached, the rest
// takes as long as the limits ask.
func ExampleMove() {
	m, err := motion.NewMove(90*units.Deg, 0, 0, motion.Limits{Speed: 1 * units.RadPerS, Acceleration: 2 * units.RadPerS2, Jerk: 20 * units.RadPerS3})
	if err != nil {
		fmt.Println(err)
		return
	}
	// π/2/1 + 1/2 + 2/20 s: the way at full speed, one ramp, and one rise of its acceleration.
	fmt.Printf("%.2f s\n", m.Duration/units.S)
	// Output: 2.17 s
}

// A weight on a rope of 1 m, small swings: 2·π·√(1/g).
func ExamplePendulum() {
	p := motion.Pendulum{Mass: 80 * units.Kg, Arm: 1 * units.M}
	fmt.Printf("%.2f s\n", p.Period(1*units.Deg)/units.S)
	// Output: 2.01 s
}

// Yaw and pitch together, taken apart again.
func ExampleState() {
	a := motion.Pose(30*units.Deg, 20*units.Deg, 10*units.Deg).Rotation().Angles()
	fmt.Printf("%.0f° %.0f° %.0f°\n", a.Yaw/units.Deg, a.Pitch/units.Deg, a.Roll/units.Deg)
	// Output: 30° 20° 10°
}

// A quarter turn of yaw carries the part's x to the world's y.
func ExampleRotation() {
	r := motion.Pose(90*units.Deg, 0, 0).Rotation()
	fmt.Printf("%.0f %.0f %.0f\n", r.XX, r.YX, r.ZX)
	// Output: 0 1 0
}

// A speed of 3 m/s along x and 4 m/s along y.
func ExampleVelocity() {
	v := motion.Velocity{X: 3 * units.MPerS, Y: 4 * units.MPerS}
	fmt.Printf("%.0f m/s\n", v.Size()/units.MPerS)
	// Output: 5 m/s
}

// The pull of the ground on who stands still, in multiples of gravity.
func ExampleAcceleration() {
	a := motion.Acceleration{Z: units.Gn}
	fmt.Printf("%.0f g\n", a.Size()/units.Gn)
	// Output: 1 g
}

// A jerk along two axes.
func ExampleJerk() {
	j := motion.Jerk{X: 6 * units.MPerS3, Z: -8 * units.MPerS3}
	fmt.Printf("%.0f m/s³\n", j.Size()/units.MPerS3)
	// Output: 10 m/s³
}

// The head of a history of loads on the ground, to be read by another program.
func ExampleLoads() {
	l := motion.Loads{Time: []units.Time{0}, Yaw: []units.Moment{0}, Pitch: []units.Moment{0}, Roll: []units.Moment{0},
		Fx: []units.Force{0}, Fy: []units.Force{0}, Fz: []units.Force{-1000}, Mx: []units.Moment{0}, My: []units.Moment{0}, Mz: []units.Moment{0}}
	fmt.Print(l.History())
	// Output:
	// time s,Fx N,Fy N,Fz N,Mx Nm,My Nm,Mz Nm
	// 0.0000,0.0,0.0,-1000.0,0.00,0.00,0.00
}

package windload_test

import (
	"fmt"

	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/units"
)

// Wind of 24 m/s on the map, in a season with 0.9 of it.
func ExampleBasicSpeed() {
	v := windload.BasicSpeed(24*units.MPerS, 1, 0.9, 1)
	fmt.Printf("%.1f m/s\n", v/units.MPerS)
	// Output: 21.6 m/s
}

// A player who stands on a beam 1.1 m over the ground in 20 m/s, 250 Pa:
// 250·0.84 N, and that at 1.1 m + 0.9 m.
func ExamplePerson() {
	player := windload.StandingPerson()
	q := 250 * units.Pa
	fmt.Printf("%.0f N, tips with %.0f N·m\n", player.Force(q)/units.N, player.Moment(q, 1.1*units.M)/units.Nm)
	// Output: 210 N, tips with 420 N·m
}

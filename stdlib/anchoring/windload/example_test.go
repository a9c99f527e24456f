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

// A wind that comes once in 50 years on average has 1 in 50 in each of them.
func ExampleReturnPeriod() {
	r := windload.ReturnPeriod{Years: 50}
	fmt.Printf("%.0f %% a year\n", r.Probability()/units.Percent)
	// Output: 2 % a year
}

// Open country of ASCE 7-16, Table 26.11-1: at 33 ft the coefficient is 1.00, as
// Table 26.10-1 prints within its rounding (both from memory: verify).
func ExampleExposure() {
	c := windload.Exposure{Category: "C", Exponent: 9.5, Gradient: 900 * units.Ft}
	fmt.Printf("%.2f\n", c.Coefficient(33*units.Ft))
	// Output: 1.00
}

// A wall of 10 m² that looks north, in a wind from 60°: half of it meets the wind.
func ExampleFace() {
	wall := windload.Face{Name: "front", Area: 10 * units.M2, Coefficient: 1.3, Solidity: 1}
	fmt.Printf("%.1f m²\n", wall.Projected(60*units.Deg)/units.M2)
	// Output: 5.0 m²
}

// A push of 3 kN to the east and 4 kN to the north.
func ExampleLoad() {
	l := windload.Load{East: 3 * units.KN, North: 4 * units.KN}
	fmt.Printf("%.0f kN\n", l.Push()/units.KN)
	// Output: 5 kN
}

// Open country of EN 1991-1-4, 10 m up: 25 m/s times 0.19·ln(10/0.05).
func ExampleTerrain() {
	open, err := windload.TerrainOf("II")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f m/s\n", open.MeanSpeed(25*units.MPerS, 10*units.M, 1)/units.MPerS)
	// Output: 25.2 m/s
}

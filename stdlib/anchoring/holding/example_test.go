package holding_test

import (
	"fmt"

	"tautline/stdlib/anchoring/holding"
	"tautline/stdlib/units"
)

// A strap of 10 kN with a knot in it, which leaves half.
func ExampleStrap_Allowable() {
	strap := holding.Strap{Limit: 10 * units.KN, Reduction: 0.5, Elongation: 0.07, Length: 1.5 * units.M}
	fmt.Printf("%.1f kN\n", strap.Allowable()/units.KN)
	// Output: 5.0 kN
}

// A block of 500 kg on rubber, pulled at 45°: it slides at 0.4·4903/(cos + 0.4·sin) N,
// far below its weight.
func ExampleBallast() {
	block := holding.Ballast{Mass: 500 * units.Kg, Friction: 0.4}
	T := block.SlipTension(45 * units.Deg)
	fmt.Printf("%.2f kN\n", T/units.KN)
	// Output: 1.98 kN
}

// A tank of 40 kg with a cubic metre of water that drips 50 l/h: 400 kg are gone
// after 8 h.
func ExampleWaterBallast() {
	tank := holding.WaterBallast{Tank: 40 * units.Kg, Volume: 1 * units.M3, Density: 1000 * units.KgPerM3, Loss: 0.05 * units.M3PerH}
	fmt.Printf("%.0f kg\n", tank.MassAfter(8*units.H)/units.Kg)
	// Output: 640 kg
}

// Three stakes pulled on the field (invented): the lowest reading counts, 2.6/1.5 kN.
func ExamplePullTest() {
	test := holding.PullTest{Readings: []units.Force{3.0 * units.KN, 2.6 * units.KN, 2.8 * units.KN}, Factor: 1.5}
	found, err := test.Holding()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f kN\n", found.Holding/units.KN)
	// Output: 1.73 kN
}

// A helix of 200 mm, 1 m deep: five diameters, so 1.2·5 times the clay's strength on
// π/4·(200² - 40²) mm².
func ExampleScrew() {
	screw := holding.Screw{Helix: 200 * units.Mm, Shaft: 40 * units.Mm, Depth: 1 * units.M}
	fmt.Printf("%.0f times the strength on %.1f cm²\n", screw.Breakout(), screw.NetArea()/units.Cm2)
	// Output: 6 times the strength on 301.6 cm²
}

// Sand with 30° of friction: (1 + 1/2)/(1 - 1/2).
func ExampleSoil() {
	sand := holding.Soil{Name: "sand", Weight: 18 * units.KNPerM3, Friction: 30 * units.Deg}
	fmt.Printf("passive pressure is %.1f times the weight above\n", sand.Passive())
	// Output: passive pressure is 3.0 times the weight above
}

// A stake that leans 15° away under a strap at 45°: sin 30° of 1 kN draws it out,
// cos 30° pushes it over. It bends at 235 MPa·25³/6.
func ExampleStake() {
	stake := holding.Stake{Length: 850 * units.Mm, Diameter: 25 * units.Mm, Yield: 235 * units.MPa, Lean: 15 * units.Deg}
	pull := stake.Pull(1*units.KN, 45*units.Deg)
	fmt.Printf("along %.0f N, across %.0f N\n", pull.Axial/units.N, pull.Lateral/units.N)
	fmt.Printf("bends at %.0f N·m\n", stake.PlasticMoment()/units.Nm)
	// Output:
	// along 500 N, across 866 N
	// bends at 612 N·m
}

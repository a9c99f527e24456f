package shaft_test

import (
	"fmt"

	"tautline/stdlib/structure/shaft"
	"tautline/stdlib/units"
)

// A ball bearing under a fifth of its rating: 5³ = 125 million turns, which at
// 30 turns a minute are 125e6/(30·60) hours.
func ExampleBearingLife() {
	turns := shaft.BearingLife(20*units.KN, 4*units.KN, shaft.BallExponent)
	hours := shaft.BearingHours(turns, 30*units.Rpm) / units.H
	fmt.Printf("%.0f million turns, %.0f h\n", turns/1e6, hours)
	// Output: 125 million turns, 69444 h
}

// A shaft that bends and drives, then the key of the next size up. By hand:
// √(300² + 0.75·400²) = 458.3 N·m, 32·458.3/(π·60) cm³ = 77.8 cm³, whose cube
// root is 4.27 cm; the key's side is pressed with 2·400/(0.045·0.060·0.0045) Pa.
func ExampleDiameterFor() {
	torque := 400 * units.Nm
	d := shaft.DiameterFor(300*units.Nm, torque, 60*units.MPa)
	key := shaft.KeyBearing(torque, 45*units.Mm, 9*units.Mm, 60*units.Mm)
	fmt.Printf("at least %.1f mm; the key is pressed with %.1f MPa\n", d/units.Mm, key/units.MPa)
	// Output: at least 42.7 mm; the key is pressed with 65.8 MPa
}

// Half of the turns with 4 kN, half with 2 kN, on a ball bearing: ∛((4³ + 2³)/2) kN.
func ExampleDuty() {
	d := shaft.Duty{Load: []units.Force{4 * units.KN, 2 * units.KN}, Speed: []units.AngularSpeed{10, 10}, Time: []units.Time{5 * units.S, 5 * units.S}}
	P, err := d.Equivalent(3)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f kN\n", P/units.KN)
	// Output: 3.30 kN
}

// A shaft of 20 mm that turns under 40 N·m: 32·40/(π·0.02³) = 50.9 MPa each way round.
// With an endurance of 150 MPa and nothing that stays, that goes 2.95 times.
func ExampleFatigue() {
	s := shaft.Fatigue{Section: shaft.Round{Diameter: 20 * units.Mm}, Bending: 40 * units.Nm, Kf: 1, Kfs: 1, Endurance: 150 * units.MPa, Tensile: 600 * units.MPa, Yield: 400 * units.MPa}
	safety, err := s.Safety()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f\n", safety.Goodman)
	// Output: 2.95
}

// A ring of 40 balls at 45° that a mass presses with 20 kN: each carries 20/(40·sin 45°) kN.
func ExampleSlewingRing() {
	r := shaft.SlewingRing{Diameter: 500 * units.Mm, Balls: 40, Angle: 45 * units.Deg, Bolts: 24, Circle: 600 * units.Mm}
	l, err := r.Carry(20*units.KN, 0, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f N\n", l.Ball/units.N)
	// Output: 707 N
}

// A square thread without friction: 10 kN·10 mm/(2·π).
func ExampleScrew() {
	d, err := shaft.Screw{Pitch: 30 * units.Mm, Lead: 10 * units.Mm}.Drive(10 * units.KN)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f N·m\n", d.Raise/units.Nm)
	// Output: 15.9 N·m
}

// A solid shaft of 30 mm under 100 N·m: 16·100/(π·0.03³).
func ExampleRound() {
	r := shaft.Round{Diameter: 30 * units.Mm}
	fmt.Printf("%.1f MPa\n", r.TorsionStress(100*units.Nm)/units.MPa)
	// Output: 18.9 MPa
}

// An axle of 400 mm between bearings at its ends, 2 kN in the middle: F·L/4.
func ExampleStepped() {
	axle := shaft.Stepped{Steps: []shaft.Step{{Length: 400 * units.Mm, Diameter: 30 * units.Mm}}, Right: 400 * units.Mm, E: 210 * units.GPa}
	b, err := axle.Bend([]shaft.Load{{At: 200 * units.Mm, Fy: 2 * units.KN}}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f N·m, %.0f N on each bearing\n", b.Greatest/units.Nm, b.Left/units.N)
	// Output: 200 N·m, 1000 N on each bearing
}

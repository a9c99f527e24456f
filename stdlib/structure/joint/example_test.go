package joint_test

import (
	"fmt"

	"tautline/stdlib/structure/joint"
	"tautline/stdlib/units"
)

// By hand, with 157 mm² of thread: 0.6·800·157/1.25 N and 0.9·800·157/1.25 N.
func ExampleNewBolt() {
	bolt, err := joint.NewBolt("M16", "8.8")
	if err != nil {
		fmt.Println(err)
		return
	}
	f := joint.RecommendedFactors()
	fmt.Printf("%s: shear %.1f kN, tension %.1f kN\n", bolt.Name, bolt.ThreadShear(f)/units.KN, bolt.Tension(f)/units.KN)
	// Output: M16 8.8: shear 60.3 kN, tension 90.4 kN
}

// Four bolts on a square of 100 mm, twisted in their plane. By hand: each is
// √2·50 = 70.7 mm from the middle and carries 1 kN·m/(4·70.7 mm).
func ExampleBoltGroup_Forces() {
	mm := units.Mm
	group := joint.BoltGroup{Y: []units.Length{-50 * mm, 50 * mm, 50 * mm, -50 * mm}, Z: []units.Length{-50 * mm, -50 * mm, 50 * mm, 50 * mm}}
	forces, err := group.Forces(joint.Action{Mx: 1 * units.KNm})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range forces {
		fmt.Printf("bolt %.0f: %.2f kN\n", b.Bolt, b.Shear/units.KN)
	}
	// Output:
	// bolt 1: 3.54 kN
	// bolt 2: 3.54 kN
	// bolt 3: 3.54 kN
	// bolt 4: 3.54 kN
}

// A fillet with a throat of 4 mm on S355. By hand:
// 4·470/(√3·0.9·1.25) = 965 N/mm.
func ExampleNewFilletStrength() {
	weld, err := joint.NewFilletStrength("S355", 470*units.MPa, joint.RecommendedFactors())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f N/mm\n", weld.PerLength(4*units.Mm)/units.NPerMm)
	// Output: 965 N/mm
}

// A square plate of 200 mm that a post presses with 40 kN in the middle: 1 MPa under
// all of it.
func ExampleBasePlate() {
	plate := joint.BasePlate{Y: 200 * units.Mm, Z: 200 * units.Mm, Thickness: 12 * units.Mm, Fy: 235 * units.MPa, PostY: 80 * units.Mm, PostZ: 80 * units.Mm}
	stands, err := plate.Stand(joint.Action{Fx: -40 * units.KN})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f MPa under %.0f %% of it\n", stands.Contact/units.MPa, stands.Share/units.Percent)
	// Output: 1.0 MPa under 100 % of it
}

// A plate that turns about its edge, 1 kN·m on bolts 80 mm from its middle: what presses
// balances the bolts.
func ExampleHoldDown() {
	h := joint.HoldDown{Width: 200 * units.Mm, Length: 220 * units.Mm, Arm: 80 * units.Mm, Bearing: 10 * units.MPa}
	held, err := h.Carry(0, 1*units.KNm)
	if err != nil {
		fmt.Println(err)
		return
	}
	arm := 80*units.Mm + 110*units.Mm - held.Depth/2 // from the bolts to the middle of the strip
	fmt.Printf("tension less press %.1f kN, moment %.2f kN·m\n", (held.Tension-held.Press)/units.KN, held.Tension*arm/units.KNm)
	// Output: tension less press 0.0 kN, moment 1.00 kN·m
}

// A pad of 300 mm by 300 mm under 9 kN, 25 mm off its middle: 100·(1 + 6·25/300) kPa at
// one edge, half of 100 kPa at the other.
func ExampleFooting() {
	pad := joint.Footing{Y: 300 * units.Mm, Z: 300 * units.Mm}
	ground, err := pad.Press(9*units.KN, 25*units.Mm, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f kPa to %.0f kPa\n", ground.Lowest/units.KPa, ground.Highest/units.KPa)
	// Output: 50 kPa to 150 kPa
}

// A pin of 20 mm in plates of 10, 20 and 10 mm, 1 mm apart, under 20 kN: each of its two
// cuts bears half, and it bends with F·(20 + 4·1 + 2·10)/8 mm.
func ExamplePinJoint() {
	pin := joint.PinJoint{Diameter: 20 * units.Mm, PinFy: 640 * units.MPa, PinFu: 800 * units.MPa, PlateFy: 355 * units.MPa,
		Middle: 20 * units.Mm, Outer: 10 * units.Mm, Gap: 1 * units.Mm, Hole: 20 * units.Mm}
	r, err := pin.Carry(20*units.KN, joint.RecommendedFactors())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f kN, %.0f N·m\n", r.Shear/units.KN, r.Moment/units.Nm)
	// Output: 10 kN, 110 N·m
}

// A thick flange on two bolts M16 8.8 breaks the bolts, twice 0.9·800·157/1.25 N.
func ExampleTStub() {
	bolt, err := joint.NewBolt("M16", "8.8")
	if err != nil {
		fmt.Println(err)
		return
	}
	stub := joint.TStub{Bolt: bolt, Bolts: 2, Thickness: 40 * units.Mm, Fy: 355 * units.MPa, Reach: 30 * units.Mm, Edge: 35 * units.Mm, Length: 150 * units.Mm}
	r, err := stub.Resistance(joint.RecommendedFactors())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("mode %.0f, %.0f kN\n", r.Mode, r.Resistance/units.KN)
	// Output: mode 3, 181 kN
}

// Straight sum of shares: half of the force and, to the power of one, a third of the moment.
func ExampleTubeResistance() {
	r := joint.TubeResistance{Covered: true, Axial: 100 * units.KN, Moment: 3 * units.KNm, MomentPower: 1}
	fmt.Printf("%.2f\n", r.Utilisation(50*units.KN, 1*units.KNm))
	// Output: 0.83
}

// A square brace on a square chord, whose face yields at
// 355·5²/(1 - 0.6)·(2·0.6 + 4·√0.4) N (EN 1993-1-8, Table 7.11, from memory: verify).
func ExampleTubeJoint() {
	chord := joint.Tube{Height: 100 * units.Mm, Width: 100 * units.Mm, Wall: 5 * units.Mm, Fy: 355 * units.MPa}
	brace := joint.Tube{Height: 60 * units.Mm, Width: 60 * units.Mm, Wall: 4 * units.Mm, Fy: 355 * units.MPa}
	r, err := joint.TubeJoint{Chord: chord, Brace: brace, Angle: 90 * units.Deg}.Single(joint.RecommendedFactors())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v, %.1f kN\n", r.Covered, r.Axial/units.KN)
	// Output: true, 82.8 kN
}

// A weld of 4 mm throat round a post of 60 mm: 4·π·60 mm².
func ExampleWeldGroup() {
	line, err := joint.RingWelds(60*units.Mm, 4*units.Mm).Line()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm² on %.0f mm\n", line.Area/units.Mm2, line.Length/units.Mm)
	// Output: 754 mm² on 188 mm
}

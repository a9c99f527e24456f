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

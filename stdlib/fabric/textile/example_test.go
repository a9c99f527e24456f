package textile_test

import (
	"fmt"

	"tautline/stdlib/fabric/textile"
	"tautline/stdlib/units"
)

// Two rows of 5 mm stitches of a 95 N thread that keeps four fifths: 2·95·0.8/5 =
// 30.4 kN/m, of cloth with 40 kN/m 76 %; a fifth of that in use.
func ExampleSeam_Efficiency() {
	strip := 40 * units.KNPerM
	seam := textile.Seam{Rows: 2, Thread: 95 * units.N, Pitch: 5 * units.Mm, Loss: 0.2}
	e := seam.Efficiency(strip)
	fmt.Printf("%.0f %%, %.2f kN/m\n", e/units.Percent, textile.Allowable(strip, e, 5)/units.KNPerM)
	// Output: 76 %, 6.08 kN/m
}

// An invented cloth: its weaker direction counts.
func ExampleCloth() {
	cloth := textile.Cloth{Name: "cloth", Warp: 60 * units.KNPerM, Weft: 55 * units.KNPerM}
	fmt.Printf("%.0f kN/m\n", cloth.Strip()/units.KNPerM)
	// Output: 55 kN/m
}

// Five reasons to take less: 1.5·1.4·1.2·1.1·1.2·1.1, and 60 kN/m over that.
func ExampleFactors() {
	f := textile.Factors{Load: 1.5, Material: 1.4, Biaxial: 1.2, Duration: 1.1, Ageing: 1.2, Temperature: 1.1}
	fmt.Printf("%.2f, leaves %.1f kN/m\n", f.Product(), f.Allowable(60*units.KNPerM)/units.KNPerM)
	// Output: 3.66, leaves 16.4 kN/m
}

// A lap that broke at 36 kN/m in a test, of cloth with 60 kN/m (invented).
func ExampleJoint() {
	lap := textile.Joint{Name: "lap", Strength: 36 * units.KNPerM}
	fmt.Printf("%.0f %% of the strip\n", lap.Efficiency(60*units.KNPerM)/units.Percent)
	// Output: 60 % of the strip
}

// A patch of 200 mm by 300 mm, bonded with 0.5 MPa, pulled along the cloth:
// 0.5·200·300 N. At 30° to each side the pull spreads over 200 + 2·300·tan 30° mm.
func ExamplePatch() {
	p := textile.Patch{Width: 200 * units.Mm, Length: 300 * units.Mm, Bond: 0.5 * units.MPa, Peel: 5 * units.KNPerM, Spread: 30 * units.Deg}
	fmt.Printf("%.0f kN along, %.0f kN square to it\n", p.Strength(0)/units.KN, p.Strength(90*units.Deg)/units.KN)
	fmt.Printf("%.2f kN/m in the cloth\n", p.LineForce(2*units.KN)/units.KNPerM)
	// Output:
	// 30 kN along, 1 kN square to it
	// 3.66 kN/m in the cloth
}

// A ring for 10 kN under 2 kN, with one factor of 2 on all: 2·2/10.
func ExampleAttachment() {
	a := textile.Attachment{Ring: 10 * units.KN, Webbing: textile.Webbing{Width: 50 * units.Mm, Strength: 20 * units.KN}, Stitches: 200, Thread: 100 * units.N, Loss: 0.3,
		Patch: textile.Patch{Width: 200 * units.Mm, Length: 300 * units.Mm, Bond: 0.5 * units.MPa, Peel: 5 * units.KNPerM, Spread: 30 * units.Deg}, Cloth: 30 * units.KNPerM}
	list, err := a.Under(2*units.KN, textile.Factors{Load: 2, Material: 1, Biaxial: 1, Duration: 1, Ageing: 1, Temperature: 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s %.0f %%\n", list[0].Name, list[0].Share/units.Percent)
	// Output: ring 40 %
}

// Cloth of 300 kN/m pulled with 3 kN/m one way only: one hundredth.
func ExampleStiffness() {
	s := textile.Stiffness{Warp: 300 * units.KNPerM, Weft: 250 * units.KNPerM, Poisson: 0.2}
	fmt.Printf("warp %.1f %%, weft %.1f %%\n", s.WarpStrain(3*units.KNPerM, 0)/units.Percent, s.WeftStrain(3*units.KNPerM, 0)/units.Percent)
	// Output: warp 1.0 %, weft -0.2 %
}

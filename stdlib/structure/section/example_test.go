package section_test

import (
	"fmt"

	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// A tube off the shelf. EN 10219-2 prints 7.07 cm², 28.2 cm⁴, 9.34 cm³ and
// 5.55 kg/m for it (from memory: verify against the document).
func ExampleStandard() {
	tube, err := section.Standard("CHS 60.3x4 EN 10219")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("A %.2f cm², I %.1f cm⁴, Wel %.2f cm³\n", tube.A/units.Cm2, tube.Iy/units.Cm4, tube.Wely/units.Cm3)
	fmt.Printf("%.2f kg/m\n", tube.MassPerLength(7850*units.KgPerM3)/units.KgPerM)
	// Output:
	// A 7.07 cm², I 28.2 cm⁴, Wel 9.34 cm³
	// 5.55 kg/m
}

// One grade by two standards: a weld is designed with fu, so which one counts.
func ExampleSteel() {
	for _, standard := range []string{"EN 10219-1", "EN 1993-1-1"} {
		steel, err := section.Steel(standard, "S355J2H", 4*units.Mm)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: fy %.0f MPa, fu %.0f MPa\n", standard, steel.Fy/units.MPa, steel.Fu/units.MPa)
	}
	// Output:
	// EN 10219-1: fy 355 MPa, fu 470 MPa
	// EN 1993-1-1: fy 355 MPa, fu 510 MPa
}

// A flat bar of 100 mm by 10 mm: I is 10·100³/12 mm⁴, its radius 100/√12 mm.
func ExampleSection() {
	bar := section.Flat(100*units.Mm, 10*units.Mm)
	fmt.Printf("%.1f cm⁴, %.1f mm\n", bar.Iy/units.Cm4, bar.RadiusY()/units.Mm)
	// Output: 83.3 cm⁴, 28.9 mm
}

package frame_test

import (
	"fmt"

	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// The mast of the examples: 2 m of CHS 60.3x4 on a stiff foot. Its I is
// π/64·(60.3⁴ - 52.3⁴) mm⁴ = 28.17 cm⁴, so E·I is 59.16 kN·m².
func mast() (f *frame.Frame, foot, top frame.Node) {
	f = frame.New()
	foot, top = f.Node(0, 0, 0), f.Node(0, 0, 2*units.M)
	steel := section.Material{Name: "steel", Fy: 355 * units.MPa, Fu: 470 * units.MPa, E: 210 * units.GPa, G: 81 * units.GPa, Density: 7850 * units.KgPerM3}
	f.Member(foot, top, section.CHS(60.3*units.Mm, 4*units.Mm, section.ColdFormed), steel)
	f.Fix(foot)
	return f, foot, top
}

// A mast pulled sideways at its top. By hand: F·L³/(3·E·I) = 22.5 mm and
// F·L = 1 kN·m, which the foot holds against the pull.
func ExampleFrame_Solve() {
	f, foot, top := mast()
	pull := frame.NewCase("pull at the top")
	pull.Node(top, frame.Load{FX: 500 * units.N})
	r, err := f.Solve(pull.Alone())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("top sways %.1f mm\n", r.Displacement(top).X/units.Mm)
	fmt.Printf("foot gives %.2f kN and %.2f kN·m\n", r.Reaction(foot).FX/units.KN, r.Reaction(foot).MY/units.KNm)
	// Output:
	// top sways 22.5 mm
	// foot gives -0.50 kN and -1.00 kN·m
}

// How much the mast bears on its top before it buckles. By hand, after Euler,
// free at the top: π²·E·I/(2·L)² = 36.5 kN.
func ExampleFrame_Buckling() {
	f, _, top := mast()
	load := frame.NewCase("1 kN on top")
	load.Node(top, frame.Load{FZ: -1 * units.KN})
	modes, err := f.Buckling(load.Alone(), 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("buckles at %.1f kN\n", modes[0].Factor)
	// Output: buckles at 36.5 kN
}

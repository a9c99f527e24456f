package frame_test

import (
	"fmt"
	"math"

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

// The force in a mast over two cases: the greater size counts.
func ExampleForceRange() {
	r := frame.ForceRange{Low: -8 * units.KN, High: 5 * units.KN, LowIn: "wind", HighIn: "crane"}
	fmt.Printf("%.0f kN\n", r.Most()/units.KN)
	// Output: 8 kN
}

// Moments, the same.
func ExampleMomentRange() {
	r := frame.MomentRange{Low: -2 * units.KNm, High: 3 * units.KNm}
	fmt.Printf("%.0f kN·m\n", r.Most()/units.KNm)
	// Output: 3 kN·m
}

// The moment in the foot of the mast of the examples, 2 m under the pull of 500 N.
func ExampleForces() {
	f, _, top := mast()
	pull := frame.NewCase("pull at the top")
	pull.Node(top, frame.Load{FX: 500 * units.N})
	r, err := f.Solve(pull.Alone())
	if err != nil {
		fmt.Println(err)
		return
	}
	var mast frame.Forces = r.Member(1)
	most := mast.Most()
	fmt.Printf("%.0f N·m\n", math.Hypot(most.MY, most.MZ)/units.Nm)
	// Output: 1000 N·m
}

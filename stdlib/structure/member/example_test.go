package member_test

import (
	"fmt"

	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/member"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// A post of CHS 60.3x4 in S355, 2 m between hinges. By hand: Euler's force is
// π²·E·I/L² = 146.0 kN, A·fy is 251.2 kN, the slenderness √(251.2/146.0) = 1.31;
// with alpha = 0.49, phi is 1.633 and chi 0.384.
func ExampleReduction() {
	tube := section.CHS(60.3*units.Mm, 4*units.Mm, section.ColdFormed)
	fy := 355 * units.MPa
	critical := member.EulerLoad(210*units.GPa, tube.Iy, 2*units.M)
	lambda := member.Slenderness(tube.A, fy, critical)
	chi := member.Reduction(member.CurveC, lambda)
	fmt.Printf("Euler %.1f kN, slenderness %.2f, chi %.3f\n", critical/units.KN, lambda, chi)
	fmt.Printf("bears %.1f kN\n", chi*tube.A*fy/units.KN)
	// Output:
	// Euler 146.0 kN, slenderness 1.31, chi 0.384
	// bears 96.4 kN
}

// The mast of a frame, pulled by 500 N at 2 m. By hand: its plastic modulus is
// (60.3³ - 52.3³)/6 mm³ = 12.70 cm³, so it bears 12.70 cm³·355 MPa = 4.51 kN·m,
// of which 1 kN·m is 22.2 %.
func ExampleSurvey() {
	f := frame.New()
	foot, top := f.Node(0, 0, 0), f.Node(0, 0, 2*units.M)
	steel := section.Material{Name: "steel", Fy: 355 * units.MPa, Fu: 470 * units.MPa, E: 210 * units.GPa, G: 81 * units.GPa, Density: 7850 * units.KgPerM3}
	f.NameMember(f.Member(foot, top, section.CHS(60.3*units.Mm, 4*units.Mm, section.ColdFormed), steel), "mast")
	f.Fix(foot)
	pull := frame.NewCase("pull")
	pull.Node(top, frame.Load{FX: 500 * units.N})
	r, err := f.Solve(pull.Alone())
	if err != nil {
		fmt.Println(err)
		return
	}
	list, err := member.Survey(member.All(f), r)
	if err != nil {
		fmt.Println(err)
		return
	}
	worst := member.Governing(list)
	fmt.Printf("%s: class %.0f, %.1f %% used\n", worst.Name, worst.Class.Class, worst.Utilisation/units.Percent)
	// Output: mast: class 1, 22.2 % used
}

// A floor of 4 m that may bend by a three-hundredth of it.
func ExampleDeflectionLimit() {
	l := member.DeflectionLimit{What: "floor", Share: 300}
	fmt.Printf("%.1f mm\n", l.Allowed(4*units.M)/units.Mm)
	// Output: 13.3 mm
}

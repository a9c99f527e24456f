package sketch_test

import (
	"fmt"

	"tautline/stdlib/sheet"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/structure/sketch"
	"tautline/stdlib/units"
)

// A mast of 2 m that sways F·L³/(3·E·I) = 22.5 mm at its top. A twelfth of 2 m is
// 167 mm, 7.4 times that, so it is drawn 5 times as large.
func ExampleDisplaced() {
	f := frame.New()
	foot, top := f.Node(0, 0, 0), f.Node(0, 0, 2*units.M)
	steel := section.Material{Name: "steel", E: 210 * units.GPa, G: 81 * units.GPa, Density: 7850 * units.KgPerM3}
	f.Member(foot, top, section.CHS(60.3*units.Mm, 4*units.Mm, section.ColdFormed), steel)
	f.Fix(foot)
	pull := frame.NewCase("pull")
	pull.Node(top, frame.Load{FX: 500 * units.N})
	r, err := f.Solve(pull.Alone())
	if err != nil {
		fmt.Println(err)
		return
	}
	picture := sheet.NewDrawing("The mast, pulled")
	fmt.Printf("drawn %.0f times as large\n", sketch.Displaced(picture, f, sketch.Front, r, 0))
	// Output: drawn 5 times as large
}

// A frame that sways at 5 Hz under a drum that shakes it once and three times in
// a turn: 5 Hz is 300 turns a minute, a third of it 100.
func ExampleCampbell() {
	chart := sheet.NewFigure("Speeds to keep away from", "speed", "frequency")
	sketch.Campbell(chart, []frame.VibrationMode{{Frequency: 5 * units.Hz}}, 400*units.Rpm, 1, 3)
	for _, mark := range chart.Marks {
		fmt.Printf("%.0f rpm: %s\n", float64(mark.X)/units.Rpm, mark.Name)
	}
	// Output:
	// 100 rpm: 3 in a turn meets 1
	// 300 rpm: 1 in a turn meets 1
}

package sheet_test

import (
	"fmt"

	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// A check, as the report gets it: 1200 of 3000 N/m is two fifths. In a cell it is
// sheet.AtMost, on the sheet of the notebook.
func ExampleSheet_AtMost() {
	var s sheet.Sheet
	s.AtMost("seam of the wall ring", 1200*units.NPerM, 3*units.KNPerM, "strip test of the shop")
	check := s.Entries[0].Check
	fmt.Printf("%s: holds %t, %.0f %% used\n", check.What, check.Holds, float64(check.Utilisation)/units.Percent)
	// Output: seam of the wall ring: holds true, 40 % used
}

// The measured curve of a blower, in the units of its rows: 1800 m³/h is 0.5 m³/s.
// In a cell it is sheet.ReadData, and the file lies beside the notebook.
func ExampleData_Column() {
	s := sheet.Sheet{Files: map[string]string{"blower.csv": "pressure Pa,flow m3/h\n0,1800\n900,720\n"}}
	curve := s.ReadData("blower.csv")
	p := curve.Column("pressure Pa", units.Pa)
	q := curve.Column("flow m3/h", units.M3PerH)
	for i := range p {
		fmt.Printf("%.1f kPa: %.2f m³/s\n", p[i]/units.KPa, q[i]/units.M3PerS)
	}
	// Output:
	// 0.0 kPa: 0.50 m³/s
	// 0.9 kPa: 0.20 m³/s
}

// A picture to scale: an outline with its width measured. In a cell it is
// sheet.NewDrawing.
func ExampleDrawing() {
	var s sheet.Sheet
	d := s.NewDrawing("bed from above")
	d.Outline([]units.Length{0, 5 * units.M, 5 * units.M, 0}, []units.Length{0, 0, 4 * units.M, 4 * units.M})
	d.Dimension(0, 0, 5*units.M, 0, -0.5*units.M)
	fmt.Println(d.Title, len(d.Shapes))
	// Output: bed from above 2
}

// A figure: the axes get their units from what is drawn.
func ExampleFigure() {
	var s sheet.Sheet
	f := s.NewFigure("fan", "flow", "pressure")
	f.Curve("measured", []units.Any{0, 1000 * units.M3PerH}, []units.Any{2 * units.KPa, 1 * units.KPa})
	f.LimitY("least", 1.5*units.KPa)
	fmt.Println(f.Title, len(f.Curves))
	// Output: fan 1
}

// A motion is a drawing for each step of time.
func ExampleMotion() {
	var s sheet.Sheet
	m := s.NewMotion("hull", 100*units.Ms)
	for range 10 {
		m.Frame().Circle(0, 0, 1*units.M)
	}
	fmt.Printf("%d frames, %.1f s apart\n", len(m.Frames), m.Pace()/units.S)
	// Output: 10 frames, 0.1 s apart
}

// What depends on the side that the wind comes from.
func ExampleRose() {
	var s sheet.Sheet
	r := s.NewRose("anchors by the wind's side")
	r.Curve("all hold", []units.Angle{0, 90 * units.Deg, 180 * units.Deg}, []units.Any{0.5, 0.7, 0.6})
	r.Limit("holds", 1)
	fmt.Println(r.Title)
	// Output: anchors by the wind's side
}

// A table is its columns.
func ExampleTable() {
	var s sheet.Sheet
	t := s.NewTable("stakes")
	t.Texts("stake", []string{"A", "B"})
	t.Column("pull", []units.Any{1.2 * units.KN, 1.5 * units.KN})
	fmt.Println(t.Title, len(t.Columns))
	// Output: stakes 2
}

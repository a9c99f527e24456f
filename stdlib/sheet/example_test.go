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

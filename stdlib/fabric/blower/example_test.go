package blower_test

import (
	"fmt"

	"tautline/stdlib/fabric/blower"
	"tautline/stdlib/units"
)

// A slit of 20 cm² at 1.5 kPa: 0.61·0.002·√(2·1500/1.2) = 0.061 m³/s = 219.6 m³/h.
func ExampleOrifice_FlowAt() {
	slit := blower.Orifice{Discharge: 0.61, Area: 20 * units.Cm2, Density: 1.2 * units.KgPerM3}
	fmt.Printf("%.1f m³/h\n", slit.FlowAt(1.5*units.KPa)/units.M3PerH)
	// Output: 219.6 m³/h
}

// A fan that gives 1.5 kPa less 1 kPa for each 1000 m³/h, on a leak of 1000 m³/h
// at 1 kPa that grows straight with the pressure: both say 0.75 kPa and 750 m³/h.
func ExampleOperatingPoint() {
	fan := blower.Fan{
		Flow:     []units.VolumeFlow{0, 1500 * units.M3PerH},
		Pressure: []units.Pressure{1.5 * units.KPa, 0},
	}
	leak := blower.Leak{Seams: []blower.SeamLeak{{Flow: 1000 * units.M3PerH, At: 1 * units.KPa, Exponent: 1}}}
	duty, err := blower.OperatingPoint(fan, leak)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.2f kPa, %.0f m³/h\n", duty.Pressure/units.KPa, duty.Flow/units.M3PerH)
	// Output: 0.75 kPa, 750 m³/h
}

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

// A sleeve of 250 mm with 500 m³/h: the flow over π/4·0.25² m².
func ExampleDuct() {
	sleeve := blower.Duct{Diameter: 250 * units.Mm, Length: 2 * units.M, Roughness: 0.9 * units.Mm, Losses: 1.5}
	fmt.Printf("%.2f m/s\n", sleeve.Speed(500*units.M3PerH)/units.MPerS)
	// Output: 2.83 m/s
}

// The same fan a tenth faster: flow by 1.1, pressure by 1.1², power by 1.1³.
func ExampleDuty() {
	d := blower.Duty{Flow: 1000 * units.M3PerH, Pressure: 1 * units.KPa, Power: 500 * units.W}.Scaled(1.1, 1, 1)
	fmt.Printf("%.0f m³/h, %.2f kPa, %.1f W\n", d.Flow/units.M3PerH, d.Pressure/units.KPa, d.Power/units.W)
	// Output: 1100 m³/h, 1.21 kPa, 665.5 W
}

// Cloth that lets 1 mm/s through at 1 kPa (invented): 80 m² of it at 2 kPa, fine pores.
func ExampleClothLeak() {
	cloth := blower.ClothLeak{Speed: 0.001 * units.MPerS, At: 1 * units.KPa, Exponent: 1, Area: 80 * units.M2}
	fmt.Printf("%.0f m³/h\n", cloth.FlowAt(2*units.KPa)/units.M3PerH)
	// Output: 576 m³/h
}

// A bed of 30 m³ under cloth that weighs 10 Pa, with 0.02 m² of openings: without
// pressure it sinks in 30/(0.02·√(2·10/1.2)) s.
func ExamplePowerLoss() {
	loss := blower.PowerLoss{Leak: blower.Leak{Openings: []blower.Orifice{{Area: 0.02 * units.M2, Discharge: 1, Density: 1.2 * units.KgPerM3}}},
		Volume: 30 * units.M3, Pressure: 1.5 * units.KPa, Weight: 10 * units.Pa, Ambient: 101.3 * units.KPa, Exponent: 1}
	t, err := loss.SinkTime()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f s\n", t/units.S)
	// Output: 367 s
}

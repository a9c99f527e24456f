package supply_test

import (
	"fmt"

	"tautline/stdlib/supply"
	"tautline/stdlib/units"
)

// 16 A through 50 m of 2.5 mm² at a power factor of 1: 2·0.0225·50/2.5·16 = 14.4 V.
func ExampleCable_Drop() {
	lead := supply.Cable{Name: "lead", Section: 2.5 * units.Mm2, Length: 50 * units.M, Class: 5, Phases: 1}
	fmt.Printf("%.1f V\n", lead.Drop(16*units.A, 1)/units.V)
	// Output: 14.4 V
}

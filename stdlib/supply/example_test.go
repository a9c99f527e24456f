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

// A generator of 10 kVA with a reactance of 0.2 under a start of 10 kVA: the voltage
// falls by 0.2/(1 + 0.2).
func ExampleGenerator() {
	g := supply.Generator{Name: "invented", Rated: 10 * units.KW, Factor: 0.8, Reactance: 0.2}
	fmt.Printf("dips by %.1f %%\n", g.Dip(10*units.KW)/units.Percent)
	// Output: dips by 16.7 %
}

// A blower of 1.1 kW at the shaft: 1.1/(0.8·0.85) kVA.
func ExampleLoad() {
	blower := supply.Load{Name: "blower", Power: 1.1 * units.KW, Efficiency: 0.8, Factor: 0.85, Phases: 1, Line: 1, Share: 1, Start: 5}
	fmt.Printf("%.2f kVA\n", blower.Apparent()/units.KW)
	// Output: 1.62 kVA
}

// The same blower at 230 V: 1618/230 A.
func ExampleMains() {
	blower := supply.Load{Name: "blower", Power: 1.1 * units.KW, Efficiency: 0.8, Factor: 0.85, Phases: 1, Line: 1, Share: 1, Start: 5}
	i, err := supply.Single230().Current(blower)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f A\n", i/units.A)
	// Output: 7.0 A
}

// A B16 trips at once at 5·16 A, and stays in below 3·16 A (EN 60898-1).
func ExampleBreaker() {
	b := supply.Breaker{Rated: 16 * units.A, Curve: "B"}
	fmt.Printf("trips at %.0f A; a blower that starts with 35 A runs: %v\n", b.Trip()/units.A, b.Runs(35*units.A))
	// Output: trips at 80 A; a blower that starts with 35 A runs: true
}

// A device of 30 mA behind an electrode of 100 ohm: 3 V on the faulty part.
func ExampleResidual() {
	fault, err := supply.Residual{Rated: 0.03 * units.A}.Judge(100*units.Ohm, 0.005*units.A, "none")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f V\n", fault.Touch/units.V)
	// Output: 3 V
}

// A third harmonic of 60 % and a fifth of 80 % of the fundamental: √(0.6² + 0.8²), and
// 1/√(1 + 1²) of a power factor left.
func ExampleSpectrum() {
	s := supply.Spectrum{Order: []units.Number{3, 5}, Share: []units.Number{0.6, 0.8}}
	fmt.Printf("%.0f %%, %.2f\n", s.Distortion()/units.Percent, s.PowerFactor())
	// Output: 100 %, 0.71
}

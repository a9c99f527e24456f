package units_test

import (
	"fmt"

	"tautline/stdlib/units"
)

// The hoop force of a tube, by p·r: times a unit on the way in, over a unit on the
// way out.
func Example() {
	p := 1.8 * units.KPa
	r := 300 * units.Mm
	fmt.Printf("%.0f N/m, %.2f lbf/in\n", p*r/units.NPerM, p*r/units.LbfPerIn) // 540/175.127
	// Output: 540 N/m, 3.08 lbf/in
}

// A blower's plate in yard-pound units. By NIST SP 811, 1 inH₂O is 249.0889 Pa
// and 1 ft³/min 4.719474e-4 m³/s.
func Example_yardPound() {
	pressure := 8 * units.InH2O
	flow := 1000 * units.Cfm
	fmt.Printf("%.2f kPa, %.3f m³/s\n", pressure/units.KPa, flow/units.M3PerS)
	// Output: 1.99 kPa, 0.472 m³/s
}

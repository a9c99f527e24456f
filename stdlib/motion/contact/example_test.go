package contact_test

import (
	"fmt"

	"tautline/stdlib/motion/contact"
	"tautline/stdlib/units"
)

// A beam of 12 kg and 3 m that meets a leg at its tip weighs a third there.
func ExampleArm_MassAt() {
	beam := contact.Arm{Mass: 12 * units.Kg, Length: 3 * units.M}
	fmt.Printf("%.0f kg\n", beam.MassAt(3*units.M)/units.Kg)
	// Output: 4 kg
}

// An arm of 2 kg meets a chest of 40 kg and 25 N/mm without a pad: masses and springs in
// a row, v·√(m·k). The chest's numbers are of ISO/TS 15066, Table A.3, from memory: verify.
func ExampleBlow() {
	chest := contact.Region{Name: "chest", Mass: 40 * units.Kg, Stiffness: 25 * units.NPerMm, Clamped: 140 * units.N, Struck: 280 * units.N}
	hit := contact.Blow{Body: chest, Moving: 2 * units.Kg}.At(1 * units.MPerS)
	fmt.Printf("%.0f N\n", hit.Force/units.N)
	// Output: 218 N
}

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

package quantity_test

import (
	"fmt"

	"tautline/stdlib/quantity"
)

// A tube's pressure as either trade writes it: 1800 Pa over 6894.757 Pa is
// 0.2611 psi, over 249.0889 Pa 7.226 inH₂O.
func ExampleUnit_FromSI() {
	for _, symbol := range []string{"kPa", "psi", "inH₂O"} {
		unit, _ := quantity.Lookup(symbol)
		fmt.Printf("%.4g %s\n", unit.FromSI(1800), unit.Symbol)
	}
	// Output:
	// 1.8 kPa
	// 0.2611 psi
	// 7.226 inH₂O
}

// A temperature has a zero of its own: 293.15 K is 20 °C.
func ExampleChooseAs() {
	unit, _ := quantity.ChooseAs("Temperature", 293.15, quantity.SI)
	fmt.Println(quantity.Format(293.15, unit, 0), unit.Symbol)
	// Output: 20 °C
}

// A pressure times a length is a force per length.
func ExampleDimension_Mul() {
	pressure, _ := quantity.OfAlias("Pressure")
	length, _ := quantity.OfAlias("Length")
	force, _ := quantity.OfAlias("ForcePerLength")
	fmt.Println(pressure.Mul(length) == force)
	// Output: true
}

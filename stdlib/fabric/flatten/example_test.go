package flatten_test

import (
	"fmt"

	"tautline/stdlib/fabric/flatten"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/units"
)

// A cap of a ball of 1.3 m, 22° from its top to its rim, cannot lie flat: laid so, some of
// it stretches and some gathers, and both are told.
func ExampleFlatten() {
	cap, err := surface.Dome{Radius: 1.3 * units.M, Angle: 22 * units.Deg}.Mesh()
	if err != nil {
		panic(err)
	}
	flat, err := flatten.Flatten(cap, 5*units.Percent)
	if err != nil {
		panic(err)
	}
	fmt.Println("stretches:", flat.Most > 0, "gathers:", flat.Least < 0)
	if _, err = flatten.Flatten(cap, 0.1*units.Percent); err != nil {
		fmt.Println("refused: more than 0.1 %")
	}
	// Output:
	// stretches: true gathers: true
	// refused: more than 0.1 %
}

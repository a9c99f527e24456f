package flatten_test

import (
	"fmt"

	"tautline/stdlib/fabric/flatten"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/units"
)

// A cap of a ball of 1.3 m, 22° from its top to its rim, cannot lie flat: laid so, some of
// it stretches and some gathers. A cloth that bears only 0.1 % is refused it.
func ExampleFlatten() {
	cap, err := surface.Dome{Radius: 1.3 * units.M, Angle: 22 * units.Deg}.Mesh()
	if err != nil {
		panic(err)
	}
	flat, err := flatten.Flatten(cap, 5*units.Percent)
	if err != nil {
		panic(err)
	}
	fmt.Printf("stretches by up to %.1f %%, gathers by up to %.1f %%\n", flat.Most/units.Percent, -flat.Least/units.Percent)
	_, err = flatten.Flatten(cap, 0.1*units.Percent)
	fmt.Println(err)
	// Output:
	// stretches by up to 0.9 %, gathers by up to 1.9 %
	// flattening: part "dome", triangle 332 at (-0.386, 0.186, 1.23) m: strain: got 1.85 %, want 0.10 % at most: cut the surface into more or narrower panels
}

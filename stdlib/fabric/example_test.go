package fabric_test

import (
	"fmt"

	"tautline/stdlib/fabric"
	"tautline/stdlib/fabric/textile"
	"tautline/stdlib/units"
)

// The wall ring of an invented landing bed against its own fabric and seams.
func Example() {
	ring := fabric.Torus{Radius: 1.5 * units.M, Tube: 400 * units.Mm, Pressure: 2.5 * units.KPa}
	N, err := ring.InnerEquator()
	if err != nil {
		fmt.Println(err)
		return
	}
	seam := textile.Seam{Rows: 2, Thread: 88 * units.N, Pitch: 5 * units.Mm}
	strip := textile.StripStrength(1850*units.N, 50*units.Mm)
	fmt.Printf("carries %.0f N/m, may carry %.0f N/m\n", N, textile.Allowable(strip, seam.Efficiency(strip), 5))

	ring.Tube = 1.6 * units.M
	_, err = ring.InnerEquator()
	fmt.Println(err)
	// Output:
	// carries 1182 N/m, may carry 7040 N/m
	// hoop force of a ring: tube radius: got 1.6 m, want less than the ring radius 1.5 m: the ring touches itself; make the tube thinner or the ring wider
}

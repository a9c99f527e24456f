package unroll_test

import (
	"fmt"

	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/units"
)

// A cone with a base of 3 m across and a wall of 2.5 m: 2·π·1.5/2.5 rad = 216° of a
// circle.
func ExampleFrustum_Sector() {
	roof := unroll.Frustum{Large: 1.5 * units.M, Height: 2 * units.M}
	fmt.Printf("slant %.2f m, sector %.0f°\n", roof.Slant()/units.M, roof.Sector()/units.Deg)
	// Output: slant 2.50 m, sector 216°
}

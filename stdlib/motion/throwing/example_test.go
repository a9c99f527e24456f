package throwing_test

import (
	"fmt"

	"tautline/stdlib/motion/throwing"
	"tautline/stdlib/units"
)

// Thrown off at 4 m/s and 45°, 1 m up: 4·cos·(4·sin + √((4·sin)² + 2·g·1))/g.
func ExampleProjectile() {
	p := throwing.Projectile{Speed: 4 * units.MPerS, Angle: 45 * units.Deg, Height: 1 * units.M}
	fmt.Printf("%.2f m in %.2f s\n", p.Range()/units.M, p.Time()/units.S)
	// Output: 2.33 m in 0.82 s
}

// A rod of 1 m to its middle topples over an edge and leaves it where its cosine is
// 1/3; on a bed 0.5 m down it has fallen 0.5 + 5/6 m freely: √(2·g·(0.5 + 5/6)).
func ExampleTopple() {
	t := throwing.NewTopple(1 * units.M)
	fmt.Printf("%.2f m/s\n", t.Impact(0.5*units.M)/units.MPerS)
	// Output: 5.11 m/s
}

package guarding_test

import (
	"fmt"

	"tautline/stdlib/guarding"
	"tautline/stdlib/units"
)

// A gap of 12 mm between two plates: a rod of 8 mm enters, one of 25 mm does not.
func ExampleFingerRule_Judge() {
	for _, width := range []units.Length{6 * units.Mm, 12 * units.Mm, 30 * units.Mm} {
		fmt.Printf("%.0f mm: safe %t\n", width/units.Mm, guarding.PlayFingers().Judge(width).Safe)
	}
	// Output:
	// 6 mm: safe true
	// 12 mm: safe false
	// 30 mm: safe true
}

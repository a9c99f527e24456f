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

// The play rule's finger is a rod of 8 mm: it does not come into 6 mm.
func ExampleFingerRule() {
	rule := guarding.PlayFingers()
	fmt.Println(rule.Judge(6*units.Mm).Safe, rule.Judge(15*units.Mm).Safe)
	// Output: true false
}

// Between the body's probe of 89 mm and the head's of 230 mm an opening is a trap.
func ExampleHeadRule() {
	rule := guarding.PlayHeads()
	for _, high := range []units.Length{80 * units.Mm, 150 * units.Mm, 300 * units.Mm} {
		fmt.Println(rule.Judge(1*units.M, high).Safe)
	}
	// Output:
	// true
	// false
	// true
}

// A gap that closes to 60 mm crushes an arm, which needs 120 mm, and spares fingers.
func ExampleClosing() {
	gap := guarding.Closing{Name: "under the hull", Open: 200 * units.Mm, Closed: 60 * units.Mm, Parts: []string{"arm", "finger"}}
	squeeze, err := gap.Judge()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(squeeze.Safe, squeeze.Caught)
	// Output: false [arm]
}

// Through a round hole of 10 mm a fingertip reaches 20 mm (ISO 13857, Table 4, from
// memory: verify).
func ExampleOpening() {
	hole := guarding.Opening{Shape: "round", Width: 10 * units.Mm}
	reach, err := hole.Reach()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm\n", reach.Distance/units.Mm)
	// Output: 20 mm
}

// A fence whose openings are no wider than the ball of its rule keeps it out.
func ExampleBallRule() {
	rule := guarding.BallRule{Name: "invented", Ball: 100 * units.Mm, Source: "invented"}
	fmt.Println(rule.Judge(90*units.Mm, 1*units.M).Safe, rule.Judge(120*units.Mm, 1*units.M).Safe)
	// Output: true false
}

// A notch 100 mm wide and 50 mm deep to a point: 2·atan(50/50).
func ExampleNotch() {
	n := guarding.Notch{Mouth: 100 * units.Mm, Depth: 50 * units.Mm}
	fmt.Printf("%.0f°\n", n.Angle()/units.Deg)
	// Output: 90°
}

// Sides that stand at a right angle are wide open for the invented rule, which lets
// go beyond 75°.
func ExampleNeckRule() {
	rule := guarding.NeckRule{Name: "invented", Neck: 45 * units.Mm, Tip: 155 * units.Mm, Wide: 225 * units.Mm, Taper: 60 * units.Mm, Exempt: 75 * units.Deg, Source: "invented"}
	fmt.Println(rule.Judge(guarding.Notch{Mouth: 400 * units.Mm, Depth: 200 * units.Mm}).Safe)
	// Output: true
}

// What lies 2.7 m up needs no distance behind a fence of 1.4 m: nobody reaches so high
// (ISO 13857, Table 2, from memory: verify).
func ExampleStructure() {
	fence := guarding.Structure{Height: 1.4 * units.M, Risk: "high"}
	reach, err := fence.Over(2.7*units.M, 2.7*units.M)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm\n", reach.Distance/units.Mm)
	// Output: 0 mm
}

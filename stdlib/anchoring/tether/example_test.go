package tether_test

import (
	"fmt"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/anchoring/tether"
	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/units"
)

// A round bed on eight straps, invented: they hold the design wind as long as
// none is lost. By hand, 1.8 kN along the ground put 4·1.8/(8·cos 40°) = 1.2 kN on
// the strap to windward, and 0.75·1.8/cos 40° = 1.8 kN when its neighbour is lost.
func Example() {
	wind, rule := anchoring.PlayInflatableWind(), anchoring.PlayInflatableAnchors()
	ring := tether.Ring{Number: 8, Eye: 2.9 * units.M, Height: 0.8 * units.M, Angle: 40 * units.Deg, Splay: 10 * units.Deg,
		Holding: rule.Load, Stiffness: 60 * units.KNPerM, Pretension: 100 * units.N}
	bed := tether.Set{
		Anchors: ring.Anchors(),
		Feet:    tether.RoundBase(2.6*units.M, 12, 50*units.KNPerM, 0),
		Faces:   windload.Ring(2.95*units.M, 0, 1.8*units.M, wind.Coefficient),
		Mass:    300 * units.Kg, Centre: anchoring.Point{Z: 0.6 * units.M},
		Density: wind.Density, Factors: anchoring.EquilibriumFactors(),
	}
	round, err := bed.Survey(wind.Speed, 72)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("holds with all set:", round.Greatest <= 1)
	fmt.Println("holds with one lost:", round.GreatestOneLost <= 1)
	// Output:
	// holds with all set: true
	// holds with one lost: false
}

// A strap from an eye 1.5 m up to a stake 2 m farther out: √(1.5² + 2²) m, atan(1.5/2).
func ExampleAnchor() {
	a := tether.Anchor{Eye: anchoring.Point{X: 3 * units.M, Z: 1.5 * units.M}, Ground: anchoring.Point{X: 5 * units.M}}
	fmt.Printf("%.1f m at %.1f° to the ground\n", a.Length()/units.M, a.Angle()/units.Deg)
	// Output: 2.5 m at 36.9° to the ground
}

package landing_test

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric/landing"
	"tautline/stdlib/units"
)

// A fall of 1.8 m: √(2·9.80665·1.8) = 5.94 m/s.
func ExampleFallSpeed() {
	v := landing.FallSpeed(1.8 * units.M)
	fmt.Printf("%.2f m/s\n", v/units.MPerS)
	// Output: 5.94 m/s
}

// The least way in which a head stops after 0.6 m within 200 g and a criterion of
// 1000: the peak counts, and a half sine of 200 g takes π·0.6 m/400 = 4.7 mm.
func ExampleImpactLimit_Cushion() {
	c, err := landing.PlaygroundSurfacing().Cushion(600 * units.Mm)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.1f mm\n", c.Distance/units.Mm)
	// Output: 4.7 mm
}

// A body of 80 kg drops 1.5 m flat onto a closed bed with air to spare (invented). Its
// energy goes into the air: m·g·(1.5 + depth) is the work of pressing.
func ExampleBed() {
	bed := landing.Bed{Depth: 1 * units.M, Volume: 10 * units.M3, Pressure: 2 * units.KPa, Ambient: 101.3 * units.KPa, Density: 1.2 * units.KgPerM3, Exponent: 1}
	l, err := bed.Drop(landing.Body{Mass: 80 * units.Kg, Area: 0.6 * units.M2}, 1.5*units.M)
	if err != nil {
		fmt.Println(err)
		return
	}
	A, V, pa, p := 0.6, 10.0, 101300.0, 2000.0
	work := (pa+p)*V*math.Log(V/(V-A*l.Depth)) - pa*A*l.Depth
	fmt.Printf("bottoms: %v, work over energy: %.3f\n", l.Bottoms, work/(80*units.Gn*(1.5+l.Depth)))
	// Output: bottoms: false, work over energy: 1.000
}

// Thrown off at 4 m/s, 1.2 m over the bed, at the worst angle: 4·√(4² + 2·g·1.2)/g.
func ExampleThrow() {
	t := landing.Throw{Speed: 4 * units.MPerS, Height: 1.2 * units.M}
	fmt.Printf("%.2f m, hits at %.2f m/s\n", t.Reach()/units.M, t.ImpactSpeed()/units.MPerS)
	// Output: 2.56 m, hits at 6.29 m/s
}

// A square pulse of 100 g for 8 ms: 100^2.5·0.008.
func ExampleHistory() {
	h := landing.History{Time: []units.Time{0, 8 * units.Ms}, Felt: []units.Number{100, 100}}
	injury, err := h.HIC(15 * units.Ms)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("HIC %.0f\n", injury.HIC)
	// Output: HIC 800
}

// The same as a pulse of a known shape.
func ExamplePulse() {
	hic, err := landing.Pulse{Shape: landing.Square, Peak: 100, Duration: 8 * units.Ms}.HIC()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("HIC %.0f\n", hic)
	// Output: HIC 800
}

// A bed that keeps its pressure: 3 kPa on 0.5 m² are 1500 N. 80 kg from 0.6 m need
// 80·g·0.6/(1500 - 80·g) m.
func ExampleFreeVent() {
	bed := landing.FreeVent{Pressure: 3 * units.KPa, Area: 0.5 * units.M2, Depth: 1 * units.M}
	stop, err := bed.Stop(80*units.Kg, 0.6*units.M)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f m, felt %.2f\n", stop.Depth/units.M, stop.Felt)
	// Output: 0.66 m, felt 1.91
}

// A closed chamber so large that its pressure hardly changes stops a body as FreeVent
// does: the closed form for 1500 N and 80 kg from 0.6 m is 0.658 m.
func ExampleAirSpring() {
	air := landing.AirSpring{Volume: 10000 * units.M3, Pressure: 3 * units.KPa, Ambient: 101.3 * units.KPa, Area: 0.5 * units.M2, Exponent: 1}
	stop, err := air.Stop(80*units.Kg, 0.6*units.M)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f m\n", stop.Depth/units.M)
	// Output: 0.66 m
}

// A body of 80 kg on 0.6 m² pushes air out of 0.1 m²: √(2·80·g/(1.2·0.6))·0.1/0.6.
func ExampleOpenBed() {
	bed := landing.OpenBed{Area: 0.6 * units.M2, Vent: 0.1 * units.M2, Density: 1.2 * units.KgPerM3}
	fmt.Printf("sinks with %.2f m/s\n", bed.SinkSpeed(80*units.Kg)/units.MPerS)
	// Output: sinks with 7.78 m/s
}

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

// A tube of 0.3 m radius and 20 kPa, 3 m out: π·p·r³/(2·L).
func ExampleCantilever() {
	boom := fabric.Cantilever{Length: 3 * units.M, Radius: 0.3 * units.M, Pressure: 20 * units.KPa, Stiffness: 300 * units.KNPerM, Shear: 20 * units.KNPerM, ShearFactor: 0.5}
	fmt.Printf("wrinkles at %.0f N\n", boom.WrinklingForce()/units.N)
	// Output: wrinkles at 283 N
}

// A cone of 30° where it is 1 m thick: p·r/cos 30°, half of it along.
func ExampleCone() {
	cone := fabric.Cone{HalfAngle: 30 * units.Deg, Pressure: 2 * units.KPa}
	r := 500 * units.Mm
	fmt.Printf("round %.2f kN/m, along %.2f kN/m\n", cone.Hoop(r)/units.KNPerM, cone.Meridian(r)/units.KNPerM)
	// Output: round 1.15 kN/m, along 0.58 kN/m
}

// Two round pieces of 1 m radius sewn at the rim: the blown cushion has a radius of
// 1/1.3110 m and is 2·0.5991/1.3110 m thick.
func ExampleDiscs() {
	cushion := fabric.Discs{Cut: 1 * units.M, Pressure: 1 * units.KPa}
	fmt.Printf("radius %.3f m, thickness %.3f m\n", cushion.Radius()/units.M, cushion.Thickness()/units.M)
	// Output: radius 0.763 m, thickness 0.914 m
}

// Half a ball of 3 m on the ground: p·r/2 in the rim's seam, π·r²·p upward.
func ExampleOpenDome() {
	dome := fabric.OpenDome{Radius: 3 * units.M, Pressure: 200 * units.Pa}
	fmt.Printf("%.0f N/m, lifts with %.2f kN\n", dome.RimForce()/units.NPerM, dome.Uplift()/units.KN)
	// Output: 300 N/m, lifts with 5.65 kN
}

// A taut round panel of 1 m under a light load rises by Hencky's series: with
// Poisson's ratio 0.3, 0.653·r·∛(p·r/(E·t)) (from memory: verify), here a tenth.
func ExampleDrum() {
	drum := fabric.Drum{Radius: 1 * units.M, Stiffness: 300 * units.KNPerM, Poisson: 0.3, Pressure: 300 * units.Pa}
	dish, err := drum.Shallow()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm\n", dish.Rise/units.Mm)
	// Output: 65 mm
}

// A ball is the ellipsoid of equal axes: p·r/2 both ways.
func ExampleEllipsoid() {
	ball := fabric.Ellipsoid{Radius: 1 * units.M, HalfHeight: 1 * units.M, Pressure: 2 * units.KPa}
	equator := ball.At(90 * units.Deg)
	fmt.Printf("%.1f kN/m and %.1f kN/m, wrinkles: %v\n", equator.Meridian/units.KNPerM, equator.Hoop/units.KNPerM, ball.Wrinkles())
	// Output: 1.0 kN/m and 1.0 kN/m, wrinkles: false
}

// A lobe over 600 mm with a radius of 500 mm: 2 kPa·0.5 m across it, and
// 0.5 - √(0.5² - 0.3²) m high.
func ExampleLobe() {
	lobe := fabric.Lobe{Chord: 600 * units.Mm, Radius: 500 * units.Mm, Pressure: 2 * units.KPa}
	N, err := lobe.LineForce()
	if err != nil {
		fmt.Println(err)
		return
	}
	h, err := lobe.Rise()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f kN/m, %.0f mm\n", N/units.KNPerM, h/units.Mm)
	// Output: 1.0 kN/m, 100 mm
}

// Lobes of 500 mm and 400 mm on a web of 600 mm: the web bears the pressure on the
// way between their centres, (400 + √(400² - 300²)) mm.
func ExampleDoubleLobe() {
	d := fabric.DoubleLobe{Large: 500 * units.Mm, Small: 400 * units.Mm, Web: 600 * units.Mm, Pressure: 2 * units.KPa}
	N, err := d.WebForce()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f kN/m\n", N/units.KNPerM)
	// Output: 1.33 kN/m
}

// A bed with baffles 400 mm apart and 300 mm high stands 500 mm high: the arcs belong
// to one circle over the diagonal. 2 kPa on half of it, and on the pitch.
func ExampleMattress() {
	bed := fabric.Mattress{Pitch: 400 * units.Mm, Height: 300 * units.Mm, Pressure: 2 * units.KPa}
	fmt.Printf("top %.0f N/m, baffle %.0f N/m, %.0f mm high\n", bed.LineForce()/units.NPerM, bed.BaffleForce()/units.NPerM, bed.CrownHeight()/units.Mm)
	// Output: top 500 N/m, baffle 800 N/m, 500 mm high
}

// A closed tube filled in the cool of 10 °C and left in the sun at 40 °C: the absolute
// pressure of 121.3 kPa grows by 313.15/283.15.
func ExampleSealedTube() {
	tube := fabric.SealedTube{Fill: 20 * units.KPa, Temperature: 283.15 * units.K, Ambient: 101.3 * units.KPa}
	p, err := tube.PressureAt(313.15*units.K, 101.3*units.KPa)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f kPa\n", p/units.KPa)
	// Output: 32.9 kPa
}

// A ball of 2 m across at 1 kPa: p·r/2.
func ExampleSphere() {
	ball := fabric.Sphere{Radius: 1 * units.M, Pressure: 1 * units.KPa}
	fmt.Printf("%.0f N/m\n", ball.Tension()/units.NPerM)
	// Output: 500 N/m
}

// A strip between two rails blows up to the arc whose line force p·R stretches it to
// that arc.
func ExampleClampedStrip() {
	strip := fabric.ClampedStrip{Width: 1 * units.M, Stiffness: 300 * units.KNPerM, Pressure: 1 * units.KPa}
	arch, err := strip.Blown()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("line force over p·R: %.3f\n", arch.LineForce/(strip.Pressure*arch.Radius))
	fmt.Printf("strain over N/(E·t): %.3f\n", arch.Strain/(arch.LineForce/strip.Stiffness))
	// Output:
	// line force over p·R: 1.000
	// strain over N/(E·t): 1.000
}

// Ties every 200 mm both ways hold 5 kPa: each its square, and the panel's edges half
// of the height.
func ExampleTufts() {
	mat := fabric.Tufts{Along: 200 * units.Mm, Across: 200 * units.Mm, Pressure: 5 * units.KPa}
	fmt.Printf("%.0f N a tie, %.0f N/m at the edge\n", mat.TieForce()/units.N, mat.LineForce(100*units.Mm)/units.NPerM)
	// Output: 200 N a tie, 250 N/m at the edge
}

// Two bays of 400 mm on baffles of 300 mm, all at 2 kPa: each lobe 2 kPa on half the
// diagonal of 500 mm, the baffle between 2 kPa on the pitch.
func ExampleRow() {
	bay := fabric.Bay{Pitch: 400 * units.Mm, Pressure: 2 * units.KPa}
	f, err := fabric.Row{Bays: []fabric.Bay{bay, bay}, Height: 300 * units.Mm}.Forces()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("lobe %.0f N/m, baffle %.0f N/m\n", f.Lobe[0]/units.NPerM, f.Baffle[1].Force/units.NPerM)
	// Output: lobe 500 N/m, baffle 800 N/m
}

// A tube of 300 mm radius at 10 kPa: p·r round it, half of that along.
func ExampleTube() {
	tube := fabric.Tube{Radius: 300 * units.Mm, Pressure: 10 * units.KPa}
	fmt.Printf("%.1f kN/m round, %.1f kN/m along\n", tube.Hoop()/units.KNPerM, tube.Along()/units.KNPerM)
	// Output: 3.0 kN/m round, 1.5 kN/m along
}

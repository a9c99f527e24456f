package surface_test

import (
	"fmt"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/units"
)

// A tube of 0.3 m and 2 m, open at both ends, as 96 strips: its fabric is a little
// less than 2·π·0.3·2 = 3.77 m².
func ExampleTube_Mesh() {
	m, err := surface.Tube{Radius: 300 * units.Mm, Length: 2 * units.M, Open: true, Around: 96}.Mesh()
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.2f m²\n", m.Area()/units.M2)
	// Output: 3.77 m²
}

// A disc of 1 m radius, a little less than π m², as many triangles.
func ExampleDisc() {
	m, err := surface.Disc{Radius: 1 * units.M, Rings: 24}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f m²\n", m.Area()/units.M2)
	// Output: 3.14 m²
}

// Half a ball of 2 m radius, 2·π·2² m² of fabric.
func ExampleDome() {
	m, err := surface.Dome{Radius: 2 * units.M, Gores: 12, Rows: 48}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f m²\n", m.Area()/units.M2)
	// Output: 25.1 m²
}

// A ball of 1 m radius: flat pieces hold a little less than 4·π/3 = 4.19 m³ of air.
func ExampleSphere() {
	m, err := surface.Sphere{Radius: 1 * units.M, Gores: 12, Rows: 64}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	v, err := m.Volume()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f m³\n", v/units.M3)
	// Output: 4.18 m³
}

// Five bays of 400 mm with baffles 300 mm high: lobes of one circle over the diagonal
// of 500 mm, so the bed stands 500 mm high.
func ExampleMattress() {
	m, err := surface.Mattress{Length: 2 * units.M, Bays: 5, Pitch: 400 * units.Mm, Height: 300 * units.Mm}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	low, high := m.Bounds()
	fmt.Printf("%.0f mm\n", (high.Z-low.Z)/units.Mm)
	// Output: 500 mm
}

// The same bed stood on end is a wall 2 m high.
func ExampleWall() {
	m, err := surface.Wall{Height: 2 * units.M, Bays: 5, Pitch: 400 * units.Mm, Thickness: 300 * units.Mm}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	low, high := m.Bounds()
	fmt.Printf("%.0f m\n", (high.Z-low.Z)/units.M)
	// Output: 2 m
}

// A ramp of three bays, 300 mm high at one end and 600 mm at the other, has the two
// baffles between them and the seams of both.
func ExampleWedge() {
	m, err := surface.Wedge{Length: 3 * units.M, Bays: 3, Pitch: 400 * units.Mm, Low: 300 * units.Mm, High: 600 * units.Mm}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	baffles, err := m.PartArea("baffle")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f m² of baffles\n", baffles/units.M2) // 2 baffles of 3 m by 450 mm on average
	// Output: 2.7 m² of baffles
}

// A box of 2 m by 1 m by 0.5 m holds a cubic metre.
func ExampleBox() {
	m, err := surface.Box{Length: 2 * units.M, Width: 1 * units.M, Height: 0.5 * units.M, Bays: 1}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	v, err := m.Volume()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f m³\n", v/units.M3)
	// Output: 1.00 m³
}

// A flat panel of 2 m by 1.5 m.
func ExamplePanel() {
	m, err := surface.Panel{Width: 2 * units.M, Length: 1.5 * units.M}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f m²\n", m.Area()/units.M2)
	// Output: 3.00 m²
}

// A tube along two legs of 2 m, square to each other, open at its ends: the mitre keeps
// the length of the centre line, so some 2·π·0.3·4 m² of fabric.
func ExampleRun() {
	m, err := surface.Run{Corners: []surface.Point{{}, {X: 2 * units.M}, {X: 2 * units.M, Y: 2 * units.M}}, Tube: 300 * units.Mm, Open: true, Around: 96}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f m²\n", m.Area()/units.M2)
	// Output: 7.54 m²
}

// Two tubes of one size, square to each other: the seam between them is two half
// ellipses in planes at 45°, one whole ellipse of 300 mm by 300·√2 mm round, 2.29 m.
func ExampleTee() {
	m, err := surface.Tee{Main: 300 * units.Mm, Branch: 300 * units.Mm, Length: 2 * units.M, Rise: 1 * units.M, Around: 96}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	seam, err := m.SeamLength("joint")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f m\n", seam/units.M)
	// Output: 2.29 m
}

// A ring of 3 m with a tube of 0.4 m: 4·π²·3·0.4 m² (Pappus).
func ExampleRing() {
	m, err := surface.Ring{Radius: 3 * units.M, Tube: 400 * units.Mm, Around: 96, Along: 192}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f m²\n", m.Area()/units.M2)
	// Output: 47.4 m²
}

// An arch of 4 m from leg to leg on legs of 1 m: 1 + 2 + its tube's radius high.
func ExampleArch() {
	m, err := surface.Arch{Span: 4 * units.M, Leg: 1 * units.M, Tube: 300 * units.Mm, Along: 60}.Mesh()
	if err != nil {
		fmt.Println(err)
		return
	}
	low, high := m.Bounds()
	fmt.Printf("%.2f m\n", (high.Z-low.Z)/units.M)
	// Output: 3.30 m
}

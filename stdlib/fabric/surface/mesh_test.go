package surface_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// A cube of six square sides, by hand.
func cube() surface.Mesh {
	m := surface.Mesh{Parts: []string{"cube"}}
	for i := range 8 {
		m.Points = append(m.Points, surface.Point{X: float64(i & 1), Y: float64(i >> 1 & 1), Z: float64(i >> 2)})
	}
	for _, q := range [][4]int{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		m.Triangles = append(m.Triangles, surface.Triangle{A: q[0], B: q[1], C: q[2]}, surface.Triangle{A: q[0], B: q[2], C: q[3]})
	}
	return m
}

func TestCube(t *testing.T) {
	c := cube()
	volumeNear(t, "cube", c, 1, 6, 1e-15)
	x, y, z := c.Normal(2)
	if x != 0 || y != 0 || z != 1 {
		t.Errorf("normal of the top: got (%g, %g, %g), want upward", x, y, z)
	}
	if _, err := c.Flipped().Volume(); err == nil || !strings.Contains(err.Error(), "face inward") {
		t.Errorf("volume inside out: got %v", err)
	}
	if got := c.Nearest(0.9, 0.2, 1.3); got != 5 {
		t.Errorf("nearest: got %d, want 5", got)
	}
	if got := c.Within(surface.Point{Z: 1}, surface.Point{X: 1, Y: 1, Z: 1}); len(got) != 4 {
		t.Errorf("points of the top: got %v, want four", got)
	}
}

// Each fault is found and named.
func TestFaults(t *testing.T) {
	for _, c := range []struct {
		words string
		spoil func(m *surface.Mesh)
	}{
		{"got no triangles", func(m *surface.Mesh) { m.Triangles = nil }},
		{"point 3: got (NaN", func(m *surface.Mesh) { m.Points[3].X = math.NaN() }},
		{"triangle 7: part: got number 1, want 0 to 0", func(m *surface.Mesh) { m.Triangles[7].Part = 1 }},
		{`triangle 4 of part "cube": corner: got point 8, want 0 to 7`, func(m *surface.Mesh) { m.Triangles[4].B = 8 }},
		{`triangle 0 of part "cube": its corners 0, 2 and 3 lie on a line`, func(m *surface.Mesh) { m.Points[3] = surface.Point{Y: 2} }},
		{`points 4 and 8: both at (0, 0, 1) m, of part "cube"`, func(m *surface.Mesh) {
			m.Points = append(m.Points, m.Points[4])
			m.Triangles[2].A, m.Triangles[3].A = 8, 8
		}},
		{`triangle 2 of part "cube" and triangle 12 of part "cube" have the same corners`, func(m *surface.Mesh) {
			m.Triangles = append(m.Triangles, surface.Triangle{A: 7, B: 4, C: 5})
		}},
		{`seam "edge": from point 0 to point 7: no triangle has that edge`, func(m *surface.Mesh) {
			m.Seams = []surface.Seam{{Name: "edge", Points: []int{1, 0, 7}}}
		}},
		{`edge from point 3 to point 0, of part "cube": got 3 triangles`, func(m *surface.Mesh) {
			m.Triangles = append(m.Triangles, surface.Triangle{A: 0, B: 3, C: 7})
		}},
		{`triangle 0 of part "cube" and triangle 1 of part "cube" face opposite ways`, func(m *surface.Mesh) {
			m.Triangles[0].B, m.Triangles[0].C = m.Triangles[0].C, m.Triangles[0].B
		}},
		{`open loop of 4 edges, 4 m round, through point 5 at (1, 0, 1) m, of part "cube"`, func(m *surface.Mesh) {
			m.Triangles = append(m.Triangles[:2], m.Triangles[4:]...)
		}},
	} {
		m := cube()
		c.spoil(&m)
		proof.Fails(t, "closed", m.Closed(), c.words)
		if _, err := m.Volume(); err == nil {
			t.Errorf("%s: got a volume", c.words)
		}
	}
}

// Baffles meet the skin in edges of three triangles: only the skin encloses.
func TestBafflesAreNotManifold(t *testing.T) {
	bed, err := surface.Mattress{Length: 1, Bays: 2, Pitch: 0.5, Height: 0.6}.Mesh()
	bed = must(t, bed, err)
	proof.Fails(t, "mattress with baffles", bed.Manifold(), "got 3 triangles, want one or two: keep one skin with Only")
	_, err = bed.Only("floor")
	proof.Fails(t, "part", err, `part: got "floor", want one of ["skin" "baffle" "near end" "far end"]`)
}

// The boundary of an open tube is its two ends, the surface to the left.
func TestBoundary(t *testing.T) {
	tube, err := surface.Tube{Radius: 0.3, Length: 1, Open: true, Around: 48}.Mesh()
	loops, err := must(t, tube, err).Boundary()
	if err != nil || len(loops) != 2 {
		t.Fatalf("got %d loops, %v", len(loops), err)
	}
	around := 48 * 2 * 0.3 * math.Sin(math.Pi/48)
	for _, l := range loops {
		if l.Points[0] != l.Points[len(l.Points)-1] || len(l.Points) != 49 {
			t.Errorf("loop of %d points from %d to %d, want a closed one of 49", len(l.Points), l.Points[0], l.Points[len(l.Points)-1])
		}
	}
	near, err := tube.SeamLength("near seam")
	if err != nil {
		t.Fatal(err)
	}
	proof.Near(t, "end", near, around, 1e-12)
}

// Volume and area stay when a mesh is moved and turned, and grow with the cube
// and the square when it grows.
func TestMovedAndTurned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		real := func(name string) float64 { return rapid.Float64Range(-3, 3).Draw(t, name) }
		c := cube()
		m := c.TurnedX(real("a")).Moved(real("x"), real("y"), real("z")).TurnedZ(real("b")).TurnedY(real("c"))
		v, err := m.Volume()
		if err != nil || math.Abs(v-1) > 1e-12 || math.Abs(m.Area()-6) > 1e-12 {
			t.Fatalf("got volume %.15g and area %.15g, %v", v, m.Area(), err)
		}
	})
}

// Two open tubes sewn end to end are one tube of both lengths.
func TestJoined(t *testing.T) {
	left, err := surface.Tube{Radius: 0.3, Length: 1, Open: true}.Mesh()
	left = must(t, left, err)
	whole := surface.Joined(1*units.Mm, left.Named("left"), left.Moved(1, 0, 0).Named("right"))
	if err := whole.Manifold(); err != nil {
		t.Fatal(err)
	}
	loops, err := whole.Boundary()
	if err != nil || len(loops) != 2 {
		t.Errorf("got %d loops, %v, want the two outer ends", len(loops), err)
	}
	if len(whole.Parts) != 2 || len(whole.Points) != 2*len(left.Points)-24 {
		t.Errorf("got parts %q and %d points", whole.Parts, len(whole.Points))
	}
	right, err := whole.Only("right tube")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := right.Seam("right long seam"); err != nil {
		t.Error(err)
	}
}

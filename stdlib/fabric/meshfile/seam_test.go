package meshfile_test

import (
	"math"
	"testing"

	"tautline/stdlib/fabric/flatten"
	"tautline/stdlib/fabric/meshfile"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// A cube has twelve edges of 90° and six diagonals that are no creases: cut along
// them it is six squares of 1 m², joined by twelve seams of 1 m.
func TestCreasesOfCube(t *testing.T) {
	m := proof.Must(meshfile.ReadSTL(inBytes("", cubeFacets()), units.M, 0))(t)
	creased := proof.Must(meshfile.Creases(m, 89*units.Deg))(t)
	if len(m.Seams) != 0 || len(creased.Seams) != 12 {
		t.Fatalf("got %d seams, want 12, and the mesh given %d, want none", len(creased.Seams), len(m.Seams))
	}
	for _, s := range creased.Seams {
		proof.Near(t, s.Name, proof.Must(creased.SeamLength(s.Name))(t), 1, 1e-15)
	}
	flat := proof.Must(flatten.Pattern(creased, 1e-9, 1e-9))(t)
	if len(flat.Panels) != 6 || len(flat.Pattern.Seams) != 12 {
		t.Fatalf("got %d panels and %d seams, want 6 and 12", len(flat.Panels), len(flat.Pattern.Seams))
	}
	for _, p := range flat.Pattern.Pieces {
		proof.Near(t, p.Name, p.Area(), 1, 1e-12)
	}
	_, err := meshfile.Creases(m, 91*units.Deg)
	proof.Fails(t, "no creases", err, "creases: got no edge bent by more than 91°: take a smaller angle")
	_, err = meshfile.Creases(m, -1)
	proof.Fails(t, "angle", err, "creases: angle: got -1")
	_, err = meshfile.Creases(surface.Mesh{}, 1)
	proof.Fails(t, "empty", err, "got no triangles")
}

// A closed tube of 24 sides is bent by 15° along its sides and by 90° round its
// ends: at 45° two closed creases remain, each a polygon of 24.
func TestCreasesOfTube(t *testing.T) {
	m := proof.Must(surface.Tube{Radius: 0.3, Length: 1, Around: 24, Along: 6}.Mesh())(t)
	m.Seams = nil
	creased := proof.Must(meshfile.Creases(m, 45*units.Deg))(t)
	if len(creased.Seams) != 2 {
		t.Fatalf("got %d seams, want two", len(creased.Seams))
	}
	for _, s := range creased.Seams {
		if s.Points[0] != s.Points[len(s.Points)-1] {
			t.Errorf("%s: got %v, want it closed", s.Name, s.Points)
		}
		proof.Near(t, s.Name, creased.PathLength(s.Points), 24*2*0.3*math.Sin(math.Pi/24), 1e-12)
	}
}

// Along the tube the shortest way from end to end is its length; from corner to
// corner and back it is closed.
func TestSeamAlong(t *testing.T) {
	tube := proof.Must(surface.Tube{Radius: 0.3, Length: 1, Around: 24, Along: 6, Open: true}.Mesh())(t)
	tube.Seams = nil
	near, far := surface.Point{Y: 0.3}, surface.Point{X: 1, Y: 0.3}
	m := proof.Must(meshfile.SeamAlong(tube, "long", []surface.Point{near, far}))(t)
	proof.Near(t, "long", proof.Must(m.SeamLength("long"))(t), 1, 1e-12)
	flat := proof.Must(flatten.Pattern(m, 1e-8, 1e-9))(t)
	proof.Near(t, "fabric", flat.Pattern.Area(), 24*2*0.3*math.Sin(math.Pi/24), 1e-9)

	cube := proof.Must(meshfile.ReadSTL(inWords("crate", cubeFacets()), units.M, 0))(t)
	p := func(x, y float64) surface.Point { return surface.Point{X: x, Y: y, Z: 1} }
	lid := proof.Must(meshfile.SeamAlong(cube, "rim of the lid", []surface.Point{p(0, 0), p(1, 0), p(1, 1), p(0, 1), p(0, 0)}))(t)
	proof.Near(t, "rim", proof.Must(lid.SeamLength("rim of the lid"))(t), 4, 1e-15)

	for _, c := range []struct {
		what, name string
		places     []surface.Point
		words      string
	}{
		{"one place", "rim", []surface.Point{p(0, 0)}, `seam "rim": got 1 places, want two or more`},
		{"one point", "rim", []surface.Point{p(0, 0), p(0.1, 0)}, `seam "rim": from place 1 to place 2: points`},
		{"a name twice", "rim of the lid", []surface.Point{p(0, 0), p(1, 0)}, "got a name that another seam of the mesh has"},
		{"nowhere", "rim", []surface.Point{p(math.NaN(), 0), p(1, 0)}, `seam "rim": place 1: got (NaN, 0, 1) m, want finite lengths`},
	} {
		_, err := meshfile.SeamAlong(lid, c.name, c.places)
		proof.Fails(t, c.what, err, c.words)
	}
	two := surface.Joined(0, cube, cube.Moved(5, 0, 0))
	_, err := meshfile.SeamAlong(two, "bridge", []surface.Point{p(0, 0), {X: 6}})
	proof.Fails(t, "two bodies", err, "want two different points that edges join")
}

// The shortest way over a fine sphere from pole to equator is a quarter of its
// circle, and no way along edges beats it by more than the chords do.
func TestSeamOverSphere(t *testing.T) {
	m := proof.Must(surface.Sphere{Radius: 1, Rows: 32}.Mesh())(t)
	m.Seams = nil
	m = proof.Must(meshfile.SeamAlong(m, "meridian", []surface.Point{{Z: 1}, {X: 1}}))(t)
	proof.Near(t, "meridian", proof.Must(m.SeamLength("meridian"))(t), math.Pi/2, 5e-3)
}

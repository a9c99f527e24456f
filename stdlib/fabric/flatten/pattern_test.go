package flatten_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"tautline/stdlib/fabric/flatten"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// A closed tube is a rectangle and two discs: all unroll exactly, the rectangle's
// ends being the polygon of 24 round the end.
func TestPatternOfTube(t *testing.T) {
	mesh := proof.Must(surface.Tube{Radius: 0.3, Length: 1, Around: 24, Along: 6}.Mesh())(t)
	m := proof.Must(flatten.Pattern(mesh, 1e-8, 1e-9))(t)
	var names []string
	for _, p := range m.Pattern.Pieces {
		names = append(names, p.Name)
	}
	slices.Sort(names)
	if got := strings.Join(names, ", "); got != "far end, near end, tube" {
		t.Fatalf("pieces: got %s", got)
	}
	round := 24 * 2 * 0.3 * math.Sin(math.Pi/24)
	tube := proof.Must(m.Pattern.Piece("tube"))(t)
	proof.Near(t, "fabric of the tube", tube.Area(), round*1, 1e-10)
	proof.Near(t, "end of the tube", proof.Must(tube.Edge("near seam"))(t).Length(), round, 1e-10)
	proof.Near(t, "long seam", proof.Must(tube.Edge("long seam"))(t).Length(), 1, 1e-10)
	proof.Near(t, "its other side", proof.Must(tube.Edge("long seam, other side"))(t).Length(), 1, 1e-10)
	if len(m.Pattern.Seams) != 3 {
		t.Errorf("seams: got %+v, want one along and two round the ends", m.Pattern.Seams)
	}
	for _, match := range proof.Must(m.Pattern.Match())(t) {
		proof.Near(t, match.Seam+" differs by", match.Difference, 0, 1e-9)
	}
}

// Gores of a ball: the more there are the less they strain, with the square of
// their width; each seam joins two edges of one length, by symmetry; and the fabric
// is the ball's to within the strain.
func TestPatternOfBall(t *testing.T) {
	before := 0.0
	for _, gores := range []float64{6, 12, 24} {
		mesh := proof.Must(surface.Sphere{Radius: 1, Gores: gores, Rows: 24}.Mesh())(t)
		m := proof.Must(flatten.Pattern(mesh, 0.2, 1e-4))(t) // the mesh's diagonals all lean one way
		if len(m.Panels) != int(gores) || len(m.Pattern.Seams) != int(gores) {
			t.Fatalf("%g gores: got %d panels and %d seams", gores, len(m.Panels), len(m.Pattern.Seams))
		}
		worst := max(m.Most, -m.Least)
		if before > 0 && (worst > before/2.5) {
			t.Errorf("%g gores: strain %g, with half as many %g: want about a quarter", gores, worst, before)
		}
		before = worst
		proof.Near(t, "fabric", m.Pattern.Area(), mesh.Area(), worst)
	}
}

// A lobed bed: each baffle meets two lobes of the skin, top and bottom, in one
// inner seam of three sides, all straight and equal; lobes unroll exactly.
func TestPatternOfMattress(t *testing.T) {
	mesh := proof.Must(surface.Mattress{Length: 2, Bays: 3, Pitch: 0.5, Height: 0.8, Open: true, Across: 8}.Mesh())(t)
	m := proof.Must(flatten.Pattern(mesh, 1e-7, 1e-7))(t)
	inner := 0
	for _, s := range m.Pattern.Seams {
		if s.Inner {
			inner++
			if len(s.Sides) != 3 {
				t.Errorf("seam %s: got %d sides, want the baffle and two lobes", s.Name, len(s.Sides))
			}
		}
	}
	if inner != 4 {
		t.Errorf("got %d inner seams, want top and bottom of two baffles", inner)
	}
	if len(m.Pattern.Pieces) != 2+4 { // the outer lobes go round from top to bottom
		var names []string
		for _, p := range m.Pattern.Pieces {
			names = append(names, p.Name)
		}
		t.Errorf("pieces: got %q, want two baffles and what lies between seams", names)
	}
	proof.Near(t, "fabric", m.Pattern.Area(), mesh.Area(), 1e-9)
}

// A dome cut by seams that cross: every seam is divided where others meet it, and
// both sides of each have the same number of points in the opposite order.
func TestPatternOfCrossedSeams(t *testing.T) {
	dome := grid(9, 9, func(i, j int) surface.Point {
		x, y := float64(j)/8-0.5, float64(i)/8-0.5
		return surface.Point{X: x, Y: y, Z: -0.3 * (x*x + y*y)}
	})
	line := func(name string, at func(k int) int) {
		s := surface.Seam{Name: name}
		for k := range 9 {
			s.Points = append(s.Points, at(k))
		}
		dome.Seams = append(dome.Seams, s)
	}
	line("middle", func(k int) int { return 4*9 + k })
	line("upright", func(k int) int { return 9*k + 4 })
	m := proof.Must(flatten.Pattern(dome, 0.05, 0.01))(t)
	var seams []string
	for _, s := range m.Pattern.Seams {
		seams = append(seams, fmt.Sprint(s.Name, s.Sides))
	}
	if len(m.Pattern.Pieces) != 4 || len(seams) != 4 {
		t.Fatalf("got %d pieces and seams %q, want four quarters and four halves of seams", len(m.Pattern.Pieces), seams)
	}
	for _, s := range m.Pattern.Seams {
		if len(s.Sides) != 2 || s.Sides[0].Reversed || !s.Sides[1].Reversed {
			t.Errorf("seam %s: got sides %+v, want two, the second running back", s.Name, s.Sides)
		}
	}
	if _, err := flatten.Pattern(dome, 0.05, 1e-3); err != nil { // the mesh's diagonals all lean one way
		t.Errorf("quarters are alike, their seams match: got %v", err)
	}
}

func TestPatternRefuses(t *testing.T) {
	mesh := proof.Must(surface.Tube{Radius: 0.3, Length: 1, Around: 24, Along: 6, Open: true}.Mesh())(t)
	mesh.Seams = nil
	_, err := flatten.Pattern(mesh, 1, 0)
	proof.Fails(t, "tube without a long seam", err, `panel "tube": got 2 open loops, want one: add a seam line`)
	mesh.Seams = []surface.Seam{{Name: "jump", Points: []int{0, 30}}}
	_, err = flatten.Pattern(mesh, 1, 0)
	proof.Fails(t, "seam off the edges", err, `seam "jump": from point 0 to point 30: no triangle has that edge`)
	bed := proof.Must(surface.Mattress{Length: 2, Bays: 3, Pitch: 0.5, Height: 0.8, Open: true}.Mesh())(t)
	bed.Seams = nil
	_, err = flatten.Pattern(bed, 1, 0)
	proof.Fails(t, "baffle without a seam", err, "got 3 triangles and no seam")
	dome := ballCap(60*units.Deg, 12, 36)
	_, err = flatten.Pattern(dome, 0.01, 0)
	proof.Fails(t, "dome in one piece", err, "want 1.00 % at most")
}

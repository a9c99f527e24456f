package flatten_test

import (
	"math"
	"testing"

	"tautline/stdlib/fabric/flatten"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/units"
)

// Every part of the library is cut along its own seams into panels that lie flat,
// and both sides of every seam are equally long within the stated ease. What
// unrolls has the fabric of its surface and no strain; what does not has it within
// its strain.
func TestParts(t *testing.T) {
	for _, c := range []struct {
		what    string
		mesh    func() (surface.Mesh, error)
		unrolls bool
		ease    float64
	}{
		{"tube", surface.Tube{Radius: 0.3, Length: 2}.Mesh, true, 1e-8},
		{"frustum", surface.Tube{Radius: 0.5, FarRadius: 0.9, Length: 1.2}.Mesh, true, 1e-8},
		{"mitred ring", surface.MitredRing(1.5, 0.4, 12).Mesh, true, 1e-8},
		{"run", surface.Run{Corners: []surface.Point{{X: -2}, {}, {X: 1.5, Y: 1.5}}, Tube: 0.3}.Mesh, true, 1e-8},
		{"mattress", surface.Mattress{Length: 2, Bays: 4, Pitch: 0.5, Height: 0.8}.Mesh, true, 1e-7},
		{"box", surface.Box{Length: 3, Width: 2, Height: 0.75, Bays: 4}.Mesh, true, 1e-7},
		{"wall", surface.Wall{Height: 2, Bays: 5, Pitch: 0.4, Thickness: 0.5}.Mesh, true, 1e-7},
		{"wedge", surface.Wedge{Length: 2, Bays: 5, Pitch: 0.4, Low: 0.2, High: 0.6}.Mesh, true, 1e-7},
		{"tee", surface.Tee{Main: 0.3, Branch: 0.3, Length: 2, Rise: 1}.Mesh, true, 1e-8},
		{"leaning tee", surface.Tee{Main: 0.4, Branch: 0.25, Length: 3, Rise: 1.5, Angle: 50 * units.Deg}.Mesh, false, 1e-3}, // lines of its mesh slant beside the joint
		{"arch", surface.Arch{Span: 4, Leg: 1.5, Tube: 0.4}.Mesh, false, 0.05},
		{"sphere", surface.Sphere{Radius: 0.9}.Mesh, false, 0.01},
	} {
		t.Run(c.what, func(t *testing.T) {
			mesh, err := c.mesh()
			if err != nil {
				t.Fatal(err)
			}
			m, err := flatten.Pattern(mesh, 1, c.ease)
			if err != nil {
				t.Fatal(err)
			}
			matches, err := m.Pattern.Match()
			if err != nil || len(matches) == 0 {
				t.Fatalf("got %d seams, %v", len(matches), err)
			}
			for _, s := range matches {
				if !s.Holds {
					t.Errorf("seam %s: sides differ by %g of their length, want %g", s.Seam, s.Share, s.Ease)
				}
			}
			worst := math.Max(m.Most, -m.Least)
			t.Logf("%d panels, %d seams, strain %.2g", len(m.Panels), len(matches), worst)
			if c.unrolls && worst > 1e-6 {
				t.Errorf("strain: got %g, want none", worst)
			}
			if got, want := m.Pattern.Area(), mesh.Area(); math.Abs(got-want) > (2*worst+1e-9)*want {
				t.Errorf("fabric: got %g m², the surface has %g and strains by %g", got, want, worst)
			}
		})
	}
}

package form_test

import (
	"math"
	"testing"

	"tautline/stdlib/fabric/form"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
)

func clampedDisc(t *testing.T, rings int, q, nu float64, dead bool) form.Equilibrium {
	t.Helper()
	disc, err := surface.Disc{Radius: 1, Rings: rings}.Mesh()
	disc = must(t, disc, err)
	rim, err := disc.Seam("rim")
	if err != nil {
		t.Fatal(err)
	}
	m := form.Membrane{Mesh: disc, Fabrics: cloth(nu), Supports: []form.Support{{Points: rim.Points}}}
	if dead {
		m.Spread = []form.SpreadLoad{{Z: q * Et}}
	} else {
		m.Pressures = []form.Pressure{{Gauge: q * Et}}
	}
	return balanced(t, m)
}

func balanced(t *testing.T, m form.Membrane) form.Equilibrium {
	t.Helper()
	e, err := m.Equilibrium()
	if err != nil {
		t.Fatal(err)
	}
	if e.Status != form.Balanced || len(e.Warnings) > 0 {
		t.Fatalf("got %s after %d steps with %.2g left, %q, want balance", e.Status, e.Steps, e.Balance, e.Warnings)
	}
	return e
}

// A clamped disc under pressure and under dead load, against Hencky's solution in
// both forms: pressure square to the surface as it stands (Fichter,
// NASA TP-3658, 1997) and load along the axis (Hencky 1915). The meshes have 8, 16
// and 32 rings; the rise comes within 1 % and nearer with each.
func TestHencky(t *testing.T) {
	for _, test := range []struct {
		what string
		dead bool
		want float64 // rise over radius for q = p·a/(E·t) = 0.001, Poisson's ratio 0.3
	}{
		{"pressure, Fichter", false, 0.06530835},
		{"dead load, Hencky", true, 0.65344334 * math.Cbrt(1e-3)},
	} {
		before := math.Inf(1)
		for _, rings := range []int{8, 16, 32} {
			rise := clampedDisc(t, rings, 1e-3, 0.3, test.dead).Rise
			proof.Near(t, test.what, rise, test.want, 1e-2)
			if off := math.Abs(rise - test.want); off >= before {
				t.Errorf("%s, %d rings: %g off, no nearer than the coarser mesh, %g", test.what, rings, off, before)
			} else {
				before = off
			}
		}
	}
}

// A soap film between two rings is a catenoid: area and neck converge with the
// square of the size of the triangles. Closed form: for radius and length 1,
// c·cosh(1/(2c)) = 1 gives the neck c = 0.84833794 and the area 5.99179698.
func TestCatenoid(t *testing.T) {
	before := math.Inf(1)
	for _, around := range []int{12, 24, 48} {
		tube, err := surface.Tube{Radius: 1, Length: 1, Open: true, Around: around, Along: around / 2}.Mesh()
		tube = must(t, tube, err)
		near, _ := tube.Seam("near seam")
		far, _ := tube.Seam("far seam")
		e := balanced(t, form.Membrane{Mesh: tube, Fabrics: []form.Fabric{{Film: 1000}},
			Supports: []form.Support{{Points: near.Points}, {Points: far.Points}}})
		neck := math.Inf(1)
		for _, p := range e.Mesh.Points {
			neck = min(neck, math.Hypot(p.Y, p.Z))
		}
		off := max(math.Abs(e.Mesh.Area()/5.99179698-1), math.Abs(neck/0.84833794-1))
		if off > before/3.5 {
			t.Errorf("%d triangles around: %.2g off after %.2g, want a quarter", around, off, before)
		}
		before = off
	}
	if before > 1e-3 {
		t.Errorf("finest mesh: %.2g off, want 0.1 %%", before)
	}
}

// A film under pressure is a cap of a sphere of radius 2·film/p. Closed form: for
// a rim of radius 1 and film/p = 1000/1200 the cap rises by R − √(R² − 1) = 1/3.
func TestFilmCap(t *testing.T) {
	disc, err := surface.Disc{Radius: 1, Rings: 12}.Mesh()
	disc = must(t, disc, err)
	rim, _ := disc.Seam("rim")
	e := balanced(t, form.Membrane{Mesh: disc, Fabrics: []form.Fabric{{Film: 1000}},
		Pressures: []form.Pressure{{Gauge: 1200}}, Supports: []form.Support{{Points: rim.Points}}})
	proof.Near(t, "rise", e.Rise, 1.0/3, 1e-3)
}

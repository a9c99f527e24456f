package form

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/surface"
)

// Stiffness is the slope of the forces out of balance, and these are the slope of
// the energy less the work of the pressure, by central differences: a crumpled
// ball of fabric or film under pressure with a cable round it.
func TestStiffnessIsSlope(t *testing.T) {
	ball, err := surface.Sphere{Radius: 1, Rows: 6}.Mesh()
	if err != nil {
		t.Fatal(err)
	}
	gore, err := ball.Seam("gore 1")
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		f := Fabric{Warp: 500, Weft: 300, Poisson: 0.2, Shear: 40, WarpCut: 0.3, WeftCut: 0.3, Along: Direction{X: 0.1, Y: 0.2, Z: 1}}
		if rapid.Bool().Draw(t, "film") {
			f = Fabric{Film: 100}
		}
		m := Membrane{Mesh: ball, Fabrics: []Fabric{f}, Pressures: []Pressure{{Gauge: 70}}, Cables: []Cable{{Points: gore.Points, Stiffness: 200, Length: 2}}}
		s, err := m.system()
		if err != nil {
			t.Fatal(err)
		}
		d := make([]vec, len(s.X))
		for p := range s.X {
			for i := range 3 {
				s.X[p][i] += 0.05 * r.NormFloat64()
				d[p][i] = r.NormFloat64()
			}
		}
		const h = 1e-6
		moved := func(way float64) []vec {
			x := make([]vec, len(s.X))
			for p := range x {
				x[p] = s.X[p].Plus(d[p].Times(way))
			}
			return x
		}
		s.Measure()
		k := s.Stiffness(0)
		got := make([]float64, s.Unknowns())
		k.Mul(got, s.Free(d))
		up, down := s.At(moved(h)), s.At(moved(-h))
		uf, df := s.Free(up.Out), s.Free(down.Out)
		for i := range got {
			if want := (uf[i] - df[i]) / (2 * h); math.Abs(got[i]-want) > 2e-4*(1+math.Abs(want)) {
				t.Fatalf("unknown %d: stiffness times movement %.9g, slope of the forces %.9g", i, got[i], want)
			}
		}
		slope := 0.0
		for i, v := range s.Free(s.At(s.X).Out) {
			slope += v * s.Free(d)[i]
		}
		back := moved(-h)
		way := make([]vec, len(d))
		for p := range way {
			way[p] = d[p].Times(2 * h)
		}
		if want := (up.Energy - down.Energy - s.Work(back, way)) / (2 * h); math.Abs(slope-want) > 1e-5*(1+math.Abs(want)) {
			t.Fatalf("forces times movement %.9g, slope of the energy %.9g", slope, want)
		}
	})
}

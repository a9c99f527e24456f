package fabric_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric"
	"tautline/stdlib/fabric/form"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
)

// A panel between ties 0.5 and 0.6 m apart, worked by hand: the diagonal is
// 0.7810250 m, cut 4 % longer 0.8122660 m; of the arc x/sin x = 1.04, whose half
// angle x is 0.4868687 by series, the rise is chord/2·tan(x/2).
func TestTuftsRise(t *testing.T) {
	tufts := fabric.Tufts{Along: 0.5, Across: 0.6, Pressure: 1500}
	x := 0.5
	for range 50 {
		x -= (x/math.Sin(x) - 1.04) / ((math.Sin(x) - x*math.Cos(x)) / math.Sin(x) / math.Sin(x))
	}
	want := 0.7810250 / 2 * math.Tan(x/2)
	proof.Near(t, "rise", proof.Must(tufts.Rise(0.52, 0.624))(t), want, 1e-7)
	proof.Near(t, "flat", proof.Must(tufts.Rise(0.5, 0.6))(t), 0, 0)
	proof.Near(t, "fullness for that rise", tufts.Fullness(want), 1.04, 1e-7)

	for _, c := range []struct {
		tufts     fabric.Tufts
		cut, over float64
		words     string
	}{
		{tufts, 0.49, 0.6, "tufts: rise: cut length along a row: got 0.49, want 0.5 to 0.575"},
		{tufts, 0.5, 0.7, "cut length from row to row: got 0.7, want 0.6 to 0.69"},
		{fabric.Tufts{Along: 0.125, Across: 0.75}, 0.125, 0.75, "distance of rows over that in a row: got 6, want 0.25 to 4"},
		{fabric.Tufts{Across: 0.6}, 0.1, 0.6, "distance in a row: got 0"},
		{tufts, math.NaN(), 0.6, "cut length along a row: got NaN"},
	} {
		_, err := c.tufts.Rise(c.cut, c.over)
		proof.Fails(t, "rise", err, c.words)
	}
	proof.Panics(t, "fabric: Tufts.Fullness: rise: got 0.3, want 0 to 0.195", func() { tufts.Fullness(0.3) })
}

// What Fullness says for a rise stands so high.
func TestTuftsFullness(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tufts := fabric.Tufts{Along: rapid.Float64Range(0.2, 1).Draw(t, "along")}
		tufts.Across = tufts.Along * rapid.Float64Range(0.3, 3).Draw(t, "rows")
		rise := math.Hypot(tufts.Along, tufts.Across) * rapid.Float64Range(0.01, 0.23).Draw(t, "rise")
		k := tufts.Fullness(rise)
		back, err := tufts.Rise(k*tufts.Along, k*tufts.Across)
		if err != nil || math.Abs(back-rise) > 1e-6*rise {
			t.Errorf("fullness %g: rise %g, %v, want %g", k, back, err, rise)
		}
	})
}

// Form finding of a quarter of the field between four ties, mirrored at its sides:
// cloth of 3000 kN/m under 1 kPa, which stretches by a thousandth, folds where it
// may. The arc of the diagonal gives the rise, or up to 5 % less. The mesh of 12
// pieces gives 0.6 % less than one of 20.
func TestTuftsRiseByFormFinding(t *testing.T) {
	for _, c := range []struct{ along, across, more, moreAcross float64 }{
		{0.5, 0.5, 0.02, 0.02}, {0.5, 0.5, 0.04, 0.04}, {0.5, 0.5, 0.15, 0.15}, {0.5, 0.5, 0.08, 0.02}, {0.5, 0.75, 0.02, 0.06}, {0.5, 1, 0.04, 0.04}, {0.5, 2, 0.04, 0.04},
	} {
		t.Run(fmt.Sprint(c), func(t *testing.T) {
			tufts := fabric.Tufts{Along: c.along, Across: c.across, Pressure: 1000}
			got := proof.Must(tufts.Rise(c.along*(1+c.more), c.across*(1+c.moreAcross)))(t)
			if found := foundRise(t, c.along/2, c.across/2, c.more, c.moreAcross); found < 0.99*got || found > 1.05*got {
				t.Errorf("rise: got %g m, by form finding %g m, want that or up to 5 %% less", got, found)
			}
		})
	}
}

func foundRise(t *testing.T, a, b, more, moreAcross float64) float64 {
	t.Helper()
	m := proof.Must(surface.Panel{Width: a, Length: b, Across: 10, Along: int(math.Round(10 * b / a))}.Mesh())(t)
	on := func(on func(p surface.Point) bool) (points []int) {
		for i, p := range m.Points {
			if on(p) && p.X+p.Y > 1e-9 {
				points = append(points, i)
			}
		}
		return points
	}
	e := proof.Must(form.Membrane{
		Mesh:      m,
		Fabrics:   []form.Fabric{{Warp: 3e6, Weft: 3e6, Poisson: 0.2, WarpCut: -more, WeftCut: -moreAcross}},
		Pressures: []form.Pressure{{Gauge: 1000}},
		Supports: []form.Support{
			{Name: "tie", Points: []int{m.Nearest(0, 0, 0)}},
			{Points: on(func(p surface.Point) bool { return p.X < 1e-9 || p.X > a-1e-9 }), FreeY: true, FreeZ: true},
			{Points: on(func(p surface.Point) bool { return p.Y < 1e-9 || p.Y > b-1e-9 }), FreeX: true, FreeZ: true},
		},
		Steps: 1000,
	}.Equilibrium())(t)
	if e.Status != form.Balanced {
		t.Fatalf("form finding: %v after %d steps", e.Status, e.Steps)
	}
	return e.Mesh.Points[m.Nearest(a, b, 0)].Z
}

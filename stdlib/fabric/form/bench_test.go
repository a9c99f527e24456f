package form_test

import (
	"fmt"
	"testing"

	"tautline/stdlib/fabric/form"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/units"
)

// A clamped disc blown from flat: some 200, 2000 and 20 000 triangles.
func BenchmarkDisc(b *testing.B) {
	for _, rings := range []int{6, 18, 58} {
		disc, err := surface.Disc{Radius: 2, Rings: rings}.Mesh()
		if err != nil {
			b.Fatal(err)
		}
		rim, err := disc.Seam("rim")
		if err != nil {
			b.Fatal(err)
		}
		m := form.Membrane{
			Mesh:      disc,
			Fabrics:   []form.Fabric{{Warp: 300 * units.KNPerM, Weft: 200 * units.KNPerM, Poisson: 0.3, Shear: 20 * units.KNPerM}},
			Pressures: []form.Pressure{{Gauge: 1 * units.KPa}},
			Supports:  []form.Support{{Points: rim.Points}},
		}
		b.Run(fmt.Sprintf("%d triangles", len(disc.Triangles)), func(b *testing.B) {
			for b.Loop() {
				e, err := m.Equilibrium()
				if err != nil || e.Status != form.Balanced {
					b.Fatal(e.Status, err)
				}
				b.ReportMetric(float64(e.Steps), "steps")
			}
		})
	}
}

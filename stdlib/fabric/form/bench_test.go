package form_test

import (
	"fmt"
	"testing"

	"tautline/stdlib/fabric/form"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// disc is a clamped disc of cloth under pressure.
func disc(b *testing.B, rings int) form.Membrane {
	m, err := surface.Disc{Radius: 2, Rings: rings}.Mesh()
	if err != nil {
		b.Fatal(err)
	}
	rim, err := m.Seam("rim")
	if err != nil {
		b.Fatal(err)
	}
	return form.Membrane{
		Mesh:      m,
		Fabrics:   []form.Fabric{{Warp: 300 * units.KNPerM, Weft: 200 * units.KNPerM, Poisson: 0.3, Shear: 20 * units.KNPerM}},
		Pressures: []form.Pressure{{Gauge: 1 * units.KPa}},
		Supports:  []form.Support{{Points: rim.Points}},
	}
}

// How long a disc blown from flat takes, and how it grows from some 2000
// triangles to 20 000.
func BenchmarkDisc(b *testing.B) {
	for _, rings := range []int{6, 18, 58} {
		m := disc(b, rings)
		b.Run(fmt.Sprintf("%d triangles", len(m.Mesh.Triangles)), func(b *testing.B) {
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

// The same disc with its rim sliding in its plane, half a balloon that wrinkles nearly
// everywhere, and by how much its rise is off that of a disc that does not stretch
// (TestDiscBalloon).
func BenchmarkWrinkled(b *testing.B) {
	for _, rings := range []int{6, 18} {
		m := disc(b, rings)
		m.Fabrics = []form.Fabric{{Warp: 2000 * units.KNPerM, Weft: 2000 * units.KNPerM, Poisson: 0.3}}
		m.Supports[0].FreeX, m.Supports[0].FreeY = true, true
		b.Run(fmt.Sprintf("%d triangles", len(m.Mesh.Triangles)), func(b *testing.B) {
			for b.Loop() {
				e, err := m.Equilibrium()
				if err != nil || e.Status != form.Balanced {
					b.Fatal(e.Status, err)
				}
				b.ReportMetric(float64(e.Steps), "steps")
				b.ReportMetric(100*(e.Rise/(2*0.9138931621/2)-1), "%-off")
			}
		})
	}
}

// A net of some 3000 and 30 000 links along the edges of a disc.
func BenchmarkNet(b *testing.B) {
	for _, rings := range []int{18, 58} {
		n := net(b, rings)
		b.Run(fmt.Sprintf("%d links", len(n.Links)), func(b *testing.B) {
			for b.Loop() {
				if _, err := n.Form(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func net(b *testing.B, rings int) form.Net {
	m := disc(b, rings)
	n, err := form.NetOf(m.Mesh, 1000, m.Supports[0].Points)
	if err != nil {
		b.Fatal(err)
	}
	for p := range n.Points {
		n.Loads = append(n.Loads, form.PointLoad{Point: p, Z: -1})
	}
	return n
}

// The same sparse systems solved by scipy where it is installed: how many times as
// long that takes. Of the disc of 20 000 triangles it is that of a first step.
func BenchmarkAgainstScipy(b *testing.B) {
	b.Run("disc", func(b *testing.B) {
		matrix, right := form.FirstSystem(disc(b, 58))
		proof.AgainstScipy(b, matrix, right)
	})
	b.Run("net", func(b *testing.B) {
		matrix, right := form.LinearSystem(net(b, 58))
		proof.AgainstScipy(b, matrix, right)
	})
}

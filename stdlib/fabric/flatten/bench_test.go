package flatten_test

import (
	"fmt"
	"math"
	"testing"

	"tautline/stdlib/fabric/flatten"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
)

// saddle is a bent sheet of about so many triangles.
func saddle(triangles int) surface.Mesh {
	n := int(math.Sqrt(float64(triangles)/2)) + 1
	return grid(n, n, func(i, j int) surface.Point {
		x, y := float64(j)/float64(n-1)-0.5, float64(i)/float64(n-1)-0.5
		return surface.Point{X: x, Y: y, Z: 0.25 * (x*x - y*y + 0.5*x*y)}
	})
}

// How long flattening takes, and how it grows from 2,000 triangles to
// 20,000.
func BenchmarkFlatten(b *testing.B) {
	for _, triangles := range []int{2_000, 20_000} {
		b.Run(fmt.Sprint(triangles), func(b *testing.B) {
			m := saddle(triangles)
			for b.Loop() {
				f, err := flatten.Flatten(m, 1)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(f.Steps, "steps")
			}
		})
	}
}

// The same sparse system, the first of the least strain, solved by scipy
// where it is installed: how many times as long that takes.
func BenchmarkAgainstScipy(b *testing.B) {
	matrix, right := flatten.FirstSystem(saddle(20_000))
	proof.AgainstScipy(b, matrix, right)
}

package frame_test

import (
	"fmt"
	"testing"

	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/section"
)

// tower is a lattice of a square plan, storey on storey, with a brace in every
// face: four posts, four rails and four braces a storey and bay, fixed at the
// ground.
func tower(bays, storeys int) (*frame.Frame, *frame.Case) {
	f := frame.New()
	post := section.SHS(0.06, 0.004, section.ColdFormed)
	nodes := map[[3]int]frame.Node{}
	at := func(i, j, k int) frame.Node {
		n, found := nodes[[3]int{i, j, k}]
		if !found {
			n = f.Node(float64(i), float64(j), float64(k))
			nodes[[3]int{i, j, k}] = n
		}
		return n
	}
	c := frame.NewCase("own weight and wind")
	c.SelfWeight()
	for k := range storeys + 1 {
		for i := range bays + 1 {
			for j := range bays + 1 {
				n := at(i, j, k)
				if k == 0 {
					f.Fix(n)
					continue
				}
				f.Member(at(i, j, k-1), n, post, steel)
				c.Node(n, frame.Load{FX: 100})
				if i > 0 {
					f.Member(at(i-1, j, k), n, post, steel)
					f.Member(at(i-1, j, k-1), n, post, steel)
				}
				if j > 0 {
					f.Member(at(i, j-1, k), n, post, steel)
					f.Member(at(i, j-1, k-1), n, post, steel)
				}
			}
		}
	}
	return f, c
}

// BenchmarkTower solves a frame of a thousand members and two of ten thousand: slim,
// where the time should grow tenfold, and broad, where the elimination fills more. The
// time for a member is the same in all three where it grows as the frame does.
func BenchmarkTower(b *testing.B) {
	for _, size := range [][2]int{{3, 16}, {3, 160}, {11, 16}} {
		f, c := tower(size[0], size[1])
		b.Run(fmt.Sprintf("%d members, %d bays", len(f.Members), size[0]), func(b *testing.B) {
			for b.Loop() {
				if _, err := f.Solve(c.Alone()); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(f.Members)), "ns/member")
		})
	}
}

func BenchmarkTowerModes(b *testing.B) {
	f, c := tower(3, 16)
	b.Run(fmt.Sprintf("six frequencies, %d members", len(f.Members)), func(b *testing.B) {
		for b.Loop() {
			if _, err := f.Vibrations(6); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("buckling", func(b *testing.B) {
		for b.Loop() {
			if _, err := f.Buckling(c.Alone(), 2); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("second order", func(b *testing.B) {
		for b.Loop() {
			if _, err := f.SolveSecondOrder(c.Alone()); err != nil {
				b.Fatal(err)
			}
		}
	})
}

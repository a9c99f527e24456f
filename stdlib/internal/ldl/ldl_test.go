package ldl_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"tautline/stdlib/internal/ldl"
)

// random is a matrix of n unknowns from blocks of four, each a sum of squares
// less shift on its diagonal; with shift 0 it is positive definite.
func random(r *rand.Rand, n, count int, shift float64) *ldl.Matrix {
	var blocks []ldl.Block
	for i := range n {
		blocks = append(blocks, ldl.Block{Index: []int{i}, Values: []float64{0.1 + r.Float64() - shift}})
	}
	for range count {
		b := ldl.Block{Index: make([]int, 4), Values: make([]float64, 16)}
		for i := range b.Index {
			b.Index[i] = r.IntN(n+1) - 1
		}
		for range 3 {
			var v [4]float64
			for i := range v {
				v[i] = r.NormFloat64()
			}
			for i := range v {
				for j := range v {
					b.Values[4*i+j] += v[i] * v[j]
				}
			}
		}
		blocks = append(blocks, b)
	}
	return ldl.Assemble(n, blocks)
}

func dense(m *ldl.Matrix) *mat.SymDense {
	d := mat.NewSymDense(m.Len(), nil)
	m.Entries(func(i, j int, v float64) { d.SetSym(i, j, v) })
	return d
}

// Against the dense decompositions of gonum: the solution of random systems, and
// the number of negative eigenvalues of indefinite ones.
func TestAgainstDense(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		n := rapid.IntRange(1, 60).Draw(t, "unknowns")
		count := rapid.IntRange(0, 2*n).Draw(t, "blocks")
		shift := rapid.SampledFrom([]float64{0, 0, 0.7, 3}).Draw(t, "shift")
		r := rand.New(rand.NewPCG(seed, 1))
		m := random(r, n, count, shift)
		factor, err := ldl.Analyse(m).Factor(m, 0)
		if err != nil {
			t.Fatal(err)
		}
		var eigen mat.EigenSym
		if !eigen.Factorize(dense(m), false) {
			t.Fatal("dense eigenvalues do not converge")
		}
		minus := 0
		for _, v := range eigen.Values(nil) {
			if v < 0 {
				minus++
			}
		}
		if factor.Minus != minus {
			t.Errorf("negative pivots: got %d, want %d negative eigenvalues", factor.Minus, minus)
		}
		x := make([]float64, n)
		for i := range x {
			x[i] = r.NormFloat64()
		}
		b := make([]float64, n)
		m.Mul(b, x)
		got := append([]float64(nil), b...)
		factor.Solve(got)
		back := make([]float64, n)
		m.Mul(back, got)
		for i := range b {
			if shift == 0 && math.Abs(got[i]-x[i]) > 1e-9*(1+ldl.Most(x)) {
				t.Errorf("unknown %d: got %g, want %g", i, got[i], x[i])
			}
			// Without exchange of pivots an indefinite matrix may lose digits.
			if math.Abs(back[i]-b[i]) > 1e-6*ldl.Most(b) && shift == 0 {
				t.Errorf("row %d: residual %g", i, back[i]-b[i])
			}
		}
	})
}

// A chain of springs held at no end moves as a whole, and the shape says so.
func TestSingularShape(t *testing.T) {
	const n = 200
	var blocks []ldl.Block
	for i := range n - 1 {
		blocks = append(blocks, ldl.Block{Index: []int{i, i + 1}, Values: []float64{1, -1, -1, 1}})
	}
	m := ldl.Assemble(n, blocks)
	_, err := ldl.Analyse(m).Factor(m, 1e-12)
	var singular *ldl.Singular
	if !errors.As(err, &singular) {
		t.Fatalf("got error %v, want a singular matrix", err)
	}
	for i, v := range singular.Shape {
		if math.Abs(v-1) > 1e-9 {
			t.Errorf("unknown %d moves %g, want 1 like all", i, v)
		}
	}
	blocks = append(blocks, ldl.Block{Index: []int{7}, Values: []float64{1}})
	m = ldl.Assemble(n, blocks)
	f, err := ldl.Analyse(m).Factor(m, 1e-12)
	if err != nil {
		t.Fatal(err)
	}
	x := make([]float64, n)
	x[n-1] = 1 // a pull of 1 at the far end: 1 + its distance from the hold
	f.Solve(x)
	if want := 1 + float64(n-1-7); math.Abs(x[n-1]-want) > 1e-9*want {
		t.Errorf("end of the chain: got %g, want %g", x[n-1], want)
	}
}

// The plan of one matrix serves another one of the same pattern.
func TestPlus(t *testing.T) {
	a, b := grid(5, 1, 1), grid(5, 2, 3)
	plan := ldl.Analyse(a)
	sum := a.Plus(2, b)
	f, err := plan.Factor(sum, 1e-12)
	if err != nil {
		t.Fatal(err)
	}
	x := make([]float64, sum.Len())
	for i := range x {
		x[i] = float64(i % 7)
	}
	y := make([]float64, len(x))
	sum.Mul(y, x)
	f.Solve(y)
	for i := range x {
		if math.Abs(x[i]-y[i]) > 1e-9 {
			t.Errorf("unknown %d: got %g, want %g", i, y[i], x[i])
		}
	}
}

// grid is springs between the points of a cube, with six unknowns to a point.
func grid(n int, spring, ground float64) *ldl.Matrix {
	var blocks []ldl.Block
	at := func(i, j, k int) int { return 6 * ((i*n+j)*n + k) }
	link := func(a, b int) {
		block := ldl.Block{Values: make([]float64, 144)}
		for d := range 12 {
			base := a
			if d >= 6 {
				base = b - 6
			}
			block.Index = append(block.Index, base+d)
			for e := range 12 {
				block.Values[12*d+e] = 0.1 * spring / float64(1+(d-e)*(d-e))
			}
			block.Values[12*d+d] = spring * 4
		}
		blocks = append(blocks, block)
	}
	for i := range n {
		for j := range n {
			for k := range n {
				for d := range 6 {
					blocks = append(blocks, ldl.Block{Index: []int{at(i, j, k) + d}, Values: []float64{ground}})
				}
				if i+1 < n {
					link(at(i, j, k), at(i+1, j, k))
				}
				if j+1 < n {
					link(at(i, j, k), at(i, j+1, k))
				}
				if k+1 < n {
					link(at(i, j, k), at(i, j, k+1))
				}
			}
		}
	}
	return ldl.Assemble(6*n*n*n, blocks)
}

func BenchmarkCube(b *testing.B) {
	for _, n := range []int{7, 15} {
		m := grid(n, 1, 1)
		b.Run(map[int]string{7: "882 links", 15: "9450 links"}[n], func(b *testing.B) {
			for b.Loop() {
				f, err := ldl.Analyse(m).Factor(m, 1e-12)
				if err != nil {
					b.Fatal(err)
				}
				x := make([]float64, m.Len())
				x[0] = 1
				f.Solve(x)
			}
		})
	}
}

package ldl_test

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"tautline/stdlib/internal/ldl"
)

// Against gonum: K·x = value·B·x by the dense eigenvalues of L⁻¹·B·L⁻ᵀ, B
// indefinite.
func TestLowest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 2))
		n := rapid.IntRange(2, 40).Draw(t, "unknowns")
		count := rapid.IntRange(1, 6).Draw(t, "count")
		k := random(r, n, n, 0)
		var blocks []ldl.Block
		k.Entries(func(i, j int, v float64) {
			s := r.NormFloat64()
			if i == j {
				blocks = append(blocks, ldl.Block{Index: []int{i}, Values: []float64{s}})
			} else {
				blocks = append(blocks, ldl.Block{Index: []int{i, j}, Values: []float64{0, s, s, 0}})
			}
		})
		b := ldl.Assemble(n, blocks)

		var chol mat.Cholesky
		chol.Factorize(dense(k))
		var l mat.TriDense
		chol.LTo(&l)
		var half, whole mat.Dense
		half.Solve(&l, dense(b))
		whole.Solve(&l, half.T())
		sym := mat.NewSymDense(n, nil)
		for i := range n {
			for j := i; j < n; j++ {
				sym.SetSym(i, j, (whole.At(i, j)+whole.At(j, i))/2)
			}
		}
		var eigen mat.EigenSym
		eigen.Factorize(sym, false)
		var want []float64
		for _, mu := range eigen.Values(nil) {
			if mu > 1e-9 {
				want = append(want, 1/mu)
			}
		}
		sort.Float64s(want)
		want = want[:min(count, len(want))]

		f, err := ldl.Analyse(k).Factor(k, 1e-12)
		if err != nil {
			t.Fatal(err)
		}
		got, err := ldl.Lowest(k, f, b, count, math.Inf(1))
		if err != nil {
			t.Fatal(err)
		}
		if len(got) < len(want) {
			t.Fatalf("got %d values, want %d", len(got), len(want))
		}
		kx, bx := make([]float64, n), make([]float64, n)
		for i, w := range want {
			if math.Abs(got[i].Value-w) > 1e-8*w {
				t.Errorf("value %d: got %.12g, want %.12g", i, got[i].Value, w)
			}
			k.Mul(kx, got[i].Shape)
			b.Mul(bx, got[i].Shape)
			for j := range kx {
				if math.Abs(kx[j]-got[i].Value*bx[j]) > 1e-5*ldl.Most(kx) {
					t.Errorf("value %d, row %d: residual %g of %g", i, j, kx[j]-got[i].Value*bx[j], ldl.Most(kx))
				}
			}
		}
	})
}

// A matrix with every value threefold: all copies are found.
func TestLowestRepeated(t *testing.T) {
	const n = 60
	var ks, bs []ldl.Block
	for i := range n {
		ks = append(ks, ldl.Block{Index: []int{i}, Values: []float64{float64(1 + i/3)}})
		bs = append(bs, ldl.Block{Index: []int{i}, Values: []float64{1}})
	}
	k, b := ldl.Assemble(n, ks), ldl.Assemble(n, bs)
	f, err := ldl.Analyse(k).Factor(k, 1e-12)
	if err != nil {
		t.Fatal(err)
	}
	got, err := ldl.Lowest(k, f, b, 9, math.Inf(1))
	if err != nil {
		t.Fatal(err)
	}
	for i, e := range got {
		if want := float64(1 + i/3); math.Abs(e.Value-want) > 1e-9 {
			t.Errorf("value %d: got %.12g, want %g", i, e.Value, want)
		}
	}
	if len(got) != 9 {
		t.Errorf("got %d values, want 9", len(got))
	}
}

package ldl

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// An Eigen is one solution of K·x = value·B·x.
type Eigen struct {
	Value float64
	Shape []float64 // its greatest entry is 1
}

// Lowest finds the solutions of K·x = value·B·x with the least positive values,
// in their order, as many as asked for or as there are below the limit. K is
// positive definite and factored; B is symmetric with the pattern of K and need
// not be definite.
//
// The space K⁻¹·B spans from a fixed start, a block of vectors at a time, is
// searched until the error of each value is less than some 1e-10 of it; then
// the negative pivots of K - shift·B prove that none was missed. An error says
// when 600 vectors do not suffice.
//
// Source: block Lanczos with full orthogonalisation; Parlett, The Symmetric
// Eigenvalue Problem, chapter 13; inertia count: the same, section 3.3.
func Lowest(k *Matrix, f *Factor, b *Matrix, count int, limit float64) ([]Eigen, error) {
	s := &search{k: k, f: f, b: b, n: k.Len()}
	const most = 600
	s.start(4)
	look := 40 // at how many vectors to ask whether there are as many as asked for
	var found []Eigen
	for len(s.basis) < min(s.n, most) && len(s.next) > 0 {
		s.take()
		if len(s.basis) < count && len(s.next) > 0 {
			continue
		}
		var whole bool
		found, whole = s.pairs(count)
		shift := limit
		switch {
		case whole && len(found) == count:
			shift = math.Min(limit, found[count-1].Value*(1-1e-6))
		case !whole || math.IsInf(limit, 1):
			continue
		case len(s.basis) < look:
			continue
		default:
			look *= 2
		}
		missed, err := s.missed(found, shift)
		if err != nil {
			return nil, err
		}
		if missed == 0 {
			return below(found, limit), nil
		}
		if len(found) == count {
			s.start(missed)
		}
	}
	if len(s.next) == 0 || len(s.basis) == s.n {
		return below(found, limit), nil
	}
	return nil, fmt.Errorf("eigenvalues: got %d of %d after %d vectors, want fewer asked for at once", len(found), count, len(s.basis))
}

// A search is a growing basis, orthonormal in K.
type search struct {
	k, b   *Matrix
	f      *Factor
	n      int
	basis  [][]float64
	kBasis [][]float64 // K times the basis
	bBasis [][]float64 // B times the basis
	t      [][]float64 // basis·B·basis, lower half
	next   [][]float64 // what the last block leads to, not yet in the basis
	kNext  [][]float64
	last   int     // vectors in the last block
	rest   float64 // greatest length of next after what the basis holds of it
	seed   uint64
}

// start adds fixed arbitrary vectors to what comes next.
func (s *search) start(count int) {
	for range min(count, s.n) {
		x := make([]float64, s.n)
		for i := range x {
			s.seed = s.seed*6364136223846793005 + 1442695040888963407
			x[i] = float64(s.seed>>11)/(1<<53) - 0.5
		}
		y := make([]float64, s.n)
		s.b.Mul(y, x) // so that what B does not feel is left out
		x = slices.Clone(y)
		s.f.Solve(x)
		if v, kv, length := s.reduce(x, y); length > 0 {
			s.next, s.kNext = append(s.next, v), append(s.kNext, kv)
		}
	}
}

// reduce takes from x, with kx = K·x, what the basis and next hold of it, and
// makes its length 1. The length that was left is 0 when it was rounding only.
func (s *search) reduce(x, kx []float64) (v, kv []float64, length float64) {
	before := math.Sqrt(math.Max(0, dot(x, kx)))
	for range 2 {
		for _, group := range []struct{ v, kv [][]float64 }{{s.basis, s.kBasis}, {s.next, s.kNext}} {
			for i, v := range group.v {
				c := dot(group.kv[i], x)
				for j := range x {
					x[j] -= c * v[j]
					kx[j] -= c * group.kv[i][j]
				}
			}
		}
	}
	length = math.Sqrt(math.Max(0, dot(x, kx)))
	if !(length > 1e-9*before) {
		return nil, nil, 0
	}
	for j := range x {
		x[j] /= length
		kx[j] /= length
	}
	return x, kx, length
}

// take moves next into the basis and finds what it leads to.
func (s *search) take() {
	s.last = len(s.next)
	for i, v := range s.next {
		bv := make([]float64, s.n)
		s.b.Mul(bv, v)
		s.basis, s.kBasis, s.bBasis = append(s.basis, v), append(s.kBasis, s.kNext[i]), append(s.bBasis, bv)
		row := make([]float64, len(s.basis))
		for j, w := range s.basis {
			row[j] = dot(w, bv)
		}
		s.t = append(s.t, row)
	}
	s.next, s.kNext, s.rest = nil, nil, 0
	for i := len(s.basis) - s.last; i < len(s.basis); i++ {
		x, kx := slices.Clone(s.bBasis[i]), slices.Clone(s.bBasis[i])
		s.f.Solve(x)
		if v, kv, length := s.reduce(x, kx); length > 0 {
			s.next, s.kNext = append(s.next, v), append(s.kNext, kv)
			s.rest += length
		}
	}
}

// below are the solutions below a limit.
func below(found []Eigen, limit float64) []Eigen {
	return slices.DeleteFunc(found, func(e Eigen) bool { return e.Value > limit })
}

// pairs are the best solutions within the basis, at most as many as asked for,
// and whether they are accurate.
func (s *search) pairs(count int) (found []Eigen, whole bool) {
	m := len(s.basis)
	t := mat.NewSymDense(m, nil)
	for i, row := range s.t {
		for j, v := range row {
			t.SetSym(i, j, v)
		}
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(t, true) {
		return nil, false
	}
	values := eigen.Values(nil)
	var vectors mat.Dense
	eigen.VectorsTo(&vectors)
	whole = true
	for e := m - 1; e >= 0 && len(found) < count; e-- {
		if values[e] <= 1e-12*math.Max(-values[0], values[m-1]) {
			break
		}
		tail := 0.0
		for i := m - s.last; i < m; i++ {
			tail += vectors.At(i, e) * vectors.At(i, e)
		}
		if s.rest*math.Sqrt(tail) > 1e-9*values[e] {
			whole = false
		}
		shape := make([]float64, s.n)
		for i, v := range s.basis {
			c := vectors.At(i, e)
			for j := range shape {
				shape[j] += c * v[j]
			}
		}
		found = append(found, Eigen{1 / values[e], toOne(shape)})
	}
	return found, whole
}

// toOne scales a shape so that its greatest entry is 1.
func toOne(x []float64) []float64 {
	at := 0
	for i, v := range x {
		if math.Abs(v) > math.Abs(x[at]) {
			at = i
		}
	}
	c := x[at]
	for i := range x {
		x[i] /= c
	}
	return x
}

// missed counts the solutions below a shift that were not found.
func (s *search) missed(found []Eigen, shift float64) (int, error) {
	f, err := s.f.plan.Factor(s.k.Plus(-shift, s.b), 0)
	if err != nil {
		return 0, err
	}
	return max(0, f.Minus-len(below(slices.Clone(found), shift))), nil
}

package ldl

import (
	"fmt"
	"math"
)

// A Factor is L·D·Lᵀ of a matrix.
type Factor struct {
	plan  *Plan
	lower [][]float64 // of each front: rows of L, pivots first, as wide as it has pivots
	d     []float64   // by unknown
	where []int32     // scratch: place of an unknown in the front at hand
	inner []float64   // scratch: the right side of a front
	Least float64     // least pivot over its diagonal entry, a measure of how near the matrix is to singular
	Doubt int         // the unknown of that pivot
	Minus int         // negative pivots, which is the number of negative eigenvalues
}

// Singular says that a pivot vanished: the matrix lets the unknowns move along
// Shape without resistance.
type Singular struct {
	Unknown int       // at whose elimination it showed
	Ratio   float64   // of the pivot to its diagonal entry
	Shape   []float64 // 1 in Unknown
}

func (s *Singular) Error() string {
	return fmt.Sprintf("ldl: pivot of unknown %d: got %g of its diagonal entry: the matrix is singular", s.Unknown, s.Ratio)
}

// Factor eliminates. A pivot not more than tol of its diagonal entry in size is
// a *Singular error. With tol 0 a pivot that is exactly 0 is taken as a hair
// more, so that eigenvalues can be counted at any shift.
func (p *Plan) Factor(m *Matrix, tol float64) (*Factor, error) {
	f := &Factor{plan: p, lower: make([][]float64, len(p.fronts)), d: make([]float64, p.n),
		where: make([]int32, p.n), Least: math.Inf(1)}
	for i := range f.where {
		f.where[i] = -1
	}
	updates := make([][]float64, len(p.fronts))
	for k := range p.fronts {
		fr := &p.fronts[k]
		np, nf := len(fr.pivots), len(fr.pivots)+len(fr.rows)
		a := make([]float64, nf*nf)
		f.gather(m, fr, a, updates)
		if err := f.eliminate(m, k, a, tol); err != nil {
			return nil, err
		}
		low := make([]float64, nf*np)
		for i := range nf {
			copy(low[i*np:(i+1)*np], a[i*nf:i*nf+np])
		}
		f.lower[k] = low
		rest := make([]float64, len(fr.rows)*len(fr.rows))
		for i := range fr.rows {
			copy(rest[i*len(fr.rows):], a[(np+i)*nf+np:(np+i)*nf+np+i+1])
		}
		updates[k] = rest
	}
	return f, nil
}

// gather adds up the front's own entries and what its children left.
func (f *Factor) gather(m *Matrix, fr *front, a []float64, updates [][]float64) {
	np, nf := len(fr.pivots), len(fr.pivots)+len(fr.rows)
	for i, u := range fr.pivots {
		f.where[u] = int32(i)
	}
	for i, u := range fr.rows {
		f.where[u] = int32(np + i)
	}
	for j, u := range fr.pivots {
		for k := m.start[u]; k < m.start[u+1]; k++ {
			if i := int(f.where[m.col[k]]); i >= j {
				a[i*nf+j] = m.value[k]
			}
		}
	}
	for _, c := range fr.children {
		rows, update := f.plan.fronts[c].rows, updates[c]
		for i, u := range rows {
			at := int(f.where[u])
			line := update[i*len(rows) : i*len(rows)+i+1]
			for j, v := range line {
				to := int(f.where[rows[j]])
				a[max(at, to)*nf+min(at, to)] += v
			}
		}
		updates[c] = nil
	}
	for _, u := range fr.pivots {
		f.where[u] = -1
	}
	for _, u := range fr.rows {
		f.where[u] = -1
	}
}

// panel is how many pivots are eliminated before the rest of a front is updated.
const panel = 48

// eliminate factors the pivots of front k: its first columns become L, the rest
// what they leave.
func (f *Factor) eliminate(m *Matrix, k int, a []float64, tol float64) error {
	fr := &f.plan.fronts[k]
	np, nf := len(fr.pivots), len(fr.pivots)+len(fr.rows)
	weighted := make([]float64, nf*min(np, panel)) // L·D of the panel
	for from := 0; from < np; from += panel {
		to := min(np, from+panel)
		if err := f.columns(m, k, a, weighted, from, to, tol); err != nil {
			return err
		}
		update(a, weighted, nf, from, to)
	}
	return nil
}

// columns factors the pivots of one panel in all rows of front k.
func (f *Factor) columns(m *Matrix, k int, a, weighted []float64, from, to int, tol float64) error {
	pivots := f.plan.fronts[k].pivots
	nf := len(pivots) + len(f.plan.fronts[k].rows)
	width := to - from
	for i := from; i < nf; i++ {
		row, w := a[i*nf+from:i*nf+to], weighted[i*width:(i+1)*width]
		left := min(i-from, width) // columns before the diagonal
		for c := range left {
			w[c] = row[c] - dot(w[:c], a[(from+c)*nf+from:])
		}
		for c := range left {
			row[c] = w[c] / f.d[pivots[from+c]]
		}
		if i >= to {
			continue
		}
		u := int(pivots[i])
		d := row[left] - dot(w[:left], row)
		diagonal := m.Diagonal(u)
		ratio := math.Abs(d) / math.Abs(diagonal)
		switch {
		case tol > 0 && !(ratio > tol):
			f.lower[k] = a
			return &Singular{u, ratio, f.shape(k, i, nf)}
		case d == 0:
			d = 1e-300 + 1e-16*math.Abs(diagonal)
		}
		if ratio < f.Least {
			f.Least, f.Doubt = ratio, u
		}
		if d < 0 {
			f.Minus++
		}
		f.d[u] = d
		row[left] = 1
	}
	return nil
}

// update takes a panel's L·D·Lᵀ from the lower half of what is right of it.
func update(a, weighted []float64, nf, from, to int) {
	width := to - from
	for i := to; i < nf; i += 2 {
		w0 := weighted[i*width : (i+1)*width]
		if i+1 == nf {
			for j := to; j <= i; j++ {
				a[i*nf+j] -= dot(w0, a[j*nf+from:])
			}
			break
		}
		w1 := weighted[(i+1)*width : (i+2)*width]
		for j := to; j <= i; j += 2 {
			s00, s01, s10, s11 := dot4(w0, w1, a[j*nf+from:], a[(j+1)*nf+from:])
			a[i*nf+j] -= s00
			a[i*nf+j+1] -= s01 // above the diagonal once a row: not read
			a[(i+1)*nf+j] -= s10
			a[(i+1)*nf+j+1] -= s11
		}
	}
}

func dot(x, y []float64) float64 {
	y = y[:len(x)]
	sum := 0.0
	for i, v := range x {
		sum += v * y[i]
	}
	return sum
}

// dot4 is the four products of two rows with two rows, read once.
func dot4(x0, x1, y0, y1 []float64) (s00, s01, s10, s11 float64) {
	n := len(x0)
	x1, y0, y1 = x1[:n], y0[:n], y1[:n]
	for i, a := range x0 {
		b, c, d := x1[i], y0[i], y1[i]
		s00 += a * c
		s01 += a * d
		s10 += b * c
		s11 += b * d
	}
	return s00, s01, s10, s11
}

// shape is the movement that costs nothing when pivot i of front k vanishes:
// 1 there, 0 in all that comes later, and before it what keeps the equations of
// the earlier unknowns.
func (f *Factor) shape(k, i, width int) []float64 {
	x := make([]float64, f.plan.n)
	fr := &f.plan.fronts[k]
	x[fr.pivots[i]] = 1
	for c := i - 1; c >= 0; c-- {
		sum := 0.0
		for r := c + 1; r <= i; r++ {
			sum += f.lower[k][r*width+c] * x[fr.pivots[r]]
		}
		x[fr.pivots[c]] = -sum
	}
	for g := k - 1; g >= 0; g-- {
		f.back(g, x, nil)
	}
	return x
}

// Solve replaces the right side x by the solution.
func (f *Factor) Solve(x []float64) {
	for k := range f.plan.fronts {
		fr := &f.plan.fronts[k]
		np := len(fr.pivots)
		low := f.lower[k]
		for c, u := range fr.pivots {
			sum := x[u]
			for b := range c {
				sum -= low[c*np+b] * x[fr.pivots[b]]
			}
			x[u] = sum
		}
		for r, u := range fr.rows {
			sum := 0.0
			for c, v := range low[(np+r)*np : (np+r+1)*np] {
				sum += v * x[fr.pivots[c]]
			}
			x[u] -= sum
		}
	}
	for k := len(f.plan.fronts) - 1; k >= 0; k-- {
		f.back(k, x, f.d)
	}
}

// back takes x through the columns of front k, first divided by d if given.
func (f *Factor) back(k int, x, d []float64) {
	fr := &f.plan.fronts[k]
	np := len(fr.pivots)
	low := f.lower[k]
	if cap(f.inner) < np {
		f.inner = make([]float64, np)
	}
	sums := f.inner[:np]
	clear(sums)
	for r, u := range fr.rows {
		v := x[u]
		if v == 0 {
			continue
		}
		for c, l := range low[(np+r)*np : (np+r+1)*np] {
			sums[c] += l * v
		}
	}
	for c := np - 1; c >= 0; c-- {
		u := fr.pivots[c]
		own := x[u]
		if d != nil {
			own /= d[u]
		}
		v := own - sums[c]
		x[u] = v
		for b, l := range low[c*np : c*np+c] {
			sums[b] += l * v
		}
	}
}

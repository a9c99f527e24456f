// Package ldl solves large symmetric systems of linear equations whose matrix is
// mostly zero, as L·D·Lᵀ without exchange of pivots.
//
//	k := ldl.Assemble(n, blocks)
//	plan := ldl.Analyse(k)
//	factor, err := plan.Factor(k, 1e-12)
//	factor.Solve(x)
//
// Three nouns. A Matrix holds the entries. A Plan holds the order in which
// unknowns are eliminated, which depends on the places of the entries only and
// serves every matrix of the same pattern. A Factor holds the numbers. D also
// tells the inertia: by Sylvester's law it has as many negative entries as the
// matrix has negative eigenvalues, which counts the eigenvalues below a shift.
//
// Invariants: the same matrix gives the same bits; nothing is random or depends
// on the order of a map.
package ldl

import (
	"fmt"
	"math"
	"slices"
)

// A Block is a small full symmetric matrix that adds to the unknowns named by
// Index, row by row. An index below 0 leaves its row and column out.
type Block struct {
	Index  []int
	Values []float64 // len(Index) squared
}

// A Matrix is symmetric and sparse, both halves stored, row by row.
type Matrix struct {
	start []int // of row i in column and value; one more than rows
	col   []int32
	value []float64
}

// Assemble adds blocks up to a matrix of n unknowns. Every diagonal entry is in
// the pattern. It panics when a block's values are not the square of its index.
func Assemble(n int, blocks []Block) *Matrix {
	start := make([]int, n+1)
	for i := range n {
		start[i+1] = 1
	}
	for _, b := range blocks {
		if len(b.Values) != len(b.Index)*len(b.Index) {
			panic(fmt.Sprintf("ldl: Assemble: block: got %d values, want %d squared", len(b.Values), len(b.Index)))
		}
		used := 0
		for _, i := range b.Index {
			if i >= 0 {
				used++
			}
		}
		for _, i := range b.Index {
			if i >= 0 {
				start[i+1] += used
			}
		}
	}
	for i := range n {
		start[i+1] += start[i]
	}
	type entry struct {
		col   int32
		value float64
	}
	entries := make([]entry, start[n])
	next := slices.Clone(start[:n])
	put := func(i, j int, v float64) {
		entries[next[i]] = entry{int32(j), v}
		next[i]++
	}
	for i := range n {
		put(i, i, 0)
	}
	for _, b := range blocks {
		for r, i := range b.Index {
			for c, j := range b.Index {
				if i >= 0 && j >= 0 {
					put(i, j, b.Values[r*len(b.Index)+c])
				}
			}
		}
	}
	m := &Matrix{start: make([]int, n+1)}
	for i := range n {
		row := entries[start[i]:start[i+1]]
		slices.SortStableFunc(row, func(a, b entry) int { return int(a.col) - int(b.col) })
		for k, e := range row {
			if k > 0 && row[k-1].col == e.col {
				m.value[len(m.value)-1] += e.value
				continue
			}
			m.col, m.value = append(m.col, e.col), append(m.value, e.value)
		}
		m.start[i+1] = len(m.col)
	}
	return m
}

// Len is the number of unknowns.
func (m *Matrix) Len() int { return len(m.start) - 1 }

// Diagonal is entry (i, i).
func (m *Matrix) Diagonal(i int) float64 {
	row := m.col[m.start[i]:m.start[i+1]]
	k, _ := slices.BinarySearch(row, int32(i))
	return m.value[m.start[i]+k]
}

// Mul sets y to the matrix times x.
func (m *Matrix) Mul(y, x []float64) {
	for i := range y {
		sum := 0.0
		for k := m.start[i]; k < m.start[i+1]; k++ {
			sum += m.value[k] * x[m.col[k]]
		}
		y[i] = sum
	}
}

// Plus is the matrix plus s times another one assembled from blocks with the
// same indices. It panics when their patterns differ.
func (m *Matrix) Plus(s float64, other *Matrix) *Matrix {
	if !slices.Equal(m.start, other.start) || !slices.Equal(m.col, other.col) {
		panic("ldl: Matrix.Plus: pattern: got another one, want the same")
	}
	sum := &Matrix{m.start, m.col, make([]float64, len(m.value))}
	for k, v := range m.value {
		sum.value[k] = v + s*other.value[k]
	}
	return sum
}

// Entries calls f for each entry of the upper half, row by row.
func (m *Matrix) Entries(f func(i, j int, v float64)) {
	for i := range m.Len() {
		for k := m.start[i]; k < m.start[i+1]; k++ {
			if j := int(m.col[k]); j >= i {
				f(i, j, m.value[k])
			}
		}
	}
}

// Most is the greatest size of a number.
func Most(x []float64) float64 {
	most := 0.0
	for _, v := range x {
		most = math.Max(most, math.Abs(v))
	}
	return most
}

// With is the matrix with blocks added to entries of its pattern. It panics when
// an entry that is not 0 has no place there.
func (m *Matrix) With(blocks []Block) *Matrix {
	sum := &Matrix{m.start, m.col, slices.Clone(m.value)}
	for _, b := range blocks {
		for r, i := range b.Index {
			for c, j := range b.Index {
				v := b.Values[r*len(b.Index)+c]
				if i < 0 || j < 0 || v == 0 {
					continue
				}
				k, found := slices.BinarySearch(m.col[m.start[i]:m.start[i+1]], int32(j))
				if !found {
					panic(fmt.Sprintf("ldl: Matrix.With: entry (%d, %d): got none in the pattern", i, j))
				}
				sum.value[m.start[i]+k] += v
			}
		}
	}
	return sum
}

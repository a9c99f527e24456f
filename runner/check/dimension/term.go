package dimension

import (
	"go/ast"
	"math/big"

	"tautline/stdlib/quantity"
)

// A term is a dimension that may hold unknowns: the base times each unknown
// raised to its exponent. A term is never changed, the unknowns in it may be
// bound.
type term struct {
	base     quantity.Dimension
	unknowns []factor // no unknown twice, no exponent 0
}

type factor struct {
	of  *unknown
	exp *big.Rat
}

// An unknown is a dimension that is yet to be found: that of a zero, which fits
// every dimension until it meets one, or that of a plain float64.
type unknown struct {
	is    *term  // what it was found to be, nil while it is free
	alias string // of package units, once one has named it
	zero  bool   // when it never meets a dimension it is a pure number
	depth int    // how many functions deep it was made

	from ast.Node // what bound it
}

// generic is the depth of an unknown that every call of its function may bind
// anew.
const generic = 1 << 30

func termOf(u *unknown) term { return term{unknowns: []factor{{u, big.NewRat(1, 1)}}} }

// times returns the product of t and s.
func (t term) times(s term) term {
	out := term{base: t.base.Mul(s.base), unknowns: append([]factor(nil), t.unknowns...)}
next:
	for _, f := range s.unknowns {
		for i, g := range out.unknowns {
			if g.of != f.of {
				continue
			}
			if exp := new(big.Rat).Add(g.exp, f.exp); exp.Sign() != 0 {
				out.unknowns[i].exp = exp
			} else {
				out.unknowns = append(out.unknowns[:i], out.unknowns[i+1:]...)
			}
			continue next
		}
		out.unknowns = append(out.unknowns, f)
	}
	return out
}

// power returns t raised to r.
func (t term) power(r *big.Rat) term {
	if r.Sign() == 0 {
		return term{}
	}
	out := term{base: t.base.Pow(quantity.Frac(int(r.Num().Int64()), int(r.Denom().Int64())))}
	for _, f := range t.unknowns {
		out.unknowns = append(out.unknowns, factor{f.of, new(big.Rat).Mul(f.exp, r)})
	}
	return out
}

func (t term) over(s term) term { return t.times(s.power(big.NewRat(-1, 1))) }

// lone returns the unknown that t is, or nil.
func (t term) lone() *unknown {
	if len(t.unknowns) == 1 && t.base == (quantity.Dimension{}) && t.unknowns[0].exp.Cmp(big.NewRat(1, 1)) == 0 {
		return t.unknowns[0].of
	}
	return nil
}

// last returns the unknown at the end of a chain of unknowns found to be each
// other.
func (u *unknown) last() *unknown {
	for u.is != nil && u.is.lone() != nil {
		u = u.is.lone()
	}
	return u
}

// found returns t with every unknown replaced by what it was found to be.
func (t term) found() term {
	out := term{base: t.base}
	for _, f := range t.unknowns {
		u := f.of.last()
		if u.is == nil {
			out = out.times(termOf(u).power(f.exp))
			continue
		}
		is := u.is.found()
		if is.lone() == nil { // the name stays with u
			u.is = &is
		}
		out = out.times(is.power(f.exp))
	}
	return out
}

// equate makes a and b one dimension, binding an unknown if it must, and
// reports whether they can be. Angles do not count.
func equate(a, b term) bool {
	ratio := a.over(b).found()
	if len(ratio.unknowns) == 0 {
		return ratio.base.IsNumber()
	}
	// Solve ratio = 1 for the innermost unknown.
	solve := ratio.unknowns[0]
	for _, f := range ratio.unknowns[1:] {
		if f.of.depth > solve.of.depth {
			solve = f
		}
	}
	rest := ratio.over(termOf(solve.of).power(solve.exp))
	value := rest.power(new(big.Rat).Neg(new(big.Rat).Inv(solve.exp)))
	for _, f := range value.unknowns {
		f.of.depth = min(f.of.depth, solve.of.depth)
		f.of.zero = f.of.zero && solve.of.zero
	}
	solve.of.is = &value
	return true
}

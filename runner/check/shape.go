package check

import (
	"go/types"

	"tautline/stdlib/quantity"
)

// unitsPath is the import path of the package whose aliases name dimensions.
const unitsPath = "tautline/stdlib/units"

// A shape is what is known of the dimensions inside a value. A list or pointer
// has the shape of its elements in elem; a struct has none, its fields have
// those of their declarations.
type shape struct {
	state knowledge
	dim   quantity.Dimension
	alias string // of package units, where one names the dimension more closely
	bare  bool   // a number written without a unit
	elem  *shape
}

type knowledge int

const (
	unknown knowledge = iota // cannot be inferred
	open                     // takes the first dimension that it meets: a zero, a fresh float64
	certain                  // dim
)

func known(d quantity.Dimension) *shape { return &shape{state: certain, dim: d} }

func number() *shape { return known(quantity.Dimension{}) }

// scalar is the shape of the numbers in a list, or s itself.
func (s *shape) scalar() *shape {
	for s != nil && s.elem != nil {
		s = s.elem
	}
	return s
}

// measure is what a shape tells the report. A scalar that never met a
// dimension is a pure number.
func (s *shape) measure() Measure {
	in := s.scalar()
	if in == nil || in.state == unknown {
		return Measure{}
	}
	return Measure{true, in.dim, in.alias}
}

// agrees makes a and b the same dimension and reports whether they can be. An
// open one takes the dimension of the other, an unknown one agrees with all.
func agrees(a, b *shape) bool {
	if a == nil || b == nil {
		return true
	}
	if a.elem != nil && b.elem != nil {
		return agrees(a.elem, b.elem)
	}
	switch {
	case a.state == unknown || b.state == unknown:
		return true
	case a.state == open:
		a.state, a.dim, a.alias = b.state, b.dim, b.alias
		return true
	case b.state == open:
		b.state, b.dim, b.alias = a.state, a.dim, a.alias
		return true
	}
	return a.dim.Equal(b.dim)
}

// firm returns the one of a and b that says more.
func firm(a, b *shape) *shape {
	if a == nil || b != nil && b.state > a.state || b != nil && a.bare && !b.bare {
		return b
	}
	return a
}

// fresh is a shape for a new variable that holds a value of shape s: the
// variable of a bare number is not itself a bare number, and what it meets
// later does not change the value it was set from.
func (s *shape) fresh() *shape {
	if s == nil {
		return nil
	}
	return &shape{state: s.state, dim: s.dim, alias: s.alias, elem: s.elem}
}

// declared is the shape that a type says.
func declared(t types.Type) *shape {
	return declaredDepth(t, 4)
}

func declaredDepth(t types.Type, depth int) *shape {
	if alias, ok := t.(*types.Alias); ok {
		if o := alias.Obj(); o.Pkg() != nil && o.Pkg().Path() == unitsPath {
			if d, ok := quantity.OfAlias(o.Name()); ok {
				return &shape{state: certain, dim: d, alias: o.Name()}
			}
			return &shape{}
		}
		return declaredDepth(alias.Rhs(), depth)
	}
	if depth == 0 {
		return &shape{}
	}
	var elem types.Type
	switch u := t.Underlying().(type) {
	case *types.Basic:
		switch {
		case u.Info()&types.IsInteger != 0:
			return number()
		case u.Info()&types.IsFloat != 0:
			return &shape{state: open}
		}
		return nil
	case *types.Slice:
		elem = u.Elem()
	case *types.Array:
		elem = u.Elem()
	case *types.Map:
		elem = u.Elem()
	case *types.Pointer:
		elem = u.Elem()
	}
	if elem == nil {
		return nil
	}
	if in := declaredDepth(elem, depth-1); in != nil {
		return &shape{elem: in}
	}
	return nil
}

// unitsAlias returns the name when t, or the element type of a list t, is an
// alias of package units.
func unitsAlias(t types.Type) (name string, list bool) {
	if s, ok := t.(*types.Slice); ok {
		t, list = s.Elem(), true
	}
	if alias, ok := t.(*types.Alias); ok && alias.Obj().Pkg() != nil && alias.Obj().Pkg().Path() == unitsPath {
		return alias.Obj().Name(), list
	}
	return "", false
}

package dimension

import (
	"go/types"
	"slices"

	"tautline/stdlib/quantity"
)

// unitsPath is the import path of the package whose aliases name dimensions.
const unitsPath = "tautline/stdlib/units"

// A shape is what is known of the dimensions inside a value. A list or pointer
// has the shape of its elements in elem, a function has fn, a struct with plain
// numbers has fields; any other struct, whose fields have the shapes of their
// declarations, has no shape, nor has a text or a truth.
type shape struct {
	dim    term
	alias  string // of package units, where one names the dimension more closely
	bare   bool   // a number written without a unit
	elem   *shape
	fn     *signature
	fields []*shape // in order, nil for one without a shape
}

// A signature is the shapes that a function takes and gives.
type signature struct {
	recv     *shape
	params   []*shape
	results  []*shape
	variadic bool
	names    []string // of the parameters
}

func number() *shape { return &shape{} }

func known(alias string) *shape {
	d, _ := quantity.OfAlias(alias)
	return &shape{dim: term{base: d}, alias: alias}
}

// isBare reports whether s is a number written without a unit.
func (s *shape) isBare() bool { return s != nil && s.bare }

// scalar is the shape of the numbers in a list, or s itself.
func (s *shape) scalar() *shape {
	for s != nil && s.elem != nil {
		s = s.elem
	}
	if s == nil || s.fn != nil || s.fields != nil {
		return nil
	}
	return s
}

// kind is the alias that names s more closely than its dimension, or "".
func (s *shape) kind() string {
	if u := s.dim.lone(); s.alias == "" && u != nil {
		return u.last().alias
	}
	return s.alias
}

// open is the unknown that the numbers in s have for a dimension while it is
// free, or nil.
func (s *shape) open() *unknown {
	if u := s.inferred(); u != nil && u.is == nil {
		return u
	}
	return nil
}

// inferred is the unknown that the numbers in s have for a dimension, free or
// bound, or nil.
func (s *shape) inferred() *unknown {
	if in := s.scalar(); in != nil {
		if u := in.dim.lone(); u != nil {
			return u.last()
		}
	}
	return nil
}

// measure is what a shape tells the report. A zero that never met a dimension
// is a pure number.
func (s *shape) measure() Measure {
	in := s.scalar()
	if in == nil {
		return Measure{}
	}
	dim := in.dim.found()
	for _, f := range dim.unknowns {
		if !f.of.zero {
			return Measure{}
		}
	}
	return Measure{true, dim.base, in.kind()}
}

// dimension returns the dimension of a number when nothing in it is unknown.
func (s *shape) dimension() (quantity.Dimension, bool) {
	dim := s.dim.found()
	return dim.base, len(dim.unknowns) == 0
}

// isAngle reports whether s is known to be a plane angle.
func (s *shape) isAngle() bool {
	if s == nil || s.scalar() != s {
		return false
	}
	angle, _ := quantity.OfAlias("Angle")
	dim, ok := s.dimension()
	return ok && dim == angle
}

// agrees makes a and b the same dimension and reports whether they can be.
func agrees(a, b *shape) bool {
	switch {
	case a == nil || b == nil:
		return true
	case a.elem != nil && b.elem != nil:
		return agrees(a.elem, b.elem)
	case a.fn != nil && b.fn != nil:
		return allAgree(a.fn.params, b.fn.params) && allAgree(a.fn.results, b.fn.results)
	case a.fields != nil && b.fields != nil:
		return allAgree(a.fields, b.fields)
	case a.scalar() != a || b.scalar() != b:
		return true // a pointer beside what it points to
	}
	if u := a.open(); u != nil && u.alias == "" {
		u.alias = b.kind()
	}
	if u := b.open(); u != nil && u.alias == "" {
		u.alias = a.kind()
	}
	return equate(a.dim, b.dim)
}

func allAgree(as, bs []*shape) bool {
	for i := range min(len(as), len(bs)) {
		if !agrees(as[i], bs[i]) {
			return false
		}
	}
	return true
}

// fresh is a shape for a value worked out from one of shape s: it is not itself
// a bare number.
func (s *shape) fresh() *shape {
	if s == nil || !s.bare {
		return s
	}
	out := *s
	out.bare = false
	return &out
}

// each calls f for every number in s.
func (s *shape) each(f func(*shape)) {
	switch {
	case s == nil:
	case s.elem != nil:
		s.elem.each(f)
	case s.fn != nil:
		s.fn.each(f)
	case s.fields != nil:
		for _, field := range s.fields {
			field.each(f)
		}
	default:
		f(s)
	}
}

func (sig *signature) each(f func(*shape)) {
	sig.recv.each(f)
	for _, s := range sig.params {
		s.each(f)
	}
	for _, s := range sig.results {
		s.each(f)
	}
}

// generalise lets every call of a function bind anew the unknowns that were
// made inside it, deeper than depth.
func (sig *signature) generalise(depth int) {
	sig.each(func(s *shape) {
		for _, f := range s.dim.found().unknowns {
			if f.of.depth > depth {
				f.of.depth = generic
			}
		}
	})
}

// An instance gives the generic unknowns of a signature new unknowns of one
// call.
type instance struct {
	of    map[*unknown]*unknown
	depth int
}

func (in instance) signature(sig *signature) *signature {
	out := &signature{recv: in.shape(sig.recv), variadic: sig.variadic, names: sig.names}
	for _, s := range sig.params {
		out.params = append(out.params, in.shape(s))
	}
	for _, s := range sig.results {
		out.results = append(out.results, in.shape(s))
	}
	return out
}

func (in instance) shape(s *shape) *shape {
	switch {
	case s == nil:
		return nil
	case s.elem != nil:
		return &shape{elem: in.shape(s.elem)}
	case s.fn != nil:
		return &shape{fn: in.signature(s.fn)}
	case s.fields != nil:
		out := &shape{}
		for _, field := range s.fields {
			out.fields = append(out.fields, in.shape(field))
		}
		return out
	}
	dim := s.dim.found()
	out := &shape{dim: term{base: dim.base}, alias: s.kind()}
	for _, f := range dim.unknowns {
		u := f.of
		if u.depth == generic {
			if in.of[u] == nil {
				in.of[u] = &unknown{alias: u.alias, zero: u.zero, depth: in.depth}
			}
			u = in.of[u]
		}
		out.dim = out.dim.times(termOf(u).power(f.exp))
	}
	return out
}

// A reading says how the types of a declaration become shapes.
type reading struct {
	zero    bool            // a float64 starts as 0
	depth   int             // of the unknowns made
	same    *unknown        // what units.Same stands for
	structs []*types.Struct // that what is read lies in
}

func (r reading) unknown() *shape {
	return &shape{dim: termOf(&unknown{zero: r.zero, depth: r.depth})}
}

// nesting bounds the lists in lists that are followed: a type may hold itself.
const nesting = 6

// shape is the shape that a type says.
func (r reading) shape(t types.Type) *shape { return r.nested(t, nesting) }

func (r reading) nested(t types.Type, depth int) *shape {
	if alias, ok := t.(*types.Alias); ok {
		if o := alias.Obj(); o.Pkg() == nil || o.Pkg().Path() != unitsPath {
			return r.nested(alias.Rhs(), depth)
		} else if o.Name() == "Same" && r.same != nil {
			return &shape{dim: termOf(r.same)}
		} else if _, ok := quantity.OfAlias(o.Name()); ok {
			return known(o.Name())
		}
		return r.unknown()
	}
	if depth == 0 {
		return nil
	}
	switch u := t.Underlying().(type) {
	case *types.Basic:
		switch {
		case u.Info()&types.IsInteger != 0:
			return number()
		case u.Info()&types.IsFloat != 0:
			return r.unknown()
		}
	case *types.Slice:
		return r.list(u.Elem(), depth)
	case *types.Array:
		return r.list(u.Elem(), depth)
	case *types.Map:
		return r.list(u.Elem(), depth)
	case *types.Pointer:
		return r.list(u.Elem(), depth)
	case *types.Struct:
		return r.fields(u, depth)
	case *types.Signature:
		r.zero = false
		return &shape{fn: r.signature(u, depth-1)}
	}
	return nil
}

// fields is the shape of a struct that holds plain numbers, in it or deeper.
// One that holds itself has none.
func (r reading) fields(t *types.Struct, depth int) *shape {
	if slices.Contains(r.structs, t) || len(r.structs) == nesting/2 {
		return nil
	}
	r.structs = append(r.structs[:len(r.structs):len(r.structs)], t)
	s, plain := &shape{}, false
	for f := range t.Fields() {
		field := r.nested(f.Type(), depth-1)
		field.each(func(in *shape) { plain = plain || len(in.dim.unknowns) > 0 })
		s.fields = append(s.fields, field)
	}
	if !plain {
		return nil
	}
	return s
}

func (r reading) list(elem types.Type, depth int) *shape {
	if in := r.nested(elem, depth-1); in != nil {
		return &shape{elem: in}
	}
	return nil
}

func (r reading) signature(t *types.Signature, depth int) *signature {
	sig := &signature{variadic: t.Variadic()}
	for v := range t.Params().Variables() {
		sig.names = append(sig.names, v.Name())
		sig.params = append(sig.params, r.nested(v.Type(), depth))
	}
	for v := range t.Results().Variables() {
		sig.results = append(sig.results, r.nested(v.Type(), depth))
	}
	return sig
}

// unitsAlias is the name of t when it is an alias of package units.
func unitsAlias(t types.Type) string {
	if alias, ok := t.(*types.Alias); ok && alias.Obj().Pkg() != nil && alias.Obj().Pkg().Path() == unitsPath {
		return alias.Obj().Name()
	}
	return ""
}

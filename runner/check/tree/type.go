package tree

import "go/types"

// TypeName is the name of a named type or of what a pointer to it points to.
func TypeName(t types.Type) string {
	if ptr, ok := types.Unalias(t).(*types.Pointer); ok {
		t = ptr.Elem()
	}
	if n, ok := types.Unalias(t).(*types.Named); ok {
		return n.Obj().Name()
	}
	return t.String()
}

// IsNumeric reports whether t is a type of numbers.
func IsNumeric(t types.Type) bool {
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsNumeric != 0
}

// Holds reports whether a value of type t holds one for which is answers true,
// itself or inside structs and arrays.
func Holds(t types.Type, is func(types.Type) bool) bool {
	if is(t) {
		return true
	}
	switch u := t.Underlying().(type) {
	case *types.Struct:
		for v := range u.Fields() {
			if Holds(v.Type(), is) {
				return true
			}
		}
	case *types.Array:
		return Holds(u.Elem(), is)
	}
	return false
}

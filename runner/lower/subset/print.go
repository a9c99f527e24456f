package subset

import (
	"go/ast"
	"go/constant"
	"go/types"
	"regexp"

	"tautline/runner/check/tree"
)

// verb is a verb of a format with its flags, or a percent sign.
var verb = regexp.MustCompile(`%([-+# 0]*)[\d.*\[\]]*(.)`)

// print refuses texts in which package fmt would show what differs from run to
// run or names the interpreter gives to types and private fields.
func (r *refuser) print(call *ast.CallExpr, name string) {
	args := call.Args
	if name == "Sprintf" || name == "Errorf" {
		v := r.tree.Info.Types[args[0]].Value
		if v == nil {
			r.no(args[0], "the format must be a constant text", "put the changing part into an argument, with the verb %s")
			return
		}
		for _, m := range verb.FindAllStringSubmatch(constant.StringVal(v), -1) {
			if m[2] == "T" || m[2] == "p" || m[2] == "v" && regexp.MustCompile("[+#]").MatchString(m[1]) {
				r.no(args[0], "a cell cannot print with the verb %"+m[1]+m[2], "use %v")
				return
			}
		}
		args = args[1:]
	}
	for _, a := range args {
		t := r.tree.Info.Types[a].Type
		switch {
		case holdsAddress(t, 0):
			r.no(a, "this would print an address, which differs from run to run", "print the fields of what it points to")
		case holdsHidden(t, 0):
			r.no(a, "this would print the text of an error inside a struct, which Go hides", "print the fields that matter")
		}
	}
}

// maxDepth bounds the walk over a type that holds itself.
const maxDepth = 8

// holdsAddress reports whether fmt prints an address for a value of type t.
func holdsAddress(t types.Type, depth int) bool {
	if depth > maxDepth {
		return false
	}
	switch u := t.Underlying().(type) {
	case *types.Signature, *types.Pointer:
		return true
	case *types.Slice:
		return holdsAddress(u.Elem(), depth+1)
	case *types.Array:
		return holdsAddress(u.Elem(), depth+1)
	case *types.Map:
		return holdsAddress(u.Key(), depth+1) || holdsAddress(u.Elem(), depth+1)
	case *types.Struct:
		for v := range u.Fields() {
			if holdsAddress(v.Type(), depth+1) {
				return true
			}
		}
	}
	return false
}

// holdsHidden reports whether a struct in t holds an interface.
func holdsHidden(t types.Type, depth int) bool {
	if depth > maxDepth {
		return false
	}
	switch u := t.Underlying().(type) {
	case *types.Slice:
		return holdsHidden(u.Elem(), depth+1)
	case *types.Map:
		return holdsHidden(u.Elem(), depth+1)
	case *types.Struct, *types.Array:
		return tree.Holds(t, types.IsInterface)
	}
	return false
}

// Package subset says which Go a cell may use.
//
//	diags := subset.Check(tree)
//
// Refused is what the interpreter gets wrong, and what makes a result depend on
// anything but the notebook: the order of a map, the machine, the compiler's
// choice. Each refusal stands at its place and says what to write instead.
package subset

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"

	"tautline/runner/check/tree"
	"tautline/runner/document"
)

// Check finds what a cell may not use in a tree without errors.
func Check(t *tree.Tree) []document.Diagnostic {
	r := &refuser{tree: t, effects: findEffects(t), calls: map[ast.Expr]bool{}, appends: map[ast.Expr]bool{}}
	t.Inspect(r.visit)
	return r.diags
}

type refuser struct {
	tree    *tree.Tree
	effects *effects
	diags   []document.Diagnostic
	calls   map[ast.Expr]bool // selectors that are called
	appends map[ast.Expr]bool // calls of append that are safe where they stand
}

func (r *refuser) no(n ast.Node, message, hint string) bool {
	r.diags = append(r.diags, r.tree.ErrorAt(r.tree.Range(n), message, hint))
	return false
}

func (r *refuser) visit(n ast.Node) bool {
	if s, ok := n.(ast.Stmt); ok {
		r.order(s)
	}
	switch n := n.(type) {
	case *ast.GoStmt:
		return r.no(n, "a cell cannot start a goroutine", "a calculation runs in the order of reading; call the function directly")
	case *ast.DeferStmt:
		return r.no(n, "a cell cannot defer a call", "call it where it should run")
	case *ast.SelectStmt, *ast.SendStmt, *ast.ChanType:
		return r.no(n, "a cell cannot use channels", "keep the values in a slice")
	case *ast.TypeSwitchStmt, *ast.TypeAssertExpr:
		return r.no(n, "a cell cannot ask for the type of a value", "use one type, or a field that says which kind it is")
	case *ast.InterfaceType:
		return r.no(n, "a cell cannot declare an interface", "use one type, or a function")
	case *ast.Ident:
		return r.ident(n)
	case *ast.BranchStmt:
		if n.Tok == token.GOTO {
			return r.no(n, "a cell cannot use goto", "use a loop or a function")
		}
	case *ast.FuncDecl:
		return r.function(n)
	case *ast.DeclStmt:
		if d := n.Decl.(*ast.GenDecl); d.Tok == token.TYPE {
			return r.no(d, "a type cannot be declared inside a block", "declare it at the top of the cell")
		}
	case *ast.TypeSpec:
		return r.typeSpec(n)
	case *ast.StructType:
		return r.fits(n) && r.structType(n)
	case *ast.ArrayType:
		return r.fits(n)
	case *ast.AssignStmt:
		r.appendTo(n.Lhs, n.Rhs)
	case *ast.ReturnStmt:
		r.appendLast(n)
	case *ast.RangeStmt:
		return r.rangeStmt(n)
	case *ast.UnaryExpr:
		if n.Op == token.ARROW {
			return r.no(n, "a cell cannot use channels", "keep the values in a slice")
		}
	case *ast.BinaryExpr:
		return r.compare(n)
	case *ast.SwitchStmt:
		if n.Tag != nil && types.IsInterface(r.tree.Info.Types[n.Tag].Type) {
			return r.no(n.Tag, "a cell cannot compare errors in a switch", "use errors.Is in the cases")
		}
	case *ast.CallExpr:
		return r.call(n)
	case *ast.SelectorExpr:
		return r.selector(n)
	case ast.Expr:
		if tv := r.tree.Info.Types[n]; tv.Type != nil && tv.IsValue() {
			if b, ok := tv.Type.Underlying().(*types.Basic); ok && b.Info()&types.IsComplex != 0 {
				return r.no(n, "a cell cannot use complex numbers", "keep the real and imaginary parts apart")
			}
		}
	}
	return true
}

func (r *refuser) ident(n *ast.Ident) bool {
	switch o := r.tree.Info.Uses[n].(type) {
	case *types.Builtin:
		switch o.Name() {
		case "recover", "print", "println", "close", "complex", "real", "imag":
			return r.no(n, "a cell cannot use "+o.Name(), "")
		case "clear":
			return r.no(n, "a cell cannot use clear", "make a new one")
		}
	case *types.TypeName:
		if b, ok := o.Type().Underlying().(*types.Basic); ok && b.Info()&types.IsComplex != 0 {
			return r.no(n, "a cell cannot use complex numbers", "keep the real and imaginary parts apart")
		}
		if o.Name() == "any" && o.Pkg() == nil {
			return r.no(n, "a cell cannot hold values of any type", "say the type")
		}
	}
	return true
}

func (r *refuser) function(f *ast.FuncDecl) bool {
	if f.Type.TypeParams != nil {
		return r.no(f.Name, "a cell cannot declare a generic function", "write it for the type that you use")
	}
	if f.Recv != nil && (f.Name.Name == "Error" || f.Name.Name == "String") {
		return r.no(f.Name, "a method of a cell cannot be called "+f.Name.Name, "Go would call it in places that do not show; choose another name")
	}
	if f.Body == nil {
		return r.no(f.Name, f.Name.Name+" has no body", "")
	}
	return true
}

func (r *refuser) typeSpec(s *ast.TypeSpec) bool {
	if s.TypeParams != nil {
		return r.no(s.Name, "a cell cannot declare a generic type", "write it for the type that you use")
	}
	o := r.tree.Info.Defs[s.Name]
	if o == nil || s.Assign.IsValid() {
		return true
	}
	if b, ok := o.Type().Underlying().(*types.Basic); ok && b.Info()&types.IsFloat != 0 {
		return r.no(s.Name, "a cell cannot declare a number type of its own", "use a dimension of package units, such as units.Length")
	}
	return true
}

// maxValue is how many bytes one value may take in itself: the interpreter sets
// all variables up before anything runs, and copies arrays as Go does.
const maxValue = 1 << 20

// fits refuses types of arrays that are too large, in themselves or together.
func (r *refuser) fits(e ast.Expr) bool {
	t := r.tree.Info.Types[e].Type
	if t == nil || hasSmall(t, maxValue) {
		return true
	}
	return r.no(e, fmt.Sprintf("an array: got one of more than %d bytes, want fewer", maxValue), "use a slice: make([]float64, n)")
}

// hasSmall reports whether a value of type t takes at most so many bytes.
func hasSmall(t types.Type, most int64) bool {
	size := types.SizesFor("gc", "amd64").Sizeof(t)
	return 0 <= size && size <= most
}

func (r *refuser) rangeStmt(n *ast.RangeStmt) bool {
	t := r.tree.Info.Types[n.X].Type
	switch u := t.Underlying().(type) {
	case *types.Map:
		return r.no(n.X, "range over a map has no fixed order", "keep a slice of the keys beside the map and range over that")
	case *types.Signature:
		return r.no(n.X, "a cell cannot range over a function", "use a loop with a counter")
	case *types.Basic:
		if u.Info()&types.IsString != 0 {
			return r.no(n.X, "a cell cannot range over a text", "use package strings")
		}
	case *types.Pointer:
		return r.no(n.X, "a cell cannot range over a pointer", "range over what it points to")
	}
	return true
}

// structType refuses embedded fields, and names that the interpreter, which
// writes a private field x as Xx, would mix up.
func (r *refuser) structType(t *ast.StructType) bool {
	seen := map[string]bool{}
	for _, f := range t.Fields.List {
		if len(f.Names) == 0 {
			r.no(f, "a struct cannot embed a type here", "give the field a name")
		}
		for _, id := range f.Names {
			name := id.Name
			if !id.IsExported() {
				name = "X" + name
			}
			if seen[name] {
				r.no(id, fmt.Sprintf("the field %s is too like another one of this struct", id.Name), "choose another name")
			}
			seen[name] = true
		}
	}
	return true
}

func (r *refuser) compare(n *ast.BinaryExpr) bool {
	if n.Op != token.EQL && n.Op != token.NEQ {
		return true
	}
	x, y := r.tree.Info.Types[n.X], r.tree.Info.Types[n.Y]
	if x.IsNil() || y.IsNil() {
		return true
	}
	for _, t := range []types.Type{x.Type, y.Type} {
		switch {
		case types.IsInterface(t):
			return r.no(n, "a cell cannot compare errors with ==", "use errors.Is")
		case tree.Holds(t, types.IsInterface):
			return r.no(n, "a cell cannot compare structs that hold an error", "compare the other fields")
		}
	}
	return true
}

func (r *refuser) call(n *ast.CallExpr) bool {
	r.calls[ast.Unparen(n.Fun)] = true
	name, _ := r.tree.SheetCall(n)
	if len(n.Args) == 1 && name != "Must" {
		if _, many := r.tree.Info.Types[n.Args[0]].Type.(*types.Tuple); many {
			return r.no(n.Args[0], "several results cannot be passed on as arguments", "give them names first")
		}
	}
	if r.tree.Info.Types[n.Fun].IsType() {
		return r.convert(n)
	}
	if id, ok := ast.Unparen(n.Fun).(*ast.Ident); ok && r.tree.Info.Types[id].IsBuiltin() {
		return r.builtin(n, id.Name)
	}
	if f := r.tree.Callee(n); f != nil && f.Pkg() != nil && f.Pkg().Path() == "fmt" {
		r.print(n, f.Name())
	}
	return true
}

// convert refuses conversions whose result Go leaves to the machine.
func (r *refuser) convert(n *ast.CallExpr) bool {
	from, to := r.tree.Info.Types[n.Args[0]], r.tree.Info.Types[n]
	if from.Value != nil || to.Type == nil {
		return true
	}
	f, ok1 := from.Type.Underlying().(*types.Basic)
	t, ok2 := to.Type.Underlying().(*types.Basic)
	if ok1 && ok2 && f.Info()&types.IsFloat != 0 && t.Info()&types.IsInteger != 0 && t.Kind() != types.Int && t.Kind() != types.Int64 {
		return r.no(n, fmt.Sprintf("a float cannot become %s at once: what does not fit depends on the machine", r.tree.Source(n.Fun)),
			fmt.Sprintf("write %s(int(…)), which keeps the low bits", r.tree.Source(n.Fun)))
	}
	return true
}

func (r *refuser) builtin(n *ast.CallExpr, name string) bool {
	switch name {
	case "cap":
		return r.no(n, "a cell cannot use cap: how far a slice can grow in place depends on the compiler", "use len")
	case "new":
		if !r.tree.Info.Types[n.Args[0]].IsType() {
			return r.no(n, "a cell cannot give new a value", "give the value a name and take its address")
		}
	case "append":
		if !r.appends[n] && r.mayShare(n.Args[0]) {
			return r.no(n, fmt.Sprintf("what append makes of %s may share its memory or not, as the compiler likes", r.tree.Source(n.Args[0])),
				"set it to itself, xs = append(xs, …), or copy it first, append([]float64(nil), xs...)")
		}
	}
	return true
}

// appendTo marks `xs = append(xs, …)` and `xs = append(xs[:i], …)` as safe.
func (r *refuser) appendTo(lhs, rhs []ast.Expr) {
	if len(lhs) != len(rhs) {
		return
	}
	for i, value := range rhs {
		call, ok := ast.Unparen(value).(*ast.CallExpr)
		if !ok || len(call.Args) == 0 {
			continue
		}
		from := ast.Unparen(call.Args[0])
		if part, ok := from.(*ast.SliceExpr); ok {
			from = part.X
		}
		if r.tree.Source(from) == r.tree.Source(lhs[i]) {
			r.appends[call] = true
		}
	}
}

// appendLast marks `return append(xs, …)` of a local variable as safe.
func (r *refuser) appendLast(s *ast.ReturnStmt) {
	for _, value := range s.Results {
		call, ok := ast.Unparen(value).(*ast.CallExpr)
		if !ok || len(call.Args) == 0 {
			continue
		}
		if id, ok := call.Args[0].(*ast.Ident); ok {
			v, ok := r.tree.Info.Uses[id].(*types.Var)
			r.appends[call] = ok && v.Kind() == types.LocalVar
		}
	}
}

// mayShare reports whether a slice that is appended to may have another owner.
// What a call or a literal just made has none, nor has a full slice expression
// room to grow in place.
func (r *refuser) mayShare(e ast.Expr) bool {
	switch e := ast.Unparen(e).(type) {
	case *ast.Ident, *ast.SelectorExpr, *ast.IndexExpr, *ast.StarExpr:
		return !r.tree.Info.Types[e].IsNil()
	case *ast.SliceExpr:
		return !e.Slice3
	}
	return false
}

// selector refuses methods used as values and generic functions.
func (r *refuser) selector(n *ast.SelectorExpr) bool {
	if sel := r.tree.Info.Selections[n]; sel != nil {
		if sel.Kind() == types.MethodExpr || sel.Kind() == types.MethodVal && !r.calls[n] {
			return r.no(n, "a method cannot be used as a value", "wrap it: func(x …) … { return v."+n.Sel.Name+"(x) }")
		}
		return true
	}
	if _, ok := r.tree.Info.Instances[n.Sel]; ok && n.Sel.Name != "Must" {
		return r.no(n, "a cell cannot use generic functions", "write the loop")
	}
	if v, ok := r.tree.Info.Uses[n.Sel].(*types.Var); ok {
		return r.no(n, fmt.Sprintf("%s.%s is a variable of a package, which a cell cannot read", v.Pkg().Name(), v.Name()), "")
	}
	return true
}

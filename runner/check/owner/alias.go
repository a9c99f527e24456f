package owner

import (
	"go/ast"
	"go/token"
	"go/types"
	"maps"
	"slices"

	"tautline/runner/check/tree"
)

// Two names can stand for the same memory: after `ys := xs` a change of ys[0]
// is a change of xs. aliases knows, for every variable that holds a reference,
// the variables whose memory it may share, and which parameters a function of
// the notebook changes. It errs on the side of sharing; what the library
// returns shares nothing with what it was given.
type aliases struct {
	tree    *tree.Tree
	of      map[types.Object]map[types.Object]bool
	fields  map[types.Object][]replacement
	changed map[types.Object]bool // parameters and receivers whose memory a function changes
	grew    bool
}

// A replacement is an assignment of a new value to a part of a variable, such as
// half.Openings: from there on the part shares the memory of that value alone.
type replacement struct {
	part  string
	at    token.Pos
	value ast.Expr
}

// findAliases repeats until nothing new is found.
func findAliases(t *tree.Tree) *aliases {
	a := &aliases{tree: t, of: map[types.Object]map[types.Object]bool{},
		fields: map[types.Object][]replacement{}, changed: map[types.Object]bool{}}
	t.Inspect(func(n ast.Node) bool {
		if s, ok := n.(*ast.AssignStmt); ok && len(s.Lhs) == len(s.Rhs) {
			for i, l := range s.Lhs {
				if sel, ok := l.(*ast.SelectorExpr); ok && !a.throughReference(sel) {
					if id := tree.Root(sel); id != nil {
						o := t.Info.ObjectOf(id)
						a.fields[o] = append(a.fields[o], replacement{types.ExprString(sel), s.Pos(), s.Rhs[i]})
					}
				}
			}
		}
		return true
	})
	for a.grew = true; a.grew; {
		a.grew = false
		t.Inspect(func(n ast.Node) bool {
			a.visit(n)
			return true
		})
		for _, f := range t.Functions() {
			for _, ch := range a.changes(f) {
				if isParameter(ch.object, t.Info.Defs[f.Name]) && !a.changed[ch.object] {
					a.changed[ch.object], a.grew = true, true
				}
			}
		}
	}
	return a
}

// visit notes what a statement makes share memory.
func (a *aliases) visit(n ast.Node) {
	switch n := n.(type) {
	case *ast.AssignStmt:
		for i, l := range n.Lhs {
			if len(n.Rhs) == len(n.Lhs) {
				a.share(l, n.Rhs[i])
			} else {
				a.share(l, n.Rhs[0])
			}
		}
	case *ast.ValueSpec:
		for i, id := range n.Names {
			if len(n.Values) > 0 {
				a.share(id, n.Values[min(i, len(n.Values)-1)])
			}
		}
	case *ast.RangeStmt:
		if n.Value != nil {
			a.share(n.Value, n.X)
		}
	}
}

// share notes that what is set shares the memory of a value.
func (a *aliases) share(to, value ast.Expr) {
	id := tree.Root(to)
	if id == nil {
		return
	}
	o := a.tree.Info.ObjectOf(id)
	if o == nil || !holdsReference(o.Type(), 8) {
		return
	}
	for from := range a.roots(value) {
		if from == o || a.of[o][from] {
			continue
		}
		if a.of[o] == nil {
			a.of[o] = map[types.Object]bool{}
		}
		a.of[o][from], a.grew = true, true
	}
}

// roots lists the variables whose memory the value of an expression may share.
func (a *aliases) roots(e ast.Expr) map[types.Object]bool {
	out := map[types.Object]bool{}
	var walk func(ast.Expr)
	walk = func(e ast.Expr) {
		e = ast.Unparen(e)
		if unary, ok := e.(*ast.UnaryExpr); ok && unary.Op == token.AND {
			e = unary.X
		} else if tv := a.tree.Info.Types[e]; tv.Type != nil && !holdsReference(tv.Type, 8) {
			return
		}
		if id := tree.Root(e); id != nil {
			if o, ok := a.tree.Info.ObjectOf(id).(*types.Var); ok {
				out[o] = true
				for from := range a.of[o] {
					out[from] = true
				}
			}
			return
		}
		switch e := e.(type) {
		case *ast.CompositeLit:
			for _, el := range e.Elts {
				if kv, ok := el.(*ast.KeyValueExpr); ok {
					el = kv.Value
				}
				walk(el)
			}
		case *ast.CallExpr:
			args := e.Args
			switch {
			case !a.mayReturnArguments(e):
				return
			case isAppend(a.tree, e) && !holdsReference(elemOfList(a.tree.Info.TypeOf(e)), 8):
				args = args[:1] // the other ones are copied
			}
			for _, arg := range args {
				walk(arg)
			}
		}
	}
	walk(e)
	return out
}

// mayReturnArguments reports whether what a call returns may share memory with
// its arguments: append, a conversion, and the notebook's own functions.
func (a *aliases) mayReturnArguments(call *ast.CallExpr) bool {
	if a.tree.Info.Types[call.Fun].IsType() {
		return true
	}
	if id, ok := ast.Unparen(call.Fun).(*ast.Ident); ok {
		if _, ok := a.tree.Info.Uses[id].(*types.Builtin); ok {
			return isAppend(a.tree, call)
		}
	}
	f := a.tree.Callee(call)
	return f == nil || f.Pkg() != nil && f.Pkg().Path() == "main"
}

func isAppend(t *tree.Tree, call *ast.CallExpr) bool {
	id, ok := ast.Unparen(call.Fun).(*ast.Ident)
	if !ok {
		return false
	}
	b, ok := t.Info.Uses[id].(*types.Builtin)
	return ok && b.Name() == "append"
}

func elemOfList(t types.Type) types.Type {
	if s, ok := t.Underlying().(*types.Slice); ok {
		return s.Elem()
	}
	return t
}

// changes lists the changes that a node makes, also of memory that is reached
// under another name or through a parameter of a function that it calls.
func (a *aliases) changes(node ast.Node) []change {
	var list []change
	reach := func(e ast.Expr, whole bool) {
		id := tree.Root(e)
		if id == nil {
			return
		}
		o, ok := a.tree.Info.ObjectOf(id).(*types.Var)
		if !ok {
			return
		}
		list = append(list, change{o, e})
		if whole || a.throughReference(e) {
			for _, from := range slices.SortedFunc(maps.Keys(a.shared(o, e)), byPlace) {
				list = append(list, change{from, e})
			}
		}
	}
	ast.Inspect(node, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			for _, l := range n.Lhs {
				if id, ok := l.(*ast.Ident); !ok || a.tree.Info.Defs[id] == nil {
					reach(l, false)
				}
			}
		case *ast.IncDecStmt:
			reach(n.X, false)
		case *ast.RangeStmt:
			if n.Tok == token.ASSIGN {
				reach(n.Key, false)
				if n.Value != nil {
					reach(n.Value, false)
				}
			}
		case *ast.CallExpr:
			for _, arg := range a.changedArguments(n) {
				if unary, ok := ast.Unparen(arg).(*ast.UnaryExpr); ok && unary.Op == token.AND {
					arg = unary.X
				}
				reach(arg, true)
			}
		}
		return true
	})
	return list
}

func byPlace(a, b types.Object) int { return int(a.Pos()) - int(b.Pos()) }

// shared lists the variables whose memory the part e of variable o may share.
func (a *aliases) shared(o types.Object, e ast.Expr) map[types.Object]bool {
	out := a.of[o]
	for _, r := range a.fields[o] { // in the order of the source: the last before e counts
		if r.at >= e.Pos() {
			break
		}
		for part := e; part != nil; part = holder(part) {
			if types.ExprString(part) == r.part {
				out = a.roots(r.value)
			}
		}
	}
	return out
}

// holder is the expression that e is an element or a field of, nil at the root.
func holder(e ast.Expr) ast.Expr {
	switch e := e.(type) {
	case *ast.IndexExpr:
		return e.X
	case *ast.SelectorExpr:
		return e.X
	case *ast.SliceExpr:
		return e.X
	case *ast.StarExpr:
		return e.X
	case *ast.ParenExpr:
		return e.X
	}
	return nil
}

// changedArguments lists the arguments, the receiver too, whose memory a call
// changes.
func (a *aliases) changedArguments(call *ast.CallExpr) []ast.Expr {
	var args []ast.Expr
	if len(call.Args) > 0 && changesItsArgument(a.tree, call) {
		args = append(args, call.Args[0])
	}
	f := a.tree.Callee(call)
	if f == nil {
		return args
	}
	sig := f.Signature()
	if sel, ok := ast.Unparen(call.Fun).(*ast.SelectorExpr); ok && sig.Recv() != nil {
		if name, isSheet := a.tree.SheetCall(call); a.changed[sig.Recv()] || builds(f) || isSheet && name != "Data.Column" && name != "Data.Texts" {
			args = append(args, sel.X)
		}
	}
	for i, arg := range call.Args {
		if n := sig.Params().Len(); n > 0 && (a.changed[sig.Params().At(min(i, n-1))] || drawnOn(f, a.tree.Info.TypeOf(arg))) {
			args = append(args, arg)
		}
	}
	return args
}

// Builds reports whether a call builds on something that the library made, a
// frame or a load case: it calls a method that changes it.
func Builds(t *tree.Tree, call *ast.CallExpr) bool {
	f := t.Callee(call)
	return f != nil && f.Signature().Recv() != nil && builds(f)
}

// builds reports whether f is a method of the library that changes what it is
// called on: one with a pointer for its receiver. Those that only read take a
// value.
func builds(f *types.Func) bool {
	if f.Pkg() == nil || f.Pkg().Path() == "main" || f.Pkg().Path() == tree.SheetPath {
		return false
	}
	_, pointer := types.Unalias(f.Signature().Recv().Type()).(*types.Pointer)
	return pointer
}

// drawnOn reports whether a function of the library draws on an argument of
// type t: a figure, a drawing, a table.
func drawnOn(f *types.Func, t types.Type) bool {
	ptr, ok := types.Unalias(t).(*types.Pointer)
	if !ok || f.Pkg() == nil || f.Pkg().Path() == "main" {
		return false
	}
	n, ok := types.Unalias(ptr.Elem()).(*types.Named)
	return ok && n.Obj().Pkg() != nil && n.Obj().Pkg().Path() == tree.SheetPath && n.Obj().Name() != "Data"
}

// throughReference reports whether an assignment to e changes memory that its
// root only refers to: an element of a slice or map, what a pointer points to.
func (a *aliases) throughReference(e ast.Expr) bool {
	for ; ; e = holder(e) {
		if _, ok := e.(*ast.StarExpr); ok {
			return true
		}
		x := holder(e)
		if x == nil {
			return false
		}
		if _, paren := e.(*ast.ParenExpr); paren {
			continue
		}
		if t := a.tree.Info.TypeOf(x); t != nil {
			switch t.Underlying().(type) {
			case *types.Slice, *types.Map, *types.Pointer:
				return true
			}
		}
	}
}

// holdsReference reports whether a copy of a value of type t shares memory with
// it.
func holdsReference(t types.Type, depth int) bool {
	if depth == 0 {
		return true
	}
	switch u := t.Underlying().(type) {
	case *types.Slice, *types.Map, *types.Pointer:
		return true
	case *types.Array:
		return holdsReference(u.Elem(), depth-1)
	case *types.Struct:
		for f := range u.Fields() {
			if holdsReference(f.Type(), depth-1) {
				return true
			}
		}
	}
	return false
}

// isParameter reports whether o is a parameter or the receiver of a function.
func isParameter(o, f types.Object) bool {
	sig, ok := f.Type().(*types.Signature)
	if !ok {
		return false
	}
	if sig.Recv() == o {
		return true
	}
	for v := range sig.Params().Variables() {
		if v == o {
			return true
		}
	}
	return false
}

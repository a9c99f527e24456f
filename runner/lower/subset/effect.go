package subset

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"slices"

	"tautline/runner/check/tree"
)

// Go leaves open whether x or f() comes first in `x*2 + f()`. When f changes x,
// compiler and interpreter may well differ, so the statement is refused. What a
// call changes is worked out from the source: variables by name, and memory
// behind pointers, slices and maps by the type of what it holds.

// A target is a *types.Var or, for memory, the text of a type.
type target any

type targets map[target]bool

func (p targets) add(other targets) {
	for k := range other {
		p[k] = true
	}
}

// effects knows what each function of a notebook changes outside itself.
type effects struct {
	tree      *tree.Tree
	functions map[ast.Node]targets      // by *ast.FuncDecl and *ast.FuncLit
	decls     map[types.Object]ast.Node // *ast.FuncDecl by its object
	values    targets                   // what a call of a function value may change
	addressed map[types.Object]bool     // variables whose address is taken
	grew      bool                      // since the last round
}

// findEffects repeats until calls inside functions bring nothing new.
func findEffects(t *tree.Tree) *effects {
	f := &effects{tree: t, functions: map[ast.Node]targets{}, decls: map[types.Object]ast.Node{}, values: targets{}, addressed: map[types.Object]bool{}}
	var all []ast.Node
	called := map[ast.Node]bool{}
	t.Inspect(func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.FuncDecl:
			all, f.decls[t.Info.Defs[n.Name]] = append(all, n), n
		case *ast.FuncLit:
			all = append(all, n)
		case *ast.CallExpr:
			called[ast.Unparen(n.Fun)] = true
		case *ast.UnaryExpr:
			if id := tree.Root(n.X); n.Op == token.AND && id != nil {
				f.addressed[t.Info.Uses[id]] = true
			}
		}
		return true
	})
	for f.grew = true; f.grew; {
		f.grew = false
		for _, fn := range all {
			f.visit(fn)
			if lit, ok := fn.(*ast.FuncLit); ok && !called[lit] {
				f.grow(f.values, f.functions[fn])
			}
		}
		t.Inspect(func(n ast.Node) bool { // functions used as values
			if id, ok := n.(*ast.Ident); ok && !called[id] {
				f.grow(f.values, f.functions[f.decls[t.Info.Uses[id]]])
			}
			return true
		})
	}
	return f
}

func (f *effects) grow(to, more targets) {
	before := len(to)
	to.add(more)
	f.grew = f.grew || len(to) > before
}

// visit adds what fn changes outside itself.
func (f *effects) visit(fn ast.Node) {
	found := targets{}
	ast.Inspect(fn, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.FuncLit:
			return n == fn // another function has effects only where it is called
		case *ast.AssignStmt:
			for _, e := range n.Lhs {
				found[f.changed(e)] = true
			}
		case *ast.IncDecStmt:
			found[f.changed(n.X)] = true
		case *ast.RangeStmt:
			if n.Tok == token.ASSIGN {
				found[f.changed(n.Key)] = true
				found[f.changed(n.Value)] = true
			}
		case *ast.CallExpr:
			found.add(f.call(n))
		}
		return true
	})
	delete(found, nil)
	for k := range found {
		if v, ok := k.(*types.Var); ok && fn.Pos() <= v.Pos() && v.Pos() < fn.End() {
			delete(found, k) // its own
		}
	}
	if f.functions[fn] == nil {
		f.functions[fn] = targets{}
	}
	f.grow(f.functions[fn], found)
}

// changed is the place that an assignment to e changes.
func (f *effects) changed(e ast.Expr) target {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return f.changed(e.X)
	case *ast.Ident:
		if v, ok := f.tree.Info.ObjectOf(e).(*types.Var); ok {
			return v
		}
	case *ast.StarExpr:
		return memory(f.typeOf(e))
	case *ast.IndexExpr:
		if _, array := f.typeOf(e.X).Underlying().(*types.Array); array {
			return f.changed(e.X)
		}
		return memory(f.typeOf(e))
	case *ast.SelectorExpr:
		if p, ok := f.typeOf(e.X).Underlying().(*types.Pointer); ok {
			return memory(p.Elem())
		}
		return f.changed(e.X)
	}
	return nil
}

func (f *effects) typeOf(e ast.Expr) types.Type {
	if t := f.tree.Info.TypeOf(e); t != nil {
		return t
	}
	return types.Typ[types.Invalid]
}

func memory(t types.Type) target { return types.TypeString(types.Unalias(t), nil) }

// call is what a call may change, apart from its own operands' calls.
func (f *effects) call(call *ast.CallExpr) targets {
	fun := ast.Unparen(call.Fun)
	if lit, ok := fun.(*ast.FuncLit); ok {
		return f.functions[lit]
	}
	if f.tree.Info.Types[fun].IsType() {
		return nil
	}
	found := targets{}
	callee := f.tree.Callee(call)
	if id, ok := fun.(*ast.Ident); ok {
		if b, ok := f.tree.Info.Uses[id].(*types.Builtin); ok {
			if b.Name() == "copy" || b.Name() == "delete" {
				found.add(f.elements(call.Args[0]))
			}
			return found
		}
	}
	switch {
	case callee == nil:
		return f.values
	case f.decls[callee] != nil:
		found.add(f.functions[f.decls[callee]])
	case callee.Pkg() != nil && callee.Pkg().Path() == "sort":
		found.add(f.elements(call.Args[0]))
	}
	for _, a := range call.Args { // a function handed over may be called
		if _, ok := f.typeOf(a).Underlying().(*types.Signature); ok {
			found.add(f.values)
		}
	}
	return found
}

// elements is the memory of the elements of a list or map.
func (f *effects) elements(e ast.Expr) targets {
	switch t := f.typeOf(e).Underlying().(type) {
	case *types.Slice:
		return targets{memory(t.Elem()): true}
	case *types.Map:
		return targets{memory(t.Elem()): true}
	}
	return nil
}

// reads is what the one node e, without its operands, reads.
func (f *effects) reads(e ast.Expr) targets {
	found := targets{}
	switch e := e.(type) {
	case *ast.Ident:
		v, ok := f.tree.Info.Uses[e].(*types.Var)
		if !ok || v.IsField() {
			return nil
		}
		found[v] = true
		switch t := v.Type().Underlying().(type) {
		case *types.Map:
			found[memory(t.Elem())] = true // its length at least
		case *types.Struct, *types.Array:
			parts(v.Type(), found)
		default:
			if f.addressed[v] {
				parts(v.Type(), found)
			}
		}
	case *ast.StarExpr, *ast.IndexExpr:
		parts(f.typeOf(e), found)
	case *ast.SelectorExpr:
		if p, ok := f.typeOf(e.X).Underlying().(*types.Pointer); ok && !f.takesPointer(e) {
			parts(p.Elem(), found)
		}
	}
	return found
}

// takesPointer reports whether e names a method that is handed the pointer.
func (f *effects) takesPointer(e *ast.SelectorExpr) bool {
	m, ok := f.tree.Info.Uses[e.Sel].(*types.Func)
	if !ok || m.Signature().Recv() == nil {
		return false
	}
	_, pointer := m.Signature().Recv().Type().Underlying().(*types.Pointer)
	return pointer
}

// parts adds the memory of a value of type t and of all that is inside it.
func parts(t types.Type, to targets) {
	to[memory(t)] = true
	switch u := t.Underlying().(type) {
	case *types.Struct:
		for v := range u.Fields() {
			parts(v.Type(), to)
		}
	case *types.Array:
		parts(u.Elem(), to)
	}
}

// A use is a read or call with the nodes that lead to it.
type use struct {
	node ast.Expr
	path []ast.Node
}

// uses lists the expressions that pick wants, those in function literals left
// out: they are evaluated when the function is called.
func uses(exprs []ast.Expr, pick func(ast.Expr) bool) (all []use) {
	var path []ast.Node
	for _, e := range exprs {
		ast.Inspect(e, func(n ast.Node) bool {
			if n == nil {
				path = path[:len(path)-1]
				return true
			}
			if e, ok := n.(ast.Expr); ok && pick(e) {
				all = append(all, use{e, slices.Clone(path)})
			}
			if _, ok := n.(*ast.FuncLit); ok {
				return false
			}
			path = append(path, n)
			return true
		})
	}
	return all
}

// conflict finds a read in a statement's expressions that stands before a call
// which changes what it reads. Expressions under && and ||, and the operands of
// a call before the other call, have a fixed order.
func (f *effects) conflict(exprs []ast.Expr) (read, call ast.Expr) {
	calls := uses(exprs, func(e ast.Expr) bool {
		c, ok := e.(*ast.CallExpr)
		return ok && len(f.call(c)) > 0
	})
	if len(calls) == 0 {
		return nil, nil
	}
	reads := uses(exprs, func(e ast.Expr) bool { return len(f.reads(e)) > 0 })
	for _, c := range calls {
		changes := f.call(c.node.(*ast.CallExpr))
		for _, r := range reads {
			if r.node.Pos() < c.node.Pos() && !f.ordered(r, c) && overlap(f.reads(r.node), changes) {
				return r.node, c.node
			}
		}
	}
	return nil, nil
}

// ordered reports whether Go says whether read r, which stands before call c,
// comes before or after it.
func (f *effects) ordered(r, c use) bool {
	if slices.Contains(c.path, ast.Node(r.node)) {
		return true // what is read depends on the call: xs[f()]
	}
	i := 0
	for i < len(r.path) && i < len(c.path) && r.path[i] == c.path[i] {
		i++
	}
	if i > 0 {
		if b, ok := r.path[i-1].(*ast.BinaryExpr); ok && (b.Op == token.LAND || b.Op == token.LOR) {
			return true
		}
	}
	for _, n := range r.path[i:] { // an operand of a call before c
		if call, ok := n.(*ast.CallExpr); ok && f.isCall(call) {
			return true
		}
	}
	return false
}

// isCall reports whether a call is of a function, not a conversion or builtin.
func (f *effects) isCall(call *ast.CallExpr) bool {
	tv := f.tree.Info.Types[call.Fun]
	return !tv.IsType() && !tv.IsBuiltin()
}

func overlap(a, b targets) bool {
	for k := range a {
		if b[k] {
			return true
		}
	}
	return false
}

// evaluated lists the expressions that a statement evaluates together, those of
// the statements inside it left out.
func (f *effects) evaluated(s ast.Stmt) (all []ast.Expr) {
	switch s := s.(type) {
	case *ast.ExprStmt:
		return []ast.Expr{s.X}
	case *ast.ReturnStmt:
		return s.Results
	case *ast.IfStmt:
		return []ast.Expr{s.Cond}
	case *ast.ForStmt:
		if s.Cond != nil {
			return []ast.Expr{s.Cond}
		}
	case *ast.RangeStmt:
		return []ast.Expr{s.X}
	case *ast.SwitchStmt:
		if s.Tag != nil {
			return []ast.Expr{s.Tag}
		}
	case *ast.DeclStmt:
		for _, spec := range s.Decl.(*ast.GenDecl).Specs {
			if v, ok := spec.(*ast.ValueSpec); ok {
				all = append(all, v.Values...)
			}
		}
	case *ast.AssignStmt:
		for _, l := range s.Lhs {
			if s.Tok == token.ASSIGN {
				all = append(all, f.operands(l)...)
			} else if s.Tok != token.DEFINE {
				all = append(all, l)
			}
		}
		return append(all, s.Rhs...)
	}
	return all
}

// operands lists what is read to find the place of an assignment.
func (f *effects) operands(e ast.Expr) []ast.Expr {
	switch e := ast.Unparen(e).(type) {
	case *ast.StarExpr:
		return []ast.Expr{e.X}
	case *ast.IndexExpr:
		if _, array := f.typeOf(e.X).Underlying().(*types.Array); array {
			return append(f.operands(e.X), e.Index)
		}
		return []ast.Expr{e.X, e.Index}
	case *ast.SelectorExpr:
		if _, pointer := f.typeOf(e.X).Underlying().(*types.Pointer); pointer {
			return []ast.Expr{e.X}
		}
		return f.operands(e.X)
	}
	return nil
}

// order refuses a statement whose value depends on an order that Go leaves
// open.
func (r *refuser) order(s ast.Stmt) {
	read, call := r.effects.conflict(r.effects.evaluated(s))
	if call != nil {
		r.no(call, fmt.Sprintf("this call may change %s, which is read before it in the same statement: Go leaves open which comes first", r.tree.Source(read)),
			"give the result of the call a name in a statement of its own")
	}
}

package lower

import (
	"go/ast"
	"go/token"
	"go/types"

	"tautline/runner/check"
	"tautline/runner/document"
)

// refuse finds what the core cannot hold: what the interpreter gets wrong and
// what has no place in a reproducible calculation.
func refuse(p *check.Plan) []document.Diagnostic {
	r := &refuser{plan: p}
	for _, c := range p.Cells {
		for _, s := range c.Steps {
			if s.Stmt != nil {
				ast.Inspect(s.Stmt, r.visit)
			} else if s.Decl != nil {
				ast.Inspect(s.Decl, r.visit)
			}
		}
	}
	return r.diags
}

type refuser struct {
	plan  *check.Plan
	diags []document.Diagnostic
	calls map[ast.Expr]bool // selectors that are called
}

func (r *refuser) no(n ast.Node, message, hint string) bool {
	r.diags = append(r.diags, document.Diagnostic{Severity: document.Error, File: r.plan.Notebook.File,
		Range: r.plan.Range(n), Message: message, Hint: hint})
	return false
}

func (r *refuser) visit(n ast.Node) bool {
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
	case *ast.TypeSpec:
		return r.typeSpec(n)
	case *ast.StructType:
		for _, f := range n.Fields.List {
			if len(f.Names) == 0 {
				r.no(f, "a struct cannot embed a type here", "give the field a name")
			}
		}
	case *ast.RangeStmt:
		return r.rangeStmt(n)
	case *ast.ForStmt:
		if post, ok := n.Post.(*ast.AssignStmt); ok && len(post.Lhs) > 1 {
			return r.no(post, "a for statement can step only one variable", "step the other ones in the body")
		}
	case *ast.UnaryExpr:
		if n.Op == token.ARROW {
			return r.no(n, "a cell cannot use channels", "keep the values in a slice")
		}
	case *ast.BinaryExpr:
		return r.compare(n)
	case *ast.CallExpr:
		return r.call(n)
	case *ast.SelectorExpr:
		return r.selector(n)
	case ast.Expr:
		if tv := r.plan.Info.Types[n]; tv.Type != nil && tv.IsValue() {
			if b, ok := tv.Type.Underlying().(*types.Basic); ok && b.Info()&types.IsComplex != 0 {
				return r.no(n, "a cell cannot use complex numbers", "keep the real and imaginary parts apart")
			}
		}
	}
	return true
}

func (r *refuser) ident(n *ast.Ident) bool {
	switch o := r.plan.Info.Uses[n].(type) {
	case *types.Builtin:
		switch o.Name() {
		case "recover", "print", "println", "close", "complex", "real", "imag":
			return r.no(n, "a cell cannot use "+o.Name(), "")
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
	o := r.plan.Info.Defs[s.Name]
	if o == nil || s.Assign.IsValid() {
		return true
	}
	if b, ok := o.Type().Underlying().(*types.Basic); ok && b.Info()&types.IsFloat != 0 {
		return r.no(s.Name, "a cell cannot declare a number type of its own", "use a dimension of package units, such as units.Length")
	}
	return true
}

func (r *refuser) rangeStmt(n *ast.RangeStmt) bool {
	t := r.plan.Info.Types[n.X].Type
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

func (r *refuser) compare(n *ast.BinaryExpr) bool {
	if n.Op != token.EQL && n.Op != token.NEQ {
		return true
	}
	x, y := r.plan.Info.Types[n.X], r.plan.Info.Types[n.Y]
	if !x.IsNil() && !y.IsNil() && (types.IsInterface(x.Type) || types.IsInterface(y.Type)) {
		return r.no(n, "a cell cannot compare errors with ==", "use errors.Is")
	}
	return true
}

func (r *refuser) call(n *ast.CallExpr) bool {
	if r.calls == nil {
		r.calls = map[ast.Expr]bool{}
	}
	r.calls[ast.Unparen(n.Fun)] = true
	name, _ := r.plan.SheetCall(n)
	if len(n.Args) == 1 && name != "Must" {
		if _, many := r.plan.Info.Types[n.Args[0]].Type.(*types.Tuple); many {
			return r.no(n.Args[0], "several results cannot be passed on as arguments", "give them names first")
		}
	}
	return true
}

// selector refuses methods used as values and variables of packages.
func (r *refuser) selector(n *ast.SelectorExpr) bool {
	if sel := r.plan.Info.Selections[n]; sel != nil {
		if sel.Kind() != types.FieldVal && !r.calls[n] {
			return r.no(n, "a method cannot be used as a value", "wrap it: func(x …) … { return "+"v."+n.Sel.Name+"(x) }")
		}
		return true
	}
	if _, ok := r.plan.Info.Instances[n.Sel]; ok && n.Sel.Name != "Must" {
		return r.no(n, "a cell cannot use generic functions", "write the loop")
	}
	return true
}

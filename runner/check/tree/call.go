package tree

import (
	"go/ast"
	"go/types"
	"slices"
	"strings"
)

// SheetPath is the import path of the package through which cells speak to
// their report.
const SheetPath = "tautline/stdlib/sheet"

// SheetCall returns the name of the function or method when call is of package
// sheet, such as "AtMost" or "Figure.Curve".
func (t *Tree) SheetCall(call *ast.CallExpr) (string, bool) {
	f := t.Callee(call)
	if f == nil || f.Pkg() == nil || f.Pkg().Path() != SheetPath {
		return "", false
	}
	if recv := f.Signature().Recv(); recv != nil {
		return TypeName(recv.Type()) + "." + f.Name(), true
	}
	return f.Name(), true
}

// Callee returns the function or method that call calls by name, or nil.
func (t *Tree) Callee(call *ast.CallExpr) *types.Func {
	var id *ast.Ident
	switch f := ast.Unparen(call.Fun).(type) {
	case *ast.Ident:
		id = f
	case *ast.SelectorExpr:
		id = f.Sel
	case *ast.IndexExpr:
		if sel, ok := f.X.(*ast.SelectorExpr); ok {
			id = sel.Sel
		}
	}
	if id == nil {
		return nil
	}
	f, _ := t.Info.Uses[id].(*types.Func)
	return f
}

// IsTop reports whether o is a top-level name of the notebook: a variable,
// constant, function or type.
func (t *Tree) IsTop(o types.Object) bool {
	if _, isPackage := o.(*types.PkgName); isPackage || o == nil {
		return false
	}
	return o.Pkg() != nil && o.Pkg().Path() == "main" && o.Parent() == o.Pkg().Scope()
}

// classify finds the steps that only speak to the sheet: calls of package sheet,
// and calls of the library that draw on what such a call made.
func (t *Tree) classify() {
	for _, c := range t.Cells {
		for _, s := range c.Steps {
			switch stmt := s.Stmt.(type) {
			case *ast.ExprStmt:
				if call, ok := stmt.X.(*ast.CallExpr); ok {
					if _, ok := t.SheetCall(call); ok || t.draws(call) {
						s.Kind = StepSheet
					}
				}
			case *ast.AssignStmt:
				if call, ok := ast.Unparen(stmt.Rhs[0]).(*ast.CallExpr); ok {
					if name, _ := t.SheetCall(call); strings.HasPrefix(name, "New") {
						s.Kind = StepSheet
					}
				}
			}
		}
	}
}

// draws reports whether a call of the library is given a figure, a drawing or a
// rose by its name, to draw on.
func (t *Tree) draws(call *ast.CallExpr) bool {
	f := t.Callee(call)
	return f != nil && f.Pkg() != nil && f.Pkg().Path() != "main" && slices.ContainsFunc(call.Args, func(e ast.Expr) bool {
		ptr, ok := types.Unalias(t.Info.TypeOf(e)).(*types.Pointer)
		if !ok {
			return false
		}
		named, ok := types.Unalias(ptr.Elem()).(*types.Named)
		return ok && named.Obj().Pkg() != nil && named.Obj().Pkg().Path() == SheetPath
	})
}

// Root is the identifier at the root of an expression that can be assigned to,
// nil when there is none.
func Root(e ast.Expr) *ast.Ident {
	for {
		switch x := e.(type) {
		case *ast.Ident:
			return x
		case *ast.SelectorExpr:
			e = x.X
		case *ast.IndexExpr:
			e = x.X
		case *ast.ParenExpr:
			e = x.X
		case *ast.StarExpr:
			e = x.X
		case *ast.SliceExpr:
			e = x.X
		default:
			return nil
		}
	}
}

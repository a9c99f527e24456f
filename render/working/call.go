package working

import (
	"go/ast"
	"strings"

	"tautline/runner/check/tree"
	"tautline/runner/library"
)

// Documented returns the library's documentation of what a call calls, and its
// name with the package.
func (ts *Typesetter) Documented(call *ast.CallExpr) (library.Func, string) {
	f := ts.Plan.Callee(call)
	if f == nil || f.Pkg() == nil || !strings.HasPrefix(f.Pkg().Path(), "tautline/") {
		return library.Func{}, ""
	}
	name := f.Name()
	if recv := f.Signature().Recv(); recv != nil {
		name = tree.TypeName(recv.Type()) + "." + name
	}
	doc, _ := library.Doc(f.Pkg().Path(), name)
	return doc, f.Pkg().Name() + "." + name
}

// SetFrom is the expression that a name is set from; nil for the second and
// later results of one call, whose formula stands already.
func SetFrom(n *tree.Name) ast.Expr {
	if n.Value == nil && n.Step.Names[0] == n {
		return callOf(n.Step.Stmt)
	}
	return n.Value
}

// callOf is the call whose several results an assignment takes.
func callOf(s ast.Stmt) ast.Expr {
	if assign, ok := s.(*ast.AssignStmt); ok {
		return assign.Rhs[0]
	}
	return nil
}

// IsFilledLater reports whether an expression says nothing that a reader needs:
// a function stands as code, an empty list is filled by what follows.
func (ts *Typesetter) IsFilledLater(e ast.Expr) bool {
	switch e := ast.Unparen(e).(type) {
	case *ast.FuncLit:
		return true
	case *ast.CompositeLit:
		_, isList := elemType(ts.Plan.Info.TypeOf(e))
		return isList && len(e.Elts) == 0
	case *ast.CallExpr:
		id, ok := e.Fun.(*ast.Ident)
		return ok && (id.Name == "make" || id.Name == "new")
	}
	return false
}

// Calls returns the call that e is, through sheet.Must.
func (ts *Typesetter) Calls(e ast.Expr) *ast.CallExpr {
	call, ok := ast.Unparen(e).(*ast.CallExpr)
	if !ok {
		return nil
	}
	if name, _ := ts.Plan.SheetCall(call); name == "Must" {
		return ts.Calls(call.Args[0])
	}
	return call
}

// isPackage reports whether a name is a package that cells use.
func isPackage(name string) bool {
	_, ok := library.Path(name)
	return ok
}

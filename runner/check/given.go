package check

import (
	"go/ast"
)

// values notes for each top-level name the expression that it is set from, and
// whether that is a given.
func (p *Plan) values() {
	for _, n := range p.Names {
		n.Value = valueOf(n)
		n.Given = n.Value != nil && p.saysAll(n.Value)
	}
}

// valueOf is the expression that a name is set from, nil when it is one of
// several results of one call or has none.
func valueOf(n *Name) ast.Expr {
	for _, part := range parts(n.Step) {
		var values []ast.Expr
		switch part := part.(type) {
		case *ast.ValueSpec:
			values = part.Values
		case *ast.AssignStmt:
			values = part.Rhs
		}
		ids := defined(part)
		for i, id := range ids {
			if id.Name == n.Ident && len(ids) == len(values) {
				return values[i]
			}
		}
	}
	return nil
}

// saysAll reports whether e is a number that the designer chose: it reads no
// name and calls nothing but sheet.Given, sheet.PlusMinus and conversions.
func (p *Plan) saysAll(e ast.Expr) bool {
	all := true
	ast.Inspect(e, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			name, _ := p.SheetCall(n)
			all = all && (name == "Given" || name == "PlusMinus" || p.Info.Types[n.Fun].IsType())
		case *ast.CompositeLit, *ast.FuncLit:
			all = false
		case *ast.Ident:
			all = all && !p.IsTop(p.Info.Uses[n])
		}
		return all
	})
	return all
}

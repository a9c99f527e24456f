package check

import (
	"go/ast"
	"go/types"
)

// values notes for each top-level name the expression that it is set from,
// whether later statements of its cell change it, and whether it is a given.
func (p *Plan) values() {
	changed := map[types.Object]bool{}
	for _, c := range p.Cells {
		for _, s := range c.Steps {
			if s.Stmt != nil {
				for _, ch := range p.changesIn(s.Stmt) {
					changed[ch.object] = true
				}
			}
		}
	}
	for _, n := range p.Names {
		n.Value, n.Changed = valueOf(n), changed[n.Object]
		n.Given = n.Value != nil && !n.Changed && isNumeric(n.Object.Type()) && p.saysAll(n.Value)
	}
}

func isNumeric(t types.Type) bool {
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsNumeric != 0
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

package owner

import (
	"go/ast"
	"go/types"

	"tautline/runner/check/tree"
)

// values notes for each top-level name the expression that it is set from,
// whether later statements of its cell change it, and whether it is a given.
func (k *keeper) values() {
	changed := map[types.Object]bool{}
	for _, c := range k.Cells {
		for _, s := range c.Steps {
			if s.Stmt != nil {
				for _, ch := range k.changesIn(s.Stmt) {
					changed[ch.object] = true
				}
			}
		}
	}
	for _, n := range k.Names {
		n.Value, n.Changed = valueOf(n), changed[n.Object]
		n.Given = n.Value != nil && !n.Changed && tree.IsNumeric(n.Object.Type()) && k.saysAll(n.Value)
	}
}

// valueOf is the expression that a name is set from, nil when it is one of
// several results of one call or has none.
func valueOf(n *tree.Name) ast.Expr {
	for _, part := range n.Step.Parts() {
		var values []ast.Expr
		switch part := part.(type) {
		case *ast.ValueSpec:
			values = part.Values
		case *ast.AssignStmt:
			values = part.Rhs
		}
		ids := tree.Defined(part)
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
func (k *keeper) saysAll(e ast.Expr) bool {
	all := true
	ast.Inspect(e, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			name, _ := k.SheetCall(n)
			all = all && (name == "Given" || name == "PlusMinus" || k.Info.Types[n.Fun].IsType())
		case *ast.CompositeLit, *ast.FuncLit:
			all = false
		case *ast.Ident:
			all = all && !k.IsTop(k.Info.Uses[n])
		}
		return all
	})
	return all
}

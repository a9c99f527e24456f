package check

import (
	"go/ast"
	"go/token"

	"tautline/runner/document"
)

// shadows warns of a name that a block of a cell defines anew although the
// notebook has it already: in Go the block then changes its own, and the value
// that the report shows stays as it was. Functions keep their own names.
func (p *Plan) shadows() []document.Diagnostic {
	var diags []document.Diagnostic
	check := func(id *ast.Ident) {
		n := p.Names[id.Name]
		at := p.Range(id)
		if n == nil || p.Info.Defs[id] == nil || n.Range.Start.Compare(at.Start) >= 0 {
			return
		}
		diags = append(diags, document.Diagnostic{Severity: document.Warning, File: p.Notebook.File, Range: at,
			Message: id.Name + " is new in this block and hides the one set above, which stays as it is",
			Hint:    "use = to change that one, or choose another name",
			Notes:   []document.Note{{Range: n.Range, Message: n.Ident + " is set here"}}})
	}
	block := func(list []ast.Stmt) {
		for _, s := range list {
			switch s := s.(type) {
			case *ast.AssignStmt:
				for _, id := range defined(s) {
					if s.Tok == token.DEFINE {
						check(id)
					}
				}
			case *ast.DeclStmt:
				for _, spec := range s.Decl.(*ast.GenDecl).Specs {
					for _, id := range defined(spec) {
						check(id)
					}
				}
			}
		}
	}
	for _, c := range p.Cells {
		for _, s := range c.Steps {
			if s.Stmt == nil {
				continue
			}
			ast.Inspect(s.Stmt, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.FuncLit:
					return false
				case *ast.BlockStmt:
					block(n.List)
				case *ast.CaseClause:
					block(n.Body)
				}
				return true
			})
		}
	}
	return diags
}

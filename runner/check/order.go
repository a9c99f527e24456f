package check

import (
	"fmt"
	"go/ast"
	"go/types"

	"tautline/runner/document"
)

// order finds names that are read before they are set. The order of reading is
// the order of computing, so a name is set in the source before its first use;
// a function may stand anywhere, but what it reads must be set before it is
// called.
func (p *Plan) order() []document.Diagnostic {
	home := map[types.Object]*Name{}
	for _, n := range p.Names {
		home[n.Object] = n
	}
	var diags []document.Diagnostic
	bodies := p.functions()
	done := map[types.Object]bool{} // set, or reported
	for _, c := range p.Cells {
		for _, step := range c.Steps {
			for _, part := range parts(step) {
				p.reads(part, bodies, map[types.Object]bool{}, func(obj types.Object, at ast.Node, through string) {
					n := home[obj]
					if n == nil || done[obj] {
						return
					}
					done[obj] = true
					message := fmt.Sprintf("%s is used before it is set", n.Ident)
					if through != "" {
						message = fmt.Sprintf("%s reads %s before it is set", through, n.Ident)
					}
					d := p.errorAt(p.Range(at), message, "set it above this place")
					d.Notes = []document.Note{{Range: n.Range, Message: n.Ident + " is set here"}}
					diags = append(diags, d)
				})
				for _, id := range defined(part) {
					done[p.Info.Defs[id]] = true
				}
			}
		}
	}
	return diags
}

// parts is what a step computes one after the other: its statement, or the
// lines of a var or const block.
func parts(s *Step) []ast.Node {
	decl, ok := s.Stmt.(*ast.DeclStmt)
	if !ok {
		if s.Stmt == nil {
			return nil
		}
		return []ast.Node{s.Stmt}
	}
	var nodes []ast.Node
	for _, spec := range decl.Decl.(*ast.GenDecl).Specs {
		nodes = append(nodes, spec)
	}
	return nodes
}

// defined is the names that a part of a step sets.
func defined(n ast.Node) []*ast.Ident {
	switch n := n.(type) {
	case *ast.ValueSpec:
		return n.Names
	case *ast.AssignStmt:
		var ids []*ast.Ident
		for _, l := range n.Lhs {
			if id, ok := l.(*ast.Ident); ok {
				ids = append(ids, id)
			}
		}
		return ids
	}
	return nil
}

// reads calls f for every package-level variable or constant that node uses,
// also through the functions it names; at is the place in node.
func (p *Plan) reads(node ast.Node, bodies map[types.Object]*ast.FuncDecl, seen map[types.Object]bool, f func(obj types.Object, at ast.Node, through string)) {
	ast.Inspect(node, func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		if !ok {
			return true
		}
		obj := p.Info.Uses[id]
		if body := bodies[obj]; body != nil {
			if !seen[obj] && body.Body != nil {
				seen[obj] = true
				p.reads(body.Body, bodies, seen, func(obj types.Object, _ ast.Node, through string) {
					if through == "" {
						through = id.Name
					}
					f(obj, id, through)
				})
			}
			return true
		}
		if p.IsTop(obj) {
			f(obj, id, "")
		}
		return true
	})
}

// functions is every function and method that the notebook declares.
func (p *Plan) functions() map[types.Object]*ast.FuncDecl {
	found := map[types.Object]*ast.FuncDecl{}
	for _, c := range p.Cells {
		for _, f := range c.Funcs {
			found[p.Info.Defs[f.Name]] = f
		}
	}
	return found
}

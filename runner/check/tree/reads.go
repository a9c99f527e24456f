package tree

import (
	"go/ast"
	"go/types"
)

// Parts is what a step computes one after the other: its statement, or the lines
// of a var or const block.
func (s *Step) Parts() []ast.Node {
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

// Defined is the names that a part of a step sets.
func Defined(n ast.Node) []*ast.Ident {
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

// Reads calls f for every package-level variable or constant that node uses,
// also through the functions it names; at is the place in node.
func (t *Tree) Reads(node ast.Node, bodies map[types.Object]*ast.FuncDecl, seen map[types.Object]bool, f func(obj types.Object, at ast.Node, through string)) {
	ast.Inspect(node, func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		if !ok {
			return true
		}
		obj := t.Info.Uses[id]
		if body := bodies[obj]; body != nil {
			if !seen[obj] && body.Body != nil {
				seen[obj] = true
				t.Reads(body.Body, bodies, seen, func(obj types.Object, _ ast.Node, through string) {
					if through == "" {
						through = id.Name
					}
					f(obj, id, through)
				})
			}
			return true
		}
		if t.IsTop(obj) {
			f(obj, id, "")
		}
		return true
	})
}

// Functions is every function and method that the notebook declares.
func (t *Tree) Functions() map[types.Object]*ast.FuncDecl {
	found := map[types.Object]*ast.FuncDecl{}
	for _, c := range t.Cells {
		for _, f := range c.Funcs {
			found[t.Info.Defs[f.Name]] = f
		}
	}
	return found
}

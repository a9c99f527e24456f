package check

import (
	"fmt"
	"go/ast"
	"go/types"
	"slices"

	"tautline/runner/document"
)

// A change is a statement that changes a top-level variable.
type change struct {
	object types.Object
	at     ast.Node
}

// changes refuses what changes a value of another cell: a statement in the cell
// itself, in a function, or in a function of the other cell that is called from
// here. So every value is what its own cell made of it.
func (p *Plan) changes() []document.Diagnostic {
	home := map[types.Object]*Name{}
	for _, n := range p.Names {
		home[n.Object] = n
	}
	bodies := p.callable()
	var diags []document.Diagnostic
	refuse := func(c *Cell, ch change, through string) {
		n := home[ch.object]
		if n == nil || n.Cell == c.Source.Index {
			return
		}
		message := n.Ident + " belongs to another cell and cannot be changed here"
		if through != "" {
			message = fmt.Sprintf("%s changes %s, which belongs to another cell", through, n.Ident)
		}
		d := p.errorAt(p.Range(ch.at), message, "give the new value a name of its own")
		d.Notes = []document.Note{{Range: n.Range, Message: n.Ident + " is set here"}}
		diags = append(diags, d)
	}
	for _, c := range p.Cells {
		var nodes []ast.Node
		for _, s := range c.Steps {
			if s.Stmt != nil {
				nodes = append(nodes, s.Stmt)
			}
		}
		for _, n := range nodes {
			p.changesThrough(n, bodies, map[types.Object]bool{}, func(ch change, through string) { refuse(c, ch, through) })
		}
		for _, f := range c.Funcs {
			nodes = append(nodes, f)
		}
		for _, n := range nodes {
			for _, ch := range p.changesIn(n) {
				refuse(c, ch, "")
			}
		}
	}
	return diags
}

// callable is what runs when a top-level name is called: the body of a
// function, or that of the function that a variable is set to.
func (p *Plan) callable() map[types.Object]ast.Node {
	bodies := map[types.Object]ast.Node{}
	for o, f := range p.functions() {
		if f.Body != nil {
			bodies[o] = f.Body
		}
	}
	for _, n := range p.Names {
		if s, ok := n.Step.Stmt.(*ast.AssignStmt); ok && len(s.Lhs) == 1 && len(s.Rhs) == 1 {
			if f, ok := ast.Unparen(s.Rhs[0]).(*ast.FuncLit); ok {
				bodies[n.Object] = f.Body
			}
		}
	}
	return bodies
}

// changesThrough calls f for every change that a function named in node makes,
// at the place of the name.
func (p *Plan) changesThrough(node ast.Node, bodies map[types.Object]ast.Node, seen map[types.Object]bool, f func(ch change, through string)) {
	ast.Inspect(node, func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		if !ok {
			return true
		}
		o := p.Info.Uses[id]
		body := bodies[o]
		if body == nil || seen[o] {
			return true
		}
		seen[o] = true
		for _, ch := range p.changesIn(body) {
			f(change{ch.object, id}, id.Name)
		}
		p.changesThrough(body, bodies, seen, func(ch change, through string) { f(change{ch.object, id}, through) })
		return true
	})
}

// changesIn lists the changes of top-level variables that stand in a node
// itself, under any name.
func (p *Plan) changesIn(node ast.Node) []change {
	if p.aliases == nil {
		p.aliases = p.findAliases()
	}
	return slices.DeleteFunc(p.aliases.changes(node), func(ch change) bool { return !p.IsTop(ch.object) })
}

// changesItsArgument reports whether a function changes the list or map that it
// is given.
func (p *Plan) changesItsArgument(call *ast.CallExpr) bool {
	if id, ok := ast.Unparen(call.Fun).(*ast.Ident); ok {
		if b, ok := p.Info.Uses[id].(*types.Builtin); ok {
			return b.Name() == "copy" || b.Name() == "delete" || b.Name() == "clear"
		}
	}
	f := p.Callee(call)
	if f == nil || f.Pkg() == nil || f.Pkg().Path() != "sort" {
		return false
	}
	switch f.Name() {
	case "Float64s", "Ints", "Strings", "Slice", "SliceStable":
		return true
	}
	return false
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

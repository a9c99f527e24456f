package owner

import (
	"fmt"
	"go/ast"
	"go/types"
	"slices"

	"tautline/runner/check/tree"
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
func (k *keeper) changes() []document.Diagnostic {
	home := map[types.Object]*tree.Name{}
	for _, n := range k.Names {
		home[n.Object] = n
	}
	bodies := k.callable()
	var diags []document.Diagnostic
	refuse := func(c *tree.Cell, ch change, through string) {
		n := home[ch.object]
		if n == nil || n.Cell == c.Source.Index {
			return
		}
		message := n.Ident + " belongs to another cell and cannot be changed here"
		if through != "" {
			message = fmt.Sprintf("%s changes %s, which belongs to another cell", through, n.Ident)
		}
		d := k.ErrorAt(k.Range(ch.at), message, "give the new value a name of its own")
		d.Notes = []document.Note{{Range: n.Range, Message: n.Ident + " is set here"}}
		diags = append(diags, d)
	}
	for _, c := range k.Cells {
		var nodes []ast.Node
		for _, s := range c.Steps {
			if s.Stmt != nil {
				nodes = append(nodes, s.Stmt)
			}
		}
		for _, n := range nodes {
			k.changesThrough(n, bodies, map[types.Object]bool{}, func(ch change, through string) { refuse(c, ch, through) })
		}
		for _, f := range c.Funcs {
			nodes = append(nodes, f)
		}
		for _, n := range nodes {
			for _, ch := range k.changesIn(n) {
				refuse(c, ch, "")
			}
		}
	}
	return diags
}

// callable is what runs when a top-level name is called: the body of a
// function, or that of the function that a variable is set to.
func (k *keeper) callable() map[types.Object]ast.Node {
	bodies := map[types.Object]ast.Node{}
	for o, f := range k.Functions() {
		if f.Body != nil {
			bodies[o] = f.Body
		}
	}
	for _, n := range k.Names {
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
func (k *keeper) changesThrough(node ast.Node, bodies map[types.Object]ast.Node, seen map[types.Object]bool, f func(ch change, through string)) {
	ast.Inspect(node, func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		if !ok {
			return true
		}
		o := k.Info.Uses[id]
		body := bodies[o]
		if body == nil || seen[o] {
			return true
		}
		seen[o] = true
		for _, ch := range k.changesIn(body) {
			f(change{ch.object, id}, id.Name)
		}
		k.changesThrough(body, bodies, seen, func(ch change, through string) { f(change{ch.object, id}, through) })
		return true
	})
}

// changesIn lists the changes of top-level variables that stand in a node
// itself, under any name.
func (k *keeper) changesIn(node ast.Node) []change {
	return slices.DeleteFunc(k.aliases.changes(node), func(ch change) bool { return !k.IsTop(ch.object) })
}

// changesItsArgument reports whether a function changes the list or map that it
// is given.
func changesItsArgument(t *tree.Tree, call *ast.CallExpr) bool {
	if id, ok := ast.Unparen(call.Fun).(*ast.Ident); ok {
		if b, ok := t.Info.Uses[id].(*types.Builtin); ok {
			return b.Name() == "copy" || b.Name() == "delete" || b.Name() == "clear"
		}
	}
	f := t.Callee(call)
	if f == nil || f.Pkg() == nil || f.Pkg().Path() != "sort" {
		return false
	}
	switch f.Name() {
	case "Float64s", "Ints", "Strings", "Slice", "SliceStable":
		return true
	}
	return false
}

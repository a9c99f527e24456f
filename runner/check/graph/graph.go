// Package graph says what every name and every check of a notebook rests on.
package graph

import (
	"go/ast"
	"go/constant"
	"go/types"
	"slices"
	"strings"

	"tautline/runner/check/tree"
	"tautline/runner/document"
)

// A Graph says what every name and every check of a notebook rests on.
type Graph struct {
	Nodes []*Node // in the order of the source
}

// A Node is a top-level name or a check.
type Node struct {
	Label string // the name, or what is checked
	Kind  Kind
	Range document.Range
	Uses  []*Node // what it reads, in the order of the source
	site  int     // of a check: its statement
}

// Kind is the kind of a node.
type Kind int

// The kinds of nodes.
const (
	Value Kind = iota // computed
	Given             // chosen by the designer
	Check
)

// Roots lists what a node rests on in the end: the names that read no other, so
// givens and data. They come in the order of the source.
func (n *Node) Roots() []*Node {
	var found []*Node
	seen := map[*Node]bool{}
	var walk func(*Node)
	walk = func(m *Node) {
		if seen[m] {
			return
		}
		seen[m] = true
		if len(m.Uses) == 0 && m != n {
			found = append(found, m)
		}
		for _, u := range m.Uses {
			walk(u)
		}
	}
	walk(n)
	slices.SortFunc(found, func(a, b *Node) int { return a.Range.Start.Compare(b.Range.Start) })
	return found
}

// CheckAt returns the node of the check put by statement number site, with the
// text what; nil when there is none.
func (g *Graph) CheckAt(site int, what string) *Node {
	var found *Node
	for _, n := range g.Nodes {
		if n.Kind == Check && n.site == site && (found == nil || n.Label == what) {
			found = n
		}
	}
	return found
}

// Of works out the graph of a tree without errors, whose givens are known.
func Of(t *tree.Tree) *Graph {
	b := &grapher{tree: t, nodes: map[types.Object]*Node{}, locals: map[types.Object][]*Node{}, bodies: t.Functions(), graph: &Graph{}}
	for _, c := range t.Cells {
		for _, s := range c.Steps {
			b.step(s)
		}
	}
	for _, n := range b.graph.Nodes {
		slices.SortFunc(n.Uses, func(x, y *Node) int { return x.Range.Start.Compare(y.Range.Start) })
		n.Uses = slices.Compact(n.Uses)
	}
	return b.graph
}

type grapher struct {
	tree   *tree.Tree
	graph  *Graph
	nodes  map[types.Object]*Node
	locals map[types.Object][]*Node // what a variable inside a loop or block rests on
	bodies map[types.Object]*ast.FuncDecl
}

func (b *grapher) step(s *tree.Step) {
	if s.Kind == tree.StepSheet { // a figure or table is not computed from
		if s.Stmt != nil {
			b.checks(s.Stmt)
		}
		return
	}
	for _, n := range s.Names {
		kind := Value
		if n.Given {
			kind = Given
		}
		node := &Node{Label: n.Ident, Kind: kind, Range: n.Range}
		b.nodes[n.Object] = node
		b.graph.Nodes = append(b.graph.Nodes, node)
	}
	for _, part := range s.Parts() {
		read := b.reads(part)
		for _, id := range tree.Defined(part) {
			b.uses(b.nodes[b.tree.Info.Defs[id]], read)
		}
		if stmt, ok := part.(ast.Stmt); ok {
			b.flow(stmt, nil)
		}
	}
	if s.Stmt != nil {
		b.checks(s.Stmt)
	}
}

// flow follows the statements inside a loop or block, so that what each fills
// rests on what that statement reads, and on the conditions round it.
func (b *grapher) flow(s ast.Stmt, round []*Node) {
	switch s := s.(type) {
	case *ast.BlockStmt:
		for _, x := range s.List {
			b.flow(x, round)
		}
	case *ast.LabeledStmt:
		b.flow(s.Stmt, round)
	case *ast.IfStmt:
		round = b.head(round, s.Init, s.Cond)
		b.flow(s.Body, round)
		if s.Else != nil {
			b.flow(s.Else, round)
		}
	case *ast.ForStmt:
		round = b.head(round, s.Init, s.Cond)
		b.flow(s.Body, round)
	case *ast.RangeStmt:
		read := append(slices.Clone(round), b.reads(s.X)...)
		b.sets(s.Key, read)
		b.sets(s.Value, read)
		b.flow(s.Body, read)
	case *ast.SwitchStmt:
		round = b.head(round, s.Init, s.Tag)
		for _, c := range s.Body.List {
			clause := c.(*ast.CaseClause)
			for _, e := range clause.List {
				round = append(round, b.reads(e)...)
			}
			for _, x := range clause.Body {
				b.flow(x, round)
			}
		}
	case *ast.AssignStmt:
		read := append(slices.Clone(round), b.reads(s)...)
		for _, l := range s.Lhs {
			b.sets(l, read)
		}
	case *ast.IncDecStmt:
		b.sets(s.X, round)
	}
}

// head is what the statements under a condition rest on beside their own reads.
func (b *grapher) head(round []*Node, init ast.Stmt, cond ast.Expr) []*Node {
	round = slices.Clone(round)
	if init != nil {
		b.flow(init, round)
	}
	if cond != nil {
		round = append(round, b.reads(cond)...)
	}
	return round
}

// sets notes that a variable, top-level or local, rests on what was read.
func (b *grapher) sets(e ast.Expr, read []*Node) {
	if e == nil {
		return
	}
	id := tree.Root(e)
	if id == nil {
		return
	}
	o := b.tree.Info.ObjectOf(id)
	if b.tree.IsTop(o) {
		b.uses(b.nodes[o], read)
	} else if o != nil {
		b.locals[o] = append(b.locals[o], read...)
	}
}

// reads lists the nodes that a part of the program reads, also through local
// variables and functions.
func (b *grapher) reads(n ast.Node) []*Node {
	var read []*Node
	b.tree.Reads(n, b.bodies, map[types.Object]bool{}, func(o types.Object, _ ast.Node, _ string) {
		if node := b.nodes[o]; node != nil {
			read = append(read, node)
		}
	})
	ast.Inspect(n, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok {
			read = append(read, b.locals[b.tree.Info.Uses[id]]...)
		}
		return true
	})
	return read
}

func (b *grapher) uses(n *Node, read []*Node) {
	for _, r := range read {
		if n != nil && r != n {
			n.Uses = append(n.Uses, r)
		}
	}
}

// checks makes a node of each check that a statement puts on the sheet.
func (b *grapher) checks(stmt ast.Stmt) {
	site := 0
	ast.Inspect(stmt, func(n ast.Node) bool {
		if s, ok := n.(ast.Stmt); ok && b.tree.Number(s) > 0 {
			site = b.tree.Number(s)
		}
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		switch name, _ := b.tree.SheetCall(call); name {
		case "AtMost", "AtLeast", "Within", "Holds":
			node := &Node{Label: b.label(call.Args[0]), Kind: Check, Range: b.tree.Range(call), site: site}
			for _, arg := range call.Args[1:] {
				b.uses(node, b.reads(arg))
			}
			b.graph.Nodes = append(b.graph.Nodes, node)
		}
		return true
	})
}

// label is the text of a check, or its source where that is computed.
func (b *grapher) label(e ast.Expr) string {
	if v := b.tree.Info.Types[e].Value; v != nil && v.Kind() == constant.String {
		return constant.StringVal(v)
	}
	return b.tree.OneLine(e)
}

// Text lists the graph for a terminal: each name and check with what it reads
// and the givens that it rests on.
func (g *Graph) Text() string {
	var b strings.Builder
	for _, n := range g.Nodes {
		switch n.Kind {
		case Given:
			b.WriteString("given  " + n.Label + "\n")
			continue
		case Check:
			b.WriteString("check  ")
		case Value:
			b.WriteString("value  ")
		}
		b.WriteString(n.Label)
		if len(n.Uses) > 0 {
			b.WriteString("  from " + labels(n.Uses))
		}
		if roots := n.Roots(); len(roots) > 0 && !slices.Equal(roots, n.Uses) {
			b.WriteString("  rests on " + labels(roots))
		}
		b.WriteString("\n")
	}
	return b.String()
}

func labels(nodes []*Node) string {
	var names []string
	for _, n := range nodes {
		names = append(names, n.Label)
	}
	return strings.Join(names, ", ")
}

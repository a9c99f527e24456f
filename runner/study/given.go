package study

import (
	"fmt"
	"go/ast"
	"go/types"
	"slices"
	"strings"

	"tautline/runner/check"
	"tautline/runner/check/graph"
	"tautline/runner/check/tree"
	"tautline/runner/document"
	"tautline/runner/lower"
	"tautline/runner/outcome"
	"tautline/stdlib/sheet"
)

// Given returns the given called name, or why no other number can be put in its
// place and what to do.
func Given(plan *check.Plan, prog *lower.Program, name string) (*tree.Name, error) {
	n := plan.Names[name]
	if _, ok := prog.Givens[name]; ok && n != nil {
		return n, nil
	}
	switch {
	case n == nil:
		names := givens(plan, prog)
		if near, ok := document.Nearest(name, names); ok {
			return nil, fmt.Errorf("given %s: the notebook has no such name; did you mean %s?", name, near)
		}
		return nil, fmt.Errorf("given %s: the notebook has no such name; %s", name, listed(names))
	case !isFloat(n):
		return nil, fmt.Errorf("given %s: got a name of type %s, want a float: write a whole number as 8.0", name, n.Object.Type())
	case !n.Given:
		return nil, fmt.Errorf("given %s: it is computed; %s", name, restsOn(plan, prog, name))
	case isConst(n):
		return nil, fmt.Errorf("given %s: it is a constant: set it with %s := … instead", name, name)
	}
	return nil, fmt.Errorf("given %s: it is not set by a statement of its own: write %s := … on its own line", name, name)
}

func isFloat(n *tree.Name) bool {
	b, ok := n.Object.Type().Underlying().(*types.Basic)
	return ok && b.Info()&types.IsFloat != 0
}

func isConst(n *tree.Name) bool {
	_, ok := n.Object.(*types.Const)
	return ok
}

// givens lists the names that a study can vary, in the order of the notebook.
func givens(plan *check.Plan, prog *lower.Program) []string {
	var names []string
	for _, c := range plan.Cells {
		for _, n := range c.Names {
			if _, ok := prog.Givens[n.Ident]; ok {
				names = append(names, n.Ident)
			}
		}
	}
	return names
}

// restsOn says which givens a computed name rests on.
func restsOn(plan *check.Plan, prog *lower.Program, name string) string {
	var names []string
	for _, node := range plan.Graph().Nodes {
		if node.Label != name || node.Kind == graph.Check {
			continue
		}
		for _, root := range node.Roots() {
			if _, ok := prog.Givens[root.Label]; ok {
				names = append(names, root.Label)
			}
		}
	}
	if len(names) == 0 {
		return listed(givens(plan, prog))
	}
	return "choose one of the givens that it rests on: " + strings.Join(names, ", ")
}

func listed(names []string) string {
	const most = 12
	if len(names) == 0 {
		return "nor has it a given: a given is set from numbers and units alone, such as r := 300 * units.Mm"
	}
	more := ""
	if len(names) > most {
		names, more = names[:most], ", …"
	}
	return "its givens are " + strings.Join(names, ", ") + more
}

// Range returns the range in which sheet.Given says that a given may be chosen.
func Range(plan *check.Plan, out *outcome.Outcome, n *tree.Name) (low, high float64, ok bool) {
	for _, e := range stated(plan, out, n) {
		if e.Given != nil {
			low, high, ok = float64(e.Given.Low), float64(e.Given.High), true
		}
	}
	return low, high, ok
}

// stated lists the ranges and tolerances that the value of a name states.
func stated(plan *check.Plan, out *outcome.Outcome, n *tree.Name) []sheet.Entry {
	site := plan.Number(n.Step.Stmt)
	if n.Step.Stmt == nil || site == 0 {
		return nil
	}
	var entries []sheet.Entry
	for _, e := range out.Entries {
		if e.Site == site && (e.Given != nil || e.Tolerance != nil) {
			entries = append(entries, e)
		}
	}
	before := 0
	for _, other := range n.Step.Names[:slices.Index(n.Step.Names, n)] {
		before += states(plan, other.Value)
	}
	from := min(before, len(entries))
	return entries[from:min(from+states(plan, n.Value), len(entries))]
}

// states counts the ranges and tolerances that an expression states.
func states(plan *check.Plan, e ast.Expr) int {
	if e == nil {
		return 0
	}
	count := 0
	ast.Inspect(e, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok {
			if name, _ := plan.SheetCall(call); name == "Given" || name == "PlusMinus" {
				count++
			}
		}
		return true
	})
	return count
}

package check

import (
	"fmt"
	"go/ast"
	"go/types"

	"tautline/runner/check/tree"
	"tautline/runner/document"
)

// advice finds what Go allows and a reviewer would circle: a given that nothing
// uses, a name that hides a given, a check that cannot fail, and a limit that
// comes from nowhere.
func (p *Plan) advice() []document.Diagnostic {
	used := map[types.Object]bool{}
	for _, o := range p.Info.Uses {
		used[o] = true
	}
	var diags []document.Diagnostic
	warn := func(r document.Range, hint, format string, args ...any) *document.Diagnostic {
		d := p.ErrorAt(r, fmt.Sprintf(format, args...), hint)
		d.Severity = document.Warning
		diags = append(diags, d)
		return &diags[len(diags)-1]
	}
	for _, c := range p.Cells {
		for _, n := range c.Names {
			if n.Given && !used[n.Object] {
				warn(n.Range, "take it out, or use it", "%s is given and never used", n.Ident)
			}
			if holdsNumbers(n.Object.Type()) && !p.ObjectMeasure(n.Object).Known {
				warn(n.Range, "declare what it is, such as var "+n.Ident+" units.Length = …", "the dimension of %s is unknown%s", n.Ident, p.whyUnknown(n.Value))
			}
		}
	}
	p.Inspect(func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.Ident:
			given := p.Names[n.Name]
			if o := p.Info.Defs[n]; o != nil && given != nil && given.Given && o != given.Object && isVariable(o) {
				d := warn(p.Range(n), "choose another name for it here, such as "+n.Name+"Here", "%s hides the given of that name in this block", n.Name)
				d.Notes = []document.Note{{Range: given.Range, Message: n.Name + " is given here"}}
			}
		case *ast.CallExpr:
			p.adviseCheck(n, &diags, warn)
		}
		return true
	})
	return diags
}

// holdsNumbers reports whether t is a number or a list of numbers.
func holdsNumbers(t types.Type) bool {
	if s, ok := t.Underlying().(*types.Slice); ok {
		t = s.Elem()
	}
	return tree.IsNumeric(t)
}

// whyUnknown names the innermost part of an expression whose dimension is
// unknown.
func (p *Plan) whyUnknown(e ast.Expr) string {
	var part ast.Expr
	if e != nil {
		ast.Inspect(e, func(n ast.Node) bool {
			if x, ok := n.(ast.Expr); ok && p.Info.Types[x].IsValue() && holdsNumbers(p.Info.TypeOf(x)) && !p.Measure(x).Known {
				part = x
			}
			return true
		})
	}
	if part == nil {
		return ""
	}
	return ": that of " + p.OneLine(part) + " cannot be inferred"
}

func isVariable(o types.Object) bool {
	v, ok := o.(*types.Var)
	return ok && !v.IsField()
}

// limits says which arguments of a check are its limits, and where the source
// begins.
var limits = map[string][]int{"AtMost": {2}, "AtLeast": {2}, "Within": {2, 3}}

// adviseCheck finds a check that cannot fail, or whose limit has no reason.
func (p *Plan) adviseCheck(call *ast.CallExpr, diags *[]document.Diagnostic, warn func(document.Range, string, string, ...any) *document.Diagnostic) {
	name, _ := p.SheetCall(call)
	if name == "Holds" {
		if p.restsOnNothing(call.Args[1]) {
			*diags = append(*diags, p.ErrorAt(p.Range(call.Args[1]), "this check cannot fail: its condition rests on no value of the notebook",
				"check something that the notebook computes"))
		}
		return
	}
	at, ok := limits[name]
	if !ok {
		return
	}
	source := len(call.Args) > at[len(at)-1]+1
	demand := call.Args[1]
	for _, i := range at {
		limit := call.Args[i]
		switch {
		case p.sameValue(demand, limit):
			*diags = append(*diags, p.ErrorAt(p.Range(limit), "this check cannot fail: it compares a value with itself",
				"compare it with what limits it"))
		case p.restsOnNothing(limit) && p.restsOnNothing(demand):
			*diags = append(*diags, p.ErrorAt(p.Range(call), "this check cannot fail: both of its numbers are written in it",
				"check something that the notebook computes"))
			return
		case p.restsOnNothing(limit) && !source:
			warn(p.Range(limit), fmt.Sprintf("name it: sheet.%s(…, %q), or make it a given with its reason", name, "standard and clause, or the reason"),
				"this limit has no source: it rests on no given, and the check names none")
			return
		}
	}
}

// restsOnNothing reports whether an expression reads no name of the notebook and
// calls no function of the library.
func (p *Plan) restsOnNothing(e ast.Expr) bool {
	nothing := true
	ast.Inspect(e, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok {
			switch o := p.Info.Uses[id].(type) {
			case *types.Var:
				nothing = false
			case *types.Const:
				nothing = nothing && !p.IsTop(o) // a constant of the notebook has its reason where it is set
			case *types.Func:
				nothing = nothing && o.Pkg() != nil && o.Pkg().Path() == "math"
			}
		}
		return nothing
	})
	return nothing
}

// sameValue reports whether two expressions are one value: the same text, also
// through names that only rename it.
func (p *Plan) sameValue(a, b ast.Expr) bool {
	return types.ExprString(p.unrenamed(a)) == types.ExprString(p.unrenamed(b)) && !p.restsOnNothing(a)
}

// unrenamed is what e stands for when it is a name set from another name.
func (p *Plan) unrenamed(e ast.Expr) ast.Expr {
	for range len(p.Names) {
		id, ok := ast.Unparen(e).(*ast.Ident)
		if !ok {
			break
		}
		n := p.Names[id.Name]
		if n == nil || n.Object != p.Info.Uses[id] || n.Value == nil {
			break
		}
		if _, ok := ast.Unparen(n.Value).(*ast.Ident); !ok {
			break
		}
		e = n.Value
	}
	return ast.Unparen(e)
}

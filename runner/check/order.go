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
	bodies := map[types.Object]*ast.FuncDecl{}
	for _, c := range p.Cells {
		for _, f := range c.Funcs {
			bodies[p.Info.Defs[f.Name]] = f
		}
	}
	var diags []document.Diagnostic
	set := map[types.Object]bool{}
	reported := map[types.Object]bool{}
	for _, c := range p.Cells {
		for _, step := range c.Steps {
			if step.Stmt == nil {
				continue
			}
			p.reads(step.Stmt, bodies, map[types.Object]bool{}, func(obj types.Object, at ast.Node, through string) {
				n := home[obj]
				if n == nil || set[obj] || n.Step == step && p.sets(step, obj, at) || reported[obj] {
					return
				}
				reported[obj] = true
				message := fmt.Sprintf("%s is used before it is set", n.Ident)
				if through != "" {
					message = fmt.Sprintf("%s reads %s before it is set", through, n.Ident)
				}
				d := p.errorAt(p.Range(at), message, "set it above this place")
				d.Notes = []document.Note{{Range: n.Range, Message: n.Ident + " is set here"}}
				diags = append(diags, d)
			})
			for _, n := range step.Names {
				set[n.Object] = true
			}
		}
	}
	return diags
}

// sets reports whether at is where the step itself sets obj.
func (p *Plan) sets(step *Step, obj types.Object, at ast.Node) bool {
	id, ok := at.(*ast.Ident)
	return ok && p.Info.Defs[id] == obj
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
			if !seen[obj] {
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

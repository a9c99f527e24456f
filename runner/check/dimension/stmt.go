package dimension

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
)

// stmt walks a statement, giving variables their shapes.
func (d *Inference) stmt(s ast.Stmt) {
	switch s := s.(type) {
	case *ast.BlockStmt:
		for _, x := range s.List {
			d.stmt(x)
		}
	case *ast.ExprStmt:
		d.expr(s.X)
	case *ast.IncDecStmt:
		d.increment(s)
	case *ast.AssignStmt:
		d.assignment(s)
	case *ast.DeclStmt:
		d.declaration(s.Decl.(*ast.GenDecl))
	case *ast.ReturnStmt:
		d.result(s)
	case *ast.IfStmt:
		d.optional(s.Init)
		d.expr(s.Cond)
		d.stmt(s.Body)
		d.optional(s.Else)
	case *ast.ForStmt:
		d.optional(s.Init)
		d.expr(s.Cond)
		d.optional(s.Post)
		d.stmt(s.Body)
	case *ast.RangeStmt:
		d.rangeOver(s)
	case *ast.SwitchStmt:
		d.choice(s)
	case *ast.LabeledStmt:
		d.stmt(s.Stmt)
	}
}

func (d *Inference) optional(s ast.Stmt) {
	if s != nil {
		d.stmt(s)
	}
}

func (d *Inference) choice(s *ast.SwitchStmt) {
	d.optional(s.Init)
	d.expr(s.Tag)
	for _, c := range s.Body.List {
		clause := c.(*ast.CaseClause)
		for _, e := range clause.List {
			if got := d.expr(e); s.Tag != nil {
				d.assign(d.expr(s.Tag), "case", e, got)
			}
		}
		for _, x := range clause.Body {
			d.stmt(x)
		}
	}
}

func (d *Inference) increment(s *ast.IncDecStmt) {
	x := d.expr(s.X)
	if x == nil || x.scalar() != x || !x.isAngle() && equate(x.dim, term{}) {
		return
	}
	dim, ok := x.dimension()
	if !ok {
		return
	}
	text, verb, op := d.tree.OneLine(s.X), "adds the bare number 1 to", "+="
	if s.Tok == token.DEC {
		verb, op = "takes the bare number 1 from", "-="
	}
	hint := ""
	if code := unitFor(dim, false); code != "" {
		hint = fmt.Sprintf("write %s %s 1*%s, or the unit that you mean", text, op, code)
	}
	d.report(s, hint, "%s%s %s %s", text, s.Tok, verb, noun(dim))
}

// values is the shapes of n values that rhs gives.
func (d *Inference) values(rhs []ast.Expr, n int) []*shape {
	if len(rhs) == 1 && n > 1 {
		first := d.expr(rhs[0])
		if call, ok := ast.Unparen(rhs[0]).(*ast.CallExpr); ok {
			return d.results(call)
		}
		return []*shape{first} // v, ok := m[k]
	}
	var list []*shape
	for _, e := range rhs {
		list = append(list, d.initial(e))
	}
	return list
}

func (d *Inference) assignment(s *ast.AssignStmt) {
	if s.Tok != token.ASSIGN && s.Tok != token.DEFINE {
		d.compound(s)
		return
	}
	values := d.values(s.Rhs, len(s.Lhs))
	for i, l := range s.Lhs {
		if i < len(values) {
			d.set(l, s.Rhs[min(i, len(s.Rhs)-1)], values[i])
		} else {
			d.set(l, s.Rhs[0], nil)
		}
	}
}

// set gives a new variable the shape of its value, or checks the value against
// what is assigned to.
func (d *Inference) set(l ast.Expr, value ast.Expr, got *shape) {
	if id, ok := l.(*ast.Ident); ok {
		if id.Name == "_" {
			return
		}
		if o := d.tree.Info.Defs[id]; o != nil {
			d.objects[o] = d.start(got, value, o.Type())
			return
		}
		o := d.tree.Info.Uses[id]
		delete(d.axes, o) // another figure or rose
		if s := d.objects[o]; s != nil {
			d.objects[o] = s.fresh()
		}
	}
	d.assign(d.expr(l), d.tree.OneLine(l), value, got)
}

// start is the shape of a variable of a type that is first set to value. It
// stays a bare number only when value is written as one.
func (d *Inference) start(got *shape, value ast.Expr, t types.Type) *shape {
	if got == nil {
		return reading{zero: true, depth: d.depth}.shape(t)
	}
	if b, ok := t.Underlying().(*types.Basic); !ok || b.Info()&types.IsInteger != 0 || d.tree.Info.Types[value].Value == nil {
		return got.fresh()
	}
	return got
}

// compound is x += y and its like.
func (d *Inference) compound(s *ast.AssignStmt) {
	l, r := d.expr(s.Lhs[0]), d.expr(s.Rhs[0])
	text := d.tree.OneLine(s.Lhs[0])
	switch s.Tok {
	case token.ADD_ASSIGN, token.SUB_ASSIGN:
		if l.isTemperature() && r != nil && r.kind() == "TemperatureDifference" {
			return
		}
		d.assign(l, text, s.Rhs[0], r)
	case token.MUL_ASSIGN, token.QUO_ASSIGN:
		if r == nil || equate(r.dim, term{}) {
			return
		}
		dim, _ := r.dimension()
		d.report(s, "give the product a name of its own", "%s changes its dimension: %s is %s", text, d.tree.OneLine(s.Rhs[0]), noun(dim))
	}
}

func (s *shape) isTemperature() bool { return s != nil && s.kind() == "Temperature" }

func (d *Inference) declaration(g *ast.GenDecl) {
	var before *ast.ValueSpec // what a constant without a value repeats
	for _, spec := range g.Specs {
		v, ok := spec.(*ast.ValueSpec)
		if !ok {
			continue
		}
		from := v
		if g.Tok == token.CONST && len(v.Values) == 0 && before != nil {
			from = before
		}
		before = from
		values := d.values(from.Values, len(v.Names))
		for i, id := range v.Names {
			o := d.tree.Info.Defs[id]
			if o == nil || id.Name == "_" {
				continue
			}
			s := reading{zero: true, depth: d.depth}.shape(o.Type())
			if i < len(values) {
				value := from.Values[min(i, len(from.Values)-1)]
				if from.Type != nil {
					d.assign(s, id.Name, value, values[i])
				} else {
					s = d.start(values[i], value, o.Type())
				}
			}
			d.objects[o] = s
		}
	}
}

// results is the shapes of all results of a call.
func (d *Inference) results(call *ast.CallExpr) []*shape {
	d.expr(call)
	return d.calls[call]
}

func (d *Inference) result(s *ast.ReturnStmt) {
	values := d.values(s.Results, len(d.returns))
	for i, got := range values {
		if i < len(d.returns) {
			what := "result"
			if len(d.returns) > 1 {
				what = fmt.Sprintf("result %d", i+1)
			}
			d.assign(d.returns[i], what, s.Results[min(i, len(s.Results)-1)], got)
		}
	}
}

func (d *Inference) rangeOver(s *ast.RangeStmt) {
	x := d.expr(s.X)
	t := d.tree.Info.Types[s.X].Type
	d.loopVariable(s, s.Key, func() *shape {
		if m, ok := t.Underlying().(*types.Map); ok {
			return reading{depth: d.depth}.shape(m.Key())
		}
		return number()
	}())
	d.loopVariable(s, s.Value, elemOf(x))
	d.stmt(s.Body)
}

func (d *Inference) loopVariable(s *ast.RangeStmt, e ast.Expr, got *shape) {
	if e == nil {
		return
	}
	if id, ok := e.(*ast.Ident); ok && s.Tok == token.DEFINE {
		if o := d.tree.Info.Defs[id]; o != nil {
			d.objects[o] = got.fresh()
		}
		return
	}
	d.assign(d.expr(e), d.tree.OneLine(e), e, got)
}

package check

import (
	"go/ast"
	"go/token"
	"go/types"
)

// stmt walks a statement, giving variables their shapes.
func (d *dimensions) stmt(s ast.Stmt) {
	switch s := s.(type) {
	case *ast.BlockStmt:
		for _, x := range s.List {
			d.stmt(x)
		}
	case *ast.ExprStmt:
		d.expr(s.X)
	case *ast.IncDecStmt:
		d.expr(s.X)
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
		if s.Cond != nil {
			d.expr(s.Cond)
		}
		d.optional(s.Post)
		d.stmt(s.Body)
	case *ast.RangeStmt:
		d.rangeOver(s)
	case *ast.SwitchStmt:
		d.optional(s.Init)
		if s.Tag != nil {
			d.expr(s.Tag)
		}
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
	case *ast.LabeledStmt:
		d.stmt(s.Stmt)
	}
}

func (d *dimensions) optional(s ast.Stmt) {
	if s != nil {
		d.stmt(s)
	}
}

func (d *dimensions) assignment(s *ast.AssignStmt) {
	if s.Tok != token.ASSIGN && s.Tok != token.DEFINE {
		d.compound(s)
		return
	}
	var values []*shape
	at := func(i int) ast.Expr { return s.Rhs[min(i, len(s.Rhs)-1)] }
	if call, ok := ast.Unparen(s.Rhs[0]).(*ast.CallExpr); ok && len(s.Lhs) > 1 && len(s.Rhs) == 1 {
		values = d.call(call)
		if len(values) > 0 {
			d.shapes[s.Rhs[0]], d.shapes[call] = values[0], values[0]
		}
	} else {
		for _, e := range s.Rhs {
			values = append(values, d.expr(e))
		}
	}
	for i, l := range s.Lhs {
		var got *shape
		if i < len(values) {
			got = values[i]
		}
		d.set(l, at(i), got, s.Tok == token.DEFINE)
	}
}

// set gives a new variable the shape of its value, or checks the value against
// what is assigned to.
func (d *dimensions) set(l ast.Expr, value ast.Expr, got *shape, define bool) {
	id, ok := l.(*ast.Ident)
	if ok && id.Name == "_" {
		return
	}
	if ok && define {
		if o := d.plan.Info.Defs[id]; o != nil {
			d.objects[o] = got.fresh()
			return
		}
	}
	d.assign(d.expr(l), d.plan.oneLine(l), value, got)
}

// compound is x += y and its like.
func (d *dimensions) compound(s *ast.AssignStmt) {
	l, r := d.expr(s.Lhs[0]), d.expr(s.Rhs[0])
	switch s.Tok {
	case token.ADD_ASSIGN, token.SUB_ASSIGN:
		d.assign(l, d.plan.oneLine(s.Lhs[0]), s.Rhs[0], r)
	case token.MUL_ASSIGN, token.QUO_ASSIGN:
		if r != nil && r.state == certain && !r.dim.IsNumber() {
			d.report(s, "give the product a name of its own", "%s changes its dimension: %s is a %s",
				d.plan.oneLine(s.Lhs[0]), d.plan.oneLine(s.Rhs[0]), r.dim.Name())
		}
	}
}

func (d *dimensions) declaration(g *ast.GenDecl) {
	for _, spec := range g.Specs {
		v, ok := spec.(*ast.ValueSpec)
		if !ok {
			continue
		}
		for i, id := range v.Names {
			o := d.plan.Info.Defs[id]
			if o == nil || id.Name == "_" {
				continue
			}
			var s *shape
			if v.Type != nil {
				s = declared(o.Type())
			}
			if i < len(v.Values) {
				got := d.expr(v.Values[i])
				if s != nil {
					d.assign(s, id.Name, v.Values[i], got)
				} else {
					s = got.fresh()
				}
			} else if len(v.Values) == 1 {
				if call, ok := ast.Unparen(v.Values[0]).(*ast.CallExpr); ok {
					if results := d.call(call); i < len(results) {
						s = results[i].fresh()
					}
				}
			}
			d.objects[o] = s
		}
	}
}

func (d *dimensions) result(s *ast.ReturnStmt) {
	for i, e := range s.Results {
		got := d.expr(e)
		if len(s.Results) == len(d.returns) {
			d.assign(d.returns[i], "result", e, got)
		}
	}
}

func (d *dimensions) rangeOver(s *ast.RangeStmt) {
	x := d.expr(s.X)
	if id, ok := s.Key.(*ast.Ident); ok && s.Tok == token.DEFINE {
		if o := d.plan.Info.Defs[id]; o != nil {
			d.objects[o] = declared(o.Type())
			if _, isMap := d.plan.Info.Types[s.X].Type.Underlying().(*types.Map); !isMap && d.objects[o] != nil {
				d.objects[o] = number()
			}
		}
	}
	if id, ok := s.Value.(*ast.Ident); ok && s.Tok == token.DEFINE {
		if o := d.plan.Info.Defs[id]; o != nil {
			if in := elemOf(x); in != nil {
				d.objects[o] = in.fresh()
			}
		}
	}
	d.stmt(s.Body)
}

package check

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"

	"tautline/runner/document"
	"tautline/stdlib/quantity"
)

// dimensions carries dimensions through the typed tree. A shape is worked out
// from the syntax, never from the alias that go/types infers: to the compiler
// p*r is of the type of p.
type dimensions struct {
	plan    *Plan
	objects map[types.Object]*shape
	shapes  map[ast.Expr]*shape
	results map[types.Object][]*shape // of the notebook's functions
	bodies  map[types.Object]*ast.FuncDecl
	returns []*shape // results of the function being walked
	diags   []document.Diagnostic
}

func newDimensions(p *Plan) *dimensions {
	return &dimensions{plan: p, objects: map[types.Object]*shape{}, shapes: map[ast.Expr]*shape{},
		results: map[types.Object][]*shape{}, bodies: map[types.Object]*ast.FuncDecl{}}
}

// check walks every cell.
func (d *dimensions) check() []document.Diagnostic {
	for _, c := range d.plan.Cells {
		for _, f := range c.Funcs {
			d.bodies[d.plan.Info.Defs[f.Name]] = f
		}
	}
	for _, c := range d.plan.Cells {
		for _, s := range c.Steps {
			if s.Stmt != nil {
				d.stmt(s.Stmt)
			} else if f, ok := s.Decl.(*ast.FuncDecl); ok {
				d.function(d.plan.Info.Defs[f.Name])
			}
		}
	}
	return d.diags
}

func (d *dimensions) report(n ast.Node, hint, format string, args ...any) {
	d.diags = append(d.diags, d.plan.errorAt(d.plan.Range(n), fmt.Sprintf(format, args...), hint))
}

// function returns the result shapes of a function of the notebook, walking
// its body once.
func (d *dimensions) function(f types.Object) []*shape {
	if results, ok := d.results[f]; ok {
		return results
	}
	sig := f.Type().(*types.Signature)
	results := resultShapes(sig)
	d.results[f] = results // a recursive call sees what is known so far
	d.params(sig)
	d.body(d.bodies[f].Body, results)
	return results
}

func resultShapes(sig *types.Signature) []*shape {
	var results []*shape
	for v := range sig.Results().Variables() {
		results = append(results, declared(v.Type()))
	}
	return results
}

// params gives parameters their declared shapes; a plain float64 may be called
// with any dimension and is unknown.
func (d *dimensions) params(sig *types.Signature) {
	for v := range sig.Params().Variables() {
		s := declared(v.Type())
		if in := s.scalar(); in != nil && in.state == open {
			in.state = unknown
		}
		d.objects[v] = s
	}
	for v := range sig.Results().Variables() {
		d.objects[v] = declared(v.Type())
	}
}

func (d *dimensions) body(b *ast.BlockStmt, results []*shape) {
	outer := d.returns
	d.returns = results
	d.stmt(b)
	d.returns = outer
}

// object is the shape of a variable, constant or field.
func (d *dimensions) object(o types.Object) *shape {
	if s, ok := d.objects[o]; ok {
		return s
	}
	s := declared(o.Type())
	if c, ok := o.(*types.Const); ok {
		s = constantShape(c)
	}
	d.objects[o] = s
	return s
}

// constantShape is the shape of a constant of the library: its alias says it.
func constantShape(c *types.Const) *shape {
	if name, _ := unitsAlias(c.Type()); name != "" {
		return declared(c.Type())
	}
	if c.Val().Kind() == constant.Int || c.Val().Kind() == constant.Float {
		return number()
	}
	return nil
}

// expr is the shape of an expression, worked out once.
func (d *dimensions) expr(e ast.Expr) *shape {
	if s, ok := d.shapes[e]; ok {
		return s
	}
	s := d.infer(e)
	d.shapes[e] = s
	return s
}

func (d *dimensions) infer(e ast.Expr) *shape {
	switch e := e.(type) {
	case *ast.BasicLit:
		return literalShape(e)
	case *ast.Ident:
		if o := d.plan.Info.ObjectOf(e); o != nil && e.Name != "_" {
			if _, ok := o.(*types.Func); !ok && o.Type() != nil {
				return d.object(o)
			}
		}
	case *ast.ParenExpr:
		return d.expr(e.X)
	case *ast.StarExpr:
		return elemOf(d.expr(e.X))
	case *ast.UnaryExpr:
		x := d.expr(e.X)
		if e.Op == token.AND && x != nil {
			return &shape{elem: x}
		}
		return x
	case *ast.BinaryExpr:
		return d.binary(e)
	case *ast.IndexExpr:
		d.expr(e.Index)
		return elemOf(d.expr(e.X))
	case *ast.SliceExpr:
		return d.expr(e.X)
	case *ast.SelectorExpr:
		return d.selector(e)
	case *ast.CallExpr:
		if results := d.call(e); len(results) > 0 {
			return results[0]
		}
	case *ast.CompositeLit:
		return d.composite(e)
	case *ast.FuncLit:
		sig := d.plan.Info.Types[e].Type.(*types.Signature)
		d.params(sig)
		d.body(e.Body, resultShapes(sig))
	}
	return nil
}

func elemOf(s *shape) *shape {
	if s == nil {
		return nil
	}
	if s.elem == nil {
		return s
	}
	return s.elem
}

// literalShape is a number without a unit; zero fits every dimension.
func literalShape(lit *ast.BasicLit) *shape {
	v := constant.MakeFromLiteral(lit.Value, lit.Kind, 0)
	switch v.Kind() {
	case constant.Int, constant.Float:
		if constant.Sign(v) == 0 {
			return &shape{state: open}
		}
		return &shape{state: certain, bare: true}
	}
	return nil
}

func (d *dimensions) selector(e *ast.SelectorExpr) *shape {
	if sel := d.plan.Info.Selections[e]; sel != nil {
		d.expr(e.X)
		if sel.Kind() == types.FieldVal {
			return d.object(sel.Obj())
		}
		return nil
	}
	if o := d.plan.Info.Uses[e.Sel]; o != nil {
		if _, ok := o.(*types.Const); ok {
			return d.object(o)
		}
	}
	return nil
}

func (d *dimensions) binary(e *ast.BinaryExpr) *shape {
	x, y := d.expr(e.X), d.expr(e.Y)
	switch e.Op {
	case token.MUL, token.QUO:
		return product(e.Op, x, y)
	case token.ADD, token.SUB:
		if x == nil || y == nil { // texts
			return nil
		}
		if !agrees(x, y) {
			verb := "add %s and %s"
			if e.Op == token.SUB {
				verb = "take %[2]s from %[1]s"
			}
			d.unlike(e, e.X, e.Y, "cannot "+verb)
			return &shape{}
		}
		s := *firm(x, y)
		s.bare = x.bare && y.bare
		s.alias = sumAlias(e.Op, x.alias, y.alias)
		return &s
	case token.EQL, token.NEQ, token.LSS, token.LEQ, token.GTR, token.GEQ:
		if !agrees(x, y) {
			d.unlike(e, e.X, e.Y, "cannot compare %s with %s")
		}
		return nil
	case token.REM, token.SHL, token.SHR, token.AND, token.OR, token.XOR, token.AND_NOT:
		return x
	}
	return nil
}

// sumAlias names a sum or difference more closely than its dimension does: a
// temperature moved by a difference is a temperature, that between two is not.
func sumAlias(op token.Token, x, y string) string {
	const absolute, difference = "Temperature", "TemperatureDifference"
	switch {
	case x == absolute && y == absolute && op == token.SUB:
		return difference
	case x == difference || x == "":
		return y
	}
	return x
}

func product(op token.Token, x, y *shape) *shape {
	if x == nil || y == nil || x.state == unknown || y.state == unknown {
		return &shape{}
	}
	s := &shape{state: certain, bare: x.bare && y.bare}
	if op == token.MUL {
		s.dim = x.dim.Mul(y.dim)
	} else {
		s.dim = x.dim.Div(y.dim)
	}
	pure := quantity.Dimension{}
	switch { // a multiple of a thing is a thing of its kind
	case y.dim == pure:
		s.alias = x.alias
	case x.dim == pure && op == token.MUL:
		s.alias = y.alias
	}
	return s
}

// unlike reports two operands whose dimensions do not agree.
func (d *dimensions) unlike(at ast.Node, x, y ast.Expr, format string) {
	a, b := d.expr(x), d.expr(y)
	hint := ""
	switch {
	case a.bare:
		hint = writeUnit(d.plan.oneLine(x), b.dim)
	case b.bare:
		hint = writeUnit(d.plan.oneLine(y), a.dim)
	default:
		hint = forceOrMass(a.dim, b.dim)
	}
	d.report(at, hint, format, d.describe(x), d.describe(y))
}

// describe names an expression with its dimension: "p (pressure)".
func (d *dimensions) describe(e ast.Expr) string {
	text := d.plan.oneLine(e)
	s := d.expr(e).scalar()
	if s.bare {
		return "the bare number " + text
	}
	return fmt.Sprintf("%s (%s)", text, s.dim.Name())
}

// writeUnit is the hint that gives a bare number the unit it lacks.
func writeUnit(text string, want quantity.Dimension) string {
	for _, u := range quantity.Units() {
		if u.Dimension == want && u.Factor == 1 && u.Code != "" {
			return fmt.Sprintf("write %s*%s, or the unit that you mean", text, u.Code)
		}
	}
	return fmt.Sprintf("give it the unit of a %s", want.Name())
}

func forceOrMass(a, b quantity.Dimension) string {
	force, _ := quantity.OfAlias("Force")
	mass, _ := quantity.OfAlias("Mass")
	if a == force && b == mass || a == mass && b == force {
		return "a mass is not a force: its weight is mass*units.Gn"
	}
	return ""
}

// assign checks that value fits what it is assigned to.
func (d *dimensions) assign(to *shape, what string, value ast.Expr, got *shape) {
	if agrees(to, got) {
		return
	}
	want, have := to.scalar(), got.scalar()
	if have.bare {
		d.report(value, writeUnit(d.plan.oneLine(value), want.dim), "%s: got the bare number %s, want a %s", what, d.plan.oneLine(value), want.dim.Name())
		return
	}
	d.report(value, forceOrMass(want.dim, have.dim), "%s: got a %s, want a %s", what, have.dim.Name(), want.dim.Name())
}

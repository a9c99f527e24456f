// Package dimension infers what kind of quantity every number of a notebook is.
//
//	in := dimension.New(tree)
//	diags := in.Check()
//	in.Measure(expression)
//
// A walk over the typed tree carries dimensions through every expression, so that
// a sum of unlike dimensions is an error and each value has a unit to be printed
// in. What cannot be inferred is unknown, never silently right.
package dimension

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"slices"

	"tautline/runner/check/tree"
	"tautline/runner/document"
	"tautline/stdlib/quantity"
)

// An Inference carries dimensions through a typed tree. A shape is worked out
// from the syntax, never from the alias that go/types infers: to the compiler
// p*r is of the type of p.
//
// Where a number has no dimension of its own yet, a zero or a plain float64, it
// gets an unknown, which the first use that allows only one dimension binds. A
// function of plain float64 is walked once; each call then binds the unknowns
// of its parameters and results anew.
type Inference struct {
	tree    *tree.Tree
	objects map[types.Object]*shape
	shapes  map[ast.Expr]*shape
	calls   map[*ast.CallExpr][]*shape // all results
	bodies  map[types.Object]*ast.FuncDecl
	funcs   map[types.Object]*signature // of the notebook, walked or being walked
	axes    map[types.Object]*[2]*shape // of figures and roses, by the variable that holds them
	met     map[types.Object][]*shape   // of fields of structs, in the values that there are
	returns []*shape                    // results of the function being walked
	depth   int                         // of functions around what is walked
	diags   []document.Diagnostic
}

// New prepares the inference for a tree; nothing is known before Check.
func New(t *tree.Tree) *Inference {
	return &Inference{tree: t, objects: map[types.Object]*shape{}, shapes: map[ast.Expr]*shape{}, calls: map[*ast.CallExpr][]*shape{},
		bodies: map[types.Object]*ast.FuncDecl{}, funcs: map[types.Object]*signature{}, axes: map[types.Object]*[2]*shape{},
		met: map[types.Object][]*shape{}}
}

// Check walks every cell: its statements in order, a function where it is first
// called, and at the end the functions that nothing calls. Then it looks at the
// units that the title block gives to names.
func (d *Inference) Check() []document.Diagnostic {
	d.bodies = d.tree.Functions()
	for _, c := range d.tree.Cells {
		for _, s := range c.Steps {
			if s.Stmt != nil {
				d.stmt(s.Stmt)
			}
		}
	}
	for _, c := range d.tree.Cells {
		for _, f := range c.Funcs {
			d.function(d.tree.Info.Defs[f.Name])
		}
	}
	d.titleUnits()
	return d.diags
}

func (d *Inference) report(n ast.Node, hint, format string, args ...any) {
	d.diags = append(d.diags, d.tree.ErrorAt(d.tree.Range(n), fmt.Sprintf(format, args...), hint))
}

// function returns the signature of a function of the notebook, walking its
// body once; a recursive call sees what is known so far.
func (d *Inference) function(f types.Object) *signature {
	if sig, ok := d.funcs[f]; ok || d.bodies[f] == nil {
		return sig
	}
	d.depth++
	sig := d.define(f.Type().(*types.Signature))
	d.funcs[f] = sig
	d.body(d.bodies[f].Body, sig)
	d.depth--
	sig.generalise(d.depth)
	return sig
}

// define gives the parameters and results of a function of the notebook their
// shapes.
func (d *Inference) define(t *types.Signature) *signature {
	take := func(v *types.Var, zero bool) *shape {
		s := reading{zero: zero, depth: d.depth}.shape(v.Type())
		d.objects[v] = s
		return s
	}
	sig := &signature{variadic: t.Variadic()}
	if t.Recv() != nil {
		sig.recv = take(t.Recv(), false)
	}
	for v := range t.Params().Variables() {
		sig.names = append(sig.names, v.Name())
		sig.params = append(sig.params, take(v, false))
	}
	for v := range t.Results().Variables() {
		sig.results = append(sig.results, take(v, true))
	}
	return sig
}

func (d *Inference) body(b *ast.BlockStmt, sig *signature) {
	outer := d.returns
	d.returns = sig.results
	if b != nil {
		d.stmt(b)
	}
	d.returns = outer
}

// object is the shape of a variable, constant or field.
func (d *Inference) object(o types.Object) *shape {
	if s, ok := d.objects[o]; ok {
		return s
	}
	var s *shape
	if c, ok := o.(*types.Const); ok {
		s = libraryConstant(c)
	} else if o.Type() != nil {
		s = reading{zero: true}.shape(o.Type())
	}
	d.objects[o] = s
	return s
}

// libraryConstant is the shape of a constant of the library: its alias says it.
func libraryConstant(c *types.Const) *shape {
	if unitsAlias(c.Type()) != "" {
		return reading{}.shape(c.Type())
	}
	if c.Val().Kind() == constant.Int || c.Val().Kind() == constant.Float {
		return number()
	}
	return nil
}

// anything is a number that fits every dimension until it meets one.
func (d *Inference) anything(zero bool) *shape {
	return reading{zero: zero, depth: d.depth}.unknown()
}

// expr is the shape of an expression, worked out once.
func (d *Inference) expr(e ast.Expr) *shape {
	if e == nil {
		return nil
	}
	if s, ok := d.shapes[e]; ok {
		return s
	}
	s := d.infer(e)
	d.shapes[e] = s
	return s
}

func (d *Inference) infer(e ast.Expr) *shape {
	switch e := e.(type) {
	case *ast.BasicLit:
		return d.literal(e)
	case *ast.Ident:
		return d.ident(e, e)
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
		for _, i := range []ast.Expr{e.Low, e.High, e.Max} {
			d.expr(i)
		}
		return d.expr(e.X)
	case *ast.SelectorExpr:
		return d.selector(e)
	case *ast.CallExpr:
		results := d.call(e)
		d.calls[e] = results
		if len(results) > 0 {
			return results[0]
		}
	case *ast.CompositeLit:
		return d.composite(e)
	case *ast.FuncLit:
		sig := d.define(d.tree.Info.Types[e].Type.(*types.Signature))
		d.body(e.Body, sig)
		return &shape{fn: sig}
	}
	return nil
}

// initial is the shape of what a new variable is set to. A function set so may
// be called with other dimensions each time.
func (d *Inference) initial(e ast.Expr) *shape {
	if _, ok := ast.Unparen(e).(*ast.FuncLit); !ok {
		return d.expr(e)
	}
	d.depth++
	s := d.expr(e)
	d.depth--
	s.fn.generalise(d.depth)
	return s
}

// elemOf is the shape of what a list or pointer holds. A pointer to a list is
// indexed as the list is.
func elemOf(s *shape) *shape {
	if s == nil || s.elem == nil {
		return s
	}
	return s.elem
}

// literal is a number without a unit; zero fits every dimension.
func (d *Inference) literal(lit *ast.BasicLit) *shape {
	tv := d.tree.Info.Types[lit]
	if tv.Value == nil || tv.Value.Kind() != constant.Int && tv.Value.Kind() != constant.Float {
		return nil
	}
	if b, ok := tv.Type.Underlying().(*types.Basic); ok && b.Info()&types.IsInteger == 0 && constant.Sign(tv.Value) == 0 {
		return d.anything(true)
	}
	return &shape{bare: true}
}

// ident is the shape of what id names; e is the expression that does.
func (d *Inference) ident(id *ast.Ident, e ast.Expr) *shape {
	o := d.tree.Info.ObjectOf(id)
	switch o := o.(type) {
	case *types.Func:
		if sig := d.function(o); sig != nil {
			return &shape{fn: instance{map[*unknown]*unknown{}, d.depth}.signature(sig)}
		}
		return reading{depth: d.depth}.shape(o.Type())
	case *types.Const:
		s := d.object(o)
		if s != nil && o.Pkg() != nil && o.Pkg().Path() == "math" && (o.Name() == "MaxFloat64" || o.Name() == "SmallestNonzeroFloat64") {
			return d.anything(true) // the ends of all numbers, whatever their unit
		}
		if v := d.tree.Info.Types[e].Value; s != nil && v != nil && s.dim.lone() != nil && v.Kind() != constant.String {
			return d.anything(true) // a constant 0
		}
		return s
	case *types.Var:
		s := d.object(o)
		if s != nil && s.fn != nil {
			return instance{map[*unknown]*unknown{}, d.depth}.shape(s)
		}
		return s
	}
	return nil
}

func (d *Inference) selector(e *ast.SelectorExpr) *shape {
	sel := d.tree.Info.Selections[e]
	if sel == nil {
		return d.ident(e.Sel, e)
	}
	in := d.expr(e.X)
	if sel.Kind() != types.FieldVal {
		return nil
	}
	for _, i := range sel.Index() {
		if in != nil && in.fields == nil {
			in = in.elem // a pointer to the struct
		}
		if in == nil || in.fields == nil {
			return d.object(sel.Obj())
		}
		in = in.fields[i]
	}
	if in == nil {
		return d.object(sel.Obj())
	}
	d.meet(sel.Obj(), in)
	return in
}

// meet remembers the shape that a field has in one value.
func (d *Inference) meet(field types.Object, s *shape) {
	if !slices.Contains(d.met[field], s) {
		d.met[field] = append(d.met[field], s)
	}
}

// Measure returns what kind of quantity a numeric expression is, or the
// elements of a list of numbers.
func (d *Inference) Measure(e ast.Expr) Measure { return d.expr(e).measure() }

// ObjectMeasure is Measure for a variable, constant or struct field. A field
// that holds different ones in different values is unknown.
func (d *Inference) ObjectMeasure(o types.Object) Measure {
	if len(d.met[o]) == 0 {
		return d.object(o).measure()
	}
	m := d.met[o][0].measure()
	for _, s := range d.met[o][1:] {
		if other := s.measure(); other.Known != m.Known || !other.Dimension.Equal(m.Dimension) {
			return Measure{}
		}
	}
	return m
}

func (d *Inference) binary(e *ast.BinaryExpr) *shape {
	x, y := d.expr(e.X), d.expr(e.Y)
	switch e.Op {
	case token.MUL, token.QUO:
		d.settle(e.X, x)
		d.settle(e.Y, y)
		return product(e.Op, x, y)
	case token.ADD, token.SUB:
		verb := "cannot add %s and %s"
		if e.Op == token.SUB {
			verb = "cannot take %[2]s from %[1]s"
		}
		if s := d.same(e, e.X, e.Y, verb); s != nil {
			s.alias = sumAlias(e.Op, x.kind(), y.kind())
			return s
		}
	case token.EQL, token.NEQ, token.LSS, token.LEQ, token.GTR, token.GEQ:
		const format = "cannot compare %s with %s"
		if x != nil && y != nil && x.elem != nil && !d.agree(x, y, e) {
			d.unlike(e, e.X, e.Y, format)
		} else if d.same(e, e.X, e.Y, format) != nil && confusions[[2]string{x.kind(), y.kind()}] != "" {
			d.unlike(e, e.X, e.Y, format)
		}
	case token.REM, token.SHL, token.SHR, token.AND, token.OR, token.XOR, token.AND_NOT:
		return x.fresh()
	}
	return nil
}

// settle makes a constant zero in a product a pure number: 0*units.M is a
// length.
func (d *Inference) settle(e ast.Expr, s *shape) {
	if d.tree.Info.Types[e].Value != nil && s != nil && s.dim.lone() != nil {
		equate(s.dim, term{})
	}
}

// agree is agrees that remembers at as what bound the unknowns in a and b.
func (d *Inference) agree(a, b *shape, at ast.Node) bool {
	open := [...]*unknown{a.open(), b.open()}
	ok := agrees(a, b)
	for _, u := range open {
		if u != nil && u.is != nil {
			u.from = at
		}
	}
	return ok
}

// same checks that x and y are of one dimension and returns its shape, nil for
// what are no numbers.
func (d *Inference) same(at ast.Node, x, y ast.Expr, format string) *shape {
	a, b := d.expr(x), d.expr(y)
	if a == nil || b == nil || a.scalar() != a || b.scalar() != b {
		return nil
	}
	if a.bare && b.isAngle() || b.bare && a.isAngle() || !d.agree(a, b, at) {
		d.unlike(at, x, y, format)
		return d.anything(false)
	}
	s := &shape{dim: a.dim, alias: a.alias, bare: a.bare && b.bare}
	if a.bare || b.isAngle() { // the other says more
		s.dim, s.alias = b.dim, b.alias
	}
	return s
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
	if x == nil || y == nil {
		return nil
	}
	s := &shape{bare: x.bare && y.bare}
	if op == token.MUL {
		s.dim = x.dim.times(y.dim)
	} else {
		s.dim = x.dim.over(y.dim)
	}
	pure := quantity.Dimension{}
	switch a, b := x.dim, y.dim; { // a multiple of a thing is a thing of its kind
	case b.base == pure && len(b.unknowns) == 0:
		s.alias = x.kind()
	case a.base == pure && len(a.unknowns) == 0 && op == token.MUL:
		s.alias = y.kind()
	}
	return s
}

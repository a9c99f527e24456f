package check

import (
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"

	"tautline/stdlib/quantity"
)

// call returns the shapes of a call's results and checks its arguments.
func (d *dimensions) call(e *ast.CallExpr) []*shape {
	info := d.plan.Info
	if tv := info.Types[e.Fun]; tv.IsType() {
		return []*shape{d.conversion(e, tv.Type)}
	}
	if id, ok := ast.Unparen(e.Fun).(*ast.Ident); ok {
		if b, ok := info.Uses[id].(*types.Builtin); ok {
			return []*shape{d.builtin(e, b.Name())}
		}
	}
	f := d.plan.Callee(e)
	if f != nil && f.Pkg() != nil && f.Pkg().Path() == "math" {
		return d.math(e, f.Name())
	}
	if f == nil {
		d.expr(e.Fun)
	} else if sel, ok := ast.Unparen(e.Fun).(*ast.SelectorExpr); ok && f.Signature().Recv() != nil {
		d.expr(sel.X)
	}
	if name, _ := d.plan.SheetCall(e); name == "Must" {
		return d.must(e)
	}
	sig, ok := info.Types[e.Fun].Type.Underlying().(*types.Signature)
	if !ok {
		return nil
	}
	same := &shape{state: open}
	d.arguments(e, sig, f, same)
	if f != nil && d.bodies[f] != nil {
		return d.function(f)
	}
	var results []*shape
	for v := range sig.Results().Variables() {
		s := declared(v.Type())
		if name, list := unitsAlias(v.Type()); name == "Same" {
			if s = same; list {
				s = &shape{elem: same}
			}
		} else if in := s.scalar(); in != nil && in.state == open {
			in.state = unknown // a function value that says only float64
		}
		results = append(results, s)
	}
	return results
}

// must is sheet.Must(f(…)): the first result of f.
func (d *dimensions) must(e *ast.CallExpr) []*shape {
	for _, a := range e.Args {
		d.expr(a)
	}
	if inner, ok := ast.Unparen(e.Args[0]).(*ast.CallExpr); ok {
		return []*shape{d.expr(inner)}
	}
	return []*shape{d.expr(e.Args[0])}
}

// arguments checks each argument against its parameter.
func (d *dimensions) arguments(e *ast.CallExpr, sig *types.Signature, f *types.Func, same *shape) {
	for i, arg := range e.Args {
		got := d.expr(arg)
		param := sig.Params().At(min(i, sig.Params().Len()-1))
		t := param.Type()
		if sig.Variadic() && i >= sig.Params().Len()-1 && !e.Ellipsis.IsValid() {
			t = t.(*types.Slice).Elem()
		}
		want := declared(t)
		switch name, list := unitsAlias(t); {
		case name == "Any":
			continue
		case name == "Same":
			if want = same; list {
				want = &shape{elem: same}
			}
		default:
			if in := want.scalar(); in != nil && in.state == open {
				continue // a plain float64 takes any dimension
			}
		}
		what := param.Name()
		if f != nil {
			what = f.Name() + ": " + what
		}
		if want != nil && got != nil && want.dim.IsNumber() && want.dim != (quantity.Dimension{}) && got.bare {
			d.report(arg, "write "+d.plan.oneLine(arg)+"*units.Deg (or *units.Rad)", "%s is an angle, got the bare number %s", what, d.plan.oneLine(arg))
			continue
		}
		d.assign(want, what, arg, got)
	}
}

func (d *dimensions) conversion(e *ast.CallExpr, t types.Type) *shape {
	got, want := d.expr(e.Args[0]), declared(t)
	if want == nil || got == nil {
		return want
	}
	name, _ := unitsAlias(t)
	if name == "" { // float64(x) and int(x) keep the dimension
		return got.fresh()
	}
	if got.state == certain && !got.bare {
		d.assign(want, "conversion to "+name, e.Args[0], got)
	}
	return want
}

func (d *dimensions) builtin(e *ast.CallExpr, name string) *shape {
	switch name {
	case "len", "cap":
		d.expr(e.Args[0])
		return number()
	case "make", "new":
		for _, a := range e.Args[1:] {
			d.expr(a)
		}
		s := declared(d.plan.Info.Types[e.Args[0]].Type)
		if name == "new" && s != nil {
			return &shape{elem: s}
		}
		return s
	case "append":
		list := d.expr(e.Args[0])
		if list == nil || list.elem == nil {
			list = &shape{elem: &shape{state: open}}
		}
		for _, a := range e.Args[1:] {
			got := d.expr(a)
			if e.Ellipsis.IsValid() {
				d.assign(list, "append", a, got)
			} else {
				d.assign(list.elem, "append", a, got)
			}
		}
		return list
	case "min", "max":
		return d.alike(e, name)
	}
	for _, a := range e.Args {
		d.expr(a)
	}
	return nil
}

// alike checks that all arguments have one dimension, which is the result's.
func (d *dimensions) alike(e *ast.CallExpr, name string) *shape {
	first := d.expr(e.Args[0])
	result := first
	for _, a := range e.Args[1:] {
		s := d.expr(a)
		if !agrees(first, s) {
			d.unlike(a, e.Args[0], a, name+" of %s and %s")
			return &shape{}
		}
		result = firm(result, s)
	}
	return result.fresh()
}

// math returns the results of a function of package math, by its kind.
func (d *dimensions) math(e *ast.CallExpr, name string) []*shape {
	for _, a := range e.Args {
		d.expr(a)
	}
	angle, _ := quantity.OfAlias("Angle")
	one := func(s *shape) []*shape { return []*shape{s} }
	x := d.expr(e.Args[0])
	switch name {
	case "Sqrt":
		return one(power(x, quantity.Frac(1, 2)))
	case "Cbrt":
		return one(power(x, quantity.Frac(1, 3)))
	case "Pow":
		return one(d.pow(e))
	case "Abs", "Ceil", "Floor", "Round", "RoundToEven", "Trunc":
		return one(x.fresh())
	case "Max", "Min", "Hypot", "Dim", "Mod", "Remainder", "Copysign", "Nextafter":
		return one(d.alike(e, "math."+name))
	case "Atan2":
		d.alike(e, "math.Atan2")
		return one(known(angle))
	case "Asin", "Acos", "Atan":
		d.wantNumber(e, name)
		return one(known(angle))
	case "Sin", "Cos", "Tan", "Sincos":
		if x != nil && x.bare {
			text := d.plan.oneLine(e.Args[0])
			d.report(e.Args[0], "write "+text+"*units.Deg (or *units.Rad)", "math.%s takes an angle, got the bare number %s", name, text)
		} else {
			d.wantNumber(e, name)
		}
		return []*shape{number(), number()}
	case "FMA":
		p := product(token.MUL, x, d.expr(e.Args[1]))
		return one(p)
	case "Inf", "NaN":
		return one(&shape{state: open})
	case "IsNaN", "IsInf", "Signbit":
		return nil
	case "Modf":
		return []*shape{x.fresh(), x.fresh()}
	}
	d.wantNumber(e, name) // exponentials, logarithms, special functions
	return []*shape{number(), number()}
}

// wantNumber checks that every argument of a function of package math is a
// pure number or an angle.
func (d *dimensions) wantNumber(e *ast.CallExpr, name string) {
	for _, a := range e.Args {
		if s := d.expr(a); s != nil && s.state == certain && !s.dim.IsNumber() {
			d.report(a, "divide by a quantity of the same dimension first", "math.%s of a %s: want a pure number", name, s.dim.Name())
		}
	}
}

func (d *dimensions) pow(e *ast.CallExpr) *shape {
	base, exponent := d.expr(e.Args[0]), e.Args[1]
	d.wantExponent(exponent)
	if base == nil || base.state == unknown {
		return &shape{}
	}
	tv := d.plan.Info.Types[exponent]
	if tv.Value != nil {
		v, _ := constant.Float64Val(tv.Value)
		if r, ok := quantity.RatOf(v); ok {
			return power(base, r)
		}
	}
	if base.state == certain && !base.dim.IsNumber() {
		d.report(e, "raise a ratio to the power, or use a constant exponent", "power of a %s with an exponent that is not a constant fraction", base.dim.Name())
		return &shape{}
	}
	return number()
}

func (d *dimensions) wantExponent(e ast.Expr) {
	if s := d.expr(e); s != nil && s.state == certain && !s.dim.IsNumber() {
		d.report(e, "", "exponent: got a %s, want a pure number", s.dim.Name())
	}
}

func power(s *shape, r quantity.Rat) *shape {
	if s == nil || s.state == unknown {
		return &shape{}
	}
	return &shape{state: s.state, dim: s.dim.Pow(r)}
}

// composite checks the elements of a literal.
func (d *dimensions) composite(e *ast.CompositeLit) *shape {
	t := d.plan.Info.Types[e].Type
	if ptr, ok := t.Underlying().(*types.Pointer); ok {
		t = ptr.Elem()
	}
	if st, ok := t.Underlying().(*types.Struct); ok {
		for i, el := range e.Elts {
			field, value := fieldOf(st, i), el
			if kv, ok := el.(*ast.KeyValueExpr); ok {
				field, value = d.plan.Info.Uses[kv.Key.(*ast.Ident)].(*types.Var), kv.Value
			}
			d.assign(d.object(field), TypeName(t)+"."+field.Name(), value, d.expr(value))
		}
		return nil
	}
	s := declared(t)
	for _, el := range e.Elts {
		if kv, ok := el.(*ast.KeyValueExpr); ok {
			d.expr(kv.Key)
			el = kv.Value
		}
		got := d.expr(el)
		if s != nil {
			d.assign(s.elem, "element", el, got)
		}
	}
	return s
}

func fieldOf(st *types.Struct, i int) *types.Var { return st.Field(i) }

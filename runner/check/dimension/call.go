package dimension

import (
	"fmt"
	"go/ast"
	"go/types"
)

// call returns the shapes of a call's results and checks its arguments.
func (d *Inference) call(e *ast.CallExpr) []*shape {
	info := d.tree.Info
	if tv := info.Types[e.Fun]; tv.IsType() {
		return []*shape{d.conversion(e, tv.Type)}
	}
	if id, ok := ast.Unparen(e.Fun).(*ast.Ident); ok {
		if b, ok := info.Uses[id].(*types.Builtin); ok {
			return []*shape{d.builtin(e, b.Name())}
		}
	}
	f := d.tree.Callee(e)
	if f != nil && f.Pkg() != nil && f.Pkg().Path() == "math" {
		return d.math(e, f.Name())
	}
	name, _ := d.tree.SheetCall(e)
	if name == "Must" {
		return d.must(e)
	}
	sig := d.signature(e, f)
	if sig == nil {
		for _, arg := range e.Args {
			d.expr(arg)
		}
		return nil
	}
	before := len(d.diags)
	d.arguments(e, sig, f)
	if name == "AtMost" || name == "AtLeast" || name == "Within" {
		d.mayLackUnits(e, d.diags[before:])
	}
	if axes := axesOf[name]; axes != nil {
		d.onAxes(e, axes)
	}
	return sig.results
}

// signature is what the called function takes and gives in this call.
func (d *Inference) signature(e *ast.CallExpr, f *types.Func) *signature {
	if f == nil {
		if s := d.expr(e.Fun); s != nil {
			return s.fn
		}
		return nil
	}
	sig := d.function(f)
	if sig != nil {
		sig = instance{map[*unknown]*unknown{}, d.depth}.signature(sig)
	} else {
		sig = reading{depth: d.depth, same: &unknown{zero: true, depth: d.depth}}.signature(f.Signature(), nesting)
	}
	sel, ok := ast.Unparen(e.Fun).(*ast.SelectorExpr)
	if !ok || d.tree.Info.Selections[sel] == nil {
		return sig
	}
	if d.tree.Info.Selections[sel].Kind() == types.MethodExpr { // T.m(t, x)
		sig.params = append([]*shape{sig.recv}, sig.params...)
		sig.names = append([]string{"receiver"}, sig.names...)
		return sig
	}
	recv, got := pointee(sig.recv, f.Signature().Recv().Type()), pointee(d.expr(sel.X), d.tree.Info.Types[sel.X].Type)
	d.assign(recv, fmt.Sprintf("%s: a number in %s", f.Name(), d.tree.OneLine(sel.X)), sel.X, got)
	return sig
}

// pointee is the shape of a value of type t, or of what it points to.
func pointee(s *shape, t types.Type) *shape {
	if _, ok := t.Underlying().(*types.Pointer); ok && s != nil {
		return s.elem
	}
	return s
}

// must is sheet.Must(f(…)): the first result of f.
func (d *Inference) must(e *ast.CallExpr) []*shape {
	for _, a := range e.Args {
		d.expr(a)
	}
	return []*shape{d.expr(e.Args[0])}
}

// arguments checks each argument against its parameter.
func (d *Inference) arguments(e *ast.CallExpr, sig *signature, f *types.Func) {
	if len(e.Args) == 1 && len(sig.params) > 1 && !sig.variadic {
		d.expr(e.Args[0]) // f(g()): the results of g one by one
		return
	}
	called := d.tree.OneLine(e.Fun)
	if f != nil {
		called = f.Name()
	}
	last := len(sig.params) - 1
	d.bareLast(e.Args, func(i int, arg ast.Expr, got *shape) {
		at := min(i, last)
		if at < 0 {
			return
		}
		want := sig.params[at]
		if sig.variadic && at == last && !e.Ellipsis.IsValid() {
			want = elemOf(want)
		}
		name := sig.names[at]
		if name == "" || name == "_" {
			name = fmt.Sprintf("argument %d", i+1)
		}
		d.assign(want, called+": "+name, arg, got)
	})
}

// bareLast calls f for every expression, for bare numbers last: where all must
// be alike, it is the bare ones that lack something.
func (d *Inference) bareLast(list []ast.Expr, f func(i int, e ast.Expr, got *shape)) {
	for _, bare := range []bool{false, true} {
		for i, e := range list {
			if got := d.expr(e); got.isBare() == bare {
				f(i, e, got)
			}
		}
	}
}

// An onAxis says which argument of a method goes on which axis of the picture.
type onAxis struct {
	axis, arg int
	name      string
}

var axesOf = map[string][]onAxis{
	"Figure.Curve":  {{0, 1, "x axis of figure"}, {1, 2, "y axis of figure"}},
	"Figure.Mark":   {{0, 1, "x axis of figure"}, {1, 2, "y axis of figure"}},
	"Figure.LimitX": {{0, 1, "x axis of figure"}},
	"Figure.LimitY": {{1, 1, "y axis of figure"}},
	"Rose.Curve":    {{0, 2, "values of rose"}},
	"Rose.Limit":    {{0, 1, "values of rose"}},
}

// onAxes checks that all that is put on an axis of a figure or a rose has one
// dimension.
func (d *Inference) onAxes(e *ast.CallExpr, axes []onAxis) {
	sel, ok := ast.Unparen(e.Fun).(*ast.SelectorExpr)
	if !ok {
		return
	}
	holder, ok := ast.Unparen(sel.X).(*ast.Ident)
	if !ok {
		return
	}
	o := d.tree.Info.ObjectOf(holder)
	if d.axes[o] == nil {
		d.axes[o] = &[2]*shape{d.anything(true), d.anything(true)}
	}
	for _, a := range axes {
		if got := d.expr(e.Args[a.arg]).scalar(); got != nil {
			d.assign(d.axes[o][a.axis], a.name+" "+holder.Name, e.Args[a.arg], got)
		}
	}
}

// conversion is T(x). One to a dimension gives a bare number its unit; one to
// a whole number cuts off a fraction, so it needs a count.
func (d *Inference) conversion(e *ast.CallExpr, t types.Type) *shape {
	arg := e.Args[0]
	got := d.expr(arg)
	want := reading{depth: d.depth}.shape(t)
	if got == nil || want == nil {
		return want
	}
	b, basic := t.Underlying().(*types.Basic)
	switch {
	case basic && b.Info()&types.IsInteger != 0:
		d.wantNumber(arg, b.Name())
		return number()
	case unitsAlias(t) != "":
		if !got.bare {
			d.assign(want, "conversion to "+unitsAlias(t), arg, got)
		}
	case basic: // float64(x) keeps the dimension
		return got.fresh()
	default:
		d.assign(want, "conversion", arg, got)
	}
	return want
}

func (d *Inference) builtin(e *ast.CallExpr, name string) *shape {
	switch name {
	case "len", "cap":
		d.expr(e.Args[0])
		return number()
	case "make", "new":
		for _, a := range e.Args[1:] {
			d.expr(a)
		}
		s := reading{zero: true, depth: d.depth}.shape(d.tree.Info.Types[e.Args[0]].Type)
		if name == "new" && s != nil {
			return &shape{elem: s}
		}
		return s
	case "append":
		list := d.expr(e.Args[0])
		if list == nil { // append(nil, …), or a list of what has no shape
			list = reading{zero: true, depth: d.depth}.shape(d.tree.Info.Types[e].Type)
		}
		for _, a := range e.Args[1:] {
			got := d.expr(a)
			if e.Ellipsis.IsValid() {
				d.assign(list, "append", a, got)
			} else {
				d.assign(elemOf(list), "append", a, got)
			}
		}
		return list
	case "copy":
		d.assign(d.expr(e.Args[0]), "copy", e.Args[1], d.expr(e.Args[1]))
		return number()
	case "min", "max":
		return d.alike(e, name)
	}
	for _, a := range e.Args {
		d.expr(a)
	}
	return nil
}

// alike checks that all arguments have one dimension, which is the result's.
func (d *Inference) alike(e *ast.CallExpr, name string) *shape {
	var first ast.Expr
	result, reported := d.expr(e.Args[0]), len(d.diags)
	d.bareLast(e.Args, func(_ int, arg ast.Expr, got *shape) {
		if first == nil {
			first, result = arg, got
		} else if s := d.same(arg, first, arg, name+" of %s and %s"); s != nil && !got.isBare() {
			result = s
		}
	})
	if len(d.diags) > reported {
		return d.anything(false)
	}
	return result.fresh()
}

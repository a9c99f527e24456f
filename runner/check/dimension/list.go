package dimension

import (
	"fmt"
	"go/ast"
	"go/types"

	"tautline/runner/check/tree"
)

// composite checks the elements of a literal.
func (d *Inference) composite(e *ast.CompositeLit) *shape {
	t := d.tree.Info.Types[e].Type
	if ptr, ok := t.Underlying().(*types.Pointer); ok {
		t = ptr.Elem()
	}
	if st, ok := t.Underlying().(*types.Struct); ok {
		return d.fields(e, t, st)
	}
	s := reading{zero: true, depth: d.depth}.shape(t)
	values, names := make([]ast.Expr, len(e.Elts)), make([]string, len(e.Elts))
	for i, el := range e.Elts {
		values[i], names[i] = el, fmt.Sprintf("element %d", i+1)
		if kv, ok := el.(*ast.KeyValueExpr); ok {
			d.expr(kv.Key)
			values[i], names[i] = kv.Value, "element "+d.tree.OneLine(kv.Key)
		}
	}
	d.bareLast(values, func(i int, value ast.Expr, got *shape) {
		if s == nil {
			return
		}
		before := len(d.diags)
		d.assign(s.elem, names[i], value, got)
		if len(d.diags) > before && !got.isBare() && s.elem.inferred() != nil {
			d.diags[len(d.diags)-1].Hint = "keep unlike quantities in a struct, a field for each"
		}
	})
	return s
}

// fields checks the fields of a struct literal.
func (d *Inference) fields(e *ast.CompositeLit, t types.Type, st *types.Struct) *shape {
	s := reading{zero: true, depth: d.depth}.shape(t)
	index := map[types.Object]int{}
	for i := range st.NumFields() {
		index[st.Field(i)] = i
	}
	for i, value := range e.Elts {
		if kv, ok := value.(*ast.KeyValueExpr); ok {
			i, value = index[d.tree.Info.Uses[kv.Key.(*ast.Ident)]], kv.Value
		}
		field := st.Field(i)
		want := d.object(field)
		if s != nil && s.fields[i] != nil {
			want = s.fields[i]
			d.meet(field, want)
		}
		what := field.Name()
		if _, named := types.Unalias(t).(*types.Named); named {
			what = tree.TypeName(t) + "." + what
		}
		d.assign(want, what, value, d.expr(value))
	}
	return s
}

package check

import (
	"fmt"
	"go/ast"
	"go/types"
)

// composite checks the elements of a literal.
func (d *dimensions) composite(e *ast.CompositeLit) *shape {
	t := d.plan.Info.Types[e].Type
	if ptr, ok := t.Underlying().(*types.Pointer); ok {
		t = ptr.Elem()
	}
	if st, ok := t.Underlying().(*types.Struct); ok {
		d.fields(e, t, st)
		return nil
	}
	s := reading{zero: true, depth: d.depth}.shape(t)
	values, names := make([]ast.Expr, len(e.Elts)), make([]string, len(e.Elts))
	for i, el := range e.Elts {
		values[i], names[i] = el, fmt.Sprintf("element %d", i+1)
		if kv, ok := el.(*ast.KeyValueExpr); ok {
			d.expr(kv.Key)
			values[i], names[i] = kv.Value, "element "+d.plan.oneLine(kv.Key)
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

func (d *dimensions) fields(e *ast.CompositeLit, t types.Type, st *types.Struct) {
	for i, el := range e.Elts {
		if kv, ok := el.(*ast.KeyValueExpr); ok {
			field, _ := d.plan.Info.Uses[kv.Key.(*ast.Ident)].(*types.Var)
			d.field(t, field, kv.Value)
		} else {
			d.field(t, st.Field(i), el)
		}
	}
}

func (d *dimensions) field(t types.Type, field *types.Var, value ast.Expr) {
	what := field.Name()
	if _, named := types.Unalias(t).(*types.Named); named {
		what = TypeName(t) + "." + what
	}
	d.assign(d.object(field), what, value, d.expr(value))
}

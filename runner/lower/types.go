package lower

import (
	"fmt"
	"go/types"
	"strings"

	"tautline/runner/document"
)

// typeText writes a type without aliases.
func (l *lowerer) typeText(t types.Type) string {
	switch t := types.Unalias(t).(type) {
	case *types.Basic:
		if t.Info()&types.IsUntyped != 0 {
			return types.Default(t).String()
		}
		return t.Name()
	case *types.Named:
		o := t.Obj()
		if o.Pkg() == nil || o.Pkg().Name() == "main" {
			return o.Name()
		}
		l.packages[o.Pkg().Path()] = true
		return o.Pkg().Name() + "." + o.Name()
	case *types.Pointer:
		return "*" + l.typeText(t.Elem())
	case *types.Slice:
		return "[]" + l.typeText(t.Elem())
	case *types.Array:
		return fmt.Sprintf("[%d]%s", t.Len(), l.typeText(t.Elem()))
	case *types.Map:
		return fmt.Sprintf("map[%s]%s", l.typeText(t.Key()), l.typeText(t.Elem()))
	case *types.Struct:
		var b strings.Builder
		b.WriteString("struct{")
		for f := range t.Fields() {
			fmt.Fprintf(&b, " %s %s;", f.Name(), l.typeText(f.Type()))
		}
		return b.String() + " }"
	case *types.Signature:
		return "func" + l.signatureText(t)
	case *types.Interface:
		if t.Empty() {
			return "interface{}"
		}
	}
	l.diags = append(l.diags, document.Diagnostic{Severity: document.Error, File: l.plan.Notebook.File,
		Message: fmt.Sprintf("a cell cannot use the type %s", t)})
	return "int"
}

func (l *lowerer) signatureText(sig *types.Signature) string {
	var params []string
	for v := range sig.Params().Variables() {
		params = append(params, l.parameterType(sig, v))
	}
	return fmt.Sprintf("(%s) %s", strings.Join(params, ", "), l.resultText(sig))
}

func (l *lowerer) resultText(sig *types.Signature) string {
	var results []string
	for v := range sig.Results().Variables() {
		results = append(results, l.typeText(v.Type()))
	}
	return "(" + strings.Join(results, ", ") + ")"
}

// parameterType is the type of a parameter, ...T for a variadic one.
func (l *lowerer) parameterType(sig *types.Signature, v *types.Var) string {
	if n := sig.Params().Len(); sig.Variadic() && v == sig.Params().At(n-1) {
		return "..." + l.typeText(v.Type().Underlying().(*types.Slice).Elem())
	}
	return l.typeText(v.Type())
}

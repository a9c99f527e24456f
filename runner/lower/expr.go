package lower

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"strconv"
	"strings"
)

// expr writes an expression, every operand in parentheses: the worker takes
// them out of the parsed tree again, which holds the precedence by itself.
func (l *lowerer) expr(e ast.Expr) string {
	if tv, ok := l.info.Types[e]; ok && tv.Value != nil {
		return l.literal(tv.Type, tv.Value)
	}
	switch e := e.(type) {
	case *ast.Ident:
		return l.ident(e)
	case *ast.ParenExpr:
		return l.expr(e.X)
	case *ast.UnaryExpr:
		return e.Op.String() + "(" + l.expr(e.X) + ")"
	case *ast.StarExpr:
		return "*(" + l.expr(e.X) + ")"
	case *ast.BinaryExpr:
		return l.binary(e)
	case *ast.IndexExpr:
		return fmt.Sprintf("(%s)[%s]", l.expr(e.X), l.expr(e.Index))
	case *ast.SliceExpr:
		var parts []string
		for _, x := range []ast.Expr{e.Low, e.High, e.Max} {
			text := ""
			if x != nil {
				text = l.expr(x)
			}
			parts = append(parts, text)
		}
		if !e.Slice3 {
			parts = parts[:2]
		}
		return fmt.Sprintf("(%s)[%s]", l.expr(e.X), strings.Join(parts, ":"))
	case *ast.SelectorExpr:
		return l.selector(e)
	case *ast.CallExpr:
		return l.call(e)
	case *ast.CompositeLit:
		return l.composite(e)
	case *ast.FuncLit:
		return "func" + l.function(l.info.Types[e].Type.(*types.Signature), e.Body, l.indent)
	}
	l.bad(e, "", "a cell cannot use this expression")
	return "0"
}

func (l *lowerer) ident(e *ast.Ident) string {
	switch o := l.info.ObjectOf(e).(type) {
	case *types.Var:
		return l.local(o)
	case *types.TypeName:
		return l.typeText(o.Type())
	case nil:
		return e.Name
	}
	return e.Name
}

// binary writes an operation. A constant operand of && or || is folded away.
func (l *lowerer) binary(e *ast.BinaryExpr) string {
	if e.Op == token.LAND || e.Op == token.LOR {
		if x := l.info.Types[e.X].Value; x != nil { // true && y, false || y
			if constant.BoolVal(x) == (e.Op == token.LAND) {
				return l.expr(e.Y)
			}
			return strconv.FormatBool(e.Op == token.LOR)
		}
		if y := l.info.Types[e.Y].Value; y != nil { // x && true, x || false
			if constant.BoolVal(y) == (e.Op == token.LAND) {
				return l.expr(e.X)
			}
			l.bad(e.Y, "take the condition out", "a condition that is always %v decides nothing", constant.BoolVal(y))
		}
	}
	return fmt.Sprintf("(%s) %s (%s)", l.expr(e.X), e.Op, l.expr(e.Y))
}

// literal writes a constant of a type so that it alone has that type.
func (l *lowerer) literal(t types.Type, v constant.Value) string {
	b, ok := t.Underlying().(*types.Basic)
	if !ok { // a constant passed as an interface
		return l.literal(types.Default(defaultType(v)), v)
	}
	var text string
	native := types.Default(b)
	switch {
	case b.Info()&types.IsBoolean != 0:
		text = strconv.FormatBool(constant.BoolVal(v))
	case b.Info()&types.IsString != 0:
		text = strconv.Quote(constant.StringVal(v))
	case b.Info()&types.IsInteger != 0:
		text = constant.ToInt(v).ExactString()
		native = types.Typ[types.Int]
	default:
		f, _ := constant.Float64Val(v)
		if b.Kind() == types.Float32 {
			f32, _ := constant.Float32Val(v)
			f = float64(f32)
		}
		text = strconv.FormatFloat(f, 'g', -1, 64)
		if !strings.ContainsAny(text, ".e") {
			text += ".0"
		}
		native = types.Typ[types.Float64]
	}
	if strings.HasPrefix(text, "-") {
		text = "(" + text + ")"
	}
	if full := types.Default(types.Unalias(t)); !types.Identical(full, native) {
		return l.typeText(full) + "(" + text + ")"
	}
	return text
}

func defaultType(v constant.Value) types.Type {
	switch v.Kind() {
	case constant.Bool:
		return types.Typ[types.Bool]
	case constant.String:
		return types.Typ[types.String]
	case constant.Int:
		return types.Typ[types.Int]
	}
	return types.Typ[types.Float64]
}

func (l *lowerer) selector(e *ast.SelectorExpr) string {
	if l.info.Selections[e] != nil {
		return "(" + l.expr(e.X) + ")." + e.Sel.Name
	}
	o := l.info.Uses[e.Sel]
	if v, ok := o.(*types.Var); ok {
		l.bad(e, "", "%s.%s is a variable of a package, which a cell cannot read", v.Pkg().Name(), v.Name())
	}
	if o.Pkg() != nil {
		l.packages[o.Pkg().Path()] = true
		if t, ok := o.(*types.TypeName); ok {
			return l.typeText(t.Type())
		}
		return o.Pkg().Name() + "." + o.Name()
	}
	return e.Sel.Name
}

func (l *lowerer) call(e *ast.CallExpr) string {
	if tv := l.info.Types[e.Fun]; tv.IsType() {
		return fmt.Sprintf("(%s)(%s)", l.typeText(tv.Type), l.expr(e.Args[0]))
	}
	if id, ok := ast.Unparen(e.Fun).(*ast.Ident); ok {
		if b, ok := l.info.Uses[id].(*types.Builtin); ok {
			return l.builtin(e, b.Name())
		}
	}
	if l.must(e) != nil {
		return l.mustExpr(e)
	}
	fun := ""
	if sel, ok := ast.Unparen(e.Fun).(*ast.SelectorExpr); ok {
		fun = l.selector(sel)
	} else if fun = l.expr(e.Fun); !isIdent(e.Fun) {
		fun = "(" + fun + ")"
	}
	return fun + "(" + l.args(e) + ")"
}

func isIdent(e ast.Expr) bool { _, ok := e.(*ast.Ident); return ok }

func (l *lowerer) args(e *ast.CallExpr) string {
	args := make([]string, len(e.Args))
	for i, a := range e.Args {
		args[i] = l.expr(a)
		if l.info.Types[a].IsNil() {
			args[i] = "nil"
		}
	}
	text := strings.Join(args, ", ")
	if e.Ellipsis.IsValid() {
		text += "..."
	}
	return text
}

func (l *lowerer) builtin(e *ast.CallExpr, name string) string {
	switch name {
	case "min", "max":
		f := l.minMax(name, l.info.Types[e].Type)
		text := l.expr(e.Args[0])
		for _, a := range e.Args[1:] {
			text = fmt.Sprintf("%s(%s, %s)", f, text, l.expr(a))
		}
		return text
	case "make":
		args := []string{l.typeText(l.info.Types[e].Type)}
		for _, a := range e.Args[1:] {
			args = append(args, l.expr(a))
		}
		return "make(" + strings.Join(args, ", ") + ")"
	case "new":
		return "new(" + l.typeText(l.info.Types[e.Args[0]].Type) + ")"
	case "clear":
		l.bad(e, "make a new one", "a cell cannot use clear")
	}
	return name + "(" + l.args(e) + ")"
}

// minMax is the name of a function that does what the builtin does, which the
// interpreter lacks: NaN if any argument is NaN, and -0 below 0.
func (l *lowerer) minMax(name string, t types.Type) string {
	kind := l.typeText(t)
	f := fmt.Sprintf("__%s_%s", name, kind)
	if l.helpers[f] {
		return f
	}
	l.helpers[f] = true
	op := map[string]string{"min": "<", "max": ">"}[name]
	body := fmt.Sprintf("\tif b %s a {\n\t\treturn b\n\t}\n\treturn a\n", op)
	if kind == "float64" {
		l.packages["math"] = true
		body = fmt.Sprintf("\tif a != a {\n\t\treturn a\n\t}\n\tif b != b {\n\t\treturn b\n\t}\n\treturn math.%s(a, b)\n", strings.ToUpper(name[:1])+name[1:])
	}
	l.decls = append(l.decls, fmt.Sprintf("func %s(a, b %s) %s {\n%s}\n", f, kind, kind, body))
	return f
}

// must returns the call when e is sheet.Must(…).
func (l *lowerer) must(e ast.Expr) *ast.CallExpr {
	call, ok := ast.Unparen(e).(*ast.CallExpr)
	if !ok {
		return nil
	}
	if name, _ := l.plan.SheetCall(call); name != "Must" {
		return nil
	}
	return call
}

// mustInto writes sheet.Must(f(…)) as statements and returns the name of the
// value.
func (l *lowerer) mustInto(call *ast.CallExpr) string {
	v, err := l.temp(), l.temp()
	if len(call.Args) == 1 {
		l.line("%s, %s := %s", v, err, l.expr(call.Args[0]))
	} else {
		l.line("%s := %s", v, l.expr(call.Args[0]))
		l.line("var %s error", err)
		if !l.info.Types[call.Args[1]].IsNil() {
			l.line("%s = %s", err, l.expr(call.Args[1]))
		}
	}
	l.line("if %s != nil {", err)
	l.line("\tpanic(%s)", err)
	l.line("}")
	return v
}

// mustExpr writes sheet.Must(f(…)) inside an expression.
func (l *lowerer) mustExpr(call *ast.CallExpr) string {
	body := l.capture(l.indent+1, func() { l.line("return %s", l.mustInto(call)) })
	return fmt.Sprintf("func() %s {\n%s%s}()", l.typeText(l.info.Types[call].Type), body, strings.Repeat("\t", l.indent))
}

// composite writes a literal with every element's type and every field's name.
func (l *lowerer) composite(e *ast.CompositeLit) string {
	t := l.info.Types[e].Type
	prefix := ""
	if ptr, ok := types.Unalias(t).(*types.Pointer); ok { // &T left out inside []*T{…}
		t, prefix = ptr.Elem(), "&"
	}
	st, isStruct := t.Underlying().(*types.Struct)
	var parts []string
	for i, el := range e.Elts {
		kv, keyed := el.(*ast.KeyValueExpr)
		switch {
		case keyed && isStruct:
			parts = append(parts, kv.Key.(*ast.Ident).Name+": "+l.value(kv.Value))
		case keyed:
			parts = append(parts, l.expr(kv.Key)+": "+l.value(kv.Value))
		case isStruct:
			parts = append(parts, st.Field(i).Name()+": "+l.value(el))
		default:
			parts = append(parts, l.value(el))
		}
	}
	return fmt.Sprintf("(%s%s{%s})", prefix, l.typeText(t), strings.Join(parts, ", "))
}

// value is expr for a place that may hold nil.
func (l *lowerer) value(e ast.Expr) string {
	if l.info.Types[e].IsNil() {
		return "nil"
	}
	return l.expr(e)
}

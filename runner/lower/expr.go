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
		return l.funcLit(e)
	}
	l.bad(e, "", "a cell cannot use this expression")
	return "0"
}

func (l *lowerer) ident(e *ast.Ident) string {
	switch o := l.info.ObjectOf(e).(type) {
	case *types.Var:
		return l.local(o)
	case *types.Func:
		return l.funcValue(o)
	case *types.TypeName:
		return l.typeText(o.Type())
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
			return fmt.Sprintf("(%s) %s %s", l.first(e.X), e.Op, l.truth(constant.BoolVal(y)))
		}
		return fmt.Sprintf("(%s) %s (%s)", l.first(e.X), e.Op, l.expr(e.Y))
	}
	return fmt.Sprintf("(%s) %s (%s)", l.expr(e.X), e.Op, l.divisor(e.Op, e.Y))
}

// first writes the left operand of && and ||. The interpreter takes the value
// of whatever it meets first there, such as the type of a conversion, for that
// of the operand, unless it meets a plain condition or a variable.
func (l *lowerer) first(e ast.Expr) string {
	if l.isPlain(e) {
		return l.expr(e)
	}
	return fmt.Sprintf("%s && (%s)", l.truth(true), l.expr(e))
}

// isPlain reports whether an expression is made of variables, their fields and
// elements, and operators only.
func (l *lowerer) isPlain(e ast.Expr) bool {
	if tv := l.info.Types[e]; tv.Value != nil {
		b, ok := types.Unalias(types.Default(tv.Type)).(*types.Basic)
		return ok && (b.Kind() == types.Float64 || b.Kind() == types.Int || b.Kind() == types.String || b.Kind() == types.Bool)
	}
	switch e := e.(type) {
	case *ast.Ident:
		_, ok := l.info.Uses[e].(*types.Var)
		return ok || l.info.Types[e].IsNil()
	case *ast.ParenExpr:
		return l.isPlain(e.X)
	case *ast.SelectorExpr:
		return l.info.Selections[e] != nil && l.isPlain(e.X)
	case *ast.IndexExpr:
		return l.isPlain(e.X) && l.isPlain(e.Index)
	case *ast.UnaryExpr:
		return e.Op != token.AND && l.isPlain(e.X)
	case *ast.BinaryExpr:
		return l.isPlain(e.X) && l.isPlain(e.Y)
	case *ast.CallExpr:
		return l.isHarmless(e) && !l.info.Types[e.Fun].IsType() && len(e.Args) == 1 && l.isPlain(e.Args[0])
	}
	return false
}

// divisor writes the right operand of an operation. The interpreter refuses to
// divide a float by a constant 0, which Go does not.
func (l *lowerer) divisor(op token.Token, y ast.Expr) string {
	tv := l.info.Types[y]
	if (op != token.QUO && op != token.QUO_ASSIGN) || tv.Value == nil || constant.Sign(tv.Value) != 0 {
		return l.expr(y)
	}
	kind := l.typeText(tv.Type)
	name := "__zero_" + strings.ReplaceAll(kind, ".", "_")
	if !l.own[name] {
		l.own[name] = true
		l.decls = append(l.decls, fmt.Sprintf("var %s %s\n", name, kind))
	}
	return name
}

// truth is a variable that always holds b: the interpreter computes && and ||
// with a constant operand wrongly.
func (l *lowerer) truth(b bool) string {
	name := fmt.Sprintf("__%v", b)
	if !l.own[name] {
		l.own[name] = true
		l.decls = append(l.decls, fmt.Sprintf("var %s bool = %v\n", name, b))
	}
	return name
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
	if o.Pkg() != nil {
		l.packages[o.Pkg().Path()] = true
		if t, ok := o.(*types.TypeName); ok {
			return l.typeText(t.Type())
		}
		return o.Pkg().Name() + "." + o.Name()
	}
	return e.Sel.Name
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

package lower

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/types"
	"strings"
)

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
	if f := l.plan.Callee(e); f != nil && f.Pkg() != nil && f.Pkg().Path() == "main" {
		return l.ownCall(e, f)
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
	text := l.list(e.Args)
	if e.Ellipsis.IsValid() {
		text += "..."
	}
	return text
}

// list writes expressions with commas between them.
func (l *lowerer) list(exprs []ast.Expr) string {
	texts := make([]string, len(exprs))
	for i, e := range exprs {
		texts[i] = l.expr(e)
	}
	return strings.Join(texts, ", ")
}

func (l *lowerer) builtin(e *ast.CallExpr, name string) string {
	switch name {
	case "min", "max":
		t := l.info.Types[e].Type
		text := l.expr(e.Args[0])
		for _, a := range e.Args[1:] {
			text = fmt.Sprintf("%s(%s{true, %s, %s})", l.minMax(name, t), l.pair(t), text, l.expr(a))
		}
		return text
	case "make":
		t := l.info.Types[e].Type
		args := []string{l.typeText(t)}
		for _, a := range e.Args[1:] {
			args = append(args, l.room(t, a))
		}
		return "make(" + strings.Join(args, ", ") + ")"
	case "new":
		return "new(" + l.typeText(l.info.Types[e.Args[0]].Type) + ")"
	}
	return name + "(" + l.args(e) + ")"
}

// room writes a length given to make, unless it is known to be small, so that the
// run ends at this statement when there is no memory for it.
func (l *lowerer) room(made types.Type, length ast.Expr) string {
	size := int64(48) // about what an entry of a map takes
	if s, ok := made.Underlying().(*types.Slice); ok {
		size = types.SizesFor("gc", "amd64").Sizeof(s.Elem())
	}
	text := l.expr(length)
	if v := l.info.Types[length].Value; v != nil {
		if n, ok := constant.Int64Val(constant.ToInt(v)); ok && n*size <= 1<<20 && n <= 1<<20 {
			return text
		}
	}
	l.packages[HostPath] = true
	return fmt.Sprintf("__host.Room(int(%s), %d)", text, size)
}

// minMax is the name of a function that does what the builtin does, which the
// interpreter lacks: NaN if any argument is NaN, and -0 below 0.
func (l *lowerer) minMax(name string, t types.Type) string {
	kind := l.typeText(t)
	f := fmt.Sprintf("__%s_%s", name, strings.ReplaceAll(kind, ".", "_"))
	if l.own[f] {
		return f
	}
	l.own[f] = true
	op := map[string]string{"min": "<", "max": ">"}[name]
	body := fmt.Sprintf("\tif p.B %s p.A {\n\t\treturn p.B\n\t}\n\treturn p.A\n", op)
	if isFloat(t) {
		l.packages["math"] = true
		body = fmt.Sprintf("\tif p.A != p.A {\n\t\treturn p.A\n\t}\n\tif p.B != p.B {\n\t\treturn p.B\n\t}\n\treturn %s(math.%s(float64(p.A), float64(p.B)))\n",
			kind, strings.ToUpper(name[:1])+name[1:])
	}
	l.decls = append(l.decls, fmt.Sprintf("func %s(p %s) %s {\n%s}\n", f, l.pair(t), kind, body))
	return f
}

// pair is the type that holds the operands of minMax.
func (l *lowerer) pair(t types.Type) string {
	kind := l.typeText(t)
	name := "__pair_" + strings.ReplaceAll(kind, ".", "_")
	if !l.own[name] {
		l.own[name] = true
		l.decls = append(l.decls, fmt.Sprintf("type %s struct { Set bool; A, B %s }\n", name, kind))
	}
	return name
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

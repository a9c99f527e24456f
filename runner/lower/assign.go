package lower

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"strings"

	"tautline/runner/check/tree"
)

// assign writes an assignment; several at once go through temporaries.
func (l *lowerer) assign(s *ast.AssignStmt) {
	switch {
	case s.Tok != token.ASSIGN && s.Tok != token.DEFINE:
		l.line("%s %s %s", l.expr(s.Lhs[0]), s.Tok, l.divisor(s.Tok, s.Rhs[0]))
	case len(s.Lhs) == 1:
		l.single(s.Lhs[0], s.Rhs[0])
	case len(s.Rhs) == 1:
		l.unpack(s)
	default:
		l.parallel(s.Lhs, s.Rhs)
	}
}

func (l *lowerer) single(to, value ast.Expr) {
	if isBlank(to) {
		if !l.info.Types[value].IsNil() {
			l.line("%s := %s", l.temp(), l.expr(value))
		}
		return
	}
	if call := l.must(value); call != nil {
		v := l.mustInto(call)
		l.store(to, v)
		return
	}
	if n := l.given(to); n != nil {
		l.store(to, l.chosen(n, value))
		return
	}
	l.store(to, l.expr(value))
}

// given returns the top-level name when e sets one that the designer chose.
func (l *lowerer) given(e ast.Expr) *tree.Name {
	id, ok := e.(*ast.Ident)
	if !ok {
		return nil
	}
	n := l.plan.Names[id.Name]
	if n == nil || !n.Given || l.info.Defs[id] != n.Object || n.Object.Type().Underlying() != types.Typ[types.Float64] {
		return nil
	}
	return n
}

// chosen writes the value of a given with its number in a variable of its own,
// so that a study can run the same program with another.
func (l *lowerer) chosen(n *tree.Name, value ast.Expr) string {
	if v := l.info.Types[value].Value; v != nil {
		l.givens[n.Ident], _ = constant.Float64Val(v)
		l.decls = append(l.decls, fmt.Sprintf("var %s float64 = %s\n", GivenVar(n.Ident), l.literal(types.Typ[types.Float64], v)))
		return GivenVar(n.Ident)
	}
	call, ok := ast.Unparen(value).(*ast.CallExpr)
	if !ok {
		return l.expr(value)
	}
	if l.info.Types[call.Fun].IsType() {
		return l.chosen(n, call.Args[0])
	}
	args := []string{l.chosen(n, call.Args[0])} // sheet.Given(value, low, high)
	for _, a := range call.Args[1:] {
		args = append(args, l.expr(a))
	}
	return l.selector(call.Fun.(*ast.SelectorExpr)) + "(" + strings.Join(args, ", ") + ")"
}

// store assigns the text of a value to what is on the left, declaring it when
// this is where a local variable begins.
func (l *lowerer) store(to ast.Expr, value string) {
	if isBlank(to) {
		return
	}
	if id, ok := to.(*ast.Ident); ok {
		if o := l.info.Defs[id]; o != nil && !l.plan.IsTop(o) {
			l.line("%s := %s", l.local(o), value)
			return
		}
	}
	l.line("%s = %s", l.expr(to), value)
}

// unpack writes `a, b = f()` and `v, ok = m[k]`.
func (l *lowerer) unpack(s *ast.AssignStmt) {
	places := l.places(s.Lhs)
	switch r := ast.Unparen(s.Rhs[0]).(type) {
	case *ast.CallExpr:
		temps := make([]string, len(s.Lhs))
		op := "="
		for i, to := range s.Lhs {
			if temps[i] = "_"; !isBlank(to) {
				temps[i], op = l.temp(), ":="
			}
		}
		l.line("%s %s %s", strings.Join(temps, ", "), op, l.expr(r))
		l.storeAll(s.Lhs, places, temps)
	case *ast.IndexExpr:
		m, k := l.hold(r.X), l.hold(r.Index)
		ok := l.temp()
		l.line("_, %s := %s[%s]", ok, m, k)
		value := l.temp()
		l.line("%s := %s[%s]", value, m, k)
		l.storeAll(s.Lhs, places, []string{value, ok})
	default:
		l.bad(s, "", "a cell cannot use this assignment")
	}
}

// parallel writes `a, b = x, y`: operands on the left first, then the values,
// then the stores.
func (l *lowerer) parallel(lhs, rhs []ast.Expr) {
	places := l.places(lhs)
	temps := make([]string, len(rhs))
	for i, value := range rhs {
		t := l.info.Types[value].Type
		if !isBlank(lhs[i]) {
			t = l.typeOf(lhs[i])
		}
		temps[i] = l.held(value, t)
	}
	l.storeAll(lhs, places, temps)
}

// places fixes what stands on the left of an assignment: `i, xs[i] = 1, 2`
// sets the element at the old i. A place that is one name is "".
func (l *lowerer) places(lhs []ast.Expr) []string {
	places := make([]string, len(lhs))
	for i, to := range lhs {
		if _, ok := ast.Unparen(to).(*ast.Ident); !ok {
			places[i] = l.place(to)
		}
	}
	return places
}

// place writes an expression that can be assigned to, its operands in
// temporaries.
func (l *lowerer) place(e ast.Expr) string {
	switch e := ast.Unparen(e).(type) {
	case *ast.IndexExpr:
		x := ""
		if _, array := l.info.Types[e.X].Type.Underlying().(*types.Array); array {
			x = l.place(e.X)
		} else {
			x = l.hold(e.X)
		}
		return fmt.Sprintf("%s[%s]", x, l.hold(e.Index))
	case *ast.SelectorExpr:
		if _, pointer := l.info.Types[e.X].Type.Underlying().(*types.Pointer); pointer {
			return l.hold(e.X) + "." + e.Sel.Name
		}
		return l.place(e.X) + "." + e.Sel.Name
	case *ast.StarExpr:
		return "*" + l.hold(e.X)
	}
	return l.expr(e)
}

// hold puts the value of an expression, if it is not constant, into a
// temporary.
func (l *lowerer) hold(e ast.Expr) string {
	if l.info.Types[e].Value != nil {
		return l.expr(e)
	}
	return l.held(e, l.info.Types[e].Type)
}

// held puts a value into a temporary of type t.
func (l *lowerer) held(value ast.Expr, t types.Type) string {
	name := l.temp()
	l.line("var %s %s", name, l.typeText(t))
	if !l.info.Types[value].IsNil() {
		l.line("%s = %s", name, l.expr(value))
	}
	return name
}

func (l *lowerer) storeAll(lhs []ast.Expr, places, values []string) {
	for i, to := range lhs {
		if places[i] != "" {
			l.line("%s = %s", places[i], values[i])
		} else {
			l.store(to, values[i])
		}
	}
}

func (l *lowerer) typeOf(e ast.Expr) types.Type {
	if id, ok := e.(*ast.Ident); ok {
		if o := l.info.ObjectOf(id); o != nil {
			return o.Type()
		}
	}
	return l.info.Types[e].Type
}

func isBlank(e ast.Expr) bool {
	id, ok := e.(*ast.Ident)
	return ok && id.Name == "_"
}

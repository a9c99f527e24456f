package lower

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"strings"
)

// stmt writes a statement, first the note of where the run is.
func (l *lowerer) stmt(s ast.Stmt) {
	if n := l.plan.Number(s); n > 0 && canFail(s) {
		l.line("__at = %d", n)
	}
	label := l.label
	l.label = ""
	switch s := s.(type) {
	case *ast.EmptyStmt:
	case *ast.BlockStmt:
		l.line("{")
		l.block(s)
		l.line("}")
	case *ast.LabeledStmt:
		l.label = s.Label.Name + ": "
		l.stmt(s.Stmt)
	case *ast.ExprStmt:
		l.line("%s", l.expr(s.X))
	case *ast.IncDecStmt:
		l.line("%s%s", l.expr(s.X), s.Tok)
	case *ast.AssignStmt:
		l.assign(s)
	case *ast.DeclStmt:
		l.declare(s.Decl.(*ast.GenDecl))
	case *ast.ReturnStmt:
		l.returnStmt(s)
	case *ast.BranchStmt:
		if s.Label != nil {
			l.line("%s %s", s.Tok, s.Label.Name)
		} else {
			l.line("%s", s.Tok)
		}
	case *ast.IfStmt:
		l.ifStmt(s)
	case *ast.SwitchStmt:
		l.switchStmt(s, label)
	case *ast.ForStmt:
		l.forStmt(s, label)
	case *ast.RangeStmt:
		l.rangeStmt(s, label)
	default:
		l.bad(s, "", "a cell cannot use this statement")
	}
}

func (l *lowerer) block(b *ast.BlockStmt) {
	l.indent++
	for _, s := range b.List {
		l.stmt(s)
	}
	l.indent--
}

// canFail reports whether a statement can end the run, take long or speak to
// the sheet. The bodies of a compound statement have numbers of their own.
func canFail(s ast.Stmt) bool {
	found := false
	ast.Inspect(s, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr, *ast.IndexExpr, *ast.SliceExpr, *ast.StarExpr, *ast.SelectorExpr, *ast.ForStmt, *ast.RangeStmt, *ast.IncDecStmt:
			found = true
		case *ast.BinaryExpr:
			found = found || n.Op == token.QUO || n.Op == token.REM || n.Op == token.SHL || n.Op == token.SHR
		case *ast.AssignStmt:
			found = found || n.Tok != token.DEFINE && n.Tok != token.ASSIGN
		}
		return !found
	})
	return found
}

// assign writes an assignment; several at once go through temporaries.
func (l *lowerer) assign(s *ast.AssignStmt) {
	switch {
	case s.Tok != token.ASSIGN && s.Tok != token.DEFINE:
		l.line("%s %s %s", l.expr(s.Lhs[0]), s.Tok, l.expr(s.Rhs[0]))
	case len(s.Lhs) == 1:
		l.single(s.Lhs[0], s.Rhs[0])
	case len(s.Rhs) == 1:
		l.unpack(s)
	default:
		l.parallel(s)
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
	l.store(to, l.expr(value))
}

// store assigns the text of a value to what is on the left, declaring it when
// this is where a local variable begins.
func (l *lowerer) store(to ast.Expr, value string) {
	if isBlank(to) {
		return
	}
	if id, ok := to.(*ast.Ident); ok {
		if o := l.info.Defs[id]; o != nil {
			name := l.local(o)
			if name != o.Name() { // not a top-level name
				l.line("%s := %s", name, value)
				return
			}
		}
	}
	l.line("%s = %s", l.expr(to), value)
}

// unpack writes `a, b = f()` and `v, ok = m[k]`.
func (l *lowerer) unpack(s *ast.AssignStmt) {
	switch r := ast.Unparen(s.Rhs[0]).(type) {
	case *ast.CallExpr:
		var temps []string
		some := false
		for _, to := range s.Lhs {
			if isBlank(to) {
				temps = append(temps, "_")
				continue
			}
			some = true
			temps = append(temps, l.temp())
		}
		op := ":="
		if !some {
			op = "="
		}
		l.line("%s %s %s", strings.Join(temps, ", "), op, l.expr(r))
		for i, to := range s.Lhs {
			l.store(to, temps[i])
		}
	case *ast.IndexExpr:
		m, k, ok := l.temp(), l.temp(), l.temp()
		l.line("%s := %s", m, l.expr(r.X))
		l.line("%s := %s", k, l.expr(r.Index))
		l.line("_, %s := %s[%s]", ok, m, k)
		l.store(s.Lhs[0], fmt.Sprintf("%s[%s]", m, k))
		l.store(s.Lhs[1], ok)
	default:
		l.bad(s, "", "a cell cannot use this assignment")
	}
}

// parallel writes `a, b = x, y`: operands on the left first, then the values,
// then the stores.
func (l *lowerer) parallel(s *ast.AssignStmt) {
	targets := make([]string, len(s.Lhs))
	for i, to := range s.Lhs {
		if index, ok := ast.Unparen(to).(*ast.IndexExpr); ok {
			k := l.temp()
			l.line("%s := %s", k, l.expr(index.Index))
			targets[i] = fmt.Sprintf("%s[%s]", l.expr(index.X), k)
		}
	}
	temps := make([]string, len(s.Rhs))
	for i, value := range s.Rhs {
		temps[i] = l.temp()
		t := l.info.Types[value].Type
		if !isBlank(s.Lhs[i]) {
			t = l.typeOf(s.Lhs[i])
		}
		l.line("var %s %s", temps[i], l.typeText(t))
		if !l.info.Types[value].IsNil() {
			l.line("%s = %s", temps[i], l.expr(value))
		}
	}
	for i, to := range s.Lhs {
		if targets[i] != "" {
			l.line("%s = %s", targets[i], temps[i])
		} else {
			l.store(to, temps[i])
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

// declare writes var declarations; constants are folded where they are used.
func (l *lowerer) declare(d *ast.GenDecl) {
	if d.Tok == token.TYPE {
		l.bad(d, "declare it at the top of the cell", "a type cannot be declared inside a block")
		return
	}
	if d.Tok != token.VAR {
		return
	}
	for _, s := range d.Specs {
		spec := s.(*ast.ValueSpec)
		lhs := make([]ast.Expr, len(spec.Names))
		for i, id := range spec.Names {
			lhs[i] = id
		}
		if len(spec.Values) > 0 {
			if spec.Type != nil && len(spec.Names) == len(spec.Values) {
				l.typed(spec)
				continue
			}
			l.assign(&ast.AssignStmt{Lhs: lhs, TokPos: spec.Pos(), Tok: token.DEFINE, Rhs: spec.Values})
			continue
		}
		for _, id := range spec.Names {
			o := l.info.Defs[id]
			if name := l.local(o); name != o.Name() && id.Name != "_" {
				l.line("var %s %s", name, l.typeText(o.Type()))
			}
		}
	}
}

// typed writes `var x T = e`, where T may be wider than the type of e.
func (l *lowerer) typed(spec *ast.ValueSpec) {
	for i, id := range spec.Names {
		t := l.temp()
		l.line("var %s %s", t, l.typeText(l.typeOf(id)))
		if !l.info.Types[spec.Values[i]].IsNil() {
			l.line("%s = %s", t, l.expr(spec.Values[i]))
		}
		l.store(id, t)
	}
}

func (l *lowerer) returnStmt(s *ast.ReturnStmt) {
	if len(s.Results) == 0 {
		l.line("return %s", strings.Join(l.results, ", "))
		return
	}
	var values []string
	for _, e := range s.Results {
		values = append(values, l.expr(e))
	}
	l.line("return %s", strings.Join(values, ", "))
}

func (l *lowerer) ifStmt(s *ast.IfStmt) {
	if s.Init != nil {
		l.line("{")
		l.indent++
		l.stmt(s.Init)
		defer func() {
			l.indent--
			l.line("}")
		}()
	}
	l.line("if %s {", l.expr(s.Cond))
	l.block(s.Body)
	if s.Else != nil {
		l.line("} else {")
		l.indent++
		if b, ok := s.Else.(*ast.BlockStmt); ok {
			for _, x := range b.List {
				l.stmt(x)
			}
		} else {
			l.stmt(s.Else)
		}
		l.indent--
	}
	l.line("}")
}

func (l *lowerer) switchStmt(s *ast.SwitchStmt, label string) {
	if s.Init != nil {
		l.line("{")
		l.indent++
		l.stmt(s.Init)
		defer func() {
			l.indent--
			l.line("}")
		}()
	}
	if s.Tag != nil {
		l.line("%sswitch %s {", label, l.expr(s.Tag))
	} else {
		l.line("%sswitch {", label)
	}
	for _, c := range s.Body.List {
		clause := c.(*ast.CaseClause)
		if clause.List == nil {
			l.line("default:")
		} else {
			var values []string
			for _, e := range clause.List {
				values = append(values, l.expr(e))
			}
			l.line("case %s:", strings.Join(values, ", "))
		}
		l.block(&ast.BlockStmt{List: clause.Body})
	}
	l.line("}")
}

// forStmt writes a for statement. A variable that a closure or pointer keeps
// gets a copy for each round, as in Go.
func (l *lowerer) forStmt(s *ast.ForStmt, label string) {
	if s.Init != nil {
		l.line("{")
		l.indent++
		l.stmt(s.Init)
	}
	cond, post := "", ""
	if s.Cond != nil {
		cond = l.expr(s.Cond)
	}
	if s.Post != nil {
		post = strings.TrimSpace(l.capture(0, func() { l.postStmt(s.Post) }))
	}
	l.line("%sfor ; %s; %s {", label, cond, post)
	l.indent++
	for _, v := range l.loopVariables(s.Init) {
		if !l.kept(v, s.Body) {
			continue
		}
		if l.changed(v, s.Body) {
			l.bad(s.Body, "copy it first: "+v.Name()+" := "+v.Name(), "the loop variable %s is both changed in the body and kept by a function or pointer", v.Name())
		}
		outer := l.local(v)
		delete(l.names, v)
		l.line("%s := %s", l.local(v), outer)
		defer func() { l.names[v] = outer }()
	}
	for _, x := range s.Body.List {
		l.stmt(x)
	}
	l.indent--
	l.line("}")
	if s.Init != nil {
		l.indent--
		l.line("}")
	}
}

func (l *lowerer) postStmt(s ast.Stmt) {
	switch s := s.(type) {
	case *ast.IncDecStmt:
		l.line("%s%s", l.expr(s.X), s.Tok)
	case *ast.AssignStmt:
		l.line("%s %s %s", l.expr(s.Lhs[0]), s.Tok, l.expr(s.Rhs[0]))
	case *ast.ExprStmt:
		l.line("%s", l.expr(s.X))
	default:
		l.bad(s, "", "a cell cannot use this statement here")
	}
}

func (l *lowerer) loopVariables(init ast.Stmt) []types.Object {
	a, ok := init.(*ast.AssignStmt)
	if !ok {
		return nil
	}
	var vars []types.Object
	for _, e := range a.Lhs {
		if id, ok := e.(*ast.Ident); ok {
			if o := l.info.Defs[id]; o != nil {
				vars = append(vars, o)
			}
		}
	}
	return vars
}

// kept reports whether a function literal in body uses v or its address is
// taken.
func (l *lowerer) kept(v types.Object, body ast.Node) bool {
	found := false
	var walk func(n ast.Node, inside bool)
	walk = func(n ast.Node, inside bool) {
		ast.Inspect(n, func(m ast.Node) bool {
			switch m := m.(type) {
			case *ast.FuncLit:
				if !inside {
					walk(m.Body, true)
					return false
				}
			case *ast.UnaryExpr:
				found = found || m.Op == token.AND && l.uses(m.X, v)
			case *ast.Ident:
				found = found || inside && l.info.Uses[m] == v
			}
			return !found
		})
	}
	walk(body, false)
	return found
}

func (l *lowerer) uses(n ast.Node, v types.Object) bool {
	found := false
	ast.Inspect(n, func(m ast.Node) bool {
		if id, ok := m.(*ast.Ident); ok && l.info.Uses[id] == v {
			found = true
		}
		return !found
	})
	return found
}

func (l *lowerer) changed(v types.Object, body ast.Node) bool {
	found := false
	ast.Inspect(body, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			for _, e := range n.Lhs {
				found = found || l.uses(e, v)
			}
		case *ast.IncDecStmt:
			found = found || l.uses(n.X, v)
		}
		return !found
	})
	return found
}

// rangeStmt writes a range over a count, slice or array as a counting loop, so
// that each round has variables of its own.
func (l *lowerer) rangeStmt(s *ast.RangeStmt, label string) {
	l.line("{")
	l.indent++
	x, n, i := l.temp(), l.temp(), l.temp()
	t := l.info.Types[s.X].Type
	_, counts := t.Underlying().(*types.Basic)
	if counts {
		kind := t
		if s.Key != nil && !isBlank(s.Key) {
			kind = l.typeOf(s.Key)
		}
		text := l.typeText(kind)
		l.line("%s := %s(%s)", n, text, l.expr(s.X))
		l.line("%s := %s(0)", i, text)
	} else {
		l.line("%s := %s", x, l.expr(s.X))
		l.line("%s := len(%s)", n, x)
		l.line("%s := 0", i)
	}
	l.line("%sfor ; %s < %s; %s++ {", label, i, n, i)
	l.indent++
	if s.Key != nil {
		l.store(s.Key, i)
	}
	if s.Value != nil {
		l.store(s.Value, fmt.Sprintf("%s[%s]", x, i))
	}
	for _, b := range s.Body.List {
		l.stmt(b)
	}
	l.indent--
	l.line("}")
	l.indent--
	l.line("}")
}

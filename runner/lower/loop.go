package lower

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"strings"
)

// forStmt writes a for statement. One whose variables outlive their round, or
// whose condition or step can fail, is spelled out.
func (l *lowerer) forStmt(s *ast.ForStmt, label string) {
	kept := l.keptVariables(s)
	l.scope(s.Init, func() {
		if len(kept) > 0 || !l.isSimpleStep(s.Post) || s.Cond != nil && l.canFail(s.Cond) {
			l.longFor(s, label, kept)
			return
		}
		cond, post := "", ""
		if s.Cond != nil {
			cond = l.expr(s.Cond)
		}
		if s.Post != nil {
			post = strings.TrimSpace(l.capture(0, func() { l.stmt(s.Post) }))
		}
		l.line("%sfor ; %s; %s {", label, cond, post)
		l.block(s.Body)
		l.line("}")
	})
}

// isSimpleStep reports whether a step is one line that cannot fail.
func (l *lowerer) isSimpleStep(s ast.Stmt) bool {
	if s == nil {
		return true
	}
	if a, ok := s.(*ast.AssignStmt); ok && len(a.Lhs) > 1 {
		return false
	}
	return !l.canFail(s)
}

// longFor writes step and condition as statements at the head of each round,
// which has copies of its own of the kept variables, as in Go: the pointers
// lead to those of the round before.
func (l *lowerer) longFor(s *ast.ForStmt, label string, kept []types.Object) {
	first := l.temp()
	l.line("%s := true", first)
	pointers := make([]string, len(kept))
	for i, v := range kept {
		pointers[i] = l.temp()
		l.line("%s := &%s", pointers[i], l.local(v))
	}
	l.line("%sfor {", label)
	l.indent++
	for i, v := range kept {
		outer := l.local(v)
		delete(l.names, v)
		defer func() { l.names[v] = outer }()
		l.line("%s := *%s", l.local(v), pointers[i])
		l.line("%s = &%s", pointers[i], l.local(v))
	}
	l.line("if %s {", first)
	l.line("\t%s = false", first)
	if s.Post != nil {
		l.line("} else {")
		l.block(&ast.BlockStmt{List: []ast.Stmt{s.Post}})
	}
	l.line("}")
	if s.Cond != nil {
		l.note(s, s.Cond)
		l.line("if !(%s) {", l.expr(s.Cond))
		l.line("\tbreak")
		l.line("}")
	}
	l.stmts(s.Body.List)
	l.indent--
	l.line("}")
}

// keptVariables lists the variables of a for statement that a function literal
// or a pointer may keep.
func (l *lowerer) keptVariables(s *ast.ForStmt) []types.Object {
	init, ok := s.Init.(*ast.AssignStmt)
	if !ok {
		return nil
	}
	var kept []types.Object
	for _, e := range init.Lhs {
		if v := l.info.Defs[e.(*ast.Ident)]; v != nil && l.isKept(v, s) {
			kept = append(kept, v)
		}
	}
	return kept
}

func (l *lowerer) isKept(v types.Object, s ast.Node) bool {
	found := false
	ast.Inspect(s, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.FuncLit:
			found = found || l.uses(n, v)
		case *ast.UnaryExpr:
			found = found || n.Op == token.AND && l.uses(n.X, v)
		case *ast.SelectorExpr: // a method may take the address
			sel := l.info.Selections[n]
			found = found || sel != nil && sel.Kind() == types.MethodVal && l.uses(n.X, v)
		case *ast.SliceExpr: // of an array
			found = found || l.uses(n.X, v)
		}
		return !found
	})
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

// rangeStmt writes a range over a count, slice or array as a counting loop, so
// that each round has variables of its own.
func (l *lowerer) rangeStmt(s *ast.RangeStmt, label string) {
	l.line("{")
	l.indent++
	x, n, i := "", l.temp(), l.temp()
	t := l.info.Types[s.X].Type
	if _, counts := t.Underlying().(*types.Basic); counts {
		if s.Key != nil && !isBlank(s.Key) {
			t = l.typeOf(s.Key)
		}
		text := l.typeText(t)
		l.line("%s := %s(%s)", n, text, l.expr(s.X))
		l.line("%s := %s(0)", i, text)
	} else {
		x = l.hold(s.X)
		l.line("%s := len(%s)", n, x)
		l.line("%s := 0", i)
	}
	l.line("%sfor ; %s < %s; %s++ {", label, i, n, i)
	l.indent++
	lhs, values := []ast.Expr{s.Key}, []string{i}
	if s.Value != nil {
		lhs, values = append(lhs, s.Value), append(values, fmt.Sprintf("%s[%s]", x, i))
	}
	if s.Key != nil {
		l.storeAll(lhs, l.places(lhs), values)
	}
	l.stmts(s.Body.List)
	l.indent--
	l.line("}")
	l.indent--
	l.line("}")
}

package lower

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"strings"
)

// stmt writes a statement, first the note of where the run is.
func (l *lowerer) stmt(s ast.Stmt) {
	l.note(s, s)
	label := l.label
	l.label = ""
	switch s := s.(type) {
	case *ast.EmptyStmt:
	case *ast.BlockStmt:
		l.line("{")
		l.block(s)
		l.line("}")
	case *ast.LabeledStmt:
		l.label = l.local(l.info.Defs[s.Label]) + ": "
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
			l.line("%s %s", s.Tok, l.local(l.info.Uses[s.Label]))
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
	l.stmts(b.List)
	l.indent--
}

func (l *lowerer) stmts(list []ast.Stmt) {
	for _, s := range list {
		l.stmt(s)
	}
}

// scope writes statements in a block of their own when init begins it.
func (l *lowerer) scope(init ast.Stmt, write func()) {
	if init == nil {
		write()
		return
	}
	l.line("{")
	l.indent++
	l.stmt(init)
	write()
	l.indent--
	l.line("}")
}

// note writes that the run is at statement s, if part, which comes next, can
// fail.
func (l *lowerer) note(s ast.Stmt, part ast.Node) {
	if n := l.plan.Number(s); n > 0 && l.canFail(part) {
		l.line("__at = %d", n)
	}
}

// announce writes that a step of a cell comes next, if it calls what may end the
// process before the runner has looked where it is.
func (l *lowerer) announce(s ast.Stmt) {
	n, calls := l.plan.Number(s), false
	ast.Inspect(s, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok && !l.isHarmless(call) && !l.isSmall(call) {
			calls = true
		}
		return !calls
	})
	if n > 0 && calls {
		l.packages[HostPath] = true
		l.line("__host.At(%d)", n)
	}
}

// isSmall reports whether a call is of a library function that takes next to no
// time and memory, whatever it is given.
func (l *lowerer) isSmall(call *ast.CallExpr) bool {
	f := l.plan.Callee(call)
	if f == nil || f.Pkg() == nil {
		return false
	}
	switch f.Pkg().Path() {
	case "math", "errors", "fmt", "strconv", "tautline/stdlib/units", "tautline/stdlib/sheet":
		return true
	case "strings":
		return f.Name() != "Repeat" && f.Name() != "Replace" && f.Name() != "ReplaceAll" && f.Name() != "Join"
	}
	return false
}

// canFail reports whether something in n can end the run, take long or speak
// to the sheet.
func (l *lowerer) canFail(n ast.Node) bool {
	found := false
	ast.Inspect(n, func(n ast.Node) bool {
		if e, ok := n.(ast.Expr); ok && l.info.Types[e].Value != nil {
			return false // a constant
		}
		switch n := n.(type) {
		case *ast.ForStmt, *ast.RangeStmt, *ast.IndexExpr, *ast.SliceExpr, *ast.StarExpr:
			found = true
		case *ast.CallExpr:
			found = found || !l.isHarmless(n)
		case *ast.SelectorExpr:
			sel := l.info.Selections[n]
			found = found || sel != nil && sel.Indirect()
		case *ast.BinaryExpr:
			found = found || l.divides(n.Op, n.X)
		case *ast.AssignStmt:
			found = found || l.divides(n.Tok, n.Lhs[0])
		}
		return !found
	})
	return found
}

// isHarmless reports whether a call is of a builtin or conversion that cannot
// fail.
func (l *lowerer) isHarmless(call *ast.CallExpr) bool {
	tv := l.info.Types[call.Fun]
	if id, ok := call.Fun.(*ast.Ident); ok && tv.IsBuiltin() {
		return id.Name == "len" || id.Name == "cap" || id.Name == "min" || id.Name == "max"
	}
	if !tv.IsType() {
		return false
	}
	_, basic := tv.Type.Underlying().(*types.Basic)
	return basic
}

// divides reports whether an operation on x can fail: a whole number divided
// by 0, a negative shift.
func (l *lowerer) divides(op token.Token, x ast.Expr) bool {
	switch op {
	case token.SHL, token.SHR, token.SHL_ASSIGN, token.SHR_ASSIGN:
		return true
	case token.QUO, token.REM, token.QUO_ASSIGN, token.REM_ASSIGN:
		b, ok := l.typeOf(x).Underlying().(*types.Basic)
		return ok && b.Info()&types.IsInteger != 0
	}
	return false
}

// declare writes var declarations; constants are folded where they are used.
func (l *lowerer) declare(d *ast.GenDecl) {
	if d.Tok != token.VAR {
		return // a constant is folded where it is used
	}
	for _, s := range d.Specs {
		spec := s.(*ast.ValueSpec)
		lhs := make([]ast.Expr, len(spec.Names))
		for i, id := range spec.Names {
			lhs[i] = id
		}
		switch {
		case len(spec.Values) == 0:
			for _, id := range spec.Names {
				switch o := l.info.Defs[id]; {
				case id.Name == "_":
				case l.plan.IsTop(o): // zero in every run of a study
					zero := l.temp()
					l.line("var %s %s", zero, l.typeText(o.Type()))
					l.line("%s = %s", id.Name, zero)
				default:
					l.line("var %s %s", l.local(o), l.typeText(o.Type()))
				}
			}
		case spec.Type != nil && len(spec.Names) == len(spec.Values):
			l.parallel(lhs, spec.Values)
		default:
			l.assign(&ast.AssignStmt{Lhs: lhs, TokPos: spec.Pos(), Tok: token.DEFINE, Rhs: spec.Values})
		}
	}
}

// returnStmt works out the results before it puts back the place of the call.
func (l *lowerer) returnStmt(s *ast.ReturnStmt) {
	var values []string
	switch {
	case len(s.Results) == 0:
		values = l.frame.named
	case l.frame.from != "" && l.canFail(s):
		if n := l.frame.types.Len(); n > len(s.Results) { // return f()
			for range n {
				values = append(values, l.temp())
			}
			l.line("%s := %s", strings.Join(values, ", "), l.expr(s.Results[0]))
			break
		}
		for i, e := range s.Results {
			values = append(values, l.held(e, l.frame.types.At(i).Type()))
		}
	default:
		for _, e := range s.Results {
			values = append(values, l.expr(e))
		}
	}
	if l.frame.from != "" {
		l.line("__at = %s", l.frame.from)
	}
	l.line("return %s", strings.Join(values, ", "))
}

func (l *lowerer) ifStmt(s *ast.IfStmt) {
	l.scope(s.Init, func() {
		l.line("if %s {", l.expr(s.Cond))
		l.block(s.Body)
		switch other := s.Else.(type) {
		case nil:
		case *ast.BlockStmt:
			l.line("} else {")
			l.block(other)
		default:
			l.line("} else {")
			l.block(&ast.BlockStmt{List: []ast.Stmt{other}})
		}
		l.line("}")
	})
}

// switchStmt finds the clause with ifs and then switches on its number: the
// interpreter knows only plain values as cases.
func (l *lowerer) switchStmt(s *ast.SwitchStmt, label string) {
	l.scope(s.Init, func() {
		tag := ""
		if s.Tag != nil {
			tag = l.held(s.Tag, l.info.Types[s.Tag].Type)
		}
		chosen := l.temp()
		l.line("%s := %d", chosen, defaultClause(s))
		l.chooseClause(s, 0, tag, chosen)
		l.line("%sswitch %s {", label, chosen)
		for i, c := range s.Body.List {
			l.line("case %d:", i)
			l.block(&ast.BlockStmt{List: c.(*ast.CaseClause).Body})
		}
		l.line("}")
	})
}

func defaultClause(s *ast.SwitchStmt) int {
	return slices.IndexFunc(s.Body.List, func(c ast.Stmt) bool { return c.(*ast.CaseClause).List == nil })
}

// chooseClause writes the ifs from clause i on.
func (l *lowerer) chooseClause(s *ast.SwitchStmt, i int, tag, chosen string) {
	if i == len(s.Body.List) {
		return
	}
	clause := s.Body.List[i].(*ast.CaseClause)
	if clause.List == nil {
		l.chooseClause(s, i+1, tag, chosen)
		return
	}
	conditions := make([]string, len(clause.List))
	for k, e := range clause.List {
		l.note(clause, e)
		if conditions[k] = "(" + l.expr(e) + ")"; tag != "" {
			conditions[k] = fmt.Sprintf("(%s == %s)", tag, conditions[k])
		}
	}
	l.line("if %s {", strings.Join(conditions, " || "))
	l.line("\t%s = %d", chosen, i)
	l.line("} else {")
	l.indent++
	l.chooseClause(s, i+1, tag, chosen)
	l.indent--
	l.line("}")
}

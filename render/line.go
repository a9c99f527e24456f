package render

import (
	"fmt"
	"go/ast"
	"go/types"
	"html/template"
	"math"
	"strings"
	"unicode/utf8"

	"tautline/render/mathml"
	"tautline/runner/check"
	"tautline/runner/library"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// maxFormula is the width in letters beyond which a formula is set in rows,
// and maxExpanded that beyond which a library function stands as its name.
const (
	maxFormula  = 64
	maxExpanded = 80
)

// lines makes the calculation lines of an assignment.
func (a *assembler) lines(s *check.Step) {
	for i, n := range s.Names {
		line := &Line{ID: lineID(n.Ident), Line: s.Range.Start.Line, Symbol: whole(mathml.Set(ast.NewIdent(n.Ident), a.symbols))}
		if i == len(s.Names)-1 {
			line.Reason = s.Reason
		}
		a.fill(line, n, setFrom(n))
	}
}

// setFrom is the expression that a name is set from; nil for the second and
// later results of one call, whose formula stands already.
func setFrom(n *check.Name) ast.Expr {
	if n.Value == nil && n.Step.Names[0] == n {
		return callOf(n.Step.Stmt)
	}
	return n.Value
}

// callOf is the call whose several results an assignment takes.
func callOf(s ast.Stmt) ast.Expr {
	if assign, ok := s.(*ast.AssignStmt); ok {
		return assign.Rhs[0]
	}
	return nil
}

// fill completes the line of a name set from e, which may be nil.
func (a *assembler) fill(line *Line, n *check.Name, e ast.Expr) {
	v, isSet := a.nameValue(n)
	m := a.plan.ObjectMeasure(n.Object)
	unit := a.unitFor(n, m, v)
	if n.Given && v.Kind == sheet.KindNumber {
		a.given(line, n, v, unit, m)
		return
	}
	var symbolic, numeric mathml.Formula
	if e != nil && !n.Changed && !a.isFilledLater(e) {
		var shown ast.Expr
		shown, symbolic = a.draft.symbolic(e)
		line.Formula, line.Wide = whole(symbolic), symbolic.Row > maxFormula
		numeric = a.draft.numeric(a, e, shown, v, unit)
		if numeric.Text != symbolic.Text && numeric.Width <= 3*maxFormula {
			line.Numbers = whole(numeric)
			line.Wide = line.Wide || numeric.Row > maxFormula
			if nested(shown) { // its numbers say enough
				line.Formula = ""
			}
		}
	}
	if call := a.calls(e); call != nil {
		if doc, name := a.documented(call); doc.Source != "" {
			line.Source = Citation{By: name, Text: strings.TrimSuffix(doc.Source, ".")}
		}
	}
	if !isSet {
		line.Caveat = "not computed"
		a.add(line)
		return
	}
	line.Result, line.Text = a.result(v, unit)
	if line.Text == numeric.Text {
		line.Numbers = ""
	}
	if line.Text == symbolic.Text { // a text, a truth value: said once
		line.Formula, line.Numbers = "", ""
	}
	if v.Kind == sheet.KindNumber {
		line.Caveat = caveat(float64(v.Number), m)
	}
	a.add(line)
	a.fields(n, v)
}

// nested reports whether e is a literal that holds literals.
func nested(e ast.Expr) bool {
	lit, ok := e.(*ast.CompositeLit)
	if !ok {
		return false
	}
	found := false
	for _, el := range lit.Elts {
		if kv, ok := el.(*ast.KeyValueExpr); ok {
			el = kv.Value
		}
		_, inner := el.(*ast.CompositeLit)
		found = found || inner
	}
	return found
}

// given completes the line of a number that the designer chose.
func (a *assembler) given(line *Line, n *check.Name, v sheet.Value, unit quantity.Unit, m check.Measure) {
	number := float64(v.Number)
	line.Given = true
	line.Caveat = caveat(number, m)
	shown := mathml.Value(quantity.FormatExact(number, unit, 0), unit.Symbol)
	line.Result, line.Text = a.math(shown), shown.Text
	g := &Given{ID: line.ID, Name: n.Ident, Symbol: line.Symbol, Value: line.Result, InRange: true, Reason: line.Reason, Line: line.Line}
	for _, k := range a.sites(n.Step) {
		for _, entry := range a.entries[k] {
			if t := entry.Tolerance; t != nil && t.Value == v.Number {
				q := differenceIn(float64(t.PlusMinus), unit)
				g.Tolerance = &q
			}
			if r := entry.Given; r != nil && r.Value == v.Number {
				low, high := exactIn(float64(r.Low), unit), exactIn(float64(r.High), unit)
				g.Low, g.High = &low, &high
				g.Choice = &Choice{unit.FromSI(number), unit.FromSI(float64(r.Low)), unit.FromSI(float64(r.High)), unit}
				g.InRange = r.Low <= r.Value && r.Value <= r.High
			}
		}
	}
	a.report.Givens = append(a.report.Givens, g)
	a.add(line)
	if !g.InRange {
		line.Caveat = fmt.Sprintf("outside its range, %s to %s %s", g.Low.Number, g.High.Number, g.High.Unit)
		c := &Check{ID: a.id("check"), What: "given " + n.Ident + " in its range", Rule: string(sheet.RuleWithin),
			Demand: exactIn(number, unit), Capacity: []Quantity{*g.Low, *g.High}, Utilisation: math.NaN(), Line: line.Line}
		a.report.Checks = append(a.report.Checks, c)
		a.add(&CheckPart{c})
	}
}

func exactIn(v float64, u quantity.Unit) Quantity {
	return Quantity{quantity.FormatExact(v, u, 0), u.Symbol}
}

// isFilledLater reports whether an expression says nothing that a reader needs:
// a function stands as code, an empty list is filled by what follows.
func (a *assembler) isFilledLater(e ast.Expr) bool {
	switch e := ast.Unparen(e).(type) {
	case *ast.FuncLit:
		return true
	case *ast.CompositeLit:
		_, isList := elemType(a.plan.Info.TypeOf(e))
		return isList && len(e.Elts) == 0
	case *ast.CallExpr:
		id, ok := e.Fun.(*ast.Ident)
		return ok && (id.Name == "make" || id.Name == "new")
	}
	return false
}

// calls returns the call that e is, through sheet.Must.
func (a *assembler) calls(e ast.Expr) *ast.CallExpr {
	call, ok := ast.Unparen(e).(*ast.CallExpr)
	if !ok {
		return nil
	}
	if name, _ := a.plan.SheetCall(call); name == "Must" {
		return a.calls(call.Args[0])
	}
	return call
}

// unitFor is the unit of a name: what the notebook prefers, what the designer
// wrote in a given, else what suits the value.
func (a *assembler) unitFor(n *check.Name, m check.Measure, v sheet.Value) quantity.Unit {
	if u, ok := a.preferred(n.Ident, m); ok {
		return u
	}
	if n.Given && v.Kind == sheet.KindNumber {
		if u, ok := a.writtenUnit(n.Value); ok {
			return u
		}
	}
	return m.Unit(a.system, numbersIn(v)...)
}

// writtenUnit is the unit constant when a given is a number times just one.
func (a *assembler) writtenUnit(e ast.Expr) (quantity.Unit, bool) {
	for {
		call, ok := ast.Unparen(e).(*ast.CallExpr)
		if !ok || len(call.Args) == 0 {
			break
		}
		e = call.Args[0] // sheet.Given(value, …), sheet.PlusMinus(value, …)
	}
	var found []quantity.Unit
	ast.Inspect(e, func(n ast.Node) bool {
		if x, ok := n.(ast.Expr); ok {
			if u, ok := a.unitConstant(x); ok {
				found = append(found, u)
			}
		}
		return true
	})
	if len(found) != 1 || found[0].Symbol == "" {
		return quantity.Unit{}, false
	}
	return found[0], found[0].Dimension.Equal(a.plan.Measure(e).Dimension)
}

// unitConstant is the unit when e is a constant of package units.
func (a *assembler) unitConstant(e ast.Expr) (quantity.Unit, bool) {
	sel, ok := e.(*ast.SelectorExpr)
	if !ok {
		return quantity.Unit{}, false
	}
	x, ok := sel.X.(*ast.Ident)
	if !ok || x.Name != "units" {
		return quantity.Unit{}, false
	}
	return quantity.OfCode("units." + sel.Sel.Name)
}

func numbersIn(v sheet.Value) []float64 {
	switch v.Kind {
	case sheet.KindNumber:
		return []float64{float64(v.Number)}
	case sheet.KindList:
		var vs []float64
		for _, item := range v.Items {
			vs = append(vs, numbersIn(item)...)
		}
		return vs
	}
	return nil
}

// fields shows the fields of a struct that a call returned, or that statements after
// it filled, as lines of their own, folded away when there are many, and its warnings as cautions.
func (a *assembler) fields(n *check.Name, v sheet.Value) {
	st, ok := structOf(n.Object.Type())
	if !ok || v.Kind != sheet.KindStruct || a.isLiteral(n) && !n.Changed {
		return
	}
	const many = 8
	var lines []*Line
	for i, item := range v.Items {
		if i >= st.NumFields() || !st.Field(i).Exported() {
			continue
		}
		f := st.Field(i)
		if f.Name() == "Warnings" {
			for _, w := range item.Items {
				a.warning(n.Ident, w.Text)
			}
			continue
		}
		if item.Kind == sheet.KindStruct || item.Kind == sheet.KindOther || f.Name() == "Source" {
			continue
		}
		e := &ast.SelectorExpr{X: ast.NewIdent(n.Ident), Sel: ast.NewIdent(f.Name())}
		m := a.plan.ObjectMeasure(f)
		line := &Line{ID: lineID(n.Ident + "." + f.Name()), Line: n.Range.Start.Line, Symbol: whole(mathml.Set(e, a.symbols))}
		line.Result, line.Text = a.result(item, m.Unit(a.system, numbersIn(item)...))
		if item.Kind == sheet.KindNumber {
			line.Caveat = caveat(float64(item.Number), m)
		}
		lines = append(lines, line)
	}
	if len(lines) > many {
		a.add(&Fold{n.Ident, lines})
		return
	}
	for _, line := range lines {
		a.add(line)
	}
}

// isLiteral reports whether a name is set from a struct literal, which shows
// its fields by itself.
func (a *assembler) isLiteral(n *check.Name) bool {
	_, ok := n.Value.(*ast.CompositeLit)
	return ok
}

func structOf(t types.Type) (*types.Struct, bool) {
	if ptr, ok := t.Underlying().(*types.Pointer); ok {
		t = ptr.Elem()
	}
	st, ok := t.Underlying().(*types.Struct)
	return st, ok
}

// result is a value as MathML and as plain text; both empty for a struct or
// function.
func (a *assembler) result(v sheet.Value, u quantity.Unit) (template.HTML, string) {
	switch v.Kind {
	case sheet.KindNumber:
		o := mathml.Value(numberText(float64(v.Number), u))
		return a.math(o), o.Text
	case sheet.KindText:
		text := excerpt(v.Text)
		return a.words("“" + text + "”"), `"` + text + `"`
	case sheet.KindTruth:
		word := map[bool]string{true: "yes", false: "no"}[v.Truth]
		return a.math(mathml.Operand{MathML: mathml.Text(word), Text: word}), word
	case sheet.KindList:
		text := listText(v, u)
		if text == "" {
			return "", ""
		}
		return a.words(text), text
	}
	return "", ""
}

// excerpt is a text, or the beginning of one that fills more than a few lines: a file
// for a shop is read in the file.
func excerpt(text string) string {
	const most, shown, few = 240, 60, 3
	lines, runes := strings.Count(text, "\n"), utf8.RuneCountInString(text)
	if runes <= most && lines <= few {
		return text
	}
	first, _, _ := strings.Cut(text, "\n")
	if r := []rune(first); len(r) > shown {
		first = string(r[:shown])
	}
	if lines > few {
		return fmt.Sprintf("%s… (%d lines)", first, strings.Count(strings.TrimSuffix(text, "\n"), "\n")+1)
	}
	return fmt.Sprintf("%s… (%d characters)", first, runes)
}

// words is a text among formulas. A long one is left out of MathML, which does not
// break lines.
func (a *assembler) words(text string) template.HTML {
	const long = 40
	if utf8.RuneCountInString(text) > long {
		return template.HTML("<span class=\"words\">" + template.HTMLEscapeString(text) + "</span>")
	}
	return a.math(mathml.Operand{MathML: mathml.Text(text), Text: text})
}

func numberText(v float64, u quantity.Unit) (number, unit string) {
	if math.IsNaN(v) {
		return quantity.Format(v, u, 0), ""
	}
	return quantity.Format(v, u, 0), u.Symbol
}

// listText says a list of numbers in one line: all of a short one, first and
// last of a long one.
func listText(v sheet.Value, u quantity.Unit) string {
	const short = 6
	var parts []string
	for _, item := range v.Items {
		switch item.Kind {
		case sheet.KindNumber:
			parts = append(parts, quantity.Format(float64(item.Number), u, 0))
		case sheet.KindText:
			parts = append(parts, item.Text)
		default:
			return fmt.Sprintf("%d items", v.Len)
		}
	}
	switch {
	case v.Len == 0:
		return "empty"
	case len(v.Items) < v.Len: // a great value of which only a part was kept
		return fmt.Sprintf("%d values", v.Len)
	}
	if len(parts) == 0 { // the run kept only how many there are
		return fmt.Sprintf("%d items", v.Len)
	}
	unit := ""
	if u.Symbol != "" && v.Items[0].Kind == sheet.KindNumber {
		unit = " " + u.Symbol
	}
	if v.Len <= short {
		return strings.Join(parts, "; ") + unit
	}
	return fmt.Sprintf("%s; %s; … %s%s (%d values)", parts[0], parts[1], parts[len(parts)-1], unit, v.Len)
}

// nameValue is the value that a run gave a name.
func (a *assembler) nameValue(n *check.Name) (sheet.Value, bool) {
	if c, ok := n.Object.(*types.Const); ok {
		return constantValue(c), true
	}
	v, ok := a.out.Values[n.Ident]
	return v, ok
}

// math wraps an operand as a formula of its own.
func (a *assembler) math(o mathml.Operand) template.HTML {
	return template.HTML(mathml.Math(o.MathML, false, o.Text))
}

// whole wraps a formula to stand by itself.
func whole(f mathml.Formula) template.HTML {
	return template.HTML(mathml.Math(f.MathML, false, f.Text))
}

// isPackage reports whether a name is a package that cells use.
func isPackage(name string) bool {
	_, ok := library.Path(name)
	return ok
}

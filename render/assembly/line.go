package assembly

import (
	"fmt"
	"go/ast"
	"math"
	"strings"

	"tautline/render/mathml"
	"tautline/render/report"
	"tautline/render/working"
	"tautline/runner/check/dimension"
	"tautline/runner/check/tree"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// lines makes the calculation lines of an assignment.
func (a *assembler) lines(s *tree.Step) {
	for i, n := range s.Names {
		symbol := mathml.Set(ast.NewIdent(n.Ident), a.Symbols)
		line := &report.Line{ID: report.LineID(n.Ident), Line: s.Range.Start.Line, Symbol: working.Whole(symbol), Name: symbol.Width}
		if i == len(s.Names)-1 {
			line.Reason = s.Reason
		}
		a.fill(line, n, working.SetFrom(n))
	}
}

// fill completes the line of a name set from e, which may be nil.
func (a *assembler) fill(line *report.Line, n *tree.Name, e ast.Expr) {
	v, isSet := a.NameValue(n)
	m := a.Plan.ObjectMeasure(n.Object)
	unit := a.UnitFor(n, m, v)
	if n.Given && v.Kind == sheet.KindNumber {
		a.given(line, n, v, unit, m)
		return
	}
	var symbolic, numeric mathml.Formula
	if e != nil && !n.Changed && !a.IsFilledLater(e) {
		var shown ast.Expr
		shown, symbolic = a.draft.symbolic(e)
		line.Formula, line.Row = working.Legible(symbolic)
		line.Wide = symbolic.Row > working.MaxFormula
		numeric = a.draft.numeric(a.Typesetter, e, shown, v, unit)
		if numeric.Text != symbolic.Text && numeric.Width <= 3*working.MaxFormula {
			var row int
			line.Numbers, row = working.Legible(numeric)
			line.Row, line.Wide = max(line.Row, row), line.Wide || numeric.Row > working.MaxFormula
			if nested(shown) { // its numbers say enough
				line.Formula = ""
			}
		}
	}
	if call := a.Calls(e); call != nil {
		if doc, name := a.Documented(call); doc.Source != "" {
			line.Source = report.Citation{By: name, Text: strings.TrimSuffix(doc.Source, ".")}
		}
	}
	if !isSet {
		line.Caveat = "not computed"
		a.add(line)
		return
	}
	line.Result, line.Text = a.Result(v, unit)
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

// chosen is the number of a given: with all its digits when they are no more than were
// typed, or six; what comes of arithmetic or of another unit is rounded as other
// results are.
func chosen(number float64, unit quantity.Unit, from ast.Expr) string {
	typed := 6
	if from != nil {
		ast.Inspect(from, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok {
				typed = max(typed, significant(lit.Value))
			}
			return true
		})
	}
	exact := quantity.FormatExact(number, unit, 0)
	if significant(exact) <= typed {
		return exact
	}
	return quantity.Format(number, unit, 0)
}

// significant counts the digits of a number before any power of ten, without zeros
// at its head; those at the end of a whole number count.
func significant(number string) int {
	number, _, _ = strings.Cut(number, "×")
	number, _, _ = strings.Cut(strings.ToLower(number), "e")
	count := 0
	for _, r := range number {
		if '1' <= r && r <= '9' || r == '0' && count > 0 {
			count++
		}
	}
	return count
}

// given completes the line of a number that the designer chose.
func (a *assembler) given(line *report.Line, n *tree.Name, v sheet.Value, unit quantity.Unit, m dimension.Measure) {
	number := float64(v.Number)
	line.Given = true
	line.Caveat = caveat(number, m)
	shown := mathml.Value(chosen(number, unit, n.Value), unit.Symbol)
	line.Result, line.Text = a.Math(shown), shown.Text
	g := &report.Given{ID: line.ID, Name: n.Ident, Symbol: line.Symbol, Value: line.Result, InRange: true, Reason: line.Reason, Line: line.Line}
	for _, k := range a.sites(n.Step) {
		for _, entry := range a.entries[k] {
			if t := entry.Tolerance; t != nil && t.Value == v.Number {
				q := report.Difference(float64(t.PlusMinus), unit)
				g.Tolerance = &q
			}
			if r := entry.Given; r != nil && r.Value == v.Number {
				low, high := report.Exactly(float64(r.Low), unit), report.Exactly(float64(r.High), unit)
				g.Low, g.High = &low, &high
				g.Choice = &report.Choice{Value: unit.FromSI(number), Low: unit.FromSI(float64(r.Low)), High: unit.FromSI(float64(r.High)), Unit: unit}
				g.InRange = r.Low <= r.Value && r.Value <= r.High
			}
		}
	}
	a.report.Givens = append(a.report.Givens, g)
	a.add(line)
	if !g.InRange {
		line.Caveat = fmt.Sprintf("outside its range, %s to %s %s", g.Low.Number, g.High.Number, g.High.Unit)
		c := &report.Check{ID: a.id("check"), What: "given " + n.Ident + " in its range", Rule: string(sheet.RuleWithin),
			Demand: report.Exactly(number, unit), Capacity: []report.Quantity{*g.Low, *g.High}, Utilisation: math.NaN(), Line: line.Line}
		a.report.Checks = append(a.report.Checks, c)
		a.add(&report.CheckPart{Check: c})
	}
}

// fields shows the fields of a struct that a call returned, or that statements after
// it filled, as lines of their own, folded away when there are many, and its warnings as cautions.
func (a *assembler) fields(n *tree.Name, v sheet.Value) {
	st, ok := working.StructOf(n.Object.Type())
	if !ok || v.Kind != sheet.KindStruct || a.isLiteral(n) && !n.Changed {
		return
	}
	const many = 8
	var lines []*report.Line
	for i, item := range v.Items {
		if i >= st.NumFields() || !st.Field(i).Exported() {
			continue
		}
		f := st.Field(i)
		if f.Name() == "Warnings" {
			for _, w := range item.Items {
				a.warning(n.Ident, w.Text, n.Range.Start.Line)
			}
			continue
		}
		if item.Kind == sheet.KindStruct || item.Kind == sheet.KindOther || f.Name() == "Source" {
			continue
		}
		e := &ast.SelectorExpr{X: ast.NewIdent(n.Ident), Sel: ast.NewIdent(f.Name())}
		m := a.Plan.ObjectMeasure(f)
		symbol := mathml.Set(e, a.Symbols)
		line := &report.Line{ID: report.LineID(n.Ident + "." + f.Name()), Line: n.Range.Start.Line, Symbol: working.Whole(symbol), Name: symbol.Width}
		line.Result, line.Text = a.Result(item, m.Unit(a.System, working.NumbersIn(item)...))
		if item.Kind == sheet.KindNumber {
			line.Caveat = caveat(float64(item.Number), m)
		}
		lines = append(lines, line)
	}
	if len(lines) > many {
		a.add(&report.Fold{Name: n.Ident, Lines: lines})
		return
	}
	for _, line := range lines {
		a.add(line)
	}
}

// isLiteral reports whether a name is set from a struct literal, which shows
// its fields by itself.
func (a *assembler) isLiteral(n *tree.Name) bool {
	_, ok := n.Value.(*ast.CompositeLit)
	return ok
}

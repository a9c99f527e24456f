package working

import (
	"go/ast"

	"tautline/runner/check/dimension"
	"tautline/runner/check/tree"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// UnitOf is the unit in which values are shown that the first numeric one of
// args describes: what the notebook prefers for a name among them, else what
// suits the largest value.
func (ts *Typesetter) UnitOf(args []ast.Expr, vs ...float64) quantity.Unit {
	var best dimension.Measure
	for _, e := range args {
		m := ts.Plan.Measure(e)
		if id, ok := ast.Unparen(e).(*ast.Ident); ok && m.Known {
			if u, ok := ts.Preferred(id.Name, m); ok {
				return u
			}
		}
		if m.Known && (!best.Known || best.Alias == "") {
			best = m
		}
	}
	return best.Unit(ts.System, vs...)
}

// Preferred is the unit that the title block sets for a name.
func (ts *Typesetter) Preferred(name string, m dimension.Measure) (quantity.Unit, bool) {
	symbol, ok := ts.Plan.Notebook.Title.Units[name]
	if !ok {
		return quantity.Unit{}, false
	}
	u, ok := quantity.Lookup(symbol)
	return u, ok && u.Dimension.Equal(m.Dimension)
}

// UnitFor is the unit of a name: what the notebook prefers, what the designer
// wrote in a given, else what suits the value.
func (ts *Typesetter) UnitFor(n *tree.Name, m dimension.Measure, v sheet.Value) quantity.Unit {
	if u, ok := ts.Preferred(n.Ident, m); ok {
		return u
	}
	if n.Given && v.Kind == sheet.KindNumber {
		if u, ok := ts.writtenUnit(n.Value); ok {
			return u
		}
	}
	return m.Unit(ts.System, NumbersIn(v)...)
}

// writtenUnit is the unit constant when a given is a number times just one.
func (ts *Typesetter) writtenUnit(e ast.Expr) (quantity.Unit, bool) {
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
			if u, ok := ts.unitConstant(x); ok {
				found = append(found, u)
			}
		}
		return true
	})
	if len(found) != 1 || found[0].Symbol == "" {
		return quantity.Unit{}, false
	}
	return found[0], found[0].Dimension.Equal(ts.Plan.Measure(e).Dimension)
}

// unitConstant is the unit when e is a constant of package units.
func (ts *Typesetter) unitConstant(e ast.Expr) (quantity.Unit, bool) {
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

// NumbersIn lists the numbers of a value, which share a unit.
func NumbersIn(v sheet.Value) []float64 {
	switch v.Kind {
	case sheet.KindNumber:
		return []float64{float64(v.Number)}
	case sheet.KindList:
		var vs []float64
		for _, item := range v.Items {
			vs = append(vs, NumbersIn(item)...)
		}
		return vs
	}
	return nil
}

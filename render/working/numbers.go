package working

import (
	"encoding/binary"
	"go/ast"
	"go/constant"
	"go/parser"
	"go/types"
	"math"
	"strings"

	"tautline/render/mathml"
	"tautline/runner/check/dimension"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// symbolOptions sets expressions with their names, units of constants as units.
func (ts *Typesetter) symbolOptions() mathml.Options {
	return mathml.Options{
		Package:  isPackage,
		MaxWidth: MaxFormula,
		Integer:  ts.isInteger,
		Operand: func(e ast.Expr) (mathml.Operand, bool) {
			if u, ok := ts.unitConstant(e); ok {
				return mathml.Unit(u.Symbol), true
			}
			return mathml.Operand{}, false
		},
		Conversion: func(fun ast.Expr) bool { return ts.Plan.Info.Types[fun].IsType() },
	}
}

// NumberOptions sets expressions with the numbers put in that their names hold,
// with so many significant digits.
func (ts *Typesetter) NumberOptions(digits int) mathml.Options {
	o := ts.Symbols
	names := o.Operand
	o.Operand = func(e ast.Expr) (mathml.Operand, bool) {
		if n, ok := names(e); ok {
			return n, true
		}
		v, unit, ok := ts.value(e)
		if !ok || v.Kind != sheet.KindNumber {
			return mathml.Operand{}, false
		}
		number := float64(v.Number)
		if math.IsNaN(number) {
			unit.Symbol = ""
		}
		return mathml.Value(ts.operandText(e, number, unit, digits), unit.Symbol), true
	}
	return o
}

func (ts *Typesetter) isInteger(e ast.Expr) bool {
	t := ts.Plan.Info.TypeOf(e)
	if t == nil {
		return false
	}
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsInteger != 0 && b.Info()&types.IsUntyped == 0
}

// value is what a name, a field of it or an element of it holds after the run,
// and the unit to show it in.
func (ts *Typesetter) value(e ast.Expr) (sheet.Value, quantity.Unit, bool) {
	v, _, m, ok := ts.lookup(e)
	if !ok {
		return sheet.Value{}, quantity.Unit{}, false
	}
	if id, isName := ast.Unparen(e).(*ast.Ident); isName {
		if n := ts.Plan.Names[id.Name]; n != nil {
			return v, ts.UnitFor(n, m, v), true
		}
	}
	return v, m.Unit(ts.System, NumbersIn(v)...), true
}

// lookup finds the value, type and measure of an expression made of a
// top-level name, fields and constant indices.
func (ts *Typesetter) lookup(e ast.Expr) (sheet.Value, types.Type, dimension.Measure, bool) {
	none := func() (sheet.Value, types.Type, dimension.Measure, bool) {
		return sheet.Value{}, nil, dimension.Measure{}, false
	}
	switch e := e.(type) {
	case *ast.ParenExpr:
		return ts.lookup(e.X)
	case *ast.Ident:
		n := ts.Plan.Names[e.Name]
		if n == nil || ts.Plan.Info.Uses[e] != nil && ts.Plan.Info.Uses[e] != n.Object {
			return none()
		}
		v, ok := ts.NameValue(n)
		return v, n.Object.Type(), ts.Plan.ObjectMeasure(n.Object), ok
	case *ast.SelectorExpr:
		v, t, _, ok := ts.lookup(e.X)
		if !ok || v.Kind != sheet.KindStruct {
			return none()
		}
		st, ok := StructOf(t)
		if !ok {
			return none()
		}
		for i := range min(st.NumFields(), len(v.Items)) {
			if f := st.Field(i); f.Name() == e.Sel.Name {
				return v.Items[i], f.Type(), ts.Plan.ObjectMeasure(f), true
			}
		}
	case *ast.IndexExpr:
		v, t, m, ok := ts.lookup(e.X)
		i, known := ts.index(e.Index)
		if !ok || !known || v.Kind != sheet.KindList || i >= len(v.Items) {
			return none()
		}
		elem, ok := elemType(t)
		return v.Items[i], elem, m, ok
	}
	return none()
}

func (ts *Typesetter) index(e ast.Expr) (int, bool) {
	if v := ts.Plan.Info.Types[e].Value; v != nil {
		i, ok := constant.Int64Val(constant.ToInt(v))
		return int(i), ok && i >= 0
	}
	if v, _, _, ok := ts.lookup(e); ok && v.Kind == sheet.KindNumber {
		return int(v.Number), v.Number >= 0
	}
	return 0, false
}

func elemType(t types.Type) (types.Type, bool) {
	switch u := t.Underlying().(type) {
	case *types.Slice:
		return u.Elem(), true
	case *types.Array:
		return u.Elem(), true
	}
	return nil, false
}

func constantValue(c *types.Const) sheet.Value {
	switch v := c.Val(); v.Kind() {
	case constant.Int, constant.Float:
		f, _ := constant.Float64Val(v)
		return sheet.Value{Kind: sheet.KindNumber, Number: sheet.Float(f)}
	case constant.String:
		return sheet.Value{Kind: sheet.KindText, Text: constant.StringVal(v)}
	case constant.Bool:
		return sheet.Value{Kind: sheet.KindTruth, Truth: constant.BoolVal(v)}
	}
	return sheet.Value{Kind: sheet.KindOther}
}

// Expanded is e as a reader works it: sheet.Must taken off, and the library's
// formulas in place of the calls, unless that gets too long: then in place of the
// outermost call alone, or of none. With it comes its formula in symbols.
func (ts *Typesetter) Expanded(e ast.Expr) (out ast.Expr, formula mathml.Formula) {
	for _, depth := range []int{maxNested, 1, 0} {
		out = ts.expand(e, depth)
		if formula = mathml.Set(out, ts.Symbols); formula.Width <= maxExpanded {
			break
		}
	}
	return out, formula
}

// maxNested is how deeply formulas are put into formulas.
const maxNested = 3

// expand puts formulas in place of calls, so many deep. What it does not change
// it returns as it is, since the types of the plan are kept by node.
func (ts *Typesetter) expand(e ast.Expr, depth int) ast.Expr {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return ts.expand(e.X, depth)
	case *ast.UnaryExpr:
		if x := ts.expand(e.X, depth); x != e.X {
			return &ast.UnaryExpr{Op: e.Op, X: x}
		}
	case *ast.BinaryExpr:
		x, y := ts.expand(e.X, depth), ts.expand(e.Y, depth)
		if (x != e.X || y != e.Y) && !ts.isInteger(e) {
			return &ast.BinaryExpr{X: x, Op: e.Op, Y: y}
		}
	case *ast.CallExpr:
		return ts.expandCall(e, depth)
	}
	return e
}

func (ts *Typesetter) expandCall(call *ast.CallExpr, depth int) ast.Expr {
	switch name, _ := ts.Plan.SheetCall(call); name {
	case "Must", "Given", "PlusMinus":
		return ts.expand(call.Args[0], depth)
	}
	if depth == 0 || call.Ellipsis.IsValid() {
		return call
	}
	doc, _ := ts.Documented(call)
	_, rhs, _ := strings.Cut(doc.Formula, "=")
	formula, err := parser.ParseExpr(strings.TrimSpace(rhs))
	if err != nil || len(call.Args) < len(doc.Params) {
		return call
	}
	put := map[string]ast.Expr{}
	for i, p := range doc.Params {
		put[p] = ts.expand(call.Args[i], depth-1)
	}
	if sel, ok := ast.Unparen(call.Fun).(*ast.SelectorExpr); ok && doc.Receiver != "" {
		put[doc.Receiver] = sel.X
	}
	return substitute(formula, put)
}

// substitute puts the arguments of a call into a formula, and functions of
// package math in place of the bare names that formulas use.
func substitute(e ast.Expr, put map[string]ast.Expr) ast.Expr {
	switch e := e.(type) {
	case *ast.Ident:
		if arg, ok := put[e.Name]; ok {
			return arg
		}
		if e.Name == "pi" {
			return &ast.SelectorExpr{X: ast.NewIdent("math"), Sel: ast.NewIdent("Pi")}
		}
	case *ast.ParenExpr:
		return substitute(e.X, put)
	case *ast.UnaryExpr:
		return &ast.UnaryExpr{Op: e.Op, X: substitute(e.X, put)}
	case *ast.BinaryExpr:
		return &ast.BinaryExpr{X: substitute(e.X, put), Op: e.Op, Y: substitute(e.Y, put)}
	case *ast.SelectorExpr:
		return &ast.SelectorExpr{X: substitute(e.X, put), Sel: ast.NewIdent(e.Sel.Name)}
	case *ast.IndexExpr:
		return &ast.IndexExpr{X: substitute(e.X, put), Index: substitute(e.Index, put)}
	case *ast.CallExpr:
		out := &ast.CallExpr{Fun: e.Fun}
		if id, ok := e.Fun.(*ast.Ident); ok {
			out.Fun = &ast.SelectorExpr{X: ast.NewIdent("math"), Sel: ast.NewIdent(strings.ToUpper(id.Name[:1]) + id.Name[1:])}
		}
		for _, arg := range e.Args {
			out.Args = append(out.Args, substitute(arg, put))
		}
		return out
	}
	return e
}

// NumbersKey tells apart the numbers that are put into a formula.
func (ts *Typesetter) NumbersKey(shown ast.Expr, v sheet.Value, u quantity.Unit) string {
	key := []byte(u.Symbol + "\x00")
	put := func(v sheet.Value) { key = binary.LittleEndian.AppendUint64(key, math.Float64bits(float64(v.Number))) }
	if v.Kind == sheet.KindNumber {
		put(v)
	}
	ast.Inspect(shown, func(n ast.Node) bool {
		e, ok := n.(ast.Expr)
		if !ok {
			return true
		}
		held, _, _, ok := ts.lookup(e)
		if !ok {
			key = append(key, '-')
			return true
		}
		if held.Kind != sheet.KindNumber {
			key = append(key, 'x')
			return true
		}
		put(held)
		return false
	})
	return string(key)
}

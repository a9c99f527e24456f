package mathml

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/render/mathml/core"
)

// goNames are the names that random expressions use, with how each must print.
var goNames = map[string]string{
	"a": "a", "b": "b", "rho": "ρ", "qp": "q_p", "sigmaMax": "σ_max", "pitch": "pitch",
}

// evalGo evaluates an expression by the rules of Go.
func (m modular) evalGo(e ast.Expr) (*big.Int, error) {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return m.evalGo(e.X)
	case *ast.Ident:
		return m.name(goNames[e.Name])
	case *ast.BasicLit:
		return m.number(e.Value)
	case *ast.UnaryExpr:
		v, err := m.evalGo(e.X)
		if err != nil {
			return nil, err
		}
		return m.op(e.Op.String(), new(big.Int), v)
	case *ast.BinaryExpr:
		x, err := m.evalGo(e.X)
		if err != nil {
			return nil, err
		}
		y, err := m.evalGo(e.Y)
		if err != nil {
			return nil, err
		}
		return m.op(e.Op.String(), x, y)
	case *ast.CallExpr:
		var args []*big.Int
		for _, a := range e.Args {
			v, err := m.evalGo(a)
			if err != nil {
				return nil, err
			}
			args = append(args, v)
		}
		return m.callGo(e.Fun, args)
	}
	return nil, fmt.Errorf("expression %T", e)
}

func (m modular) callGo(fun ast.Expr, args []*big.Int) (*big.Int, error) {
	sel, ok := fun.(*ast.SelectorExpr)
	if !ok {
		if name := fun.(*ast.Ident).Name; name != "float64" {
			return m.apply(name, args...), nil
		}
		return args[0], nil
	}
	switch name := sel.Sel.Name; name {
	case "Pow":
		return m.op("^", args[0], args[1])
	case "Exp":
		return m.op("^", m.names["e"], args[0])
	case "Hypot":
		x, _ := m.op("*", args[0], args[0])
		y, _ := m.op("*", args[1], args[1])
		z, _ := m.op("+", x, y)
		return m.apply("sqrt", z), nil
	case "Log":
		return m.apply("ln", args...), nil
	case "Atan":
		return m.apply("arctan", args...), nil
	case "HoopTension":
		return m.apply(name, args...), nil
	default:
		return m.apply(strings.ToLower(name), args...), nil
	}
}

// drawExpr draws Go source; its parentheses are as the source needs them, and
// sometimes more.
func drawExpr(t *rapid.T, depth int) string {
	if depth == 0 {
		return rapid.SampledFrom([]string{"a", "b", "rho", "qp", "sigmaMax", "pitch", "0.5", "2", "3.0", "1.0", "1.5e3", "1e-2"}).Draw(t, "leaf")
	}
	sub := func() string { return drawExpr(t, depth-1) }
	switch rapid.IntRange(0, 9).Draw(t, "form") {
	case 0:
		return drawExpr(t, 0)
	case 1:
		return "(-(" + sub() + "))"
	case 2:
		f := rapid.SampledFrom([]string{"Sqrt", "Cbrt", "Abs", "Floor", "Ceil", "Exp", "Sin", "Cos", "Sinh", "Log", "Atan"}).Draw(t, "function")
		return "math." + f + "(" + sub() + ")"
	case 3:
		f := rapid.SampledFrom([]string{"math.Pow", "math.Hypot", "math.Min", "math.Max", "fabric.HoopTension", "min"}).Draw(t, "function")
		return f + "(" + sub() + ", " + sub() + ")"
	case 4:
		x := sub()
		return "(" + x + ")*(" + x + ")"
	case 5:
		return "float64(" + sub() + ")"
	}
	op := rapid.SampledFrom([]string{"+", "-", "*", "/"}).Draw(t, "operator")
	x, y := sub(), sub()
	switch rapid.IntRange(0, 2).Draw(t, "parentheses") {
	case 0:
		return x + op + "(" + y + ")"
	case 1:
		return "(" + x + ")" + op + "(" + y + ")"
	}
	return x + op + y // groups as Go reads it
}

// TestMeaning reads random formulas back and compares their value with that of
// the Go source.
func TestMeaning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		src := drawExpr(t, rapid.IntRange(1, 5).Draw(t, "depth"))
		e, err := parser.ParseExpr(src)
		if err != nil {
			t.Fatalf("%s: %v", src, err)
		}
		field := modular{map[string]*big.Int{}}
		for _, name := range []string{"a", "b", "ρ", "q_p", "σ_max", "pitch", "e"} {
			field.names[name] = big.NewInt(rapid.Int64Range(101, 1e15).Draw(t, name))
		}
		o := Options{
			Package:  func(name string) bool { return name == "math" || name == "fabric" },
			Integer:  func(ast.Expr) bool { return false },
			MaxWidth: rapid.SampledFrom([]int{0, 20}).Draw(t, "width"),
		}
		if rapid.Bool().Draw(t, "numbers put in") {
			o.Operand = putIn(field)
		}
		want, err := field.evalGo(e)
		if err != nil {
			t.Skip(err)
		}
		s := Expr(e, o)
		ml, err := core.Parse(s)
		if err != nil {
			t.Fatalf("%s: %v\n%s", src, err, s)
		}
		got, err := field.eval(ml)
		if err != nil {
			t.Fatalf("%s: read back as %v\n%s\n%s", src, err, ExprText(e, o), s)
		}
		if got.Cmp(want) != 0 {
			t.Fatalf("%s: read back as %v, want %v\n%s\n%s", src, got, want, ExprText(e, o), s)
		}
		text := ExprText(e, o)
		got, err = field.evalRow(textRow(text))
		if err != nil {
			t.Fatalf("%s: text read back as %v\n%s", src, err, text)
		}
		if got.Cmp(want) != 0 {
			t.Fatalf("%s: text read back as %v, want %v\n%s", src, got, want, text)
		}
	})
}

// putIn gives the names the numbers of m in every form that a report uses:
// plain, negative, and times a power of ten.
func putIn(m modular) func(ast.Expr) (Operand, bool) {
	return func(e ast.Expr) (Operand, bool) {
		switch e := e.(type) {
		case *ast.Ident:
			v, ok := m.names[goNames[e.Name]]
			if !ok {
				return Operand{}, false
			}
			switch e.Name {
			case "a":
				return Value("-"+new(big.Int).Sub(prime, v).String(), ""), true
			case "b":
				f, _ := m.op("/", v, big.NewInt(1000))
				return Value(f.String()+"e3", ""), true
			}
			return Value(v.String(), ""), true
		case *ast.BinaryExpr:
			if e.Op == token.SUB {
				if x, ok := e.X.(*ast.Ident); ok && x.Name == "rho" {
					v, err := m.evalGo(e)
					if err != nil {
						return Operand{}, false
					}
					return Operand{MathML: Row(Quantity(v.String(), ""), Operator("+"), Quantity("0", "")), Text: v.String() + " + 0", Binding: Loose}, true
				}
			}
		}
		return Operand{}, false
	}
}

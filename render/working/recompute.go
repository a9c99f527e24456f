package working

import (
	"go/ast"
	"go/constant"
	"go/token"
	"math"
	"strconv"
	"strings"

	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

// A reviewer works a line again from the numbers printed in it. These must give
// the printed result, to its last digit; where four digits do not, more are
// printed.

// EnoughDigits is the least count of significant digits, from the default up,
// at which the numbers put into e give result as it is printed in u. An
// expression that cannot be worked by hand, such as a call of a library function
// that shows no formula, keeps the default.
func (ts *Typesetter) EnoughDigits(e ast.Expr, result float64, u quantity.Unit) int {
	text := quantity.Format(result, u, 0)
	printed, ok := readNumber(text)
	if !ok {
		return quantity.DefaultDigits
	}
	for digits := quantity.DefaultDigits; digits <= quantity.MaxDigits; digits++ {
		got, ok := ts.recompute(e, digits)
		if !ok {
			return quantity.DefaultDigits
		}
		if math.Abs(u.FromSI(got)-printed) <= lastPlace(text)*(1+1e-9) {
			return digits
		}
	}
	return quantity.MaxDigits
}

// readNumber reads a number as package quantity prints it.
func readNumber(text string) (float64, bool) {
	text = strings.NewReplacer("\u202f", "", "−", "-").Replace(text)
	mantissa, exponent, scaled := strings.Cut(text, "×10")
	if scaled {
		mantissa += "e" + superscripts.Replace(exponent)
	}
	v, err := strconv.ParseFloat(mantissa, 64)
	return v, err == nil && !math.IsInf(v, 0) && !math.IsNaN(v)
}

var superscripts = strings.NewReplacer("⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9", "⁻", "-")

// lastPlace is one unit in the last digit of a printed number. A number printed
// with fewer digits than the default is exact, and its last place stands as far
// right as the default's would.
func lastPlace(text string) float64 {
	v, _ := readNumber(text)
	mantissa, exponent, scaled := strings.Cut(text, "×10")
	_, decimals, _ := strings.Cut(mantissa, ".")
	place := math.Pow10(-len(decimals))
	if scaled {
		n, _ := strconv.Atoi(superscripts.Replace(exponent))
		place *= math.Pow10(n)
	}
	if v == 0 {
		return 1e-12
	}
	return math.Min(place, math.Pow10(int(math.Floor(math.Log10(math.Abs(v))))+1-quantity.DefaultDigits))
}

// recompute works e from its operands as they are printed with digits, in SI
// base units. It reports false where a reader could not.
func (ts *Typesetter) recompute(e ast.Expr, digits int) (float64, bool) {
	if u, ok := ts.unitConstant(e); ok {
		return u.Factor, u.Offset == 0
	}
	if v, u, ok := ts.value(e); ok {
		if v.Kind != sheet.KindNumber {
			return 0, false
		}
		printed, ok := readNumber(ts.operandText(e, float64(v.Number), u, digits))
		return u.ToSI(printed), ok
	}
	switch e := e.(type) {
	case *ast.ParenExpr:
		return ts.recompute(e.X, digits)
	case *ast.BasicLit:
		v := constant.MakeFromLiteral(e.Value, e.Kind, 0)
		if v.Kind() != constant.Int && v.Kind() != constant.Float {
			return 0, false
		}
		f, _ := constant.Float64Val(v)
		return f, true
	case *ast.SelectorExpr:
		if x, ok := e.X.(*ast.Ident); ok && x.Name == "math" && e.Sel.Name == "Pi" {
			return math.Pi, true
		}
	case *ast.UnaryExpr:
		x, ok := ts.recompute(e.X, digits)
		return -x, ok && e.Op == token.SUB
	case *ast.BinaryExpr:
		x, ok1 := ts.recompute(e.X, digits)
		y, ok2 := ts.recompute(e.Y, digits)
		return ts.operate(e, x, y, ok1 && ok2)
	case *ast.CallExpr:
		return ts.recall(e, digits)
	}
	return 0, false
}

func (ts *Typesetter) operate(e *ast.BinaryExpr, x, y float64, ok bool) (float64, bool) {
	switch e.Op {
	case token.ADD:
		return x + y, ok
	case token.SUB:
		return x - y, ok
	case token.MUL:
		return x * y, ok
	case token.QUO:
		if ts.isInteger(e) {
			return math.Trunc(x / y), ok
		}
		return x / y, ok
	}
	return 0, false
}

// recall works a call of package math, a builtin or a conversion.
func (ts *Typesetter) recall(e *ast.CallExpr, digits int) (float64, bool) {
	var args []float64
	for _, arg := range e.Args {
		v, ok := ts.recompute(arg, digits)
		if !ok {
			return 0, false
		}
		args = append(args, v)
	}
	if ts.Plan.Info.Types[e.Fun].IsType() && !ts.isInteger(e) && len(args) == 1 {
		return args[0], true
	}
	name := ""
	switch f := e.Fun.(type) {
	case *ast.Ident:
		name = map[string]string{"min": "Min", "max": "Max"}[f.Name]
	case *ast.SelectorExpr:
		if x, ok := f.X.(*ast.Ident); ok && x.Name == "math" {
			name = f.Sel.Name
		}
	}
	if f, ok := functions1[name]; ok && len(args) == 1 {
		return f(args[0]), true
	}
	if f, ok := functions2[name]; ok && len(args) >= 2 {
		v := args[0]
		for _, x := range args[1:] {
			v = f(v, x)
		}
		return v, true
	}
	return 0, false
}

// The functions of package math that stand in formulas.
var (
	functions1 = map[string]func(float64) float64{
		"Sqrt": math.Sqrt, "Cbrt": math.Cbrt, "Abs": math.Abs, "Ceil": math.Ceil, "Floor": math.Floor, "Round": math.Round,
		"Sin": math.Sin, "Cos": math.Cos, "Tan": math.Tan, "Asin": math.Asin, "Acos": math.Acos, "Atan": math.Atan,
		"Exp": math.Exp, "Log": math.Log, "Log10": math.Log10, "Log2": math.Log2,
		"Sinh": math.Sinh, "Cosh": math.Cosh, "Tanh": math.Tanh,
	}
	functions2 = map[string]func(float64, float64) float64{
		"Pow": math.Pow, "Hypot": math.Hypot, "Atan2": math.Atan2, "Min": math.Min, "Max": math.Max, "Mod": math.Mod,
	}
)

// operandText is the number of an operand: a given as it was put in, any other
// with the digits asked for.
func (ts *Typesetter) operandText(e ast.Expr, v float64, u quantity.Unit, digits int) string {
	if id, ok := ast.Unparen(e).(*ast.Ident); ok {
		if n := ts.Plan.Names[id.Name]; n != nil && n.Given {
			return quantity.FormatExact(v, u, 0)
		}
	}
	return quantity.Format(v, u, digits)
}

package mathml

import (
	"go/ast"
	"go/parser"
	"strings"
	"testing"
)

func parse(t testing.TB, src string) ast.Expr {
	t.Helper()
	e, err := parser.ParseExpr(src)
	if err != nil {
		t.Fatalf("%s: %v", src, err)
	}
	return e
}

// tradePackages are the imports of the expressions in the tests.
func tradePackages(name string) bool { return name == "math" || name == "units" || name == "fabric" }

// TestExprText has the printed form of each kind of expression, written by hand.
func TestExprText(t *testing.T) {
	for _, c := range []struct{ src, want string }{
		// Products, powers and fractions.
		{"0.5*rho*v*v", "½·ρ·v²"},
		{"x*x*x", "x³"},
		{"v*rho*v", "v²·ρ"},
		{"p*r/(2*t)", "p·r/(2·t)"},
		{"a/b/c", "a/(b·c)"},
		{"a/(b/c)", "a/(b/c)"},
		{"a/b*c", "a·c/b"},
		{"a*(b/c)", "a·(b/c)"},
		{"a*(b*c)", "a·b·c"},
		{"(H/2)*(H/2)", "(H/2)²"},
		{"0.5*F*L/(3*E)", "½·(F·L/(3·E))"},
		{"1.0/12*b*h*h*h", "b·h³/12"},
		{"x*0.5", "x·0.5"},
		{"2*2*x", "2·2·x"},
		{"f(x)*f(x)", "f(x)·f(x)"}, // f need not give the same twice
		{"math.Sin(x)*math.Sin(x)", "sin² x"},
		// Sums and signs.
		{"a-(b-c)", "a − (b − c)"},
		{"a-(b+c)+d", "a − (b + c) + d"},
		{"(a+b)+(c-d)", "a + b + c − d"},
		{"(a+b)*(a+b)", "(a + b)²"},
		{"-x*y", "−x·y"},
		{"x*-y", "x·(−y)"},
		{"a - -b", "a − (−b)"},
		{"-(-x)", "−(−x)"},
		{"-(a+b)", "−(a + b)"},
		{"+x", "x"},
		// Integer division drops the remainder and must not look like a fraction.
		{"1/2*x", "trunc(1/2)·x"},
		{"x*(7/2)", "x·trunc(7/2)"},
		{"int(x)", "trunc(x)"},
		// Functions.
		{"math.Sqrt(a*a+b*b)", "√(a² + b²)"},
		{"math.Hypot(a, b/2)", "√(a² + (b/2)²)"},
		{"math.Cbrt(x)", "∛x"},
		{"math.Pow(x, n+1)", "x^(n + 1)"},
		{"math.Pow(x, 1.0/3)", "x^(1/3)"},
		{"math.Pow(math.Pow(x, 2), 3)", "(x²)³"},
		{"math.Pow(-x, 2)", "(−x)²"},
		{"math.Abs(a-b)", "|a − b|"},
		{"math.Abs(a*math.Abs(b))", "abs(a·|b|)"},
		{"math.Exp(-t/tau)", "e^(−t/τ)"},
		{"math.Exp2(3)", "2³"},
		{"math.Sin(x)", "sin x"},
		{"math.Sin(x+y)", "sin(x + y)"},
		{"math.Sin(2*x)", "sin(2·x)"},
		{"math.Sin(-x)*math.Sin(-x)", "sin²(−x)"},
		{"math.Sin(alpha)*math.Cos(beta)", "sin α·cos β"},
		{"math.Sin(alpha)*F", "sin(α)·F"},
		{"math.Atan2(y, x)", "atan2(y, x)"},
		{"math.Asin(x)", "arcsin x"},
		{"math.Log(x)", "ln x"},
		{"math.Log10(x)", "log_10(x)"},
		{"math.Log1p(x)", "ln(1 + x)"},
		{"math.Max(a, b)", "max(a, b)"},
		{"min(a, b, c)", "min(a, b, c)"},
		{"math.Ceil(a/b)", "⌈a/b⌉"},
		{"math.Floor(x)", "⌊x⌋"},
		{"math.Mod(a, b)", "a mod b"},
		{"2*math.Pi*r", "2·π·r"},
		{"math.Inf(-1)", "−∞"},
		{"math.Copysign(x, y)", "Copysign(x, y)"},
		// Conditions.
		{"a <= b && c != d || !ok", "a ≤ b and c ≠ d or not ok"},
		{"(a || b) && c", "(a or b) and c"},
		{"!(a < b)", "not (a < b)"},
		{"(a < b) == c", "(a < b) = c"},
		{"n%2 == 0", "(n mod 2) = 0"},
		{"a+b >= c*d", "a + b ≥ c·d"},
		// Names, fields, indices, calls.
		{"sigmaMax", "σ_max"},
		{"m.Pitch*m.Pitch", "Pitch_m²"},
		{"m.Tube.R", "R_Tube_m"},
		{"m.LineForce()", "LineForce_m"},
		{"blow.At(v)", "At_blow(v)"},
		{"m.LineForceAt(x)", "LineForceAt_m(x)"},
		{"xs[3]", "x_s_3"},
		{"x[i+1]", "x_(i + 1)"},
		{"x[1:n]", "x_(1:n)"},
		{"fabric.HoopTension(p, r)", "HoopTension(p, r)"},
		{"fabric.Lobe(s).Radius", "Lobe(s).Radius"},
		{"sum(xs...)", "sum(x_s…)"},
		{"append(xs, a, b)", "[x_s…, a, b]"},
		{"append(append([]float64{}, xs...), a)", "[x_s…, a]"},
		{"append([]float64{a}, b)", "[a, b]"},
		{"len(append(xs, ys...))", "len([x_s…, y_s…])"},
		{"float64(n)*x", "n·x"},
		// Literals.
		{"1.5e-3", "1.5×10⁻³"},
		{"1e6", "10⁶"},
		{"1_000", "1000"},
		{".5", "0.5"},
		{"2.", "2"},
		{"0x1F", "0x1F"},
		{`"kN" + "m"`, "“kN” + “m”"},
		{"[]float64{1, 2}", "[1, 2]"},
		{"fabric.Mattress{Pitch: s, Height: H}", "Mattress{Pitch = s, Height = H}"},
		{"fabric.Pose{1, x}", "Pose(1, x)"},
		{"&fabric.Tube{R: r}", "Tube{R = r}"},
		{"func(x float64) float64 { return 2*x }", "x ↦ 2·x"},
		{"a &^ b", "a &^ b"},
		{"<-c", "<-c"},
	} {
		e := parse(t, c.src)
		o := Options{Package: tradePackages}
		if got := ExprText(e, o); got != c.want {
			t.Errorf("ExprText(%s) = %s, want %s", c.src, got, c.want)
		}
		wellFormed(t, c.src, Expr(e, o))
	}
}

func TestExpr(t *testing.T) {
	const d = `<mo form="infix" lspace="0.18em" rspace="0.18em">⋅</mo>`
	for _, c := range []struct{ src, want string }{
		{"p*r/t", `<mfrac><mrow><mi>p</mi>` + d + `<mi>r</mi></mrow><mi>t</mi></mfrac>`},
		{"vMax*vMax", `<msubsup><mi>v</mi><mtext>max</mtext><mn>2</mn></msubsup>`},
		{"math.Sqrt(x)", `<msqrt><mi>x</mi></msqrt>`},
		{"math.Cbrt(x)", `<mroot><mi>x</mi><mn>3</mn></mroot>`},
		{"a-b", `<mrow><mi>a</mi><mo form="infix">−</mo><mi>b</mi></mrow>`},
		{"a < b", `<mrow><mi>a</mi><mo form="infix">&lt;</mo><mi>b</mi></mrow>`},
		{"-a", `<mrow><mo form="prefix">−</mo><mi>a</mi></mrow>`},
		{`"<b>"`, `<mtext>“&lt;b&gt;”</mtext>`},
		{"math.Pi", `<mi mathvariant="normal">π</mi>`},
		{"xs[i]", `<msub><mi>x</mi><mrow><mtext>s</mtext><mo separator="true">,</mo><mi>i</mi></mrow></msub>`},
	} {
		if got := Expr(parse(t, c.src), Options{}); got != c.want {
			t.Errorf("Expr(%s) = %s, want %s", c.src, got, c.want)
		}
	}
}

// A long list stands in lines, none longer than a page has room for; what it says as
// text stays one line. One of short items is not broken.
func TestLongList(t *testing.T) {
	const item = "motion.Level{Name: \"spring tide\", Duration: 20, Variation: 0.3}"
	for n, want := range map[int]int{1: 0, 2: 0, 3: 2, 7: 4} { // some 23 letters wide: the widest field
		src := "[]motion.Level{" + strings.Repeat(item+", ", n-1) + item + "}"
		ml := Expr(parse(t, src), Options{})
		wellFormed(t, src, ml)
		outer := 0
		if strings.Contains(ml, "<mo form=\"prefix\">[</mo><mtable>") {
			outer = strings.Count(ml, "</mtr>") - 3*n // less the rows of the fields
		}
		if outer != want {
			t.Errorf("list of %d: got %d lines, want %d:\n%s", n, outer, want, ml)
		}
		if text := ExprText(parse(t, src), Options{}); strings.Count(text, "Level{") != n {
			t.Errorf("list of %d as text: got %s", n, text)
		}
	}
}

// TestOperand puts numbers in as a report does.
func TestOperand(t *testing.T) {
	values := map[string]Operand{
		"p": Value("1.8", "kPa"), "r": Value("300", "mm"), "n": Value("-3", ""), "k": Value("2", ""),
		"E": Value("2.1×10¹¹", ""), "phi": Value("30", "°"),
	}
	units := map[string]string{"KPa": "kPa", "Mm": "mm", "KN": "kN", "M": "m"}
	o := Options{Package: tradePackages, Operand: func(e ast.Expr) (Operand, bool) {
		switch e := e.(type) {
		case *ast.Ident:
			v, ok := values[e.Name]
			return v, ok
		case *ast.SelectorExpr:
			if u, ok := units[e.Sel.Name]; ok {
				return Unit(u), true
			}
		case *ast.BinaryExpr:
			if s, ok := e.X.(*ast.Ident); ok && s.Name == "whole" {
				return Operand{MathML: Row(Symbol("a"), Operator("+"), Symbol("b")), Text: "a + b", Binding: Loose}, true
			}
		}
		return Operand{}, false
	}}
	for _, c := range []struct{ src, want string }{
		{"p*r", "1.8 kPa·300 mm"},
		{"r*r", "(300 mm)²"},
		{"k*k", "2²"},
		{"E*E", "(2.1×10¹¹)²"},
		{"n*n", "(−3)²"},
		{"n*x", "−3·x"},
		{"x*n", "x·(−3)"},
		{"x - n", "x − (−3)"},
		{"n - x", "−3 − x"},
		{"x/n", "x/(−3)"},
		{"math.Sin(phi)", "sin(30°)"},
		{"math.Pow(x, n)", "x⁻³"},
		{"(whole + 1)*x", "(a + b)·x"},
		{"(whole + 1)*(whole + 1)", "(a + b)²"},
		{"x - (whole + 1)", "x − (a + b)"},
		{"1.8*units.KPa", "1.8 kPa"},
		{"5*units.KN/units.M", "5 kN/m"},
		{"5*units.KN*units.M", "5 kN·m"},
		{"5*units.KN/(units.M*units.M)", "5 kN/m²"},
		{"-5*units.KN", "−5 kN"},
		{"x/units.KN", "x/kN"},
		{"x*units.KN", "x·kN"},
		{"xs[k]", "x_s_2"},
		{"p.Gauge", "Gauge_p"}, // the owner of a field stays a name
	} {
		e := parse(t, c.src)
		if got := ExprText(e, o); got != c.want {
			t.Errorf("ExprText(%s) = %s, want %s", c.src, got, c.want)
		}
		wellFormed(t, c.src, Expr(e, o))
	}
	if got := ExprText(parse(t, "n/2*x"), Options{Integer: func(e ast.Expr) bool {
		b, ok := e.(*ast.BinaryExpr)
		return ok && ExprText(b.X, Options{}) == "n"
	}}); got != "trunc(n/2)·x" {
		t.Errorf("a division of integers prints as %s", got)
	}
}

func TestMaxWidth(t *testing.T) {
	long := parse(t, strings.Repeat("alpha*x + ", 20)+"1")
	if rows := strings.Count(Expr(long, Options{}), "<mtr>"); rows != 0 {
		t.Errorf("rows without a limit: got %d, want 0", rows)
	}
	w := Set(long, Options{}).Width
	if rows := strings.Count(Expr(long, Options{MaxWidth: w/4 + 1}), "<mtr>"); rows < 4 || rows > 6 {
		t.Errorf("rows at a quarter of the width: got %d, want 4 to 6", rows)
	}
	if rows := strings.Count(Expr(long, Options{MaxWidth: w}), "<mtr>"); rows != 0 {
		t.Errorf("rows at the full width: got %d, want 0", rows)
	}
	if narrow, wide := Set(parse(t, "a/b"), Options{}).Width, Set(parse(t, "a*b"), Options{}).Width; narrow >= wide {
		t.Errorf("width of a fraction: got %d, want less than the %d of the product", narrow, wide)
	}
}

// TestDeep nests further than a page can show.
func TestDeep(t *testing.T) {
	deep := parse(t, strings.Repeat("f(", 500)+"x"+strings.Repeat(")", 500))
	if got := Expr(deep, Options{}); !strings.HasPrefix(got, "<mtext>f(f(") {
		t.Errorf("deep expression: got %.40s…, want its source", got)
	}
	for _, nest := range [][2]string{{"math.Exp((1+", ")/2)"}, {"2*(a+", "/3)"}, {"(", "*b/c)*d"}, {"-(", "-1)"}, {"T{a: f(", ")}"}} {
		n := maxDepth / 3
		e := parse(t, strings.Repeat(nest[0], n)+"x"+strings.Repeat(nest[1], n))
		wellFormed(t, nest[0], Expr(e, Options{})) // in a time that does not double with each level
	}
	wide := parse(t, "x"+strings.Repeat("+y*z", 3000))
	if got := Expr(wide, Options{}); !strings.HasPrefix(got, "<mrow>") {
		t.Errorf("long sum: got %.40s…, want a row", got)
	}
}

func TestQuantity(t *testing.T) {
	for _, c := range []struct{ number, unit, want string }{
		{"300", "mm", "300 mm"},
		{"-1.5", "kN/m", "−1.5 kN/m"},
		{"−1.5", "m³/h", "−1.5 m³/h"},
		{"30", "°", "30°"},
		{"20", "°C", "20 °C"},
		{"1.2×10⁶", "Pa", "1.2×10⁶ Pa"},
		{"1.2e-6", "", "1.2×10⁻⁶"},
		{"1e+06", "N", "10⁶ N"},
		{"12 345", "N", "12 345 N"},
		{"0.5", "", "0.5"},
		{"7.50", "kPa", "7.50 kPa"},
		{"NaN", "Pa", "NaN Pa"},
		{"∞", "", "∞"},
		{"", "", ""},
		{"<b>", "\"&", `<b> "&`},
	} {
		b := quantity(c.number, c.unit)
		if b.text != c.want {
			t.Errorf("Quantity(%q, %q) = %s, want %s", c.number, c.unit, b.text, c.want)
		}
		wellFormed(t, c.want, b.ml)
	}
	if got, want := Quantity("300", "mm"), "<mrow><mn>300</mn><mtext>\u202fmm</mtext></mrow>"; got != want {
		t.Errorf("Quantity = %s, want %s", got, want)
	}
}

func TestMath(t *testing.T) {
	got := Math(Row(Symbol("p"), Operator("=")), true, `"p" < 1`)
	want := `<math display="block" alttext="&#34;p&#34; &lt; 1"><mrow><mi>p</mi><mo form="infix">=</mo></mrow></math>`
	if got != want {
		t.Errorf("Math = %s, want %s", got, want)
	}
	steps := wellFormed(t, "Steps", Steps(Symbol("T"), Symbol("p"), Symbol("r"), Quantity("540", "N/m")))
	if len(steps.Kids) != 3 || len(steps.Kids[1].Kids) != 3 || len(steps.Kids[1].Kids[0].Kids) != 0 {
		t.Errorf("Steps: want three rows of three cells, the first cell set once only")
	}
}

func FuzzExpr(f *testing.F) {
	for _, src := range []string{"0.5*rho*v*v", "a/b/c-(-d)", "math.Sqrt(x)*f(y...)", "m.F[1:2].g()", "T{a: 1, \"b\": x}",
		"func(a, b int) int { return a+b }", "x.(T)", "a[b]&c|^d", "!a&&b||c==d", "[]T{{1}, {x: 2}}", "math.Pow(1e999, 0x1p-2)"} {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src string) {
		e, err := parser.ParseExpr(src)
		if err != nil {
			return
		}
		for _, o := range []Options{{}, {MaxWidth: 10, Operand: func(e ast.Expr) (Operand, bool) {
			_, ok := e.(*ast.Ident)
			return Value("-1e3", src), ok
		}}} {
			wellFormed(t, src, Expr(e, o))
			ExprText(e, o)
		}
	})
}

func FuzzNames(f *testing.F) {
	for _, s := range []string{"sigmaMax", "m.Pitch", "Δ_x1_2", "1.2×10⁶", "-.5e3", "°"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		wellFormed(t, s, Symbol(s))
		wellFormed(t, s, Quantity(s, s))
		wellFormed(t, s, Math(Text(s), true, s))
	})
}

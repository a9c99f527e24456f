package dimension

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"tautline/runner/check/tree"
	"tautline/runner/document"
	"tautline/stdlib/quantity"
)

// The property: an expression has the dimension by which its value changes when
// the base units are scaled. Random operations on givens are written as a cell
// for the checker and evaluated as numbers here; its exponents are the
// logarithms of how the number grows when one base unit grows. Nothing of the
// checker's or the library's dimensions is used for that.

// scales is by how much the numbers of lengths, masses and times grow.
type scales [3]float64

// A given is a leaf of the expressions: its text and, for one unit of each base, its
// exponents.
type given struct {
	text  string
	value float64
	exp   [3]int // length, mass, time
}

var (
	basics = []given{
		{"units.M", 1, [3]int{1, 0, 0}}, {"units.Kg", 1, [3]int{0, 1, 0}}, {"units.S", 1, [3]int{0, 0, 1}},
	}
	givens = append([]given{
		{"r", 1.37, [3]int{1, 0, 0}}, {"m", 0.83, [3]int{0, 1, 0}}, {"t", 2.11, [3]int{0, 0, 1}},
		{"p", 1.73, [3]int{-1, 1, -2}}, {"F", 0.59, [3]int{1, 1, -2}}, {"v", 1.19, [3]int{1, 0, -1}},
		{"Q", 0.71, [3]int{3, 0, -1}}, {"rho", 1.29, [3]int{-3, 1, 0}}, {"k", 1.61, [3]int{0, 0, 0}},
		{"legs[1].Load", 0.93, [3]int{1, 1, -2}}, {"spans[1]", 1.43, [3]int{1, 0, 0}}, {"loads[0]", 0.67, [3]int{0, 1, -2}},
		{"1.7", 1.7, [3]int{}}, {"0.6", 0.6, [3]int{}}, {"units.Gn", 9.80665, [3]int{1, 0, -2}},
	}, basics...)
)

// setting declares the givens and some functions.
const setting = `type Leg struct {
	Load float64
}
r := 1.37 * units.M
m := 0.83 * units.Kg
t := 2.11 * units.S
p := 1.73 * units.Pa
F := 0.59 * units.N
v := 1.19 * units.MPerS
Q := 0.71 * units.M3PerS
rho := 1.29 * units.KgPerM3
k := 1.61
legs := []Leg{{0}, {0.93 * units.N}}
spans := []float64{0, 1.43 * units.M}
loads := map[int]units.ForcePerLength{0: 0.67 * units.NPerM}
func square(x float64) float64 { return x * x }
func mean(a, b float64) float64 { return (a + b) / 2 }
func area(a, b units.Length) units.Area { return a * b }
half := func(x float64) float64 { y := 0.0; y += x; return y / 2 }
`

// An expression is its text and its value under scaled base units.
type expression struct {
	text string
	eval func(scales) float64
}

func (g given) expression() expression {
	return expression{g.text, func(s scales) float64 {
		v := g.value
		for i, e := range g.exp {
			v *= math.Pow(s[i], float64(e))
		}
		return v
	}}
}

// exponents finds by what powers of the base units the value of an expression grows.
// It reports false when it is no number, or grows by no power.
func (e expression) exponents() ([3]float64, bool) {
	var exp [3]float64
	at := e.eval(scales{1, 1, 1})
	for i := range exp {
		var by [2]float64
		for j, factor := range []float64{2, 3} {
			s := scales{1, 1, 1}
			s[i] = factor
			by[j] = math.Log(math.Abs(e.eval(s)/at)) / math.Log(factor)
		}
		if !(math.Abs(by[0]-by[1]) < 1e-6) || math.IsInf(by[0], 0) {
			return exp, false
		}
		exp[i] = by[0]
	}
	return exp, math.Abs(at) > 1e-30 && math.Abs(at) < 1e30
}

// forest makes expressions. When wrong is set, the first place that wants two alike
// gets two unlike ones.
type forest struct {
	*rapid.T
	wrong bool // still to be done
}

func (f *forest) any(depth int) expression {
	if depth == 0 {
		return rapid.SampledFrom(givens).Draw(f.T, "given").expression()
	}
	kind := rapid.IntRange(0, 15).Draw(f.T, "kind")
	if kind == 14 {
		return f.area(depth)
	}
	a := f.any(depth - 1)
	switch kind {
	case 0, 1:
		b := f.any(depth - 1)
		return expression{"(" + a.text + ") * (" + b.text + ")", func(s scales) float64 { return a.eval(s) * b.eval(s) }}
	case 2, 3:
		b := f.any(depth - 1)
		return expression{"(" + a.text + ") / (" + b.text + ")", func(s scales) float64 { return a.eval(s) / b.eval(s) }}
	case 4:
		b := f.like(a, depth)
		return expression{"(" + a.text + ") + (" + b.text + ")", func(s scales) float64 { return a.eval(s) + b.eval(s) }}
	case 5:
		b := f.like(a, depth)
		return expression{"(" + b.text + ") - (" + a.text + ")", func(s scales) float64 { return b.eval(s) - a.eval(s) }}
	case 6:
		return apply("-(%s)", func(x float64) float64 { return -x }, a)
	case 7:
		return apply("math.Sqrt(math.Abs(%s))", func(x float64) float64 { return math.Sqrt(math.Abs(x)) }, a)
	case 8:
		n := rapid.SampledFrom([]int{-1, 0, 2, 3}).Draw(f.T, "power")
		return apply("math.Pow(%s, "+strconv.Itoa(n)+")", func(x float64) float64 { return math.Pow(x, float64(n)) }, a)
	case 9:
		b := f.like(a, depth)
		name := rapid.SampledFrom([]string{"math.Hypot", "min", "math.Max", "mean"}).Draw(f.T, "two")
		two := map[string]func(x, y float64) float64{"math.Hypot": math.Hypot, "min": math.Min, "math.Max": math.Max,
			"mean": func(x, y float64) float64 { return (x + y) / 2 }}[name]
		return expression{name + "(" + a.text + ", " + b.text + ")", func(s scales) float64 { return two(a.eval(s), b.eval(s)) }}
	case 10:
		b := f.like(a, depth)
		return expression{"math.Sin(math.Atan2(" + a.text + ", " + b.text + "))",
			func(s scales) float64 { return math.Sin(math.Atan2(a.eval(s), b.eval(s))) }}
	case 11:
		b := f.like(a, depth)
		return expression{"math.Exp(math.Sin((" + a.text + ") / (" + b.text + ") * units.Rad))",
			func(s scales) float64 { return math.Exp(math.Sin(a.eval(s) / b.eval(s))) }}
	case 12:
		return apply("square(%s)", func(x float64) float64 { return x * x }, a)
	case 13:
		return apply("half(%s)", func(x float64) float64 { return x / 2 }, a)
	}
	return apply("(0 + (%s))", func(x float64) float64 { return x }, a)
}

// area calls a function that says its dimensions.
func (f *forest) area(depth int) expression {
	well := !f.wrong
	b := f.like(basics[0].expression(), depth)
	text := "area(r, " + b.text + ")"
	if !well && !f.wrong { // the wrong argument is here: the result is an area all the same
		return expression{text, func(s scales) float64 { return s[0] * s[0] }}
	}
	return expression{text, func(s scales) float64 { return 1.37 * s[0] * b.eval(s) }}
}

func apply(format string, f func(float64) float64, a expression) expression {
	return expression{fmt.Sprintf(format, a.text), func(s scales) float64 { return f(a.eval(s)) }}
}

// like makes an expression that is added to or compared with a: any one times the
// units that it lacks.
func (f *forest) like(a expression, depth int) expression {
	b := f.any(depth - 1)
	want, ok := a.exponents()
	have, ok2 := b.exponents()
	if !ok || !ok2 {
		f.Skip("no number")
	}
	out := b
	for i, unit := range basics {
		n := math.Round(12 * (want[i] - have[i]))
		if math.Abs(n-12*(want[i]-have[i])) > 1e-4 {
			f.Skip("a root of a root")
		}
		if f.wrong && i == 0 {
			f.wrong = false
			n += 12
		}
		if n != 0 {
			factor := apply("math.Pow(%s, "+strconv.Itoa(int(n))+".0/12)", func(x float64) float64 { return math.Pow(x, n/12) }, unit.expression())
			left := out
			out = expression{"(" + left.text + ") * " + factor.text, func(s scales) float64 { return left.eval(s) * factor.eval(s) }}
		}
	}
	return out
}

// frames are statements around an expression that leave its dimension in x.
var frames = []string{
	"x := %s\n",
	"x := 0.0\nfor range 3 {\n\tx += %s\n}\n",
	"list := []float64{0, %s}\nx := list[1]\n",
	"type Box struct{ In float64 }\nbox := Box{In: %s}\nx := box.In\n",
	"f := func() float64 { return %s }\nx := f()\n",
	"func f() (y float64) {\n\ty = %s\n\treturn\n}\nx := f()\n",
	"by := map[string]float64{}\nby[\"a\"] = %s\nx := by[\"a\"]\n",
	"best := math.Inf(1)\nfor range 2 {\n\tbest = min(best, %s)\n}\nx := best\n",
	"var x float64\nif k > 0 {\n\tx = %s\n}\n",
	"x := sheet.Given(%s, 0, 0)\n",
	"var grows []float64\ngrows = append(grows, %s)\nx := grows[0]\n",
}

func TestExpressions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := &forest{T: t}
		e := f.any(rapid.IntRange(0, 4).Draw(t, "depth"))
		want, ok := e.exponents()
		if !ok {
			t.Skip("no number")
		}
		cell := fmt.Sprintf(rapid.SampledFrom(frames).Draw(t, "frame"), e.text)
		read, in, diags := infer(t, setting, cell)
		for _, d := range diags {
			t.Fatalf("unexpected:\n%s", d.Format(read.Notebook.Source, false))
		}
		m := in.ObjectMeasure(read.Names["x"].Object)
		got := [3]float64{number64(m.Dimension.Length), number64(m.Dimension.Mass), number64(m.Dimension.Time)}
		for i := range got {
			if !m.Known || math.Abs(got[i]-want[i]) > 1e-5 {
				t.Fatalf("%s: got exponents %v, known %v, want %v by scaling", cell, got, m.Known, want)
			}
		}
	})
}

func TestIllExpressions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := &forest{T: t, wrong: true}
		e := f.any(rapid.IntRange(1, 4).Draw(t, "depth"))
		if f.wrong {
			a := f.any(1)
			b := f.like(a, 1)
			if rapid.Bool().Draw(t, "condition") {
				e = expression{text: fmt.Sprintf("func() float64 { if %s < %s { return 1 }; return 0 }()", a.text, b.text)}
			} else {
				e = expression{text: fmt.Sprintf("sheet.Given(%s, 0, %s)", a.text, b.text)}
			}
		}
		read, _, diags := infer(t, setting, fmt.Sprintf(rapid.SampledFrom(frames).Draw(t, "frame"), e.text))
		if len(diags) != 1 {
			for _, d := range diags {
				t.Logf("%s", d.Format(read.Notebook.Source, false))
			}
			t.Fatalf("%s\ngot %d diagnostics, want 1", e.text, len(diags))
		}
	})
}

// infer reads and infers a notebook of the given cells, which Go accepts.
func infer(t *rapid.T, cells ...string) (*tree.Tree, *Inference, []document.Diagnostic) {
	t.Helper()
	src := []byte("---\ntitle: test\n---\n\n```go\n" + strings.Join(cells, "```\n\n```go\n") + "```\n")
	nb, diags := document.Parse("property.md", src)
	read, more := tree.Read(nb)
	for _, d := range append(diags, more...) {
		t.Fatalf("%s", d.Format(src, false))
	}
	in := New(read)
	return read, in, in.Check()
}

func number64(r quantity.Rat) float64 {
	over, under, _ := strings.Cut(r.String(), "/")
	n, _ := strconv.ParseFloat(over, 64)
	if d, err := strconv.ParseFloat(under, 64); err == nil {
		return n / d
	}
	return n
}

package lower_test

import (
	"fmt"
	"slices"
	"strings"
)

// expr writes an expression of a kind with at most depth levels.
func (g *generator) expr(kind string, depth int) string {
	if depth <= 0 || g.r.IntN(5) == 0 {
		if v := g.pick(kind); v != "" && g.r.IntN(5) > 0 {
			return v
		}
		return g.leaf(kind)
	}
	for range 5 {
		if e := g.form(kind, depth-1); e != "" {
			return e
		}
	}
	return g.leaf(kind)
}

func (g *generator) leaf(kind string) string {
	if v := g.pick(kind); v != "" && g.r.IntN(3) > 0 {
		return v
	}
	switch kind {
	case float:
		return g.one("0.5", "1.5", "2.0", "float64(3)", "-1.25", "float64(7/2)", "1/3.0", "math.Pi", "1e-3", "float64(1/2)", "math.Copysign(0, -1)", "math.Inf(1)", "math.NaN()", "0.0")
	case number:
		return g.one("units.Number(2)", "50*units.Percent", "1*units.Percent")
	case "float32":
		return g.one("float32(0.1)", "float32(16777216)", "float32(1/3.0)")
	case "int":
		return g.one("1", "2", "3", "-4", "10/4", "1<<3", "5%3", "0x10", "int('a'-90)")
	case "int32":
		return g.one("int32(at(1<<30, 1<<31))", "-int32(at(7, 9))")
	case "uint8":
		return g.one("uint8(at(200, 256))", "uint8(at(-1, 256))")
	case "level":
		return g.one("level(1)", "level(-3)")
	case "bool":
		return g.one("true", "false", "1/2 == 0")
	case "string":
		return g.one(`"a"`, `"b"`, `"zz"`, `""`, `"é"`)
	case law:
		return g.one("math.Abs", "math.Floor", "clip")
	}
	return g.composite(kind, 0)
}

// composite writes a literal.
func (g *generator) composite(kind string, d int) string {
	f := func() string { return g.expr(float, d) }
	switch kind {
	case "vec":
		return g.one(fmt.Sprintf("(vec{X: %s, y: %s})", f(), f()), fmt.Sprintf("(vec{%s, %s})", f(), f()))
	case "rec":
		return fmt.Sprintf("(rec{A: %s, b: %s, v: %s, arr: %s})", f(), g.expr("int", d), g.expr("vec", d), g.expr("[3]float64", d))
	case "*rec":
		return fmt.Sprintf("&rec{A: %s, b: %s}", f(), g.expr("int", d))
	case lists:
		return fmt.Sprintf("[]float64{%s, %s, 7 / 2}", f(), f())
	case "[]vec":
		return fmt.Sprintf("[]vec{%s, {X: %s}}", g.expr("vec", d), f())
	case "[3]float64":
		return fmt.Sprintf("[3]float64{%s, 2: %s}", f(), f())
	case "[]rec":
		return fmt.Sprintf("[]rec{%s, {A: %s}}", g.expr("rec", d), f())
	case table:
		return fmt.Sprintf(`map[string]float64{"a": %s, "q": %s}`, f(), f())
	case "map[int]rec":
		return fmt.Sprintf("map[int]rec{1: %s, 2: {A: %s}}", g.expr("rec", d), f())
	case "[]" + law:
		return fmt.Sprintf("[]func(float64) float64{%s, math.Abs}", g.expr(law, d))
	}
	panic("no literal of kind " + kind)
}

// form writes an expression of a kind with operands of depth d, or "".
func (g *generator) form(kind string, d int) string {
	if g.r.IntN(8) == 0 {
		if call := g.callOf(kind, d); call != "" {
			return call
		}
	}
	switch kind {
	case float, number:
		if g.r.IntN(2) == 0 {
			return g.arithmetic(d)
		}
		return g.element(d)
	case "int", "int32", "uint8", "level":
		return g.integer(kind, d)
	case "float32":
		return fmt.Sprintf("(%s %s %s)", g.expr(kind, d), g.one("+", "-", "*"), g.expr(kind, d))
	case "bool":
		return g.condition(d)
	case "string":
		return g.one(fmt.Sprintf("(%s + %s)", g.expr(kind, d), g.expr(kind, d)), fmt.Sprintf("strconv.Itoa(%s %% 10)", g.expr("int", d)),
			fmt.Sprintf(`fmt.Sprintf("%%.3g|%%v", %s, %s)`, g.expr(float, d), g.expr("bool", d)))
	case law:
		return g.literal(d)
	case lists:
		return g.one(fmt.Sprintf("append(clone(%s), %s)", g.expr(lists, d), g.expr(float, d)), g.composite(kind, d))
	case "vec":
		return g.one(fmt.Sprintf("%s.add(%s)", g.expr("vec", d), g.expr("vec", d)), g.item("[]vec", d), g.composite(kind, d))
	case "rec":
		if v := g.pick("rec"); v != "" {
			return g.one(v+".with("+g.expr(float, d)+")", g.item("[]rec", d), g.composite(kind, d))
		}
	}
	return g.composite(kind, d)
}

func (g *generator) arithmetic(d int) string {
	x, y := g.expr(float, d), g.expr(float, d)
	switch g.r.IntN(13) {
	case 0, 1:
		return fmt.Sprintf("(%s %s %s)", x, g.one("+", "-", "*", "/ clip", "+ 1/3.0*"), "("+y+")")
	case 2:
		return fmt.Sprintf("%s / (1.5 + math.Abs(%s))", x, y)
	case 3:
		return fmt.Sprintf("math.%s(%s)", g.one("Sqrt", "Abs", "Floor", "Tanh", "Cbrt", "Round"), x)
	case 4:
		return fmt.Sprintf("%s %s (%s)", g.one("2", "0.1", "7/2", "1/2", "(2+3)", "1e3"), g.one("+", "-", "*"), x)
	case 5:
		if v := g.pick(float); v != "" && g.r.IntN(8) == 0 {
			return v + " / 0.0"
		}
		return fmt.Sprintf("(%s) %s %s", x, g.one("+", "-", "*", "/"), g.one("3", "0.25", "7/2", "-2"))
	case 6:
		return fmt.Sprintf("%s(%s, %s)", g.one("min", "max"), x, y)
	case 7:
		return fmt.Sprintf("%s(%s, %s, %s)", g.one("min", "max"), g.one("0", "1.5"), x, y)
	case 8:
		return "-(" + x + ")"
	case 9:
		return fmt.Sprintf("math.Copysign(1, clip(%s))", x) // the sign of NaN is nobody's
	case 10:
		return fmt.Sprintf("func() float64 { return %s }()", x)
	case 11:
		return fmt.Sprintf("float64(%s)", g.expr(g.one("int", "int32", "uint8", "level", "float32", number), d))
	}
	return fmt.Sprintf("sum(%s, %s)", x, y)
}

// element writes a float out of something larger.
func (g *generator) element(d int) string {
	switch g.r.IntN(10) {
	case 0:
		return g.expr("vec", d) + g.one(".X", ".y", ".norm()")
	case 1, 2:
		if v := g.pick(g.one("rec", "*rec")); v != "" {
			return v + g.one(".A", ".v.y", ".get(2)", ".in.P", ".arr[1]", ".v.norm()", ".with(2).A")
		}
	case 3:
		return g.item(lists, d)
	case 4:
		if m := g.pick(table); m != "" {
			return fmt.Sprintf("%s[%s]", m, g.expr("string", d))
		}
	case 5:
		if a := g.pick("[3]float64"); a != "" {
			return fmt.Sprintf("%s[%s]", a, g.one("0", "2", fmt.Sprintf("at(%s, 3)", g.expr("int", d))))
		}
	case 6:
		if f := g.pick(law); f != "" {
			return fmt.Sprintf("%s(%s)", f, g.expr(float, d))
		}
	case 7:
		if e := g.item(g.one("[]rec", "[]vec"), d); e != "" {
			return e + g.member(e)
		}
	case 8:
		if m := g.pick("map[int]rec"); m != "" {
			return fmt.Sprintf("%s[%s].A", m, g.expr("int", d))
		}
	case 9:
		if fs := g.item("[]"+law, d); fs != "" {
			return fs + "(" + g.expr(float, d) + ")"
		}
	}
	return ""
}

// member is a float field or method for an item of a list of structs.
func (g *generator) member(item string) string {
	list, _, _ := strings.Cut(item, "[")
	for _, v := range g.vars {
		if v.name == list && v.kind == "[]rec" {
			return g.one(".A", ".v.X", ".get(3)", ".arr[2]")
		}
	}
	return g.one(".X", ".norm()")
}

// item writes an element of a list, or "".
func (g *generator) item(kind string, d int) string {
	v := g.pick(kind)
	if v == "" {
		return ""
	}
	return fmt.Sprintf("%s[at(%s, len(%s))]", v, g.expr("int", d), v)
}

func (g *generator) integer(kind string, d int) string {
	x, y := g.expr(kind, d), g.expr(kind, d)
	switch g.r.IntN(9) {
	case 0, 1:
		return fmt.Sprintf("(%s %s %s)", x, g.one("+", "-", "*", "|", "&", "^", "&^"), y)
	case 2:
		return fmt.Sprintf("(%s %s %s)", x, g.one("/", "%"), g.one("3", "7", "(1<<2)"))
	case 3:
		return fmt.Sprintf("(%s %s %d)", x, g.one("<<", ">>"), g.r.IntN(5))
	case 4:
		if kind == "uint8" {
			return "^(" + x + ")"
		}
		return g.one("-(", "^(") + x + ")"
	case 5:
		if kind == "level" {
			return x + ".twice()"
		}
		return fmt.Sprintf("%s(at(int(%s), 200))", kind, g.expr(g.one("int", "int32", "uint8", "level"), d))
	case 6:
		return fmt.Sprintf("%s(whole(%s))", kind, g.expr(float, d))
	case 7:
		return fmt.Sprintf("%s(len(%s))", kind, g.expr("string", d))
	}
	return fmt.Sprintf("%s(%s, %s)", g.one("min", "max"), x, y)
}

func (g *generator) condition(d int) string {
	compare := g.one("<", ">", "<=", ">=", "==", "!=")
	switch g.r.IntN(8) {
	case 0, 1:
		return fmt.Sprintf("(%s %s %s)", g.expr(float, d), compare, g.expr(float, d))
	case 2:
		kind := g.one("int", "uint8", "int32", "level", "string")
		return fmt.Sprintf("(%s %s %s)", g.expr(kind, d), compare, g.expr(kind, d))
	case 3, 4:
		return fmt.Sprintf("(%s %s %s)", g.expr("bool", d), g.one("&&", "||"), g.expr("bool", d))
	case 5:
		return "!(" + g.expr("bool", d) + ")"
	case 6:
		return fmt.Sprintf("%s == %s", g.expr("vec", d), g.composite("vec", d))
	}
	return fmt.Sprintf("(%s) || %s", g.expr("bool", d), g.expr("bool", d))
}

// literal writes a function literal.
func (g *generator) literal(d int) string {
	p := g.name()
	outer := g.vars
	g.vars = append(slices.Clone(g.vars), variable{p, float, true})
	e := g.expr(float, d)
	g.vars = outer
	return fmt.Sprintf("func(%s float64) float64 { return %s + %s*0.5 }", p, e, p)
}

// callOf writes a call of a generated function with one result of the kind.
func (g *generator) callOf(kind string, d int) string {
	for _, f := range g.funcs {
		if len(f.out) == 1 && f.out[0] == kind && g.r.IntN(2) == 0 {
			return g.call(f, d)
		}
	}
	return ""
}

func (g *generator) call(f function, d int) string {
	var args []string
	for _, kind := range f.in {
		args = append(args, g.expr(kind, d-1))
	}
	return f.name + "(" + strings.Join(args, ", ") + ")"
}

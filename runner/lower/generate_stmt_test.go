package lower_test

import (
	"fmt"
	"slices"
	"strings"
)

// statement writes one statement, or none when the present names allow none of
// the drawn form.
func (g *generator) statement() {
	if g.budget--; g.budget < 0 {
		return
	}
	k := g.r.IntN(24)
	if g.depth > 3 {
		k = g.r.IntN(12)
	}
	switch k {
	case 0, 1, 2:
		g.declare()
	case 3, 4:
		if place, kind := g.place(); place != "" {
			g.line("%s = %s", place, g.expr(kind, 3))
		}
	case 5:
		g.operate()
	case 6:
		g.several()
	case 7:
		g.line("%s = %s*0.9 + clip(%s)", g.total, g.total, g.expr(float, 3))
	case 8:
		g.ask()
	case 9:
		g.change()
	case 10:
		g.results()
	case 11:
		g.gather()
	case 12, 13, 14:
		g.branch()
	case 15, 16, 17, 18, 19, 20:
		g.loop()
	case 21, 22:
		g.selectCase()
	default:
		g.line("{")
		g.block(2)
		g.line("}")
	}
}

func (g *generator) define(name, kind string) {
	g.vars = append(g.vars, variable{name: name, kind: kind})
	if g.depth > 0 {
		g.line("_ = %s", name)
	}
}

func (g *generator) declare() {
	kind, name := g.kind(), g.name()
	switch {
	case g.r.IntN(4) == 0:
		g.line("var %s %s = %s", name, kind, g.expr(kind, 3))
	case g.depth > 0 && g.r.IntN(4) == 0 && !isReference(kind):
		g.line("var %s %s", name, kind)
	default:
		g.line("%s := %s", name, g.typed(kind))
	}
	g.define(name, kind)
}

// typed writes an expression that has the kind by itself.
func (g *generator) typed(kind string) string {
	switch kind {
	case "vec", "rec", "*rec", lists, table, "[3]float64", "[]rec", "[]vec", "map[int]rec", "[]" + law, "bool", "string":
		return g.expr(kind, 3)
	}
	return fmt.Sprintf("(%s)(%s)", kind, g.expr(kind, 3))
}

// place returns what can be assigned to and its kind.
func (g *generator) place() (string, string) {
	suffix := func(v, s string) string {
		if v == "" {
			return ""
		}
		return v + s
	}
	kind, place := float, ""
	switch g.r.IntN(11) {
	case 0, 1, 2:
		kind = g.kind()
		place = g.free(kind)
	case 3:
		place = suffix(g.free("rec"), g.one(".A", ".in.P", ".v.X", ".arr[0]"))
	case 4:
		place = suffix(g.free("*rec"), g.one(".A", ".v.y"))
	case 5:
		if v := g.free(lists); v != "" {
			place = fmt.Sprintf("%s[at(%s, len(%s))]", v, g.expr("int", 1), v)
		}
	case 6:
		place = suffix(g.free(table), "["+g.expr("string", 1)+"]")
	case 7:
		place = suffix(g.free("[3]float64"), "["+g.one("0", "1", "at("+g.expr("int", 1)+", 3)")+"]")
	case 8:
		if v := g.free("[]rec"); v != "" {
			place = fmt.Sprintf("%s[at(%s, len(%s))]%s", v, g.expr("int", 1), v, g.one(".A", ".in.P", ".v.X", ".arr[2]"))
		}
	case 9:
		kind, place = "rec", suffix(g.free("map[int]rec"), g.one("[1]", "[3]"))
	case 10:
		if v := g.free("[]vec"); v != "" {
			kind, place = "vec", fmt.Sprintf("%s[at(%s, len(%s))]", v, g.expr("int", 1), v)
		}
	}
	return place, kind
}

// operate writes x op= y, x++ or x--.
func (g *generator) operate() {
	place, kind := g.place()
	if place == "" {
		return
	}
	switch kind {
	case "int", "int32", "uint8", "level":
		if g.r.IntN(3) == 0 {
			g.line("%s%s", place, g.one("++", "--"))
			return
		}
		g.line("%s %s %s", place, g.one("+=", "-=", "*=", "|=", "&=", "^=", "&^="), g.expr(kind, 2))
	case float, number, "float32":
		g.line("%s %s %s", place, g.one("+=", "-=", "*=", "/="), g.one(g.expr(kind, 2), "7/2", "0.5"))
	case "string":
		g.line("if len(%s) < 50 {", place)
		g.line("\t%s += %s", place, g.expr("string", 1))
		g.line("}")
	}
}

// several writes an assignment or definition of two at once.
func (g *generator) several() {
	if g.r.IntN(3) == 0 {
		a, b, k1, k2 := g.name(), g.name(), g.kind(), g.kind()
		g.line("%s, %s := %s, %s", a, b, g.typed(k1), g.typed(k2))
		g.define(a, k1)
		g.define(b, k2)
		return
	}
	p1, k1 := g.place()
	p2, k2 := g.place()
	if p1 == "" || p2 == "" {
		return
	}
	if k1 == k2 && g.r.IntN(2) == 0 {
		g.line("%s, %s = %s, %s", p1, p2, p2, p1)
		return
	}
	g.line("%s, %s = %s, %s", p1, p2, g.expr(k1, 2), g.expr(k2, 2))
}

// ask writes a look into a map that tells whether the key is there.
func (g *generator) ask() {
	m, kind, key := g.pick(table), float, g.expr("string", 1)
	if g.r.IntN(3) == 0 {
		m, kind, key = g.pick("map[int]rec"), "rec", g.expr("int", 1)
	}
	if m == "" {
		return
	}
	v, ok := g.name(), g.name()
	switch g.r.IntN(3) {
	case 0:
		g.line("%s, %s := %s[%s]", v, ok, m, key)
		g.define(v, kind)
		g.define(ok, "bool")
	case 1:
		g.line("if %s, %s := %s[%s]; %s {", v, ok, m, key, ok)
		g.block(1, variable{name: v, kind: kind})
		g.line("} else {")
		g.block(1, variable{name: v, kind: kind})
		g.line("}")
	default:
		if a, b := g.free(kind), g.free("bool"); a != "" && b != "" {
			g.line("%s, %s = %s[%s]", a, b, m, key)
		}
	}
}

// change writes a call that changes what it is called on.
func (g *generator) change() {
	x := g.expr(float, 2)
	switch g.r.IntN(8) {
	case 0:
		if v := g.free(g.one("rec", "*rec")); v != "" {
			g.line("%s%s.%s", v, "", g.one("mod("+x+")", "v.shift("+x+")"))
		}
	case 1:
		if v := g.free("vec"); v != "" {
			g.line("%s.shift(%s)", v, x)
		}
	case 2:
		if v := g.free("[]rec"); v != "" {
			g.line("%s[at(%s, len(%s))].mod(%s)", v, g.expr("int", 1), v, x)
		}
	case 3:
		if v := g.free(lists); v != "" {
			g.line("sort.Float64s(%s)", v)
		}
	case 4:
		if v := g.free("[]rec"); v != "" {
			g.line("sort.SliceStable(%s, func(i, j int) bool { return %s[i].A < %s[j].A })", v, v, v)
		}
	case 5:
		if v := g.free(table); v != "" {
			g.line("delete(%s, %s)", v, g.one(`"a"`, `"zz"`))
		}
	case 6:
		if v, w := g.free(lists), g.pick(lists); v != "" {
			g.line("copy(%s, %s)", v, w)
		}
	case 7: // a closure that changes a variable outside
		if v := g.free(float); v != "" {
			f, d := g.name(), g.name()
			g.line("%s := func(%s float64) float64 { %s += %s; return %s / 2 }", f, d, v, d, v)
			g.line("%s = %s", g.total, g.one(f+"("+x+")", f+"(1) + "+f+"("+x+")"))
		}
	}
}

// results writes a call with two results.
func (g *generator) results() {
	for _, f := range g.funcs {
		if len(f.out) != 2 || g.r.IntN(2) == 0 {
			continue
		}
		if a, b := g.free(f.out[0]), g.free(f.out[1]); a != "" && b != "" && a != b && g.r.IntN(2) == 0 {
			g.line("%s, %s = %s", a, b, g.call(f, 2))
			return
		}
		a, b := g.name(), g.one(g.name(), "_")
		g.line("%s, %s := %s", a, b, g.call(f, 2))
		g.define(a, f.out[0])
		if b != "_" {
			g.define(b, f.out[1])
		}
		return
	}
}

// gather writes an append.
func (g *generator) gather() {
	kind := g.one(lists, "[]rec", "[]vec", "[]"+law)
	if v := g.free(kind); v != "" {
		g.line("if len(%s) < 20 {", v)
		g.line("\t%s = append(%s, %s)", v, v, g.expr(kind[2:], 2))
		g.line("}")
	}
}

func (g *generator) branch() {
	g.line("if %s {", g.expr("bool", 3))
	g.block(1 + g.r.IntN(3))
	if g.r.IntN(2) == 0 {
		if g.r.IntN(3) == 0 {
			g.line("} else if %s {", g.expr("bool", 2))
			g.block(1 + g.r.IntN(2))
		}
		g.line("} else {")
		g.block(1 + g.r.IntN(3))
	}
	g.line("}")
}

// loop writes a loop of few rounds, half of them with a label.
func (g *generator) loop() {
	label := ""
	if g.r.IntN(2) == 0 {
		g.count++
		label = fmt.Sprintf("loop%d", g.count)
	}
	i, x := g.name(), g.name()
	head, vars := "", []variable{{i, "int", true}}
	switch g.r.IntN(7) {
	case 0, 1:
		head = fmt.Sprintf("for %s := 0; %s < %d; %s++ {", i, i, 1+g.r.IntN(4), i)
	case 2:
		head = fmt.Sprintf("for %s, %s := 0, %d; %s < %s; %s, %s = %s+1, %s-1 {", i, x, 2+g.r.IntN(4), i, x, i, x, i, x)
		vars = append(vars, variable{x, "int", true})
	case 3:
		head = fmt.Sprintf("for %s := range %s {", i, g.one("3", "at("+g.expr("int", 1)+", 4)"))
	case 4:
		head = fmt.Sprintf("for %s, %s := range %s {", i, x, g.expr("[3]float64", 1))
		vars = append(vars, variable{x, float, false})
	case 5:
		if v := g.pick(lists); v != "" {
			head = fmt.Sprintf("for %s, %s := range %s {", i, x, g.one(v, "clone("+v+")", v+"[1:]"))
			vars = append(vars, variable{x, float, false})
		}
	case 6:
		if v := g.pick("[]rec"); v != "" {
			head, vars = fmt.Sprintf("for _, %s := range %s {", x, v), []variable{{x, "rec", false}}
		}
	}
	if head == "" {
		return
	}
	if label != "" {
		g.line("%s:", label)
	}
	g.line("%s", head)
	g.rounds(label, vars)
	g.line("}")
}

// rounds writes the body of a loop. Now and then it leaves this loop or the
// one around it, and keeps a closure over a variable of the round.
func (g *generator) rounds(label string, vars []variable) {
	outer, labels := g.vars, g.labels
	g.vars = append(slices.Clone(g.vars), vars...)
	if label != "" {
		g.labels = append(slices.Clone(g.labels), label)
		g.depth++
		g.line("if %s > 1e9 {", g.total)
		g.line("\tbreak %s", label)
		g.line("}")
		g.depth--
	}
	g.block(1 + g.r.IntN(3))
	g.depth++
	for _, v := range vars {
		g.line("_ = %s", v.name)
	}
	if fs := g.free("[]" + law); fs != "" && vars[0].kind == "int" && g.r.IntN(2) == 0 {
		p := g.name()
		g.line("if len(%s) < 20 {", fs)
		g.line("\t%s = append(%s, func(%s float64) float64 { return %s*float64(%s) })", fs, fs, p, p, vars[0].name)
		g.line("}")
	}
	if g.r.IntN(3) == 0 {
		jump := g.one("break", "continue")
		if len(g.labels) > 0 && g.r.IntN(2) == 0 {
			jump += " " + g.one(g.labels...)
		}
		g.line("if %s {", g.expr("bool", 2))
		g.line("\t%s", jump)
		g.line("}")
	}
	g.depth--
	g.block(g.r.IntN(2))
	g.vars, g.labels = outer, labels
}

func (g *generator) selectCase() {
	cases := []string{"0", "1", "-1, 2"}
	switch g.r.IntN(3) {
	case 0:
		g.line("switch %s %% 3 {", g.expr("int", 2))
	case 1:
		x := g.name()
		g.line("switch %s := %s; %s %% 3 {", x, g.expr("int", 2), x)
	case 2:
		g.line("switch {")
		cases = []string{g.expr("bool", 2), g.expr("bool", 1), g.expr("bool", 1)}
	}
	for i, c := range cases {
		if c == "true" || c == "false" || strings.HasPrefix(c, "1/2") {
			continue // constants may occur once only
		}
		g.line("case %s:", c)
		g.block(1 + g.r.IntN(2))
		if i < 2 && g.r.IntN(4) == 0 {
			g.line("\tfallthrough")
		}
	}
	g.line("default:")
	g.block(1)
	g.line("}")
}

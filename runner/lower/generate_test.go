package lower_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
)

// generate writes the cells of a random notebook: numeric code with functions,
// loops, closures, slices, maps, structs and their methods. Whole numbers stay
// in range and every loop ends; NaN, infinities and -0 are welcome.
func generate(number uint64) string {
	g := &generator{r: rand.New(rand.NewPCG(number, 7))}
	var cells []string
	for i := range 1 + g.r.IntN(4) {
		text := ""
		if i == 0 {
			text = prelude
		}
		for range g.r.IntN(3) {
			text += g.function()
		}
		cells = append(cells, text+g.cell(i))
	}
	return strings.Join(cells, "\n---\n")
}

const prelude = `
type level int
type in struct {
	P float64
	q int
}
type vec struct{ X, y float64 }
func (v vec) norm() float64 { return math.Hypot(v.X, v.y) }
func (v vec) add(w vec) vec { return vec{v.X + w.X, v.y + w.y} }
func (v *vec) shift(d float64) { v.X += d; v.y *= d }
type rec struct {
	A   float64
	b   int
	v   vec
	in  in
	arr [3]float64
}
func (s rec) get(k units.Number) units.Number { return s.A*k + s.v.X }
func (s rec) with(a float64) rec { s.A = a; s.arr[0] += a; s.in.P = a; return s }
func (s *rec) mod(a float64) { s.A += a; s.v.y = a; s.in.q++; s.arr[1] *= 0.5 }
func (l level) twice() level { return l * 2 }
func at(i, n int) int {
	i %= n
	if i < 0 {
		i += n
	}
	return i
}
func whole(x float64) int {
	if x != x || x > 1000 || x < -1000 {
		return 7
	}
	return int(x)
}
func clip(x float64) float64 {
	if x != x || x > 1e12 || x < -1e12 {
		return 1
	}
	return x
}
func clone(xs []float64) []float64 { return append([]float64(nil), xs...) }
func sum(xs ...float64) (s float64) {
	for _, x := range xs {
		s += x
	}
	return
}
`

const (
	float  = "float64"
	number = "units.Number"
	lists  = "[]float64"
	table  = "map[string]float64"
	law    = "func(float64) float64"
)

var kinds = []string{float, float, float, number, "int", "int", "int32", "uint8", "level", "bool", "string", "vec", "rec",
	lists, table, "[3]float64", "*rec", "[]rec", law, "map[int]rec", "[]vec", "[]" + law, "float32"}

type variable struct {
	name, kind string
	fixed      bool // must not be assigned to
}

type function struct {
	name    string
	in, out []string
}

type generator struct {
	r      *rand.Rand
	b      strings.Builder
	vars   []variable
	funcs  []function
	labels []string
	total  string // variable of the present cell that gathers results
	count  int    // of names
	depth  int    // of blocks
	budget int    // of statements
}

func (g *generator) name() string { g.count++; return fmt.Sprintf("v%d", g.count) }

func (g *generator) line(format string, args ...any) {
	fmt.Fprintf(&g.b, strings.Repeat("\t", g.depth)+format+"\n", args...)
}

func (g *generator) one(of ...string) string { return of[g.r.IntN(len(of))] }

func (g *generator) kind() string { return g.one(kinds...) }

// pick returns a variable of a kind, or "".
func (g *generator) pick(kind string) string {
	return g.choose(func(v variable) bool { return v.kind == kind })
}

// free returns a variable of a kind that may be assigned to, or "".
func (g *generator) free(kind string) string {
	return g.choose(func(v variable) bool { return v.kind == kind && !v.fixed })
}

func (g *generator) choose(fits func(variable) bool) string {
	var names []string
	for _, v := range g.vars {
		if fits(v) {
			names = append(names, v.name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return g.one(names...)
}

// block writes statements in a scope of their own.
func (g *generator) block(n int, vars ...variable) {
	outer := g.vars
	g.vars = append(slices.Clone(g.vars), vars...)
	g.depth++
	for _, v := range vars {
		g.line("_ = %s", v.name)
	}
	for range n {
		g.statement()
	}
	g.depth--
	g.vars = outer
}

// cell writes the statements of a cell. What earlier cells set is only read.
func (g *generator) cell(i int) string {
	g.b.Reset()
	for k := range g.vars {
		g.vars[k].fixed = true
	}
	g.total = fmt.Sprintf("total%d", i)
	g.line("%s := 0.0", g.total)
	g.budget = 30
	for range 6 + g.r.IntN(8) {
		g.statement()
	}
	return g.b.String()
}

// function writes a function that reads its parameters and earlier cells.
func (g *generator) function() string {
	g.b.Reset()
	outer, total := g.vars, g.total
	for k := range g.vars {
		g.vars[k].fixed = true
	}
	f := function{name: fmt.Sprintf("fn%d", len(g.funcs)), out: []string{g.one(float, number)}}
	if g.r.IntN(2) == 0 {
		f.out = []string{g.kind(), g.one(float, "int", "bool", "string")}
	}
	params, vars := g.parameters(1 + g.r.IntN(3))
	for _, v := range vars {
		f.in = append(f.in, v.kind)
	}
	results, named := strings.Join(f.out, ", "), g.r.IntN(2) == 0
	var names []string
	if named {
		var typed []string
		for _, kind := range f.out {
			names = append(names, g.name())
			typed = append(typed, names[len(names)-1]+" "+kind)
			if !isReference(kind) {
				vars = append(vars, variable{names[len(names)-1], kind, false})
			}
		}
		results = strings.Join(typed, ", ")
	}
	g.line("func %s(%s) (%s) {", f.name, params, results)
	g.total, g.budget = "part", 14
	g.line("\tpart := 0.0")
	g.vars = append(slices.Clone(g.vars), vars...)
	g.block(3 + g.r.IntN(5))
	g.depth++
	g.line("if part > 1 {")
	g.line("\tpart = 1 / part")
	g.line("}")
	g.finish(f, names)
	g.depth--
	g.line("}")
	g.vars, g.total = outer, total
	g.funcs = append(g.funcs, f)
	return g.b.String()
}

func (g *generator) parameters(n int) (text string, vars []variable) {
	var params []string
	for range n {
		v := variable{name: g.name(), kind: g.kind()}
		v.fixed = isReference(v.kind) // changing the caller's values may be refused
		vars = append(vars, v)
		params = append(params, v.name+" "+v.kind)
	}
	return strings.Join(params, ", "), vars
}

// finish writes the return statement; names are those of named results.
func (g *generator) finish(f function, names []string) {
	var values []string
	for i, kind := range f.out {
		e := g.expr(kind, 2)
		if kind == float {
			e += " + part"
		}
		if values = append(values, e); names != nil {
			g.line("%s = %s", names[i], e)
		}
	}
	if names != nil && g.r.IntN(2) == 0 {
		g.line("return")
		return
	}
	g.line("return %s", strings.Join(values, ", "))
}

// isReference reports whether the zero value of a kind cannot be used, or
// shares memory with others.
func isReference(kind string) bool {
	return strings.HasPrefix(kind, "*") || strings.HasPrefix(kind, "map") || strings.HasPrefix(kind, "[]") || kind == law
}

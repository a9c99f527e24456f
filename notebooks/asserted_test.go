package notebooks

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/types"
	"math"
	"sort"
	"strconv"
	"strings"
	"testing"

	"tautline/runner"
	"tautline/runner/check/tree"
	"tautline/stdlib/sheet"
)

// worked lists the notebooks of which every number that the report works out is held
// against one worked apart from it.
var worked = []string{"start-here.md", "lagoon-anchors.md", "lagoon-hardstanding.md", "lagoon-bed.md", "lagoon-landing.md", "lagoon-panels.md", "lagoon-form.md", "storm-skiff-hull.md",
	"storm-skiff-base.md", "storm-skiff-joints.md", "gangplank.md"}

// asked holds what tests asked of each run and were told, by name and place in it.
var asked = map[*runner.Result]map[string]sheet.Float{}

func ask(res *runner.Result, told sheet.Float, what string, at ...int) {
	if asked[res] == nil {
		asked[res] = map[string]sheet.Float{}
	}
	asked[res][pathTo(what, at...)] = told
}

func pathTo(what string, at ...int) string {
	for _, i := range at {
		what += fmt.Sprintf(".%d", i)
	}
	return what
}

// unasked lists the numbers of a notebook that no test asked for: each result, each
// number of a list, each field of what a function gave, and what checks compare.
// Givens, data and what a cell only writes down are no results.
func unasked(res *runner.Result) (missing []string) {
	known := map[sheet.Float]bool{}
	for _, x := range asked[res] {
		known[x] = true
	}
	for ident, n := range res.Plan.Names {
		given := input(n)
		leaves(res.Outcome.Values[ident], n.Object.Type(), ident, ident, 0, func(path, label string, x sheet.Float) {
			if _, ok := asked[res][path]; given {
				known[x] = true
			} else if !ok {
				missing = append(missing, label)
			}
		})
	}
	for _, c := range res.Plan.Cells {
		for _, s := range c.Steps {
			call := checkCall(s)
			if call == nil {
				continue
			}
			for _, e := range res.Outcome.Entries {
				if e.Check == nil || e.Site != res.Plan.Number(s.Stmt) {
					continue
				}
				for i, part := range parts(e.Check) {
					if !known[*part.number] && !written(call.Args[i+1]) {
						missing = append(missing, fmt.Sprintf("%s of %s", part.name, e.Check.What))
					}
				}
			}
		}
	}
	sort.Strings(missing)
	return missing
}

// A part of a check is one of the numbers that it compares.
type part struct {
	name   string
	number *sheet.Float
}

// parts are those of a check, in the order of its arguments.
func parts(c *sheet.Check) []part {
	demand := part{"demand", &c.Demand}
	switch c.Rule {
	case sheet.RuleAtMost:
		return []part{demand, {"most", &c.High}}
	case sheet.RuleAtLeast:
		return []part{demand, {"least", &c.Low}}
	case sheet.RuleWithin:
		return []part{demand, {"least", &c.Low}, {"most", &c.High}}
	}
	return nil
}

// leaves visits the numbers of a value that a report prints: itself, those of a
// list, and of a struct's fields.
func leaves(v sheet.Value, t types.Type, path, label string, depth int, visit func(path, label string, x sheet.Float)) {
	const deep, long = 2, 100 // the report prints no more of it
	const folded = 8          // fields: more of them are folded away
	switch v.Kind {
	case sheet.KindNumber:
		visit(path, label, v.Number)
	case sheet.KindList:
		item, ok := types.Unalias(t).Underlying().(interface{ Elem() types.Type }) // a slice or an array
		if !ok || depth == deep {
			return
		}
		if _, plain := item.Elem().Underlying().(*types.Basic); !plain {
			return // printed as so many items
		}
		for i, x := range v.Items[:min(long, len(v.Items))] {
			leaves(x, item.Elem(), pathTo(path, i), fmt.Sprintf("%s[%d]", label, i), depth+1, visit)
		}
	case sheet.KindStruct:
		s, ok := types.Unalias(t).Underlying().(*types.Struct)
		if !ok || depth > 0 || s.NumFields() > folded {
			return
		}
		for i, x := range v.Items {
			leaves(x, s.Field(i).Type(), pathTo(path, i), label+"."+s.Field(i).Name(), depth+1, visit)
		}
	}
}

// input reports whether a name is a given, a column of a data file, or a thing that
// the cell itself writes down, field by field.
func input(n *tree.Name) bool {
	if n.Given {
		return true
	}
	switch e := n.Value.(type) {
	case *ast.CompositeLit:
		return !n.Changed
	case *ast.CallExpr:
		f, ok := e.Fun.(*ast.SelectorExpr)
		return ok && f.Sel.Name == "Column"
	case *ast.Ident:
		_, structure := n.Object.Type().Underlying().(*types.Struct)
		return structure // a copy that is changed in places
	}
	return false
}

// checkCall is the call of a check, or nil.
func checkCall(s *tree.Step) *ast.CallExpr {
	x, ok := s.Stmt.(*ast.ExprStmt)
	if !ok {
		return nil
	}
	call, ok := x.X.(*ast.CallExpr)
	if !ok {
		return nil
	}
	f, ok := call.Fun.(*ast.SelectorExpr)
	if !ok || !strings.HasPrefix(types.ExprString(f), "sheet.") {
		return nil
	}
	return call
}

// written reports whether an expression says only numbers and units.
func written(e ast.Expr) bool {
	only := true
	ast.Inspect(e, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			if x, ok := n.X.(*ast.Ident); ok && (x.Name == "units" || x.Name == "math") {
				return false
			}
		case *ast.Ident:
			only = false
		}
		return true
	})
	return only
}

// works holds numbers of a report against ones worked by hand, within a relative
// tolerance; what is 0 by hand is 0 or a rounding of the rest, at most that tolerance.
// They are called by name, field and place, as in a cell, or "demand of", "most of"
// and "least of" a check.
func works(t *testing.T, res *runner.Result, share float64, byHand map[string]float64) {
	t.Helper()
	for what, want := range byHand {
		got := named(t, res, what)
		if !(math.Abs(got-want) <= share*cmp.Or(math.Abs(want), 1)) {
			t.Errorf("%s: got %.10g, want %.10g within %.1g", what, got, want, share)
		}
	}
}

// named is the number that works calls so.
func named(t *testing.T, res *runner.Result, what string) float64 {
	t.Helper()
	for _, e := range res.Outcome.Entries {
		if e.Check == nil {
			continue
		}
		for _, p := range parts(e.Check) {
			if what == p.name+" of "+e.Check.What {
				ask(res, *p.number, what)
				return float64(*p.number)
			}
		}
	}
	fields := strings.FieldsFunc(what, func(c rune) bool { return strings.ContainsRune(".[]", c) })
	n := res.Plan.Names[fields[0]]
	if n == nil {
		t.Fatalf("%s: the notebook has no such name or check", what)
	}
	of := types.Unalias(n.Object.Type())
	var at []int
	for _, f := range fields[1:] {
		i, err := strconv.Atoi(f)
		switch u := of.Underlying().(type) {
		case *types.Struct:
			for i = 0; i < u.NumFields() && u.Field(i).Name() != f; i++ {
			}
			if i == u.NumFields() {
				t.Fatalf("%s: got no field %s", what, f)
			}
			of = types.Unalias(u.Field(i).Type())
		case interface{ Elem() types.Type }:
			if err != nil {
				t.Fatalf("%s: got %s, want a place in a list", what, f)
			}
			of = types.Unalias(u.Elem())
		default:
			t.Fatalf("%s: got %s, which has no parts", what, of)
		}
		at = append(at, i)
	}
	return number(t, res, fields[0], at...)
}

// reportUnasked fails when all tests have run and one number of the worked notebooks
// was not asked for.
func reportUnasked() int {
	code := 0
	for _, file := range worked {
		if res := ran[file]; res == nil {
			fmt.Printf("%s was not run by any test\n", file)
			code = 1
		} else if missing := unasked(res); len(missing) > 0 {
			fmt.Printf("%s: no test works these numbers again:\n\t%s\n", file, strings.Join(missing, "\n\t"))
			code = 1
		}
	}
	return code
}

// The list is not empty by mistake: of a run of which nothing was asked it names
// results, fields, items and what checks compare, and no given.
func TestUnaskedIsFound(t *testing.T) {
	res := runner.Result(*run(t, "start-here.md"))
	got := strings.Join(unasked(&res), "\n")
	for _, want := range []string{"Mw", "Ms[24]", "demand of bending at the foot", "most of long seam"} {
		if !strings.Contains("\n"+got+"\n", "\n"+want+"\n") {
			t.Errorf("nothing asked: %q is not in the list:\n%s", want, got)
		}
	}
	if strings.Contains("\n"+got+"\n", "\nrider\n") {
		t.Errorf("nothing asked: a given is in the list:\n%s", got)
	}
}

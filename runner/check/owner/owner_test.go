package owner

import (
	"go/ast"
	"slices"
	"strings"
	"testing"

	"tautline/runner/check/tree"
	"tautline/runner/document"
)

// read reads cells that Go accepts.
func read(t *testing.T, cells ...string) *tree.Tree {
	t.Helper()
	src := []byte("---\ntitle: test\n---\n\n```go\n" + strings.Join(cells, "```\n\n```go\n") + "```\n")
	nb, diags := document.Parse("test.md", src)
	read, more := tree.Read(nb)
	for _, d := range append(diags, more...) {
		t.Fatal(d.Format(src, false))
	}
	return read
}

// What each name is, read off the source by hand: g is a given, c one that its
// cell changes, v one whose value stands in the source, - one of several results.
func TestNames(t *testing.T) {
	tr := read(t, `p := 1.8 * units.KPa
r := sheet.Given(350*units.Mm, 300*units.Mm, 400*units.Mm)
rise, run := 0.2*units.M, units.Length(3)
sum := 0.0
for k := range 3 {
	sum += float64(k)
}
xs := []float64{1, 2}
ys := xs
ys[0] = 3
area := r * r
whole, part := math.Modf(2.5)
`)
	if diags := Check(tr); len(diags) > 0 {
		t.Fatal(diags[0].Message)
	}
	want := map[string]string{"p": "g", "r": "g", "rise": "g", "run": "g", "sum": "cv", "xs": "cv", "ys": "cv",
		"area": "v", "whole": "-", "part": "-"}
	for ident, n := range tr.Names {
		got := ""
		switch {
		case n.Given:
			got = "g"
		case n.Value == nil:
			got = "-"
		case n.Changed:
			got = "cv"
		default:
			got = "v"
		}
		if got != want[ident] {
			t.Errorf("%s: got %s, want %s", ident, got, want[ident])
		}
	}
	if len(tr.Names) != len(want) {
		t.Errorf("got %d names, want %d", len(tr.Names), len(want))
	}
}

// A later cell changes what an earlier one set, by each of the ways there are.
func TestChanges(t *testing.T) {
	const first = "xs := []float64{1, 2}\nm := map[string]float64{}\nfunc fill(v []float64) { v[0] = 9 }\n"
	for cell, want := range map[string]string{
		"xs[0] = 3\n":                                      "xs belongs to another cell and cannot be changed here",
		"ys := xs\nys[1]++\n":                              "xs belongs to another cell and cannot be changed here",
		"ys := xs[1:]\nfill(ys)\n":                         "xs belongs to another cell and cannot be changed here",
		"p := &xs[0]\n*p = 3\n":                            "xs belongs to another cell and cannot be changed here",
		"delete(m, \"a\")\n":                               "m belongs to another cell and cannot be changed here",
		"sort.Float64s(xs)\n":                              "xs belongs to another cell and cannot be changed here",
		"ys := append([]float64(nil), xs...)\nys[0] = 3\n": "",
		"y := xs[0]\ny++\n":                                "",
		"b := a\na := 2.0\n":                               "a is used before it is set",
	} {
		var got []string
		for _, d := range Check(read(t, first, cell)) {
			got = append(got, d.Message)
		}
		if strings.Join(got, "\n") != want {
			t.Errorf("%sgot %q, want %q", cell, got, want)
		}
	}
}

// A method with a pointer for its receiver builds, one with a value reads.
func TestBuilds(t *testing.T) {
	tr := read(t, "f := frame.New()\nn := f.Node(0, 0, 0)\nf.Mass(n, 2*units.Kg)\ng := f.Copy()\nfmt.Sprint(g)\n")
	var got []string
	tr.Inspect(func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok && Builds(tr, call) {
			got = append(got, tr.OneLine(call))
		}
		return true
	})
	if want := []string{"f.Node(0, 0, 0)", "f.Mass(n, 2*units.Kg)"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

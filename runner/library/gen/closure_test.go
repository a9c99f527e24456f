package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/go/packages"
)

const shapes = `package shapes

const (
	a = iota
	B
)

const Factor = 2.0

var table = []float64{1, 2}

type sided interface{ sides() int }

type square struct{}

func (square) sides() int { return 4 }

func helper(x float64) float64 { return x + table[0] }

// Double doubles.
func Double(x float64) float64 { return Factor * helper(x) }

func Plain(x float64) float64 { return x }

func count(s sided) int { return s.sides() }

func Sides() int { return count(square{}) }
`

// digests are those of some source.
func digests(t *testing.T, source string) map[string]string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "shapes.go")
	if err := os.WriteFile(file, []byte(source), 0o666); err != nil {
		t.Fatal(err)
	}
	fset := token.NewFileSet()
	syntax, err := parser.ParseFile(fset, file, nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	p := &packages.Package{PkgPath: module + "/stdlib/shapes", Name: "shapes", Fset: fset, Syntax: []*ast.File{syntax},
		TypesInfo: &types.Info{Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}, Types: map[ast.Expr]types.TypeAndValue{}}}
	if p.Types, err = (&types.Config{}).Check(p.PkgPath, fset, p.Syntax, p.TypesInfo); err != nil {
		t.Fatal(err)
	}
	text, err := functionDigests([]*packages.Package{p})
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	for line := range strings.Lines(string(text)) {
		name, digest, _ := strings.Cut(strings.TrimSpace(line), " ")
		found[strings.TrimPrefix(name, "shapes.")] = digest
	}
	return found
}

// Source whose bodies were taken off for a stub has no digests.
func TestNoBody(t *testing.T) {
	c := closure{decls: map[string]*declared{}}
	file := filepath.Join(t.TempDir(), "shapes.go")
	if err := os.WriteFile(file, []byte("package shapes\n\nfunc F()\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	fset := token.NewFileSet()
	syntax, err := parser.ParseFile(fset, file, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	p := &packages.Package{PkgPath: module + "/stdlib/shapes", Fset: fset, Syntax: []*ast.File{syntax}, TypesInfo: &types.Info{}}
	if err := c.read(p); err == nil || !strings.Contains(err.Error(), "got no body") {
		t.Errorf("got %v, want an error", err)
	}
}

// A change shows in the digests of what can come to it, and in no other.
func TestFunctionDigests(t *testing.T) {
	before := digests(t, shapes)
	for _, c := range []struct{ name, old, new, changed string }{
		{"nothing", "", "", ""},
		{"a comment", "// Double doubles.", "// Double gives twice x.", ""},
		{"layout", "return x + table", "return x +\n\t\ttable", ""},
		{"a comment inside", "return x }", "return x /* as it came */ }", ""},
		{"the function itself", "return x }", "return 1 * x }", "Plain"},
		{"what it calls", "return x + table[0]", "return x - table[0]", "Double"},
		{"a table that that reads", "{1, 2}", "{1, 3}", "Double"},
		{"a constant", "Factor = 2.0", "Factor = 2.5", "Double Factor"},
		{"what an interface leads to", "return 4", "return 5", "Sides"},
		{"the constant that is counted from", "a = iota", "a = iota + 1", "B"},
	} {
		after := digests(t, strings.Replace(shapes, c.old, c.new, 1))
		var changed []string
		for _, name := range []string{"B", "Double", "Factor", "Plain", "Sides"} {
			if before[name] == "" {
				t.Fatalf("%s has no digest", name)
			}
			if before[name] != after[name] {
				changed = append(changed, name)
			}
		}
		if got := strings.Join(changed, " "); got != c.changed {
			t.Errorf("%s: changed the digests of %q, want of %q", c.name, got, c.changed)
		}
	}
}

// The list of changes is read strictly: a line that verify cannot read would be
// lost.
func TestChangeList(t *testing.T) {
	got, err := changeList("f", "\n1. `a.B`, `a.C.D`: forces\n   fall.\n2. `a.B`: x: y\n")
	if want := "a.B, a.C.D: forces fall.\na.B: x: y\n"; string(got) != want || err != nil {
		t.Errorf("got %q, %v, want %q", got, err, want)
	}
	for _, bad := range []string{"2. `a.B`: x\n", "- `a.B`: x\n", "1. a.B: x\n", "1. `a.B`\n", "text\n"} {
		if got, err := changeList("f", bad); err == nil {
			t.Errorf("%q: got %q, want an error", bad, got)
		}
	}
}

package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/tools/go/packages"

	"tautline/runner/library"
)

// Each line that breaks a rule ends in the text that its error must hold.
const outlaws = `// Package outlaws breaks every rule once.
package outlaws

import "tautline/stdlib/units"

// Good is as it should be.
//
// Source: derived here.
func Good(p units.Pressure, rs []units.Length) (units.ForcePerLength, error)

func Bare(n int) int // want "Bare: got no doc comment"

// Twice is generic.
func Twice[T any](v T) T // want "got type parameters"

// Plain has no unit.
func Plain(x float64) // want "got a plain float64, want a units alias"

// Sourceless gives a number.
func Sourceless(rs []units.Length) []units.Length // want "no \"Source:\" paragraph"

// Each calls back.
func Each(f func(i int)) // want "got a func type"

// Whatever takes anything.
func Whatever(v any) // want "got an interface"

// Leak names what cells do not see.
func Leak() hidden // want "names a type that cells do not see"

type hidden struct{}

// Table is shared.
var Table = 1 // want "got a package variable"

// Speak can be implemented.
type Speak interface{ Say() } // want "got an interface"

// Call is a func.
type Call func() // want "got a func type"

// Stiffness is a float of its own.
type Stiffness float64 // want "got a float type of its own"

type Unsaid struct{} // want "Unsaid: got no doc comment"

// Box has all kinds of fields.
type Box struct {
	Width units.Length
	Depth float64 // want "Box.float64: got a plain float64"
	Hook  func() // want "got a func type"
	Pipe  chan int // want "got a channel"
	inner float64
}

// Limits.
const (
	Low units.Length = 1
	Max              = 10 // want "got an untyped constant"
)

// Free may do as it likes. Not for
// cells.
func Free(x float64, f func()) any

// Engine is for the runner. Not for cells.
type Engine struct{ X float64 }

// Start belongs to a type that cells do not see.
func (e *Engine) Start(x float64) any

// Idle is of a type that cells do not see.
const Idle = engineState(1)

type engineState int
`

func TestRules(t *testing.T) {
	fset := token.NewFileSet()
	source := regexp.MustCompile(` // want .*`).ReplaceAllString(outlaws, "")
	file, err := parser.ParseFile(fset, "outlaws.go", source, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	info := &types.Info{Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}, Types: map[ast.Expr]types.TypeAndValue{}}
	config := types.Config{IgnoreFuncBodies: true, Importer: library.Importer(fset), Error: func(error) {}}
	checked, _ := config.Check("tautline/stdlib/outlaws", fset, []*ast.File{file}, info) // generic functions have no body
	s := newSurface(&packages.Package{Name: "outlaws", PkgPath: "tautline/stdlib/outlaws", Fset: fset,
		Syntax: []*ast.File{file}, Types: checked, TypesInfo: info})

	got := map[int]string{}
	for _, err := range s.check() {
		place, message, _ := strings.Cut(err.Error(), ": ")
		var line int
		for _, c := range strings.Split(place, ":")[1] {
			line = 10*line + int(c-'0')
		}
		got[line] += message + "\n"
	}
	for i, line := range strings.Split(outlaws, "\n") {
		_, want, ok := strings.Cut(line, ` // want "`)
		want = strings.ReplaceAll(strings.TrimSuffix(want, `"`), `\"`, `"`)
		switch message := got[i+1]; {
		case ok && !strings.Contains(message, want):
			t.Errorf("%s\n got %q", line, message)
		case !ok && message != "":
			t.Errorf("%s\n got %q, want nothing", line, message)
		}
	}
}

// Package lower turns a checked notebook into a small plain Go program that
// the interpreter runs as the compiler would.
//
// The interpreter computes wrong values for some ordinary Go: tuple
// assignments, named results, constants folded in float context, parentheses
// in conditions. A lowered program uses none of that. What the small core
// cannot hold is refused at its place in the notebook (package subset).
package lower

import (
	"encoding/json"
	"maps"
	"regexp"

	"tautline/runner/document"
)

// A Program is what a worker process runs: one Go file of package main with no
// main function.
//
// Source declares `var __at int`, a package-level variable for each top-level
// name, the notebook's functions and types, and one function per cell, called
// in order: __cell0, __cell1, … Before every statement that can fail or speak
// to the sheet the program sets __at to the number of that statement, and a
// function that did so sets it back before it returns.
//
// A program may call two functions of the package HostPath, as __host, which runs it:
// Room(n, size int) int returns n when that many elements of size bytes fit into
// memory and does not return when not, and At(n int) says at once that
// statement n comes next, where the variable might be read too late.
type Program struct {
	File   string // of the notebook, for diagnostics
	Source string
	Cells  []Cell
	Sites  []document.Range // place of each statement, by number; Sites[0] is the whole file
	Data   Files            // content of each data file that a cell reads
	// Givens are the numbers that the designer chose, by name, as the notebook
	// has them. The program reads each from the variable GivenVar(name).
	Givens map[string]float64
}

// Files are contents by name. JSON carries them byte for byte, which it does not
// with a text that is not UTF-8.
type Files map[string]string

// MarshalJSON writes every content in base64.
func (f Files) MarshalJSON() ([]byte, error) {
	raw := make(map[string][]byte, len(f))
	for name, text := range f {
		raw[name] = []byte(text)
	}
	return json.Marshal(raw)
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (f *Files) UnmarshalJSON(text []byte) error {
	var raw map[string][]byte
	err := json.Unmarshal(text, &raw)
	*f = make(Files, len(raw))
	for name, content := range raw {
		(*f)[name] = string(content)
	}
	return err
}

// HostPath is the import path of what a program calls of its runner.
const HostPath = "tautline/host"

// GivenVar is the variable of a program that holds the number of a given.
func GivenVar(name string) string { return "__given_" + name }

// givenDecls are the lines of a program that give givens their numbers.
var givenDecls = regexp.MustCompile(`(?m)^var ` + GivenVar(`\S+`) + ` float64 = .*$`)

// SameCode reports whether two programs differ at most in the numbers of their
// givens and in where their statements stand in the notebook.
func (p *Program) SameCode(q *Program) bool {
	return len(p.Givens) == len(q.Givens) && len(p.Sites) == len(q.Sites) && maps.Equal(p.Data, q.Data) &&
		(p.Source == q.Source || givenDecls.ReplaceAllString(p.Source, "") == givenDecls.ReplaceAllString(q.Source, ""))
}

// A Cell of a program.
type Cell struct {
	Func  string   // name of its function
	Names []string // top-level variables that it sets, in order
	Range document.Range
}

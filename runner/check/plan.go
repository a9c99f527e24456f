// Package check finds what is wrong with the cells of a notebook before anything
// runs, and makes the plan of the run.
//
//	plan, diags := check.Check(notebook)
//
// Each stage is a package of its own and is reached only when the one before
// found nothing: the cells as typed Go (tree), who may set and read which name
// (owner), what kind of quantity everything is (dimension). What a right notebook
// may still be told is advice.
//
// Invariants: a plan is made even when there are errors, for what could be read;
// findings come in the order of the source.
package check

import (
	"go/ast"
	"go/types"

	"tautline/runner/check/dimension"
	"tautline/runner/check/graph"
	"tautline/runner/check/tree"
	"tautline/runner/document"
)

// A Plan is a checked notebook.
type Plan struct {
	*tree.Tree
	Data []DataFile // files that cells read, in order

	dims *dimension.Inference
}

// A DataFile is a file beside the notebook that a cell reads.
type DataFile struct {
	Name  string
	Range document.Range // where it is first named
}

// Measure returns what kind of quantity a numeric expression is, or the
// elements of a list of numbers.
func (p *Plan) Measure(e ast.Expr) dimension.Measure { return p.dims.Measure(e) }

// ObjectMeasure is Measure for a variable, constant or struct field.
func (p *Plan) ObjectMeasure(o types.Object) dimension.Measure { return p.dims.ObjectMeasure(o) }

// Graph works out what the names and checks of a plan without errors rest on.
func (p *Plan) Graph() *graph.Graph { return graph.Of(p.Tree) }

// Package check reads the cells of a notebook as Go, finds what is wrong with
// them before anything runs, and makes the plan of the run.
//
//	plan, diags := check.Check(notebook)
//
// All cells together are one Go program: each top-level name belongs to one
// cell, later cells may read it. go/types finds Go's own errors; a second walk
// over the typed tree carries dimensions through every expression, so that a
// sum of unlike dimensions is an error and each value has a unit to be printed
// in.
//
// Invariants: positions are those of the Markdown source; a plan is made even
// when there are errors, for what could be read; a plan without errors has a
// type for every expression.
package check

import (
	"go/ast"
	"go/token"
	"go/types"

	"tautline/runner/document"
	"tautline/stdlib/quantity"
)

// A Plan is a checked notebook.
type Plan struct {
	Notebook *document.Notebook
	Cells    []*Cell
	Names    map[string]*Name
	Data     []DataFile // files that cells read, in order
	Info     *types.Info
	Sites    []Site // every statement that runs, by number; Sites[0] is the whole file

	fset    *token.FileSet
	origin  map[string]*Cell // by the file name in fset
	numbers map[ast.Stmt]int
	dims    *dimensions
	aliases *aliases // found when first asked for
}

// A DataFile is a file beside the notebook that a cell reads.
type DataFile struct {
	Name  string
	Range document.Range // where it is first named
}

// A Site is a statement that a run can be at.
type Site struct {
	Stmt  ast.Stmt
	Range document.Range
}

// A Cell is one cell as Go.
type Cell struct {
	Source *document.Cell
	Steps  []*Step
	Names  []*Name         // top-level variables and constants it sets, in order
	Funcs  []*ast.FuncDecl // functions and methods it declares
	Types  []*ast.GenDecl  // types it declares

	text string // as it is parsed: that of the source with plain comments
}

// A Name is a top-level name of the notebook.
type Name struct {
	Ident   string
	Cell    int
	Step    *Step
	Object  types.Object // a *types.Var or *types.Const
	Range   document.Range
	Value   ast.Expr // what it is set from; nil when it is one of several results
	Changed bool     // later statements of its cell change it, so Value is where it began
	Given   bool     // the designer chose it: Value says only numbers and units
}

// A Step is one top-level statement or declaration of a cell, or a comment
// that stands alone.
type Step struct {
	Kind   StepKind
	Stmt   ast.Stmt // nil for a declaration or comment
	Decl   ast.Decl
	Names  []*Name // StepAssign: what it sets, "_" left out
	Text   string  // the source of the step, or of a lone comment
	Reason string  // the comment at the end of its last line
	Range  document.Range
}

// StepKind is the kind of a step.
type StepKind int

// The kinds of steps.
const (
	StepCode    StepKind = iota // a loop, a condition, a call
	StepAssign                  // sets top-level names from expressions
	StepSheet                   // a call of package sheet, or one that draws on what it made
	StepDeclare                 // declares a function or a type
	StepComment                 // a comment on lines of its own
)

// Number returns the number of a statement in Sites, 0 when it has none.
func (p *Plan) Number(s ast.Stmt) int { return p.numbers[s] }

// At maps a position of the Go trees to the notebook.
func (p *Plan) At(pos token.Pos) document.Position {
	c := p.cellOf(pos)
	if c == nil {
		return document.Position{}
	}
	at := p.fset.PositionFor(pos, false) // whatever a //line comment says
	if at.Line == 1 {
		return document.Position{} // the wrapping
	}
	return c.Source.At(at.Line-1, at.Column)
}

// cellOf is the cell that a position of the Go trees lies in, or nil.
func (p *Plan) cellOf(pos token.Pos) *Cell {
	return p.origin[p.fset.PositionFor(pos, false).Filename]
}

// Range is the place of a node in the notebook.
func (p *Plan) Range(n ast.Node) document.Range {
	return document.Range{Start: p.At(n.Pos()), End: p.At(n.End())}
}

// A Measure is what kind of quantity a number is.
type Measure struct {
	Known     bool // false when the dimension cannot be inferred
	Dimension quantity.Dimension
	Alias     string // of package units, where one names it more closely: Energy, not Moment
}

// Unit chooses the unit in which a value is printed: that of the largest of vs.
func (m Measure) Unit(sys quantity.System, vs ...float64) quantity.Unit {
	if !m.Known {
		return quantity.Unit{Factor: 1}
	}
	largest := quantity.Largest(vs)
	if u, ok := quantity.ChooseAs(m.Alias, largest, sys); ok {
		return u
	}
	return quantity.Choose(m.Dimension, largest, sys)
}

// Measure returns what kind of quantity a numeric expression is, or the
// elements of a list of numbers.
func (p *Plan) Measure(e ast.Expr) Measure { return p.dims.expr(e).measure() }

// ObjectMeasure is Measure for a variable, constant or struct field.
func (p *Plan) ObjectMeasure(o types.Object) Measure { return p.dims.measure(o) }

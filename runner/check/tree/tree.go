// Package tree reads the cells of a notebook as one typed Go program.
//
//	t, diags := tree.Read(notebook)
//
// A top-level `x := e` of a cell becomes a variable of the program, so that a
// later cell and any function can read it; the rest of a cell is one function.
// Each Step is a statement or declaration as its writer sees it, with the
// comment that gives its reason. What Go itself finds wrong is said in plain
// words, at the place in the Markdown.
//
// Invariants: positions are those of the Markdown source; a tree is made even
// when there are errors, for what could be read; a tree without errors has a
// type for every expression and a number for every statement.
package tree

import (
	"go/ast"
	"go/token"
	"go/types"

	"tautline/runner/document"
	"tautline/runner/library"
)

// A Tree is the cells of a notebook as typed Go.
type Tree struct {
	Notebook *document.Notebook
	Cells    []*Cell
	Names    map[string]*Name
	Info     *types.Info
	Sites    []Site // every statement that runs, by number; Sites[0] is the whole file

	fset    *token.FileSet
	origin  map[string]*Cell // by the file name in fset
	numbers map[ast.Stmt]int
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
	Ident  string
	Cell   int
	Step   *Step
	Object types.Object // a *types.Var or *types.Const
	Range  document.Range

	// What package owner finds.
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

// Read reads the cells of a notebook. The tree is never nil, and whole only when
// there is no diagnostic.
func Read(nb *document.Notebook) (*Tree, []document.Diagnostic) {
	t := &Tree{
		Notebook: nb,
		Names:    map[string]*Name{},
		Info: &types.Info{
			Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{},
			Implicits: map[ast.Node]types.Object{}, Selections: map[*ast.SelectorExpr]*types.Selection{},
			Scopes: map[ast.Node]*types.Scope{}, Instances: map[*ast.Ident]types.Instance{},
		},
		Sites:   []Site{{}},
		fset:    token.NewFileSet(),
		origin:  map[string]*Cell{},
		numbers: map[ast.Stmt]int{},
	}
	sources := nb.Cells()
	if diags := t.extent(sources); len(diags) > 0 {
		return t, diags
	}
	var diags []document.Diagnostic
	var cells []*parsed
	for _, source := range sources {
		c := &Cell{Source: source}
		t.Cells = append(t.Cells, c)
		parsed, errs := t.parseCell(c)
		diags = append(diags, errs...)
		if parsed != nil {
			t.steps(parsed)
			cells = append(cells, parsed)
		}
	}
	if len(t.Cells) == 0 {
		return t, append(diags, noCells(nb))
	}
	if len(diags) > 0 {
		return t, diags // the types of half a program would only confuse
	}
	if diags := newProgram(t).read(cells); len(diags) > 0 {
		return t, diags
	}
	t.number()
	t.classify()
	return t, nil
}

// Number returns the number of a statement in Sites, 0 when it has none.
func (t *Tree) Number(s ast.Stmt) int { return t.numbers[s] }

// At maps a position of the Go trees to the notebook.
func (t *Tree) At(pos token.Pos) document.Position {
	c := t.cellOf(pos)
	if c == nil {
		return document.Position{}
	}
	at := t.fset.PositionFor(pos, false) // whatever a //line comment says
	if at.Line == 1 {
		return document.Position{} // the wrapping
	}
	return c.Source.At(at.Line-1, at.Column)
}

// cellOf is the cell that a position of the Go trees lies in, or nil.
func (t *Tree) cellOf(pos token.Pos) *Cell {
	return t.origin[t.fset.PositionFor(pos, false).Filename]
}

// Range is the place of a node in the notebook.
func (t *Tree) Range(n ast.Node) document.Range {
	return document.Range{Start: t.At(n.Pos()), End: t.At(n.End())}
}

// number gives every statement that runs a number, in the order of the source.
func (t *Tree) number() {
	visit := func(n ast.Node) bool {
		switch s := n.(type) {
		case *ast.BlockStmt, *ast.EmptyStmt, *ast.LabeledStmt, nil:
		case ast.Stmt:
			if t.numbers[s] == 0 {
				t.numbers[s] = len(t.Sites)
				t.Sites = append(t.Sites, Site{s, t.statementRange(s)})
			}
		}
		return true
	}
	t.Inspect(visit)
}

// statementRange is the place of a statement without the blocks it holds.
func (t *Tree) statementRange(s ast.Stmt) document.Range {
	r := t.Range(s)
	var body *ast.BlockStmt
	switch s := s.(type) {
	case *ast.IfStmt:
		body = s.Body
	case *ast.ForStmt:
		body = s.Body
	case *ast.RangeStmt:
		body = s.Body
	case *ast.SwitchStmt:
		body = s.Body
	case *ast.CaseClause:
		r.End = t.At(s.Colon)
	}
	if body != nil {
		r.End = t.At(body.Lbrace)
	}
	return r
}

// Inspect walks the syntax of every cell in order, as ast.Inspect does.
func (t *Tree) Inspect(f func(ast.Node) bool) {
	for _, c := range t.Cells {
		for _, s := range c.Steps {
			s.Inspect(f)
		}
	}
}

// Inspect walks the statement or declaration of a step, as ast.Inspect does.
func (s *Step) Inspect(f func(ast.Node) bool) {
	if s.Stmt != nil {
		ast.Inspect(s.Stmt, f)
	} else if s.Decl != nil {
		ast.Inspect(s.Decl, f)
	}
}

// packageNames lists what cells can import.
func packageNames() []string {
	var names []string
	for _, pkg := range library.Packages() {
		names = append(names, pkg.Name)
	}
	return names
}

// noCells says that a notebook computes nothing, at the block that may have been
// meant as a cell.
func noCells(nb *document.Notebook) document.Diagnostic {
	d := document.Diagnostic{Severity: document.Error, File: nb.File, Message: "no cells: the notebook computes nothing",
		Hint: "write the calculation in a fenced block marked go"}
	document.Walk(nb.Blocks, func(b document.Block) {
		if code, ok := b.(*document.Code); ok && d.Range.Start.Line == 0 {
			d.Range = document.Range{Start: code.Start, End: code.Start}
			d.Message = "no cells: this block is not marked go, and no other is"
			d.Hint = "begin it with ```go"
		}
	})
	return d
}

package tree

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strings"

	"tautline/runner/document"
)

// parsed is one cell as syntax: statements in body, declarations apart.
type parsed struct {
	cell     *Cell
	body     *ast.FuncDecl // func __cellN() { statements }
	decls    []ast.Decl
	comments []*ast.CommentGroup
}

// parseCell reads the Go of a cell. Line 1 of each parsed text is a wrapping,
// so line n+1 is line n of the cell.
func (t *Tree) parseCell(c *Cell) (*parsed, []document.Diagnostic) {
	c.text = plainComments(c.Source.Text)
	toks, diags := t.spelling(c)
	if len(diags) > 0 {
		return nil, diags
	}
	decls, stmts := split(c.text, toks)
	body, err1 := t.parseText(c, "", fmt.Sprintf("package main; func %s() {\n%s\n}\n", CellFunc(c.Source.Index), stmts))
	declared, err2 := t.parseText(c, " declarations", "package main\n"+decls)
	if err1 != nil || err2 != nil {
		return nil, t.syntaxErrors(c, toks)
	}
	if deep := append(t.nesting(body), t.nesting(declared)...); len(deep) > 0 {
		return nil, deep
	}
	f := body.Decls[0].(*ast.FuncDecl)
	errs := append(t.reserved(body), t.reserved(declared)...)
	errs = append(errs, t.returns(f.Body)...)
	comments := append(body.Comments, declared.Comments...)
	slices.SortStableFunc(comments, func(a, b *ast.CommentGroup) int {
		return t.At(a.Pos()).Compare(t.At(b.Pos()))
	})
	return &parsed{cell: c, body: f, decls: declared.Decls, comments: comments}, errs
}

// parseText parses one of the two texts of a cell.
func (t *Tree) parseText(c *Cell, suffix, text string) (*ast.File, error) {
	name := fmt.Sprintf("cell%d%s", c.Source.Index, suffix)
	t.origin[name] = c
	return parser.ParseFile(t.fset, name, text, parserMode)
}

// CellFunc is the name of the function that holds the statements of a cell.
func CellFunc(index int) string { return fmt.Sprintf("__cell%d", index) }

// reserved refuses names that the runner gives.
func (t *Tree) reserved(file *ast.File) []document.Diagnostic {
	var diags []document.Diagnostic
	ast.Inspect(file, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok && strings.HasPrefix(id.Name, "__") && t.At(id.Pos()).Line > 0 {
			diags = append(diags, t.ErrorAt(t.Range(id), id.Name+": names that begin with __ belong to the runner", "choose another name"))
		}
		return true
	})
	return diags
}

// returns refuses a return that is in no function of the cell.
func (t *Tree) returns(body *ast.BlockStmt) []document.Diagnostic {
	var diags []document.Diagnostic
	ast.Inspect(body, func(n ast.Node) bool {
		if r, ok := n.(*ast.ReturnStmt); ok {
			diags = append(diags, t.ErrorAt(t.Range(r), "return has no place outside a function", "put what may be left out into if … { … }"))
		}
		_, function := n.(*ast.FuncLit)
		return !function
	})
	return diags
}

// at is the range of length bytes at an offset of the cell's text.
func (c *Cell) at(offset, length int) document.Range {
	text := c.Source.Text
	offset = min(max(offset, 0), len(text))
	line := 1 + strings.Count(text[:offset], "\n")
	column := offset - strings.LastIndexByte(text[:offset], '\n')
	rest, _, _ := strings.Cut(text[offset:], "\n")
	return document.Range{Start: c.Source.At(line, column), End: c.Source.At(line, column+min(length, len(rest)))}
}

// ErrorAt is an error at a place of the notebook, with what to do.
func (t *Tree) ErrorAt(r document.Range, message, hint string) document.Diagnostic {
	return document.Diagnostic{Severity: document.Error, File: t.Notebook.File, Range: r, Message: message, Hint: hint}
}

// steps lists the cell's statements, declarations and lone comments in the
// order of the source.
func (t *Tree) steps(c *parsed) {
	var steps []*Step
	add := func(s *Step, n ast.Node) {
		s.Range = t.Range(n)
		s.Text = t.Source(n)
		steps = append(steps, s)
	}
	for _, s := range c.body.Body.List {
		if _, empty := s.(*ast.EmptyStmt); !empty {
			add(&Step{Kind: stepKind(s), Stmt: s}, s)
		}
	}
	for _, d := range c.decls {
		if g, ok := d.(*ast.GenDecl); !ok || g.Tok != token.IMPORT {
			add(&Step{Kind: StepDeclare, Decl: d}, d)
		}
	}
	steps = append(steps, t.remarks(c, steps)...)
	slices.SortStableFunc(steps, func(a, b *Step) int {
		return a.Range.Start.Compare(b.Range.Start)
	})
	c.cell.Steps = steps
}

// remarks gives each step the comment at the end of its last line as its
// reason (with the comments right below it in the same column), and returns a
// step for each run of comments that stands alone.
func (t *Tree) remarks(c *parsed, steps []*Step) []*Step {
	var alone []*Step
	var text *string // where the next line of the same comment goes
	var last document.Position
	for _, g := range c.comments {
		for _, one := range g.List {
			r := t.Range(one)
			if t.inside(steps, r) {
				continue
			}
			words := strings.Join(strings.Fields((&ast.CommentGroup{List: []*ast.Comment{one}}).Text()), " ")
			if s := endingOn(steps, r.Start); s != nil {
				s.Reason, text = words, &s.Reason
			} else if text != nil && r.Start.Line == last.Line+1 && r.Start.Column == last.Column {
				*text += " " + words
			} else {
				s := &Step{Kind: StepComment, Text: words, Range: r}
				alone, text = append(alone, s), &s.Text
			}
			last = r.Start
		}
	}
	return alone
}

// inside reports whether r lies within a step.
func (t *Tree) inside(steps []*Step, r document.Range) bool {
	for _, s := range steps {
		if s.Range.Start.Compare(r.Start) < 0 && r.Start.Compare(s.Range.End) < 0 {
			return true
		}
	}
	return false
}

// endingOn is the last step that ends on the line of at, before it.
func endingOn(steps []*Step, at document.Position) *Step {
	var found *Step
	for _, s := range steps {
		if s.Range.End.Line == at.Line && s.Range.End.Column <= at.Column {
			found = s
		}
	}
	return found
}

// Source is the text of a node as it stands in its cell.
func (t *Tree) Source(n ast.Node) string {
	c := t.cellOf(n.Pos())
	if c == nil {
		return ""
	}
	return t.text(c, n.Pos(), n.End())
}

// OneLine is Source with every run of blanks as one space.
func (t *Tree) OneLine(n ast.Node) string { return strings.Join(strings.Fields(t.Source(n)), " ") }

// text is the source between two positions of one parsed text of the cell.
func (t *Tree) text(c *Cell, from, to token.Pos) string {
	return c.Source.Text[t.Offset(from):t.Offset(to)]
}

// Offset is the byte offset of a position in the text of its cell.
func (t *Tree) Offset(pos token.Pos) int {
	wrapping := t.fset.File(pos).LineStart(2) // the cell begins on line 2
	return min(max(int(pos-wrapping), 0), len(t.cellOf(pos).Source.Text))
}

func stepKind(s ast.Stmt) StepKind {
	switch s := s.(type) {
	case *ast.AssignStmt:
		if s.Tok == token.DEFINE || s.Tok == token.ASSIGN {
			for _, l := range s.Lhs {
				if _, ok := l.(*ast.Ident); !ok {
					return StepCode
				}
			}
			return StepAssign
		}
	case *ast.DeclStmt:
		return StepAssign
	}
	return StepCode
}

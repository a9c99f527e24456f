package check

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/parser"
	"go/scanner"
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
func (p *Plan) parseCell(c *Cell) (*parsed, []document.Diagnostic) {
	decls, stmts := split(c.Source.Text)
	name := fmt.Sprintf("cell%d", c.Source.Index)
	p.origin[name], p.origin[name+" declarations"] = c, c
	const mode = parser.SkipObjectResolution | parser.AllErrors | parser.ParseComments
	wrapped := fmt.Sprintf("package main; func %s() {\n%s\n}\n", CellFunc(c.Source.Index), stmts)
	bodyFile, err1 := parser.ParseFile(p.fset, name, wrapped, mode)
	declFile, err2 := parser.ParseFile(p.fset, name+" declarations", "package main\n"+decls, mode&^parser.ParseComments)
	diags := append(p.syntaxErrors(err1), p.syntaxErrors(err2)...)
	if len(diags) > 0 {
		return nil, diags
	}
	if len(bodyFile.Decls) != 1 {
		extra := p.At(bodyFile.Decls[1].Pos())
		return nil, []document.Diagnostic{p.errorAt(document.Range{Start: c.Source.At(1, 1), End: extra},
			"unexpected }: it closes no block of this cell", "take it out, or open the block that it closes")}
	}
	out := &parsed{cell: c, body: bodyFile.Decls[0].(*ast.FuncDecl), decls: declFile.Decls}
	out.comments = bodyFile.Comments
	return out, nil
}

// CellFunc is the name of the function that holds the statements of a cell.
func CellFunc(index int) string { return fmt.Sprintf("__cell%d", index) }

func (p *Plan) syntaxErrors(err error) []document.Diagnostic {
	list, ok := err.(scanner.ErrorList)
	if !ok {
		return nil
	}
	list.RemoveMultiples()
	var diags []document.Diagnostic
	for _, e := range list {
		c := p.origin[e.Pos.Filename]
		at := c.Source.At(e.Pos.Line-1, e.Pos.Column)
		diags = append(diags, p.errorAt(document.Range{Start: at, End: at}, e.Msg, ""))
	}
	return diags
}

func (p *Plan) errorAt(r document.Range, message, hint string) document.Diagnostic {
	return document.Diagnostic{Severity: document.Error, File: p.Notebook.File, Range: r, Message: message, Hint: hint}
}

// steps lists the cell's statements, declarations and lone comments in the
// order of the source.
func (p *Plan) steps(c *parsed) {
	var steps []*Step
	add := func(s *Step, n ast.Node) {
		s.Range = p.Range(n)
		s.Text = p.Source(n)
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
	steps = append(steps, p.remarks(c, steps)...)
	slices.SortStableFunc(steps, func(a, b *Step) int {
		return cmp.Or(a.Range.Start.Line-b.Range.Start.Line, a.Range.Start.Column-b.Range.Start.Column)
	})
	c.cell.Steps = steps
}

// remarks gives each step the comment at the end of its last line as its
// reason (with the comments right below it in the same column), and returns a
// step for each run of comments that stands alone.
func (p *Plan) remarks(c *parsed, steps []*Step) []*Step {
	var alone []*Step
	var text *string // where the next line of the same comment goes
	var last document.Position
	for _, g := range c.comments {
		for _, one := range g.List {
			r := p.Range(one)
			if p.inside(steps, r) {
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
func (p *Plan) inside(steps []*Step, r document.Range) bool {
	for _, s := range steps {
		if before(s.Range.Start, r.Start) && before(r.Start, s.Range.End) {
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
func (p *Plan) Source(n ast.Node) string {
	c := p.origin[p.fset.Position(n.Pos()).Filename]
	if c == nil {
		return ""
	}
	return p.text(c, n.Pos(), n.End())
}

// oneLine is Source with every run of blanks as one space.
func (p *Plan) oneLine(n ast.Node) string { return strings.Join(strings.Fields(p.Source(n)), " ") }

// text is the source between two positions of one parsed text of the cell.
func (p *Plan) text(c *Cell, from, to token.Pos) string {
	return c.Source.Text[p.Offset(from):p.Offset(to)]
}

// Offset is the byte offset of a position in the text of its cell.
func (p *Plan) Offset(pos token.Pos) int {
	at := p.fset.Position(pos)
	c := p.origin[at.Filename]
	wrapping := p.fset.File(pos).LineStart(2) // the cell begins on line 2
	return min(int(pos-wrapping), len(c.Source.Text))
}

func before(a, b document.Position) bool {
	return a.Line < b.Line || a.Line == b.Line && a.Column < b.Column
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

// Package document is the notebook as it stands in the file: a title block,
// prose and cells, each with its exact place in the source.
//
//	nb, diags := document.Parse("lagoon-bed.md", src)
//
// It is a leaf: it knows Markdown and YAML and nothing of Go types, units or
// HTML, so that the runner and the renderer can both import it.
package document

import (
	"cmp"
	"slices"
)

// A Notebook is one parsed file.
type Notebook struct {
	File     string // as the user named it
	Source   []byte // the text as parsed: LF line ends, no byte order mark
	Title    TitleBlock
	Blocks   []Block   // in source order
	Pictures []Picture // that its prose shows, in source order
}

// A Picture is a place where the prose shows an image file.
type Picture struct {
	Range
	File string // beside the notebook
}

// Cells returns every cell, in source order, those inside lists and quotes too.
func (n *Notebook) Cells() []*Cell {
	var cells []*Cell
	Walk(n.Blocks, func(b Block) {
		if c, ok := b.(*Cell); ok {
			cells = append(cells, c)
		}
	})
	return cells
}

// A Position is a place in Source, which has the lines of the file: line and
// column from 1, the column in bytes as the Go tools count it.
type Position struct{ Line, Column int }

// Compare returns -1, 0 or +1 as p stands before, at or after q.
func (p Position) Compare(q Position) int {
	return cmp.Or(cmp.Compare(p.Line, q.Line), cmp.Compare(p.Column, q.Column))
}

// A Range runs from Start up to, not including, End.
type Range struct{ Start, End Position }

// A TitleBlock is the YAML block at the top of a notebook.
type TitleBlock struct {
	Range      Range
	Title      string
	Number     string            // document number
	Revision   string            // revision mark
	Project    string            // the game or set that it belongs to
	Prepared   string            // role that prepared it
	Checked    string            // role that checks it
	Approved   string            // role that approves it
	Signatures []string          // roles that must sign it: prepared, and if wanted checked and approved; none named means all three
	Standards  []string          // standards used, as the designer names them
	System     string            // preferred unit system: "SI" (default) or "US"
	Units      map[string]string // preferred unit by top-level name, such as T: kN/m
}

// Roles are the roles that must sign the notebook, in the order in which they do.
func (t TitleBlock) Roles() []string {
	all := []string{"prepared", "checked", "approved"}
	if len(t.Signatures) == 0 {
		return all
	}
	return slices.DeleteFunc(all, func(role string) bool { return !slices.Contains(t.Signatures, role) })
}

// A Block is one of the closed set: *Heading, *Paragraph, *List, *Quote,
// *Code, *Cell, *Table, *Math, *Rule.
type Block interface {
	Span() Range
	block()
}

type (
	// Heading is a section title, level 1 to 6.
	Heading struct {
		Range
		Level int
		ID    string // unique in the notebook, made of the text
		Text  []Inline
	}
	// Paragraph is running text.
	Paragraph struct {
		Range
		Text []Inline
	}
	// List is an ordered or unordered list; each item is a run of blocks.
	List struct {
		Range
		Ordered bool
		Start   int // first number of an ordered list, else 0
		Tight   bool
		Items   [][]Block
	}
	// Quote is a quoted run of blocks.
	Quote struct {
		Range
		Blocks []Block
	}
	// Code is a fenced or indented block that is not a cell. The language is
	// the first word after the fence, "" for none.
	Code struct {
		Range
		Language string
		Text     string
	}
	// Cell is a fenced block marked go.
	Cell struct {
		Range            // of the whole block with its fences
		Index   int      // number of the cell in the notebook, from 0
		Text    string   // Go source, the marks of enclosing lists and quotes taken off; each line ends with \n
		Origins []Origin // one for each line of Text
	}
	// Table is a table with a header row. A row below it may be shorter, never
	// longer.
	Table struct {
		Range
		Align  []Align
		Header [][]Inline
		Rows   [][][]Inline
	}
	// Math is a displayed formula in TeX notation.
	Math struct {
		Range
		TeX string
	}
	// Rule is a thematic break.
	Rule struct{ Range }
)

// An Origin says where one line of a cell's Text came from.
type Origin struct {
	Line  int // line in the notebook
	Strip int // bytes taken off its start; a tab that is partly mark and partly text goes whole
}

// At maps a line and column of Text, from 1, to the notebook.
func (c *Cell) At(line, column int) Position {
	if line < 1 {
		return c.Start
	}
	if line > len(c.Origins) {
		return c.End
	}
	o := c.Origins[line-1]
	return Position{o.Line, column + o.Strip}
}

// Align is the alignment of a table column.
type Align int

// The alignments.
const (
	AlignNone Align = iota
	AlignLeft
	AlignCenter
	AlignRight
)

// An Inline is one of the closed set: Text, Emphasis, Strong, Strike, CodeSpan,
// Link, Image, InlineMath, Break.
type Inline interface{ inline() }

type (
	// Text is plain characters without line ends; raw HTML in a notebook is
	// Text too.
	Text string
	// Emphasis is stressed text.
	Emphasis []Inline
	// Strong is important text.
	Strong []Inline
	// Strike is struck-out text.
	Strike []Inline
	// CodeSpan is code in running text.
	CodeSpan string
	// Link leads to an http, https or mailto address, or to a heading (#id).
	Link struct {
		To   string
		Text []Inline
	}
	// Image names a picture file beside the notebook, without a folder.
	Image struct{ File, Alt string }
	// InlineMath is a formula in TeX notation.
	InlineMath string
	// Break is a forced line end.
	Break struct{}
)

// Span returns the place of the block.
func (r Range) Span() Range { return r }

func (*Heading) block()   {}
func (*Paragraph) block() {}
func (*List) block()      {}
func (*Quote) block()     {}
func (*Code) block()      {}
func (*Cell) block()      {}
func (*Table) block()     {}
func (*Math) block()      {}
func (*Rule) block()      {}

func (Text) inline()       {}
func (Emphasis) inline()   {}
func (Strong) inline()     {}
func (Strike) inline()     {}
func (CodeSpan) inline()   {}
func (Link) inline()       {}
func (Image) inline()      {}
func (InlineMath) inline() {}
func (Break) inline()      {}

// Walk calls f for every block in source order, an outer block before the
// blocks that it holds.
func Walk(blocks []Block, f func(Block)) {
	for _, b := range blocks {
		f(b)
		switch b := b.(type) {
		case *List:
			for _, item := range b.Items {
				Walk(item, f)
			}
		case *Quote:
			Walk(b.Blocks, f)
		}
	}
}

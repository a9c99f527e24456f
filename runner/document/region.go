package document

import (
	"bytes"
	"errors"

	"github.com/gomarkdown/markdown/ast"
	"github.com/gomarkdown/markdown/parser"

	"tautline/runner/document/formula"
	"tautline/runner/document/margin"
)

// Positions. The Markdown parser keeps none, but it calls a hook at the start
// of every block, at any depth, with the bytes not yet read of the container
// that the block is in. The hook leaves a mark in the tree that says how many
// bytes those are. A container's bytes are its source lines with its prefixes
// taken off, so the same bytes taken off here (package margin) turn each mark into
// a line. A mark fits only if the number of bytes after it is the same on both
// sides: each parse proves its own lines. The grammar stays the parser's; a
// scanner of our own would have to know all of it to tell what is a fence and
// what only looks like one.

var errLost = errors.New("a block does not start where its source line starts")

// newMarkdown returns a Markdown parser that leaves marks.
func newMarkdown() *parser.Parser {
	p := parser.NewCommonMarkWithExtensions(parser.Tables | parser.Strikethrough | parser.Autolink)
	p.Opts.ParserHook = func(rest []byte) (ast.Node, []byte, int) {
		p.AddBlock(&mark{rest: len(rest)})
		if tex, size := formula.Displayed(rest); size > 0 {
			return &display{tex: tex}, nil, size
		}
		return nil, nil, 0
	}
	return p
}

// A mark stands in the tree before each block.
type mark struct {
	ast.Leaf
	rest int // bytes of the container from the block's first line to its end
}

// A display is a formula between $$ and $$.
type display struct {
	ast.Leaf
	tex string
}

// A region is a run of source lines, widened, with the prefixes of the
// containers around it taken off.
type region struct {
	first int // number of its first line in the notebook
	lines [][]byte
}

// bytes returns the region as the Markdown parser reads it.
func (g region) bytes() []byte {
	return append(bytes.Join(g.lines, []byte("\n")), '\n')
}

// A span is one block of a region: its lines and its nodes. It may end with
// blank lines that do not belong to the block.
type span struct {
	start, end int // lines of the region, from 0
	nodes      []ast.Node
}

// spans divides the region by the marks among nodes.
func (g region) spans(nodes []ast.Node) []span {
	rest := 0
	for _, line := range g.lines {
		rest += len(line) + 1
	}
	var spans []span
	line := 0
	for _, n := range nodes {
		m, ok := n.(*mark)
		if !ok {
			if len(spans) == 0 {
				panic(errLost)
			}
			last := &spans[len(spans)-1]
			last.nodes = append(last.nodes, n)
			continue
		}
		for rest > m.rest && line < len(g.lines) {
			rest -= len(g.lines[line]) + 1
			line++
		}
		if rest != m.rest || line == len(g.lines) {
			panic(errLost)
		}
		if len(spans) > 0 {
			spans[len(spans)-1].end = line
		}
		spans = append(spans, span{start: line, end: len(g.lines)})
	}
	return spans
}

// trim returns end without the blank lines before it.
func (g region) trim(start, end int) int {
	for end > start+1 && margin.Blank(g.lines[end-1]) {
		end--
	}
	return end
}

// quote returns the region inside the quote at lines [start, end).
func (g region) quote(start, end int) region {
	in := region{first: g.first + start}
	for _, line := range g.lines[start:g.trim(start, end)] {
		in.lines = append(in.lines, margin.Quoted(line))
	}
	return in
}

// items returns the regions inside the items of the list at lines [start, end).
func (g region) items(start, end int) []region {
	var items []region
	var b margin.Bullet
	gap := false // a blank line stands before this one
	for i := start; i < end; i++ {
		line := g.lines[i]
		next, isItem := margin.ItemStart(line)
		switch last := len(items) - 1; {
		case i == start || isItem && (margin.Indent(line) < b.Width || b.Text == nil && gap):
			b = next
			items = append(items, region{g.first + i, [][]byte{b.Text}})
		case margin.Blank(line):
			items[last].lines = append(items[last].lines, nil)
		case margin.Indent(line) >= b.Width:
			items[last].lines = append(items[last].lines, margin.Dedent(line, b.Width))
		default: // lazy continuation of a paragraph
			items[last].lines = append(items[last].lines, line)
		}
		gap = margin.Blank(line)
	}
	return items
}

// source returns the line of the notebook that line i of g was cut from.
func (r *reader) source(g region, i int) []byte { return r.lines[g.first-1+i] }

// strip returns how many bytes the containers take off the start of line i of g
// when text is what they leave of it.
func (r *reader) strip(g region, i int, text []byte) int {
	n := g.first - 1 + i
	x := len(r.wide[n]) - len(text)
	if len(r.wide[n]) == len(r.lines[n]) {
		return x
	}
	return margin.Narrow(r.lines[n], x)
}

// place returns the range of lines [start, end) of g without the white space
// before it and the blank lines after it.
func (r *reader) place(g region, start, end int) Range {
	end = g.trim(start, end)
	return Range{
		Position{g.first + start, r.strip(g, start, bytes.TrimLeft(g.lines[start], margin.White)) + 1},
		Position{g.first + end - 1, len(r.source(g, end-1)) + 1},
	}
}

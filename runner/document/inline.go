package document

import (
	"bytes"
	"strings"

	"github.com/gomarkdown/markdown/ast"

	"tautline/runner/document/formula"
)

// maxBrackets is how many links a paragraph may begin: for each the Markdown
// parser looks through the rest of it.
const maxBrackets = 1000

// inlines reads running text that stands at a place.
func (r *reader) inlines(at Range, content []byte) (out []Inline) {
	out = []Inline{Text(bytes.ReplaceAll(content, []byte("\n"), []byte(" ")))}
	defer r.guard(at)
	if n := bytes.Count(content, []byte("[")); n > maxBrackets {
		r.fail(at, "divide it into paragraphs", "text: got %d opening brackets in one paragraph, want at most %d", n, maxBrackets)
		return out
	}
	text, lifted := formula.Lift(content)
	p := &ast.Paragraph{}
	r.md.Inline(p, text)
	c := inliner{reader: r, lifted: lifted, at: at, from: at.Start}
	c.all(p.GetChildren(), 0)
	c.flush()
	return c.out
}

// An inliner turns the inline nodes of one block into ours.
type inliner struct {
	*reader
	lifted []string
	at     Range    // the block
	from   Position // where to look for the next finding in it
	out    []Inline
	run    strings.Builder // characters to come after out, as one Text
}

// text adds plain characters. Two Texts never stand side by side.
func (c *inliner) text(s string) { c.run.WriteString(s) }

func (c *inliner) add(n Inline) {
	c.flush()
	c.out = append(c.out, n)
}

func (c *inliner) flush() {
	if c.run.Len() > 0 {
		c.out = append(c.out, Text(c.run.String()))
		c.run.Reset()
	}
}

func (c *inliner) all(nodes []ast.Node, depth int) {
	for _, n := range nodes {
		c.one(n, depth)
	}
}

func (c *inliner) inside(n ast.Node, depth int) []Inline {
	c.flush()
	outer := c.out
	c.out = nil
	c.all(n.GetChildren(), depth+1)
	c.flush()
	in := c.out
	c.out = outer
	return in
}

func (c *inliner) one(n ast.Node, depth int) {
	if depth > maxDepth {
		c.text(c.plain(n))
		return
	}
	switch n := n.(type) {
	case *ast.Text:
		c.characters(string(n.Literal))
	case *ast.Emph:
		c.add(Emphasis(c.inside(n, depth)))
	case *ast.Strong:
		c.add(Strong(c.inside(n, depth)))
	case *ast.Del:
		c.add(Strike(c.inside(n, depth)))
	case *ast.Code:
		c.add(CodeSpan(formula.Lower(string(n.Literal), c.lifted)))
	case *ast.Hardbreak:
		c.add(Break{})
	case *ast.Link:
		c.link(n, depth)
	case *ast.Image:
		c.image(n)
	default: // raw HTML stays the characters it is written in
		c.text(c.plain(n))
	}
}

// characters adds text with its formulas. A line end in it is a space.
func (c *inliner) characters(s string) {
	formula.Pieces(strings.ReplaceAll(s, "\n", " "), c.lifted, func(part string, isFormula bool) {
		if isFormula {
			c.add(InlineMath(part))
		} else {
			c.text(part)
		}
	})
}

// plain returns the characters of a node without their form. It keeps its own
// stack: a hostile file nests emphasis a million deep.
func (c *inliner) plain(n ast.Node) string {
	var b strings.Builder
	stack := []ast.Node{n}
	for len(stack) > 0 {
		n := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if leaf := n.AsLeaf(); leaf != nil {
			b.Write(bytes.ReplaceAll(leaf.Literal, []byte("\n"), []byte(" ")))
			if _, ok := n.(*ast.Hardbreak); ok {
				b.WriteByte(' ')
			}
			continue
		}
		children := n.GetChildren()
		for i := range children {
			stack = append(stack, children[len(children)-1-i])
		}
	}
	return formula.Lower(b.String(), c.lifted)
}

// find returns the place of the next s in the block, past the one found last;
// the whole block if s is not written there as such.
func (c *inliner) find(s string) Range {
	if c.full() {
		return c.at
	}
	for line := c.from.Line; line <= c.at.End.Line && s != ""; line++ {
		text := c.lines[line-1]
		skip := 0
		if line == c.from.Line {
			skip = c.from.Column - 1
		}
		if i := bytes.Index(text[skip:], []byte(s)); i >= 0 {
			start := Position{line, skip + i + 1}
			c.from = Position{line, start.Column + len(s)}
			return Range{start, c.from}
		}
	}
	return c.at
}

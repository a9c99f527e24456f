package document

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/gomarkdown/markdown/ast"

	"tautline/runner/document/formula"
	"tautline/runner/document/margin"
)

// maxDepth is how deep lists and quotes may nest. The Markdown parser itself
// drops what is nested deeper than 64 without a word.
const maxDepth = 32

// markdown reads the body of the notebook, all lines after the first skip.
func (r *reader) markdown(skip int) {
	defer r.guard(Range{})
	r.wide = make([][]byte, len(r.lines))
	for i := skip; i < len(r.lines); i++ {
		r.wide[i] = margin.Widen(r.lines[i])
	}
	page := region{first: 1, lines: r.wide}
	r.md = newMarkdown()
	r.md.Block(page.bytes())
	r.nb.Blocks = r.blocks(page, r.md.Doc.GetChildren(), 0)
}

// guard makes a finding of a panic. The Markdown parser is not ours, and a file
// that breaks it must not break the runner.
func (r *reader) guard(at Range) {
	if p := recover(); p != nil {
		r.fail(at, "write this part in another way, and report the file as a defect of tautline",
			"text: could not be read as Markdown: %v", p)
	}
}

// blocks turns the nodes of one container into blocks.
func (r *reader) blocks(g region, nodes []ast.Node, depth int) []Block {
	if depth > maxDepth {
		if !r.deep {
			r.deep = true
			r.fail(r.place(g, 0, len(g.lines)), "write it flatter",
				"nesting: got more than %d levels of lists and quotes, want at most %d", maxDepth, maxDepth)
		}
		return nil
	}
	var blocks []Block
	for _, s := range g.spans(nodes) {
		for _, n := range s.nodes {
			if def, ok := n.(*ast.ReferenceDefinition); ok {
				s.start += bytes.Count(def.Literal, []byte("\n"))
				continue
			}
			blocks = append(blocks, r.block(g, s, n, depth)...)
		}
	}
	return blocks
}

func (r *reader) block(g region, s span, n ast.Node, depth int) []Block {
	if s.start >= s.end {
		panic(errLost)
	}
	at := r.place(g, s.start, s.end)
	switch n := n.(type) {
	case *ast.Heading:
		text := r.inlines(at, n.Content)
		return []Block{&Heading{Range: at, Level: n.Level, ID: r.headingID(text), Text: text}}
	case *ast.Paragraph:
		return r.paragraph(g, s, n.Content)
	case *ast.BlockQuote:
		in := g.quote(s.start, s.end)
		return []Block{&Quote{Range: at, Blocks: r.blocks(in, n.GetChildren(), depth+1)}}
	case *ast.List:
		return []Block{r.list(g, s, n, depth)}
	case *ast.CodeBlock:
		if n.IsFenced {
			return []Block{r.fence(g, s, n)}
		}
		text, _ := r.text(g, s.start, g.trim(s.start, s.end), 4)
		return []Block{&Code{Range: at, Text: text}}
	case *ast.Table:
		return []Block{r.table(g, s, n)}
	case *ast.HorizontalRule:
		return []Block{&Rule{at}}
	case *ast.HTMLBlock:
		return []Block{r.html(g, s)}
	case *display:
		return []Block{&Math{Range: at, TeX: n.tex}}
	}
	panic(fmt.Sprintf("no block for %T", n))
}

func (r *reader) list(g region, s span, n *ast.List, depth int) *List {
	l := &List{
		Range:   r.place(g, s.start, s.end),
		Ordered: n.ListFlags&ast.ListTypeOrdered != 0,
		Start:   n.Start,
		Tight:   n.Tight,
	}
	items, nodes := g.items(s.start, s.end), n.GetChildren()
	if len(items) != len(nodes) {
		panic(errLost)
	}
	for i, item := range nodes {
		l.Items = append(l.Items, r.blocks(items[i], item.GetChildren(), depth+1))
	}
	return l
}

// paragraph returns running text, divided where a line of it starts a
// displayed formula.
func (r *reader) paragraph(g region, s span, content []byte) []Block {
	var blocks []Block
	lines := bytes.SplitAfter(content, []byte("\n"))
	flush := func(start, end int) {
		if start < end {
			at := r.place(g, s.start+start, s.start+end)
			text := r.inlines(at, bytes.Join(lines[start:end], nil))
			blocks = append(blocks, &Paragraph{Range: at, Text: text})
		}
	}
	start, rest := 0, content
	for i := 0; i < len(lines); i++ {
		if tex, size := formula.Displayed(rest); size > 0 {
			flush(start, i)
			start = i + 1 + bytes.Count(bytes.TrimRight(rest[:size], "\n"), []byte("\n"))
			blocks = append(blocks, &Math{Range: r.place(g, s.start+i, s.start+start), TeX: tex})
			rest, i = rest[size:], start-1
			continue
		}
		if string(bytes.TrimRight(lines[i], " \t\n")) == "$$" {
			r.warn(r.place(g, s.start+i, s.start+i+1), "end the formula with $$ before the next empty line",
				"formula: got $$ without an end, want $$ … $$")
		}
		rest = rest[len(lines[i]):]
	}
	flush(start, len(lines))
	return blocks
}

// html returns raw HTML as the characters it is written in.
func (r *reader) html(g region, s span) *Paragraph {
	p := &Paragraph{Range: r.place(g, s.start, s.end)}
	r.warn(Range{p.Start, Position{p.Start.Line, len(r.source(g, s.start)) + 1}},
		"write it in Markdown; raw HTML is shown as plain text, cells inside it too",
		"block: got HTML, want Markdown")
	for i := s.start; i < g.trim(s.start, s.end); i++ {
		if i > s.start {
			p.Text = append(p.Text, Break{})
		}
		if line := strings.TrimSpace(string(g.lines[i])); line != "" {
			p.Text = append(p.Text, Text(line))
		}
	}
	return p
}

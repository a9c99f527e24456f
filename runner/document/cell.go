package document

import (
	"bytes"
	"strings"

	"github.com/gomarkdown/markdown/ast"

	"tautline/runner/document/margin"
)

// fence returns a fenced block: a cell if it is marked go, else code to show.
func (r *reader) fence(g region, s span, n *ast.CodeBlock) Block {
	first, count := s.start+1, bytes.Count(n.Literal, []byte("\n"))
	closing := first + count
	if closing > s.end {
		panic(errLost)
	}
	opening := r.place(g, s.start, s.start+1)
	marks := strings.Repeat(string(n.FenceChar), n.FenceLength)
	at := r.place(g, s.start, s.end)
	if closing == s.end { // all that follows in the container is in the block
		closing = g.trim(s.start, closing)
		r.fail(opening, "end the block with a line "+marks, "block: got no closing fence, want %s", marks)
	}

	info := strings.TrimLeft(strings.Trim(string(g.lines[s.start]), margin.White), string(n.FenceChar))
	info = strings.Trim(info, margin.White)
	language, more := info, ""
	if i := strings.IndexAny(info, margin.White); i >= 0 {
		language, more = info[:i], strings.Trim(info[i:], margin.White)
	}
	text, origins := r.text(g, first, closing, n.FenceOffset)
	if language != "go" {
		if strings.EqualFold(strings.Trim(language, "{}"), "go") {
			r.warn(opening, "write "+marks+"go to make it a cell; golang shows code that is not run",
				"block: got language %q, want go", language)
		}
		return &Code{Range: at, Language: language, Text: text}
	}
	if more != "" {
		r.warn(opening, "leave them out: nothing reads them", "cell: got words after go %q, want none", more)
	}
	r.cells++
	return &Cell{Range: at, Index: r.cells - 1, Text: text, Origins: origins}
}

// text returns the lines [start, end) of a block of code that is indented.
func (r *reader) text(g region, start, end, indent int) (string, []Origin) {
	var b strings.Builder
	var origins []Origin
	for i := start; i < end; i++ {
		off := r.strip(g, i, margin.Dedent(g.lines[i], indent))
		b.Write(r.source(g, i)[off:])
		b.WriteByte('\n')
		origins = append(origins, Origin{Line: g.first + i, Strip: off})
	}
	return b.String(), origins
}

package document

import (
	"bytes"

	"github.com/gomarkdown/markdown/ast"

	"tautline/runner/document/formula"
	"tautline/runner/document/margin"
)

// table reads the rows from their source lines. The Markdown parser says what
// is a table; its own cells would move a row that starts with an empty one a
// column to the left, and would divide a formula such as $|x|$.
func (r *reader) table(g region, s span, n *ast.Table) *Table {
	t := &Table{Range: r.place(g, s.start, s.end)}
	line, end := s.start, g.trim(s.start, s.end)
	var header [][]byte
	if children := n.GetChildren(); len(children) > 0 {
		if _, ok := children[0].(*ast.TableHeader); ok {
			header = splitRow(g.lines[line])
			line++
		}
	}
	for _, c := range splitRow(g.lines[line]) {
		t.Align = append(t.Align, alignOf(c))
	}
	t.Header = make([][]Inline, len(t.Align))
	for i, c := range r.row(g, s.start, header, len(t.Align)) {
		t.Header[i] = c
	}
	for line++; line < end; line++ {
		t.Rows = append(t.Rows, r.row(g, line, splitRow(g.lines[line]), len(t.Align)))
	}
	return t
}

func (r *reader) row(g region, line int, cells [][]byte, want int) [][]Inline {
	at := r.place(g, line, line+1)
	if len(cells) > want {
		r.warn(at, `write \| for a bar inside a cell, or add a column to the header`,
			"table row: got %d cells, want %d; the rest is left out", len(cells), want)
		cells = cells[:want]
	}
	row := make([][]Inline, len(cells))
	for i, c := range cells {
		row[i] = r.inlines(at, c)
	}
	return row
}

func alignOf(cell []byte) Align {
	left, right := bytes.HasPrefix(cell, []byte(":")), bytes.HasSuffix(cell, []byte(":"))
	switch {
	case left && right:
		return AlignCenter
	case left:
		return AlignLeft
	case right:
		return AlignRight
	}
	return AlignNone
}

// splitRow divides a table row at its bars. A bar in a code span, in a formula
// or after a backslash divides nothing.
func splitRow(line []byte) [][]byte {
	line = bytes.Trim(line, margin.White)
	line = bytes.TrimPrefix(line, []byte("|"))
	var cells [][]byte
	var cell []byte
	parts := formula.SealedParts(line)
	for i := 0; i < len(line); i++ {
		switch {
		case len(parts) > 0 && i == parts[0].Start:
			piece := line[i:parts[0].End]
			if !parts[0].Formula {
				piece = bytes.ReplaceAll(piece, []byte(`\|`), []byte("|"))
			}
			cell = append(cell, piece...)
			i = parts[0].End - 1
			parts = parts[1:]
		case line[i] == '|':
			cells = append(cells, bytes.Trim(cell, margin.White))
			cell = nil
		case line[i] == '\\' && i+1 < len(line):
			if i++; line[i] != '|' {
				cell = append(cell, '\\')
			}
			cell = append(cell, line[i])
		default:
			cell = append(cell, line[i])
		}
	}
	if rest := bytes.Trim(cell, margin.White); len(rest) > 0 || !bytes.HasSuffix(line, []byte("|")) {
		cells = append(cells, rest)
	}
	return cells
}

package tree

import (
	"fmt"
	"go/ast"

	"tautline/runner/document"
)

// The most that the cells of a notebook may be, so that a slip of the pen or a
// hostile file does not keep the checker at work: its steps, and those of what
// comes after it, look at what stands in a node again at each level.
const (
	maxCells   = 2000
	maxCode    = 256 << 10 // bytes of Go in all cells
	maxNesting = 100       // levels of expressions, statements and types in each other
	maxName    = 200       // bytes of a name
)

// MaxErrors is how many errors are told of.
const MaxErrors = 200

// extent refuses a notebook with more Go than anyone reads.
func (t *Tree) extent(cells []*document.Cell) []document.Diagnostic {
	total := 0
	for i, c := range cells {
		total += len(c.Text)
		switch {
		case i == maxCells:
			return []document.Diagnostic{t.ErrorAt(c.Span(), fmt.Sprintf("cells: got %d, want at most %d", len(cells), maxCells), "split the notebook")}
		case total > maxCode:
			return []document.Diagnostic{t.ErrorAt(c.Span(), fmt.Sprintf("cells: got more than %d bytes of Go, want at most that many", maxCode),
				"keep lists of numbers in a CSV file beside the notebook, or split it")}
		}
	}
	return nil
}

// nesting refuses syntax that stands too deep in other syntax, and names that
// no line holds, once for each text.
func (t *Tree) nesting(file *ast.File) []document.Diagnostic {
	var diags []document.Diagnostic
	depth := 0
	ast.Inspect(file, func(n ast.Node) bool {
		if n == nil {
			depth--
			return true
		}
		if depth > maxNesting && len(diags) == 0 {
			diags = []document.Diagnostic{t.ErrorAt(t.Range(n), fmt.Sprintf("nesting: got more than %d levels of expressions and statements in each other, want fewer", maxNesting),
				"give parts of it names of their own")}
		}
		if id, ok := n.(*ast.Ident); ok && len(id.Name) > maxName && len(diags) == 0 {
			diags = []document.Diagnostic{t.ErrorAt(t.Range(n), fmt.Sprintf("name: got %d bytes, want at most %d", len(id.Name), maxName), "choose a shorter one")}
		}
		if len(diags) > 0 {
			return false
		}
		depth++
		return true
	})
	return diags
}

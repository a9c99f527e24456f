package dimension

import (
	"fmt"
	"sort"
	"strings"

	"tautline/runner/document"
	"tautline/stdlib/quantity"
)

// titleUnits finds units in the title block that do not exist, belong to no
// name, or do not measure what the name is.
func (d *Inference) titleUnits() {
	title := d.tree.Notebook.Title
	var idents []string
	for ident := range title.Units {
		idents = append(idents, ident)
	}
	sort.Strings(idents)
	for _, ident := range idents {
		symbol := title.Units[ident]
		at := d.titleEntry(ident)
		u, ok := quantity.Lookup(symbol)
		if !ok {
			d.diags = append(d.diags, d.tree.ErrorAt(at, fmt.Sprintf("unit of %s: got %q, want a unit such as kPa or kN/m", ident, symbol),
				fmt.Sprintf("did you mean %s?", quantity.Nearest(symbol))))
			continue
		}
		n := d.tree.Names[ident]
		if n == nil {
			diag := d.tree.ErrorAt(at, fmt.Sprintf("unit of %s: no cell sets %[1]s", ident), d.nearestName(ident))
			diag.Severity = document.Warning
			d.diags = append(d.diags, diag)
			continue
		}
		if m := d.ObjectMeasure(n.Object); m.Known && !m.Dimension.Equal(u.Dimension) {
			diag := d.tree.ErrorAt(at, fmt.Sprintf("unit of %s: got %s, a unit of %s, but %[1]s is %[4]s", ident, symbol, u.Dimension.Name(), noun(m.Dimension)), "")
			diag.Notes = []document.Note{{Range: n.Range, Message: ident + " is set here"}}
			d.diags = append(d.diags, diag)
		}
	}
}

func (d *Inference) nearestName(ident string) string {
	var names []string
	for n := range d.tree.Names {
		names = append(names, n)
	}
	sort.Strings(names)
	if near, ok := document.Nearest(ident, names); ok {
		return fmt.Sprintf("did you mean %s?", near)
	}
	return "take the line out"
}

// titleEntry is the place of a key of the title block's units.
func (d *Inference) titleEntry(key string) document.Range {
	title := d.tree.Notebook.Title.Range
	for i, line := range strings.Split(string(d.tree.Notebook.Source), "\n") {
		if i+1 <= title.Start.Line || i+1 >= title.End.Line && title.End.Line > 0 {
			continue
		}
		text := strings.TrimLeft(line, " \t")
		if name, _, ok := strings.Cut(text, ":"); ok && len(text) < len(line) && strings.Trim(name, `"' `) == key {
			start := document.Position{Line: i + 1, Column: len(line) - len(text) + 1}
			return document.Range{Start: start, End: document.Position{Line: i + 1, Column: len(line) + 1}}
		}
	}
	return title
}

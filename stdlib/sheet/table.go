package sheet

import (
	"fmt"

	"tautline/stdlib/units"
)

// A Table is columns of one length under their heads.
type Table struct {
	Title   string
	Columns []Column

	sheet *Sheet
	index int
}

// A Column is numbers of one dimension, or texts. Not for cells.
type Column struct {
	Site    int
	Head    string
	Numbers []Float  `json:",omitempty"`
	Texts   []string `json:",omitempty"`
}

// Len is the count of rows in the column. Not for cells.
func (c Column) Len() int { return max(len(c.Numbers), len(c.Texts)) }

// maxColumns is how many columns a table takes.
const maxColumns = 100

// NewTable puts an empty table on the sheet.
func NewTable(title string) *Table { return own.NewTable(title) }

// NewTable is the function NewTable on this sheet. Not for cells.
func (s *Sheet) NewTable(title string) *Table {
	t := &Table{Title: title, sheet: s}
	t.index = s.put(Entry{Table: t}, len(title))
	return t
}

// Column adds a column of numbers. It panics when the count of rows differs
// from the columns before.
func (t *Table) Column(head string, values []units.Any) {
	t.add(Column{Head: head, Numbers: floats(values)}, 8*len(values))
}

// Texts adds a column of texts. It panics as Column does.
func (t *Table) Texts(head string, texts []string) {
	size := 0
	for _, s := range texts {
		size += len(s)
	}
	t.add(Column{Head: head, Texts: append([]string(nil), texts...)}, size)
}

func (t *Table) add(c Column, size int) {
	if len(t.Columns) > 0 && c.Len() != t.Columns[0].Len() {
		panic(fmt.Errorf("sheet: table %q, column %q: got %d rows, want %d as in column %q",
			t.Title, c.Head, c.Len(), t.Columns[0].Len(), t.Columns[0].Head))
	}
	if len(t.Columns) == maxColumns {
		panic(fmt.Errorf("sheet: table %q: more than %d columns: no page holds them; let them be rows", t.Title, maxColumns))
	}
	c.Site = t.sheet.site()
	t.sheet.grow(size + len(c.Head))
	t.sheet.touch(t.index)
	t.Columns = append(t.Columns, c)
}

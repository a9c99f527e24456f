package report

// A field is one place of a table of results.
type field struct {
	Text    string
	Numeric bool
	Head    bool // names its row
}

// Rows turns the columns into rows. A first column of texts names the rows.
func (t *TablePart) Rows() [][]field {
	n := 0
	for _, c := range t.Columns {
		n = max(n, len(c.Cells))
	}
	rows := make([][]field, n)
	for i, c := range t.Columns {
		for r := range rows {
			f := field{Numeric: c.Numeric, Head: i == 0 && !c.Numeric}
			if r < len(c.Cells) {
				f.Text = c.Cells[r]
			}
			rows[r] = append(rows[r], f)
		}
	}
	return rows
}

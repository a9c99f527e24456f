package sheet

import (
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"strings"

	"tautline/stdlib/units"
)

// Data is a table read from a CSV file beside the notebook.
type Data struct {
	file string
	head []string
	rows [][]string
}

// ReadData reads the CSV file beside the notebook (RFC 4180, comma separated,
// first row the heads). The name is a constant with no path, so that a reader
// sees which files a notebook depends on. A missing or malformed file is an
// error at this line.
func ReadData(file string) *Data { return own.ReadData(file) }

// ReadData is the function ReadData on this sheet. Not for cells.
func (s *Sheet) ReadData(file string) *Data {
	r := csv.NewReader(strings.NewReader(strings.TrimPrefix(s.read("ReadData", file), "\ufeff")))
	r.TrimLeadingSpace = true
	rows, err := r.ReadAll()
	if err != nil {
		panic(fmt.Errorf("sheet: ReadData %s: %w", file, err))
	}
	if len(rows) == 0 {
		panic(fmt.Errorf("sheet: ReadData %s: the file is empty: want a row of heads", file))
	}
	for i := range rows[0] {
		rows[0][i] = strings.TrimSpace(rows[0][i])
	}
	return &Data{file, rows[0], rows[1:]}
}

// ReadText returns a file beside the notebook as it is, byte for byte, for a
// function that reads its format: a mesh, say. The name is a constant with no path.
// A missing file is an error at this line.
func ReadText(file string) string { return own.ReadText(file) }

// ReadText is the function ReadText on this sheet. Not for cells.
func (s *Sheet) ReadText(file string) string { return s.read("ReadText", file) }

// read is the content of a file that the notebook names.
func (s *Sheet) read(call, file string) string {
	if text, ok := s.Files[file]; ok {
		return text
	}
	if s.Files != nil {
		panic(fmt.Errorf("sheet: %s: %q is not among the files that the notebook names: write the name as a constant", call, file))
	}
	raw, err := os.ReadFile(file)
	if err != nil {
		panic(fmt.Errorf("sheet: %s: %w", call, err))
	}
	return string(raw)
}

// Column returns the numbers under head, each times unit.
//
//	dp := d.Column("pressure Pa", units.Pa)
//
// It panics when there is no such head or a field is not a finite number,
// naming file, row and column.
func (d *Data) Column(head string, unit units.Same) []units.Same {
	c := d.find(head)
	out := make([]float64, len(d.rows))
	for i, row := range d.rows {
		v, err := strconv.ParseFloat(strings.TrimSpace(row[c]), 64)
		if err != nil || v-v != 0 {
			panic(fmt.Errorf("sheet: %s, row %d, column %q: got %q, want a number", d.file, i+2, head, row[c]))
		}
		out[i] = v * unit
	}
	return out
}

// Texts returns the texts under head.
func (d *Data) Texts(head string) []string {
	c := d.find(head)
	out := make([]string, len(d.rows))
	for i, row := range d.rows {
		out[i] = row[c]
	}
	return out
}

func (d *Data) find(head string) int {
	for i, h := range d.head {
		if h == head {
			return i
		}
	}
	panic(fmt.Errorf("sheet: %s: no column %q: the heads are %q", d.file, head, d.head))
}

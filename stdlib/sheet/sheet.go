// Package sheet is how a cell speaks to its report.
//
//	r := sheet.Given(300*units.Mm, 250*units.Mm, 400*units.Mm) // may be chosen in this range
//	sheet.AtMost("long seam", T, Tseam, "EN 14960-1, 4.1.1")
//	f := sheet.NewFigure("Line force against bed pressure", "bed pressure", "line force")
//	f.Curve("inner equator", ps, Ns)
//
// Everything a cell puts on the sheet becomes an Entry, in order, with the
// place in the notebook that put it there. The package functions write to the
// program's own sheet; the runner binds the same names to a sheet of its own.
//
// Invariants: nothing here gives a cell anything but what the notebook and the
// files it names already hold, so the sheet adds no hidden state to a
// calculation. A declaration marked "Not for cells" is for the runner and for
// exported programs.
package sheet

import (
	"fmt"

	"tautline/stdlib/units"
)

// A Sheet collects what the cells of one run put on the report. Not for cells.
type Sheet struct {
	Entries []Entry
	Where   func() int        // the number of the statement that runs now; nil means 0
	Files   map[string]string // text of the data files that the notebook names

	changed int               // lowest index of an entry changed since TakeChanged
	bytes   int               // size of what was put so far
	shop    map[string]string // names of shop files, by their lower case
	trials  map[string]bool   // that were named
	plated  map[string]bool   // lines of the data plate, by name
}

// An Entry is one thing put on the sheet; just one of the pointers is set.
// Not for cells.
type Entry struct {
	Site      int         // the statement that put it
	Given     *Range      `json:",omitempty"`
	Tolerance *Tolerance  `json:",omitempty"`
	Check     *Check      `json:",omitempty"`
	Table     *Table      `json:",omitempty"`
	Figure    *Figure     `json:",omitempty"`
	Drawing   *Drawing    `json:",omitempty"`
	Rose      *Rose       `json:",omitempty"`
	Motion    *Motion     `json:",omitempty"`
	ShopFile  *ShopText   `json:",omitempty"`
	Trial     *Prediction `json:",omitempty"`
	Plate     *PlateLine  `json:",omitempty"`
	Remark    *Remark     `json:",omitempty"`
}

// own is the sheet of a program that runs without the runner.
var own = &Sheet{}

// The most that a sheet takes. A report with more than this helps nobody; a
// cell that puts more has a loop gone wrong.
const (
	maxEntries = 10_000
	maxBytes   = 32 << 20
)

// put appends e and returns its index.
func (s *Sheet) put(e Entry, size int) int {
	e.Site = s.site()
	if len(s.Entries) >= maxEntries {
		panic(fmt.Errorf("sheet: more than %d entries: put results of a loop into one table", maxEntries))
	}
	s.grow(size)
	s.Entries = append(s.Entries, e)
	s.touch(len(s.Entries) - 1)
	return len(s.Entries) - 1
}

func (s *Sheet) site() int {
	if s.Where == nil {
		return 0
	}
	return s.Where()
}

func (s *Sheet) grow(size int) {
	if s.bytes += size; s.bytes > maxBytes {
		panic(fmt.Errorf("sheet: more than %d MiB put on the sheet: show fewer points or rows", maxBytes>>20))
	}
}

func (s *Sheet) touch(index int) {
	s.changed = min(s.changed, index)
}

// TakeChanged returns the entries from the first that is new or changed since
// the last call, and its index. Not for cells.
func (s *Sheet) TakeChanged() (from int, entries []Entry) {
	from = min(s.changed, len(s.Entries))
	s.changed = len(s.Entries)
	return from, s.Entries[from:]
}

// Clear takes everything off the sheet, for the next run of a study. Not for
// cells.
func (s *Sheet) Clear() {
	s.Entries, s.changed, s.bytes, s.shop, s.trials, s.plated = nil, 0, 0, nil, nil, nil
}

// A Range is where a given value may be chosen. Not for cells.
type Range struct{ Value, Low, High Float }

// Given returns value and says that the designer may choose it from low to
// high; the report shows the range, and a value outside it fails.
//
// Dimension: the same for all three and the result.
func Given(value, low, high units.Same) units.Same { return own.Given(value, low, high) }

// Given is the function Given on this sheet. Not for cells.
func (s *Sheet) Given(value, low, high units.Same) units.Same {
	s.put(Entry{Given: &Range{Float(value), Float(low), Float(high)}}, 32)
	return value
}

// A Tolerance is by how much a value may differ as it is built. Not for cells.
type Tolerance struct{ Value, PlusMinus Float }

// PlusMinus returns value and says by how much, up or down, it may differ as it
// is built or measured. A study of tolerances varies it so.
//
//	r := sheet.PlusMinus(350*units.Mm, 5*units.Mm) // tube radius, as sewn
//
// Dimension: the same for both and the result.
func PlusMinus(value, tolerance units.Same) units.Same { return own.PlusMinus(value, tolerance) }

// PlusMinus is the function PlusMinus on this sheet. Not for cells.
func (s *Sheet) PlusMinus(value, tolerance units.Same) units.Same {
	s.put(Entry{Tolerance: &Tolerance{Float(value), Float(tolerance)}}, 32)
	return value
}

// A Remark is text for the reader. Not for cells.
type Remark struct {
	Caution bool
	Text    string
}

// Note puts a remark at this place of the report.
func Note(text string) { own.Note(text) }

// Note is the function Note on this sheet. Not for cells.
func (s *Sheet) Note(text string) { s.put(Entry{Remark: &Remark{false, text}}, len(text)) }

// Caution puts a warning at this place of the report and repeats it at the
// top: what can hurt someone, and what must be done about it.
func Caution(text string) { own.Caution(text) }

// Caution is the function Caution on this sheet. Not for cells.
func (s *Sheet) Caution(text string) { s.put(Entry{Remark: &Remark{true, text}}, len(text)) }

// Must returns value, or ends the run with err at this line of the notebook.
//
//	op := sheet.Must(blower.OperatingPoint(fan, leak))
func Must[T any](value T, err error) T {
	if err != nil {
		panic(err)
	}
	return value
}

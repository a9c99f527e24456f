package document

import (
	"cmp"
	"slices"
)

// Severity says what a diagnostic does to the run.
type Severity int

// The severities. An Error ends the run or fails the notebook; a Warning
// stands in the report.
const (
	Error Severity = iota
	Warning
)

func (s Severity) String() string {
	if s == Warning {
		return "warning"
	}
	return "error"
}

// A Diagnostic is one finding about a notebook, the same value from parsing to
// a fault in a running cell. The terminal, the live page and the report print
// it alike, with the source excerpt.
type Diagnostic struct {
	Severity Severity
	File     string
	Range    Range  // as tight as it can be; a zero Start is the whole file
	Message  string // one line, lower case: "what: got X, want Y"
	Hint     string // the next action, or the nearest name; may be empty
	Notes    []Note // other places that belong to it
}

// A Note points at another place that explains a diagnostic.
type Note struct {
	Range   Range
	Message string
}

// Sort puts diagnostics in order of file and place, errors before warnings at
// the same place. Those alike in all of it keep their order.
func Sort(ds []Diagnostic) {
	slices.SortStableFunc(ds, func(a, b Diagnostic) int {
		return cmp.Or(
			cmp.Compare(a.File, b.File),
			a.Range.Start.Compare(b.Range.Start),
			cmp.Compare(a.Severity, b.Severity),
		)
	})
}

package engine

import (
	"tautline/runner/lower"
	"tautline/stdlib/sheet"
)

// A request is what the worker reads from its standard input: one JSON value.
type request struct {
	Program  *lower.Program
	Limits   Limits
	Variants []Variant `json:",omitempty"` // of a study; nil is one run as the program stands
}

// An event is one line of JSON that the worker writes to its standard output.
// Just one of the pointers is set.
type event struct {
	Started *started  `json:",omitempty"`
	Done    *results  `json:",omitempty"` // a cell ran to its end
	Fault   *fault    `json:",omitempty"` // the last event of a run that faulted
	At      *int      `json:",omitempty"` // the statement that runs now
	End     *struct{} `json:",omitempty"` // the last event of a run
	Sample  *sample   `json:",omitempty"` // a variant of a study ran
}

// Started says that the program was compiled and its cells begin.
type started struct {
	Guards []string // what the worker put on itself
}

// A sample is what a variant gave.
type sample struct {
	Index   int
	Numbers map[string]sheet.Float
	Checks  []sheet.Entry
	Fault   *fault
}

// Results are what a cell set and put on the sheet.
type results struct {
	Values  map[string]sheet.Value
	From    int           // index of the first entry that is new or changed
	Entries []sheet.Entry // from there
}

// A fault ends the run.
type fault struct {
	Kind    faultKind
	Message string
	At      int      // statement
	Results *results // so far, of the cell that faulted; nil when they could not be read
}

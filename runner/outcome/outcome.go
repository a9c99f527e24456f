// Package outcome is what a run of a notebook gave: the value of every name,
// what the cells put on the sheet, and how each cell ended. It is plain data;
// dimensions, symbols and places stand in the plan that was run.
package outcome

import (
	"tautline/runner/document"
	"tautline/stdlib/sheet"
)

// An Outcome is the result of one run.
type Outcome struct {
	Cells   []State                // one for each cell of the plan
	Values  map[string]sheet.Value // by top-level name; only names that were set
	Entries []sheet.Entry          // what the cells put on the sheet, in order
	Faults  []document.Diagnostic  // how the run ended early, if it did
	Guards  []Guard                // what kept the run apart from the rest of the machine
}

// A Guard is one thing that keeps a run from harming the machine, or from
// depending on it.
type Guard struct {
	Name  string // such as "Landlock"
	Holds string // what it holds back, such as "no file and no folder"
	Off   string // why it is not on; empty when it is
}

// State is how a cell ended.
type State int

// The states of a cell.
const (
	NotRun  State = iota // a cell before it faulted
	Done                 // ran to its end
	Faulted              // ended at a fault; what it had set before is kept
)

// A Sample is what one run of a study gave.
type Sample struct {
	Numbers map[string]float64 // by top-level name
	Checks  []sheet.Check      // in the order they were put; the same in every sample, but for loops
	Fault   string             // why the run ended early; empty when it did not
}

package engine

import (
	"time"

	"tautline/runner/lower"
	"tautline/runner/outcome"
	"tautline/stdlib/sheet"
)

// Terms are what the worker reads first from its standard input, as soon as it is
// started.
type terms struct {
	Limits Limits // of one run
	Runs   int    // that it may be asked for
}

// time is the most that all runs take. The runner watches the time of each of
// several.
func (t terms) time() time.Duration {
	if t.Runs > 1 {
		return time.Duration(t.Runs) * (t.Limits.Time + grace)
	}
	return t.Limits.Time
}

// A request is what the worker reads next; with Hold further values follow, each
// a Variant to run.
type request struct {
	Program  *lower.Program
	Variants []Variant    `json:",omitempty"` // of a study; nil is one run as the program stands
	Hold     bool         `json:",omitempty"`
	Kept     []keptResult `json:",omitempty"` // of heavy calculations of earlier runs
}

// An event is one line of JSON that the worker writes to its standard output.
// Just one of the pointers is set.
type event struct {
	Ready   *ready      `json:",omitempty"` // the first event
	Started *struct{}   `json:",omitempty"` // the program was compiled and its cells begin
	Done    *results    `json:",omitempty"` // a cell ran to its end
	Fault   *fault      `json:",omitempty"` // the last event of a run that faulted
	At      *int        `json:",omitempty"` // the statement that runs now
	End     *struct{}   `json:",omitempty"` // the last event of a run
	Sample  *sample     `json:",omitempty"` // a variant of a study ran
	Kept    *keptResult `json:",omitempty"` // a heavy calculation ended, or was not needed
}

// Ready says that the worker is guarded and can be given a program.
type ready struct {
	Guards []outcome.Guard
}

// A keptResult is the result of a heavy calculation, by the digest of its
// arguments. Without a result it says that the kept one was used.
type keptResult struct {
	Digest [32]byte
	Result []byte `json:",omitempty"`
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

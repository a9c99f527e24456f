// Package live keeps notebooks run and shown while they are being written.
//
//	desk, err := live.Open(ctx, live.Options{Paths: []string{"notebooks"}, Printer: printer})
//	err = desk.Serve(ctx, listener)
//
// A Desk watches notebooks. Each save runs the notebook from nothing in a worker
// that waits for it; a run that a newer save overtakes is stopped. What came of
// it is shown on a page in the browser, where only the pieces that changed are
// replaced. While a notebook has an error its last good report stays, with the
// error at its cell. On the page a given may be tried with another number: that
// is shown as a what-if and saved only when asked.
//
// The package does not know how a result looks: a Printer makes the pieces.
//
// Invariants: the page shows what a cold run of the same text gives; a file is
// changed only by Keep, and then in its numbers alone; nothing that a notebook
// does stops the desk.
package live

import (
	"io"
	"sync"
	"time"

	"tautline/runner"
	"tautline/runner/document"
	"tautline/runner/engine"
	"tautline/stdlib/quantity"
)

// Options are what a desk needs.
type Options struct {
	Paths    []string // notebooks, and folders of notebooks
	Printer  Printer
	Limits   engine.Limits
	ReadOnly bool // nothing on a page changes a file
	// Shows reports whether the page of a notebook shows a file that it does not
	// read, such as a record of it. It may be nil.
	Shows func(notebook, file string) bool
	// Beside is the folder beside a notebook that has such files, in it or below; it
	// need not be there yet. "" or no function: none.
	Beside func(notebook string) string
	Log    func(line string)
}

// A Printer makes what is shown of a result. Its methods may be called from
// several goroutines.
type Printer interface {
	// Begin does what can be done before the run of a result whose plan has no
	// error. What it returns makes the pieces of the report of any run of that
	// plan, also from several goroutines.
	Begin(*runner.Result) Print
	// Page makes the pieces of a result's report. Its plan is not nil, but may
	// have errors.
	Page(*runner.Result) (*Page, error)
	// Finding is one diagnostic as HTML, with an excerpt of the text.
	Finding(d document.Diagnostic, text []byte) (string, error)
	// Report writes the report as a file of its own.
	Report(io.Writer, *runner.Result) error
	// Style is the stylesheet of pages and findings.
	Style() string
}

// Print makes the page of a result that was run.
type Print func(*runner.Result) (*Page, error)

// A Page is a report in pieces, and what the desk must know of it.
type Page struct {
	Title     string // of the window
	Name      string // of the notebook
	Number    string
	State     string // such as "Draft, not signed"
	Verdict   string // in words
	Class     string // of the verdict: "holds", "fails" or "open"
	Governing string // the governing check, in words; may be empty
	Pieces    []Piece
	Shown     map[string]string // what each anchor shows, in plain letters
	Record    string            // the newest, such as "record 0003"; empty when there is none
	Signed    map[string]string // what anchors show otherwise than that record, as it has it
	Choices   []Choice
	Trials    []Trial
}

// A Trial is what is to be measured on the built ride.
type Trial struct {
	Name       string
	Predicted  string // in words
	Standing   string // in words
	Instrument string // to measure with; may be empty
	Unit       quantity.Unit
}

// A Piece is some whole elements of a page.
type Piece struct {
	Slot string // "top", "lead", "body", "rest" or "foot"
	Cell int    // -1 when it is no cell's
	HTML string
}

// A Choice is a given that may be chosen in a range, in one unit.
type Choice struct {
	Name, Symbol     string // the symbol as HTML
	Value, Low, High float64
	Unit             quantity.Unit
}

// Times say where the time of a run went.
type Times struct {
	Check  time.Duration `json:"check"` // ns
	Run    time.Duration `json:"run"`
	Render time.Duration `json:"render"`
}

// Total is the time from reading the notebook to its page.
func (t Times) Total() time.Duration { return t.Check + t.Run + t.Render }

// A signal wakes all who wait for a change.
type signal struct {
	mu   sync.Mutex
	next chan struct{}
}

// wait returns what is closed at the next change. Who takes it before looking
// misses none.
func (s *signal) wait() <-chan struct{} {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.next == nil {
		s.next = make(chan struct{})
	}
	return s.next
}

func (s *signal) fire() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.next != nil {
		close(s.next)
		s.next = nil
	}
}

package live

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"runtime/debug"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"tautline/runner"
	"tautline/runner/check"
	"tautline/runner/document"
	"tautline/runner/trial"
)

// A book is one notebook on the desk.
type book struct {
	desk    *Desk
	file    string
	slug    string
	touched chan struct{} // capacity 1: it has to be run
	changed signal        // it has another state
	state   atomic.Pointer[state]

	mu       sync.Mutex
	latest   []byte             // the text that was run last, or is being run
	cancel   context.CancelFunc // of the run in progress
	absent   bool               // the text was not there, and is looked at again
	sessions map[string]*session
}

// A state is what is known of a notebook at one time. It does not change.
type state struct {
	run     *run                  // that is shown: the last good one, else the last; nil before the first
	before  map[string]string     // what the good run before it showed
	trouble []document.Diagnostic // errors of a newer text that could not be run
	text    []byte                // that text
	cells   []*document.Cell      // of that text, as far as it could be read
	gone    bool                  // there is no file
	running bool
	tried   time.Time // when the last run ended
	view    *view
}

// A run is what one run came to. It does not change.
type run struct {
	result *runner.Result
	print  Print // nil when it was not run
	page   *Page // nil when there was no plan
	good   bool  // it ran to its end
	at     time.Time
	times  Times
}

// pause is how long a file may be empty or missing while an editor saves it.
const pause = 40 * time.Millisecond

// touch has the notebook run again if its text changed, or its data did.
func (b *book) touch(data bool) {
	text, err := runner.Text(b.file)
	b.mu.Lock()
	defer b.mu.Unlock()
	if !data && err == nil && b.latest != nil && bytes.Equal(text, b.latest) {
		return
	}
	if (err != nil || len(text) == 0) && len(b.latest) > 0 && !b.absent {
		b.absent = true
		time.AfterFunc(pause, func() { b.touch(data) })
		return
	}
	b.absent = false
	b.latest = append([]byte{}, text...)
	if b.cancel != nil {
		b.cancel()
	}
	select {
	case b.touched <- struct{}{}:
	default:
	}
}

// reads reports whether the notebook reads a file beside it.
func (b *book) reads(name string) bool {
	if name == filepath.Base(trial.File(b.file)) {
		return true
	}
	s := b.state.Load()
	if s.trouble != nil {
		return true // it may be the very file that is missing
	}
	if s.run == nil || s.run.result.Plan == nil {
		return false
	}
	return slices.ContainsFunc(s.run.result.Plan.Data, func(f check.DataFile) bool { return f.Name == name }) ||
		slices.ContainsFunc(s.run.result.Notebook.Pictures, func(p document.Picture) bool { return p.File == name })
}

// work runs the notebook whenever it was touched.
func (b *book) work(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-b.touched:
		}
		ctx, cancel := context.WithCancel(ctx)
		b.mu.Lock()
		b.cancel = cancel
		b.mu.Unlock()
		b.runOnce(ctx)
		cancel()
	}
}

// set changes the state and tells who waits for it.
func (b *book) set(s state) {
	b.state.Store(&s)
	b.changed.fire()
	b.desk.changed.fire()
}

// runOnce runs the notebook as its file stands. A run that ctx ends changes
// nothing: a newer one follows.
func (b *book) runOnce(ctx context.Context) {
	d := b.desk
	s := *b.state.Load()
	s.running = true
	b.set(s)
	done := d.slot()
	r, err := b.compute(ctx)
	done()
	defer d.bench.refill()
	s.running = false
	if ctx.Err() != nil {
		b.set(s)
		return
	}
	s.tried = r.at
	s.gone = r.result.Unread && r.result.Source == nil
	s.trouble, s.text, s.cells = nil, nil, nil
	switch {
	case r.good && err == nil:
		if s.run != nil && s.run.good {
			s.before = s.run.page.Shown
		}
		s.run = r
	default:
		s.trouble = errorsOf(r.result, err)
		s.text = r.result.Source
		if r.result.Notebook != nil {
			s.text = r.result.Notebook.Source
			s.cells = r.result.Notebook.Cells()
		}
		if s.run == nil || !s.run.good {
			s.run = r
		}
	}
	s.view = b.makeView(&s)
	b.set(s)
	d.options.Log(fmt.Sprintf("%s  %s: %s", r.at.Format(time.TimeOnly), b.file, b.summary(&s)))
}

// summary says in one line how the last run ended.
func (b *book) summary(s *state) string {
	if len(s.trouble) > 0 {
		d := s.trouble[0]
		text := d.Message
		if d.Range.Start.Line > 0 {
			text = fmt.Sprintf("line %d: %s", d.Range.Start.Line, text)
		}
		if more := len(s.trouble) - 1; more > 0 {
			text += fmt.Sprintf(" (and %d more)", more)
		}
		return text
	}
	return fmt.Sprintf("%s (%d ms)", s.run.page.standing(), s.run.times.Total().Milliseconds())
}

// errorsOf lists the errors of a result; err is one of the runner or printer.
func errorsOf(res *runner.Result, err error) []document.Diagnostic {
	var errs []document.Diagnostic
	for _, d := range res.Diagnostics() {
		if d.Severity == document.Error {
			errs = append(errs, d)
		}
	}
	if err != nil {
		errs = append(errs, document.Diagnostic{Severity: document.Error, File: res.File, Message: err.Error()})
	}
	if len(errs) == 0 {
		errs = append(errs, document.Diagnostic{Severity: document.Error, File: res.File, Message: "the run did not end, and left no reason",
			Hint: "this is a fault of tautline: please report it with the notebook"})
	}
	return errs
}

// compute checks and runs the notebook and prints what came of it.
func (b *book) compute(ctx context.Context) (*run, error) {
	d := b.desk
	start := time.Now()
	res := runner.Check(b.file)
	checked := time.Now()
	r := &run{result: res}
	if res.Plan != nil && !res.Failed() {
		begun := make(chan Print, 1)
		go func() { begun <- b.begin(res) }() // while the worker runs
		res.Run(ctx, asSaved{&d.bench, b})
		r.print = <-begun
	}
	ran := time.Now()
	r.good = res.Ran()
	var err error
	if res.Plan != nil && ctx.Err() == nil {
		r.page, err = b.print(r.print, res)
	}
	r.at = time.Now()
	r.times = Times{checked.Sub(start), ran.Sub(checked), r.at.Sub(ran)}
	if err == nil {
		err = res.Err
	}
	return r, err
}

// begin has a page begun; nil when that failed.
func (b *book) begin(res *runner.Result) (p Print) {
	defer b.rescue(func(error) { p = nil })
	return b.desk.options.Printer.Begin(res)
}

// print has a page made.
func (b *book) print(begun Print, res *runner.Result) (page *Page, err error) {
	defer b.rescue(func(e error) { page, err = nil, e })
	if begun == nil || res.Outcome == nil {
		return b.desk.options.Printer.Page(res)
	}
	return begun(res)
}

// rescue is deferred where a panic is a fault of ours that must not end the desk.
func (b *book) rescue(failed func(error)) {
	if p := recover(); p != nil {
		b.desk.options.Log(fmt.Sprintf("internal error while printing %s: %v\n%s", b.file, p, debug.Stack()))
		failed(fmt.Errorf("internal error: %v: this is a fault of tautline, please report it with the notebook", p))
	}
}

// name of the notebook, for people.
func (b *book) name() string {
	if r := b.state.Load().run; r != nil && r.page != nil && r.page.Name != "" {
		return r.page.Name
	}
	return filepath.Base(b.file)
}

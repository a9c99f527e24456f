package engine

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"sync"
	"sync/atomic"
	"time"

	"tautline/runner/document"
	"tautline/runner/lower"
	"tautline/runner/outcome"
	"tautline/stdlib/sheet"
)

// A Process is a worker process, used for one run.
type Process struct {
	limits  Limits        // of a run
	runs    int           // of one program, one after the other
	ready   chan struct{} // closed when the process was started, or err is set
	err     error
	cmd     *exec.Cmd
	guards  []outcome.Guard // that the runner put on it
	release func()          // gives up what they hold
	in      io.WriteCloser
	out     io.ReadCloser
	stderr  head
	end     sync.Once
	used    bool
}

// Start starts a worker without waiting for it. A caller that has other work to
// do before it has a program starts the worker first. Close must follow.
func Start(limits Limits) *Process { return startFor(1, limits) }

// startFor starts a worker for several runs of one program, each with the limits.
func startFor(runs int, limits Limits) *Process {
	p := &Process{limits: limits.withDefaults(), runs: runs, ready: make(chan struct{})}
	go func() {
		defer close(p.ready)
		p.err = p.start()
	}()
	return p
}

func (p *Process) start() error {
	if len(os.Args) > 1 && os.Args[1] == workerArg {
		return errors.New("this process is a worker itself: its main function or TestMain must call engine.Main first")
	}
	var err error
	if p.cmd, err = command(workerArg); err != nil {
		return err
	}
	p.cmd.Stderr = &p.stderr
	if p.in, err = p.cmd.StdinPipe(); err != nil {
		return err
	}
	if p.out, err = p.cmd.StdoutPipe(); err != nil {
		return err
	}
	if err := p.cmd.Start(); err != nil {
		return err
	}
	t := terms{p.limits, p.runs}
	p.guards, p.release = confine(p.cmd.Process, t)
	json.NewEncoder(p.in).Encode(t) // an error shows as the end of the worker
	return nil
}

// command is this binary once more, with nothing of its surroundings.
func command(arg string) (*exec.Cmd, error) {
	exe, err := executable()
	if err != nil {
		return nil, err
	}
	cmd := exec.Command(exe, arg)
	cmd.Env = []string{}
	cmd.Dir = "/"
	cmd.SysProcAttr = attributes()
	return cmd, nil
}

// Close ends the process. It may be called at any time and more than once.
func (p *Process) Close() {
	p.end.Do(func() {
		<-p.ready
		if p.err != nil {
			return
		}
		kill(p.cmd.Process)
		p.reap()
	})
}

func (p *Process) reap() {
	p.in.Close()
	p.cmd.Wait()
	p.release()
}

// Run runs prog in the worker and ends it. The error is about the runner
// itself: no process could be started, or ctx ended.
func (p *Process) Run(ctx context.Context, prog *lower.Program) (*outcome.Outcome, error) {
	defer p.Close()
	events, left, stop, err := p.begin(request{Program: prog})
	if err != nil {
		return nil, err
	}
	defer stop()
	r := newRecorder(prog, p.limits, p.guards)
	started := false
	timer := time.NewTimer(setUp)
	defer timer.Stop()
	for {
		select {
		case e, ok := <-events:
			if !ok {
				r.fault(p.lastWords(left.spent()))
				return r.outcome, nil
			}
			if e.Started != nil {
				started = true
				timer.Reset(p.limits.Time + grace + patience)
			}
			if r.take(e) {
				return r.outcome, nil
			}
		case <-timer.C:
			f := fault{Kind: faultTime}
			if !started {
				f = fault{Kind: faultExit, Message: fmt.Sprintf("it did not start within %v", setUp)}
			}
			r.fault(f)
			return r.outcome, nil
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}
}

// begin hands the worker what to do and returns the events that it answers with,
// which end when they take more bytes than the limit; left counts down.
func (p *Process) begin(r request) (events chan event, left *allowance, stop func(), err error) {
	events, left, stop, err = p.listen()
	if err == nil {
		go json.NewEncoder(p.in).Encode(r) // an error shows as the end of the worker
	}
	return events, left, stop, err
}

// listen returns the events of a worker that was not used before.
func (p *Process) listen() (events chan event, left *allowance, stop func(), err error) {
	<-p.ready
	if p.err != nil {
		return nil, nil, nil, fmt.Errorf("engine: start worker: %w", p.err)
	}
	if p.used {
		return nil, nil, nil, errors.New("engine: the worker was used before: start another")
	}
	p.used = true
	events, left = make(chan event), &allowance{from: p.out}
	left.renew(int64(p.runs) * p.limits.Output)
	done := make(chan struct{})
	go read(left, events, done)
	return events, left, func() { close(done) }, nil
}

// An allowance reads so many bytes and no more.
type allowance struct {
	from io.Reader
	left atomic.Int64
}

func (a *allowance) renew(bytes int64) { a.left.Store(bytes) }

func (a *allowance) spent() bool { return a.left.Load() <= 0 }

func (a *allowance) Read(b []byte) (int, error) {
	left := a.left.Load()
	if left <= 0 {
		return 0, io.EOF
	}
	n, err := a.from.Read(b[:min(int64(len(b)), left)])
	a.left.Add(-int64(n))
	return n, err
}

// read sends the events of a worker until they end or done is closed.
func read(from io.Reader, events chan<- event, done <-chan struct{}) {
	defer close(events)
	decoder := json.NewDecoder(from)
	for {
		var e event
		if decoder.Decode(&e) != nil {
			return
		}
		select {
		case events <- e:
		case <-done:
			return
		}
	}
}

// lastWords says why the events ended without a last one.
func (p *Process) lastWords(tooMuch bool) fault {
	if tooMuch {
		return fault{Kind: faultOutput}
	}
	p.end.Do(p.reap)
	return autopsy(p.cmd.ProcessState.String(), p.stderr.Bytes())
}

// A recorder makes an outcome of a worker's events.
type recorder struct {
	program *lower.Program
	limits  Limits
	outcome *outcome.Outcome
	cells   int // that are done
	at      int // the statement of the running cell that the worker told of last; -1 is none
}

func newRecorder(p *lower.Program, limits Limits, guards []outcome.Guard) *recorder {
	return &recorder{program: p, limits: limits, at: -1, outcome: &outcome.Outcome{
		Cells:   make([]outcome.State, len(p.Cells)),
		Values:  map[string]sheet.Value{},
		Entries: []sheet.Entry{},
		Faults:  []document.Diagnostic{},
		Guards:  guards,
	}}
}

// take records an event and reports whether it is the last.
func (r *recorder) take(e event) bool {
	switch {
	case e.Ready != nil:
		r.outcome.Guards = append(r.outcome.Guards, e.Ready.Guards...)
	case e.At != nil:
		r.at = *e.At
	case e.Done != nil:
		r.results(e.Done)
		r.at = -1
		if r.cells < len(r.outcome.Cells) {
			r.outcome.Cells[r.cells] = outcome.Done
			r.cells++
		}
	case e.Fault != nil:
		r.at = e.Fault.At
		r.results(e.Fault.Results)
		r.fault(*e.Fault)
		return true
	}
	return e.End != nil
}

func (r *recorder) results(got *results) {
	if got == nil {
		return
	}
	for name, v := range got.Values {
		r.outcome.Values[name] = v
	}
	from := min(got.From, len(r.outcome.Entries))
	r.outcome.Entries = append(r.outcome.Entries[:from], got.Entries...)
}

// fault records how the run ended: at the last statement known, or else
// somewhere in the cell that ran.
func (r *recorder) fault(f fault) {
	d := diagnose(f, r.limits)
	d.File = r.program.File
	if r.cells < len(r.program.Cells) {
		r.outcome.Cells[r.cells] = outcome.Faulted
		d.Range = r.program.Cells[r.cells].Range
	}
	if r.at >= 0 && r.at < len(r.program.Sites) {
		d.Range = r.program.Sites[r.at]
	}
	r.outcome.Faults = append(r.outcome.Faults, d)
}

// head keeps the first bytes that are written to it.
type head struct{ bytes.Buffer }

const maxHead = 64 << 10

func (h *head) Write(b []byte) (int, error) {
	h.Buffer.Write(b[:min(len(b), max(0, maxHead-h.Len()))])
	return len(b), nil
}

package engine

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"tautline/runner/lower"
	"tautline/runner/outcome"
)

// A Held program stays compiled in a worker, to be run again and again with
// other numbers for its givens. Each run gives what a run from nothing would.
// It is not for concurrent use.
type Held struct {
	program *lower.Program
	limits  Limits

	worker *Process // nil when there is none, or it was ended
	events chan event
	left   *allowance
	stop   func()
	guards []outcome.Guard // that it has
	runs   int             // by it
}

// maxHeldRuns is how often a worker is used: the interpreter keeps a little of
// each run.
const maxHeldRuns = 500

// Hold prepares to run p. The limits are those of one run. Close must follow.
func Hold(p *lower.Program, limits Limits) *Held {
	return &Held{program: p, limits: limits.withDefaults()}
}

// Close ends the worker. The next Run starts another.
func (h *Held) Close() {
	if h.worker != nil {
		h.stop()
		h.worker.Close()
		h.worker, h.runs = nil, 0
	}
}

// Run runs the program with the numbers of v. The error is about the runner
// itself, or ctx ended. A run that has to be stopped ends the worker.
func (h *Held) Run(ctx context.Context, v Variant) (*outcome.Outcome, error) {
	if h.runs == maxHeldRuns {
		h.Close()
	}
	r := newRecorder(h.program, h.limits, h.guards)
	if err := h.ready(ctx, r); err != nil || len(r.outcome.Faults) > 0 {
		h.Close()
		return r.outcome, err
	}
	h.runs++
	h.left.renew(h.limits.Output)
	go json.NewEncoder(h.worker.in).Encode(v) // an error shows as the end of the worker
	done, err := h.follow(ctx, r, h.limits.Time+grace, func(e event) bool { return r.take(e) })
	if err != nil || !done {
		h.Close()
	}
	return r.outcome, err
}

// ready starts a worker unless one waits, and lets it compile the program.
func (h *Held) ready(ctx context.Context, r *recorder) error {
	if h.worker != nil {
		return nil
	}
	p := startFor(maxHeldRuns, h.limits)
	events, left, stop, err := p.begin(request{Program: h.program, Hold: true})
	if err != nil {
		p.Close()
		return err
	}
	h.worker, h.events, h.left, h.stop = p, events, left, stop
	r.outcome.Guards = p.guards
	_, err = h.follow(ctx, r, setUp, func(e event) bool { return r.take(e) || e.Started != nil })
	h.guards = r.outcome.Guards
	return err
}

// follow hands events to take until that says that it has all. It reports false
// when it recorded a fault that ended the worker or must end it.
func (h *Held) follow(ctx context.Context, r *recorder, limit time.Duration, take func(event) bool) (bool, error) {
	timer := time.NewTimer(limit)
	defer timer.Stop()
	for {
		select {
		case e, ok := <-h.events:
			if !ok {
				r.fault(h.worker.lastWords(h.left.spent()))
				return false, nil
			}
			if take(e) {
				return e.Fault == nil || e.Fault.Kind == faultPanic, nil
			}
		case <-timer.C:
			f := fault{Kind: faultTime}
			if h.runs == 0 {
				f = fault{Kind: faultExit, Message: fmt.Sprintf("it did not start within %v", setUp)}
			}
			r.fault(f)
			return false, nil
		case <-ctx.Done():
			return false, ctx.Err()
		}
	}
}

// runHeld runs the cells once for each variant that comes, from a state in which
// nothing is set.
func (w *worker) runHeld(cells []func()) {
	for v := range w.more {
		globals := w.interpreter.Globals()
		for _, c := range w.program.Cells {
			for _, name := range c.Names {
				if g := globals[name]; g.CanSet() {
					g.SetZero()
				}
			}
		}
		w.set(v)
		w.runOnce(cells)
	}
}

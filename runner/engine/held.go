package engine

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"time"

	"tautline/runner/lower"
	"tautline/runner/outcome"
)

// A Held worker keeps a program compiled, to run it again and again with other
// numbers for its givens. Each run gives what a run from nothing would. It is not
// for concurrent use.
type Held struct {
	limits  Limits
	kept    *Kept
	worker  *Process       // nil when there is none
	program *lower.Program // that it has compiled; nil before the first
	events  chan event
	left    *allowance
	stop    func()
	guards  []outcome.Guard // that it has
	runs    int             // by it
}

// maxHeldRuns is how often a worker is used: the interpreter keeps a little of
// each run.
const maxHeldRuns = 500

// Hold starts a worker without waiting for it. The limits are those of one run.
// Close must follow.
func Hold(limits Limits) *Held {
	h := &Held{limits: limits.withDefaults()}
	h.worker = startFor(maxHeldRuns, h.limits)
	return h
}

// Close ends the worker. The next Run starts another.
func (h *Held) Close() {
	if h.worker == nil {
		return
	}
	if h.stop != nil {
		h.stop()
	}
	h.worker.Close()
	*h = Held{limits: h.limits, kept: h.kept}
}

// Keep has results of heavy calculations taken from k and put there.
func (h *Held) Keep(k *Kept) { h.kept = k }

// Holds reports whether p can be run without being compiled first.
func (h *Held) Holds(p *lower.Program) bool {
	return h.program != nil && h.runs < maxHeldRuns && h.program.SameCode(p)
}

// Run runs p with the numbers of v, and those of p for the givens that v leaves
// out. The error is about the runner itself, or ctx ended. A run that has to be
// stopped ends the worker.
func (h *Held) Run(ctx context.Context, p *lower.Program, v Variant) (*outcome.Outcome, error) {
	if h.program != nil && !h.Holds(p) {
		h.Close()
	}
	r := newRecorder(p, h.limits, h.guards)
	if h.program == nil {
		if err := h.load(ctx, p, r); err != nil || len(r.outcome.Faults) > 0 {
			h.Close()
			return r.outcome, err
		}
	}
	numbers := maps.Clone(p.Givens)
	maps.Copy(numbers, v)
	h.runs++
	h.left.renew(h.limits.Output)
	go json.NewEncoder(h.worker.in).Encode(numbers) // an error shows as the end of the worker
	done, err := h.follow(ctx, r, h.limits.Time+grace, r.take)
	if err != nil || !done {
		h.Close()
	}
	return r.outcome, err
}

// load has the worker compile a program.
func (h *Held) load(ctx context.Context, p *lower.Program, r *recorder) error {
	if h.worker == nil {
		h.worker = startFor(maxHeldRuns, h.limits)
	}
	var err error
	if h.events, h.left, h.stop, err = h.worker.begin(request{Program: p, Hold: true, Kept: h.kept.all()}); err != nil {
		return err
	}
	r.outcome.Guards = h.worker.guards
	_, err = h.follow(ctx, r, setUp, func(e event) bool { return r.take(e) || e.Started != nil })
	h.program, h.guards = p, r.outcome.Guards
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
			if e.Kept != nil {
				h.kept.note(*e.Kept)
				continue
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

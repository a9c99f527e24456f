// Package engine runs a lowered notebook in a worker process and returns its
// outcome.
//
//	w := engine.Start(engine.Limits{}) // starts up while the notebook is checked
//	defer w.Close()
//	…
//	out, err := w.Run(ctx, program)
//
// The worker is this same binary: a program that uses the package calls Main
// first thing. It interprets the cells one after the other and reports each as
// it ends, so that whatever happens to the process, the results before it are
// kept and the fault has its line.
//
// Invariants: a worker runs one program and ends; nothing of it outlives Run or
// Close. It has no environment, no file but its pipes, and of the library only
// what cells can import. A cell can make its own worker fail, never the runner.
// The same program gives the same outcome.
package engine

import (
	"context"
	"time"

	"tautline/runner/lower"
	"tautline/runner/outcome"
)

// Limits bound one run. The zero value is the default of each.
type Limits struct {
	Time   time.Duration // of all cells together; default 30 s
	Memory int64         // bytes that the worker may hold; default 2 GiB
	Output int64         // bytes of results that the runner takes; default 64 MiB
}

func (l Limits) withDefaults() Limits {
	if l.Time <= 0 {
		l.Time = 30 * time.Second
	}
	if l.Memory <= 0 {
		l.Memory = 2 << 30
	}
	if l.Output <= 0 {
		l.Output = 64 << 20
	}
	return l
}

const (
	maxStack = 64 << 20               // bytes: about a hundred thousand calls deep
	beat     = 5 * time.Millisecond   // between looks at memory, time and place
	grace    = 500 * time.Millisecond // for the interpreter to stop when told to
	patience = 500 * time.Millisecond // then, for the worker to report
	setUp    = 10 * time.Second       // for the worker to start and compile
)

// Run runs p in a new worker. The error is about the runner itself: no process
// could be started, or ctx ended. Whatever the cells do is in the outcome.
func Run(ctx context.Context, p *lower.Program, limits Limits) (*outcome.Outcome, error) {
	w := Start(limits)
	defer w.Close()
	return w.Run(ctx, p)
}

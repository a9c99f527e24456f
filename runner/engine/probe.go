package engine

import (
	"context"
	"errors"
	"time"

	"tautline/runner/outcome"
)

// Probe starts a worker, waits until it is ready for a program and ends it. It
// returns the guards that this system gives a run, and how long the worker took
// to be ready.
func Probe(ctx context.Context, limits Limits) (guards []outcome.Guard, took time.Duration, err error) {
	begin := time.Now()
	p := Start(limits)
	defer p.Close()
	events, _, stop, err := p.listen()
	if err != nil {
		return nil, 0, err
	}
	defer stop()
	select {
	case e := <-events:
		if e.Ready == nil {
			return nil, 0, errors.New(diagnose(p.lastWords(false), p.limits).Message)
		}
		return append(p.guards, e.Ready.Guards...), time.Since(begin), nil
	case <-time.After(setUp):
		return nil, 0, errors.New("worker: it was not ready within " + setUp.String())
	case <-ctx.Done():
		return nil, 0, ctx.Err()
	}
}

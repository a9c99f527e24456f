package live

import (
	"context"
	"slices"
	"sync"

	"tautline/runner/engine"
	"tautline/runner/lower"
	"tautline/runner/outcome"
)

// A bench holds the programs of the notebooks that were run last, compiled, so
// that another number for a given needs no compiler.
type bench struct {
	limits engine.Limits
	spare  chan *engine.Held // a worker that waits for a program; capacity 1

	mu    sync.Mutex
	holds []*hold // the one used last at the end
	ended bool
}

// maxHolds is how many programs stay compiled.
const maxHolds = 4

// A hold is the worker of one notebook.
type hold struct {
	book *book

	mu   sync.Mutex // of held: one run at a time
	held *engine.Held
	kept engine.Kept

	turn   sync.Mutex
	cancel context.CancelFunc // of the run of a what-if
}

// run runs the program of a notebook with other numbers for some givens. A save
// does not wait for a what-if.
func (b *bench) run(ctx context.Context, of *book, p *lower.Program, v engine.Variant) (*outcome.Outcome, error) {
	h := b.take(of)
	defer b.release(h)
	h.turn.Lock()
	if v == nil && h.cancel != nil {
		h.cancel()
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	if v != nil {
		h.cancel = cancel
	}
	h.turn.Unlock()
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.held == nil || !h.held.Holds(p) {
		if h.held != nil {
			go h.held.Close()
		}
		h.held = b.next()
		h.held.Keep(&h.kept)
	}
	return h.held.Run(ctx, p, v)
}

// next takes the worker that waits, or starts one.
func (b *bench) next() *engine.Held {
	select {
	case h := <-b.spare:
		return h
	default:
		return engine.Hold(b.limits)
	}
}

// refill has a worker wait for the next program. That is done when a run is
// over, not while it needs the processors.
func (b *bench) refill() {
	b.mu.Lock()
	defer b.mu.Unlock()
	if !b.ended && len(b.spare) == 0 {
		b.spare <- engine.Hold(b.limits)
	}
}

// take finds the hold of a notebook, or makes one.
func (b *bench) take(of *book) *hold {
	b.mu.Lock()
	defer b.mu.Unlock()
	h := &hold{book: of}
	if i := slices.IndexFunc(b.holds, func(h *hold) bool { return h.book == of }); i >= 0 {
		h = b.holds[i]
		b.holds = slices.Delete(b.holds, i, i+1)
	}
	if b.holds = append(b.holds, h); len(b.holds) > maxHolds {
		go b.holds[0].close()
		b.holds = b.holds[1:]
	}
	return h
}

// release ends the worker of a hold that was taken off the bench meanwhile.
func (b *bench) release(h *hold) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if !slices.Contains(b.holds, h) {
		go h.close()
	}
}

// close ends all workers.
func (b *bench) close() {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.ended = true
	for _, h := range b.holds {
		go h.close()
	}
	b.holds = nil
	select {
	case h := <-b.spare:
		h.Close()
	default:
	}
}

func (h *hold) close() {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.held != nil {
		h.held.Close()
		h.held = nil
	}
}

// asSaved runs a program as it stands.
type asSaved struct {
	bench *bench
	book  *book
}

func (w asSaved) Run(ctx context.Context, p *lower.Program) (*outcome.Outcome, error) {
	return w.bench.run(ctx, w.book, p, nil)
}

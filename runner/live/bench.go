package live

import (
	"context"
	"slices"
	"sync"

	"tautline/runner/engine"
	"tautline/runner/lower"
	"tautline/runner/outcome"
)

// A bench holds the programs that are being tried, compiled. The few used last
// stay on it.
type bench struct {
	mu   sync.Mutex
	held []*heldProgram // the one used last at the end
}

type heldProgram struct {
	mu      sync.Mutex
	book    *book
	program *lower.Program
	held    *engine.Held
}

// run runs the program of a run with other numbers.
func (b *bench) run(ctx context.Context, of *book, r *run, limits engine.Limits, v engine.Variant) (*outcome.Outcome, error) {
	h := b.take(of)
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.program != r.result.Program {
		if h.held != nil {
			h.held.Close()
		}
		h.program, h.held = r.result.Program, engine.Hold(r.result.Program, limits)
	}
	return h.held.Run(ctx, v)
}

// take finds the place of a notebook on the bench, or makes one.
func (b *bench) take(of *book) *heldProgram {
	b.mu.Lock()
	defer b.mu.Unlock()
	i := slices.IndexFunc(b.held, func(h *heldProgram) bool { return h.book == of })
	var h *heldProgram
	if i >= 0 {
		h = b.held[i]
		b.held = slices.Delete(b.held, i, i+1)
	} else {
		h = &heldProgram{book: of}
		context.AfterFunc(of.desk.ctx, h.close)
	}
	if b.held = append(b.held, h); len(b.held) > maxHeld {
		go b.held[0].close()
		b.held = b.held[1:]
	}
	return h
}

// clear takes a notebook off the bench.
func (b *bench) clear(of *book) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if i := slices.IndexFunc(b.held, func(h *heldProgram) bool { return h.book == of }); i >= 0 {
		go b.held[i].close()
		b.held = slices.Delete(b.held, i, i+1)
	}
}

func (h *heldProgram) close() {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.held != nil {
		h.held.Close()
		h.held, h.program = nil, nil
	}
}

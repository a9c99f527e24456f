package engine

import (
	"context"
	"fmt"
	"reflect"
	"runtime"
	"sync"
	"time"

	"tautline/runner/lower"
	"tautline/runner/outcome"
	"tautline/stdlib/sheet"
)

// A Variant gives givens other numbers, by name, in SI base units. Names that it
// leaves out keep theirs.
type Variant map[string]float64

// Study runs p once for each variant, on all processors, and hands each sample
// to took as it comes, one at a time and in no fixed order. A sample does not
// depend on the others: every run sets every name anew. limits bound one run.
// The error is about the runner itself, or ctx ended.
func Study(ctx context.Context, p *lower.Program, variants []Variant, limits Limits, took func(i int, s outcome.Sample)) error {
	workers := min(runtime.GOMAXPROCS(0), len(variants))
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	var mu sync.Mutex
	var wait sync.WaitGroup
	for w := range workers {
		wait.Go(func() {
			var share []int // every workers-th, so that all are about as hard
			for i := w; i < len(variants); i += workers {
				share = append(share, i)
			}
			err := studyShare(ctx, p, variants, share, limits.withDefaults(), func(i int, s outcome.Sample) {
				mu.Lock()
				defer mu.Unlock()
				took(i, s)
			})
			if err != nil {
				cancel(err)
			}
		})
	}
	wait.Wait()
	return context.Cause(ctx)
}

// studyShare runs some of the variants. A run that ends its worker is a fault of
// that sample alone: the next ones get a new worker.
func studyShare(ctx context.Context, p *lower.Program, variants []Variant, share []int, limits Limits, took func(int, outcome.Sample)) error {
	for len(share) > 0 {
		part := make([]Variant, len(share))
		for k, i := range share {
			part[k] = variants[i]
		}
		done := 0
		f, err := startFor(len(part), limits).study(ctx, p, part, func(s outcome.Sample) {
			took(share[done], s)
			done++
		})
		if err != nil {
			return err
		}
		if f != nil {
			took(share[done], outcome.Sample{Fault: explain(p, *f, limits)})
			done++
		}
		share = share[done:]
	}
	return nil
}

// study runs variants in the worker, in order, and ends it. The fault is that of
// the first variant without a sample.
func (p *Process) study(ctx context.Context, prog *lower.Program, variants []Variant, took func(outcome.Sample)) (*fault, error) {
	defer p.Close()
	events, _, stop, err := p.begin(request{Program: prog, Variants: variants})
	if err != nil {
		return nil, err
	}
	defer stop()
	timer := time.NewTimer(setUp)
	defer timer.Stop()
	for left := len(variants); left > 0; {
		select {
		case e, ok := <-events:
			switch {
			case !ok:
				f := p.lastWords(false)
				return &f, nil
			case e.Fault != nil:
				return e.Fault, nil
			case e.Started != nil:
				timer.Reset(p.limits.Time + grace)
			case e.Sample != nil:
				timer.Reset(p.limits.Time + grace)
				took(e.Sample.plain(prog, p.limits))
				left--
			}
		case <-timer.C:
			return &fault{Kind: faultTime}, nil
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}
	return nil, nil
}

// plain is the sample without the protocol's wrapping.
func (s *sample) plain(p *lower.Program, limits Limits) outcome.Sample {
	out := outcome.Sample{Numbers: map[string]float64{}}
	for name, v := range s.Numbers {
		out.Numbers[name] = float64(v)
	}
	for _, e := range s.Checks {
		out.Checks = append(out.Checks, *e.Check)
	}
	if s.Fault != nil {
		out.Fault = explain(p, *s.Fault, limits)
	}
	return out
}

// explain says in one line how a run of a study ended early.
func explain(p *lower.Program, f fault, limits Limits) string {
	text := diagnose(f, limits).Message
	if f.At > 0 && f.At < len(p.Sites) {
		text = fmt.Sprintf("line %d: %s", p.Sites[f.At].Start.Line, text)
	}
	return text
}

// runVariants runs the cells once for each variant of a study.
func (w *worker) runVariants(cells []func()) {
	for i, v := range w.variants {
		w.set(v)
		s := &sample{Index: i, Numbers: map[string]sheet.Float{}}
		for _, cell := range cells {
			if s.Fault = call(cell); s.Fault != nil {
				s.Fault.At = w.place()
				break
			}
		}
		if s.Fault == nil {
			w.measure(s)
		}
		w.send(event{Sample: s})
	}
	w.send(event{End: &struct{}{}})
}

// set empties the sheet and gives the givens the numbers of a variant.
func (w *worker) set(v Variant) {
	w.sheet.Clear()
	globals := w.interpreter.Globals()
	for name, number := range w.program.Givens {
		if other, ok := v[name]; ok {
			number = other
		}
		globals[lower.GivenVar(name)].SetFloat(number)
	}
}

// measure takes the numbers and checks of a run.
func (w *worker) measure(s *sample) {
	globals := w.interpreter.Globals()
	for _, c := range w.program.Cells {
		for _, name := range c.Names {
			if v := globals[name]; v.IsValid() && v.Kind() == reflect.Float64 {
				s.Numbers[name] = sheet.Float(v.Float())
			}
		}
	}
	for _, e := range w.sheet.Entries {
		if e.Check != nil {
			s.Checks = append(s.Checks, e)
		}
	}
}

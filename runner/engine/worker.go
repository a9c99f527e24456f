package engine

import (
	"context"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/parser"
	"io"
	"os"
	"reflect"
	"runtime/debug"
	"runtime/metrics"
	"strings"
	"sync"
	"sync/atomic"
	"testing/fstest"
	"time"

	"github.com/traefik/yaegi/interp"
	"golang.org/x/tools/go/ast/astutil"

	"tautline/runner/library/symbols"
	"tautline/runner/lower"
	"tautline/stdlib/kept"
	"tautline/stdlib/sheet"
)

// workerArg is the only argument of a worker process.
const workerArg = "tautline-worker"

// Main does not return in a worker process. A program that uses the engine,
// and the TestMain of a package that does, calls it before anything else.
func Main() {
	if len(os.Args) == 2 && os.Args[1] == workerArg {
		work(os.Stdin, os.Stdout)
		os.Exit(0)
	}
}

// A worker runs one program.
type worker struct {
	sheet       *sheet.Sheet
	interpreter *interp.Interpreter
	terms       terms
	program     *lower.Program
	variants    []Variant     // of a study
	more        chan Variant  // further runs of a held program; nil for another
	at          *int          // the statement that runs now
	stopped     atomic.Value  // faultKind: why the interpreter was told to stop
	finished    chan struct{} // closed after the last cell

	mu  sync.Mutex // of out
	out *json.Encoder
}

// newWorker returns a worker that writes events to out.
func newWorker(out io.Writer) *worker {
	w := &worker{sheet: &sheet.Sheet{}, at: new(int), finished: make(chan struct{}), out: json.NewEncoder(out)}
	w.interpreter = interp.New(interp.Options{
		Stdin: strings.NewReader(""), Stdout: io.Discard, Stderr: io.Discard,
		Args: []string{}, SourcecodeFilesystem: fstest.MapFS{},
	})
	return w
}

// work reads its terms and a request from in and writes events to out.
func work(in io.Reader, out io.Writer) {
	debug.SetGCPercent(400)
	decoder := json.NewDecoder(in)
	w := newWorker(out)
	if decoder.Decode(&w.terms) != nil {
		os.Exit(0) // the runner changed its mind
	}
	w.send(event{Ready: &ready{protect(w.terms)}})
	requests, more := make(chan request), make(chan Variant)
	go func() {
		var r request
		if decoder.Decode(&r) == nil {
			requests <- r
		}
		var v Variant
		for r.Hold && decoder.Decode(&v) == nil {
			more <- v
			v = nil
		}
		io.Copy(io.Discard, in) // the runner holds the other end as long as it lives
		os.Exit(0)
	}()
	var r request
	select {
	case r = <-requests:
	case <-time.After(time.Millisecond):
		warmUp()
		r = <-requests
	}
	w.variants = r.Variants
	if r.Hold {
		w.more = more
		kept.Use(newShelf(w, r.Kept))
	}
	main, err := w.prepare(r.Program)
	if err == nil {
		w.send(event{Started: &struct{}{}})
		ctx, cancel := context.WithCancel(context.Background())
		go w.watch(cancel)
		err = w.execute(ctx, main)
	}
	if err != nil { // the interpreter refuses what the checker accepted
		w.send(event{Fault: &fault{Kind: faultInternal, Message: err.Error(), At: w.place()}})
	}
}

func (w *worker) send(e event) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.out.Encode(e) != nil {
		os.Exit(1) // the runner is gone
	}
}

// prepare sets up the variables of p and compiles a main function that runs its
// cells.
func (w *worker) prepare(p *lower.Program) (main *interp.Program, err error) {
	w.program = p
	w.sheet.Where = w.place
	if w.sheet.Files = p.Data; p.Data == nil {
		w.sheet.Files = map[string]string{}
	}
	exports := interp.Exports(symbols.Exports(w.sheet))
	exports[lower.HostPath+"/host"] = map[string]reflect.Value{
		"Run":  reflect.ValueOf(w.runCells), // main hands its cells over
		"Room": reflect.ValueOf(w.room),
		"At":   reflect.ValueOf(w.announce),
	}
	if err := w.interpreter.Use(exports); err != nil {
		return nil, err
	}
	program, err := w.compile("program.go", p.Source)
	if err != nil {
		return nil, err
	}
	if _, err := w.interpreter.Execute(program); err != nil {
		return nil, err
	}
	if at, ok := w.interpreter.Globals()["__at"]; ok && at.CanAddr() {
		w.at = at.Addr().Interface().(*int)
	}
	var calls []string
	for _, c := range p.Cells {
		calls = append(calls, c.Func)
	}
	return w.compile("main.go", fmt.Sprintf("package main\nimport __host %q\nfunc main() { __host.Run(%s) }",
		lower.HostPath, strings.Join(calls, ", ")))
}

// execute runs the cells until they end or ctx does.
func (w *worker) execute(ctx context.Context, main *interp.Program) error {
	if _, err := w.interpreter.ExecuteWithContext(ctx, main); err != nil && ctx.Err() == nil {
		return err
	}
	<-w.finished
	return nil
}

// compile parses source and hands it to the interpreter, which may panic on
// what it does not know.
func (w *worker) compile(name, source string) (p *interp.Program, err error) {
	defer func() {
		if v := recover(); v != nil {
			err = fmt.Errorf("panic: %v", v)
		}
	}()
	file, err := parser.ParseFile(w.interpreter.FileSet(), name, source, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	return w.interpreter.CompileAST(unparenthesize(file))
}

// unparenthesize takes the parentheses out of expressions. The tree holds the
// precedence already, and the interpreter computes a parenthesized operand of
// && and || wrongly. Those round a called type, as in (*T)(p), stay.
func unparenthesize(file *ast.File) ast.Node {
	return astutil.Apply(file, nil, func(c *astutil.Cursor) bool {
		paren, ok := c.Node().(*ast.ParenExpr)
		if !ok {
			return true
		}
		if _, called := c.Parent().(*ast.CallExpr); called && c.Name() == "Fun" {
			return true
		}
		c.Replace(paren.X)
		return true
	})
}

// runCells is host.Run: it runs on the interpreter's goroutine.
func (w *worker) runCells(cells ...func()) {
	defer close(w.finished)
	switch {
	case w.variants != nil:
		w.runVariants(cells)
	case w.more != nil:
		w.runHeld(cells)
	default:
		w.runOnce(cells)
	}
}

// runOnce runs the cells in order and tells of each, and how it ended.
func (w *worker) runOnce(cells []func()) {
	for i, cell := range cells {
		f := call(cell)
		if kind, ok := w.stopped.Load().(faultKind); ok {
			f = &fault{Kind: kind}
		}
		if f != nil {
			f.At = w.place()
			f.Results = w.results(i, true)
			w.send(event{Fault: f})
			return
		}
		w.send(event{Done: w.results(i, false)})
	}
	w.send(event{End: &struct{}{}})
}

// call runs a cell and returns its panic as a fault.
func call(cell func()) (f *fault) {
	defer func() {
		switch v := recover().(type) {
		case nil:
		case noRoom:
			f = &fault{Kind: faultMemory}
		default:
			f = &fault{Kind: faultPanic, Message: panicText(v)}
		}
	}()
	cell()
	return nil
}

// room is host.Room.
func (w *worker) room(n, size int) int {
	if size > 0 && int64(n) > w.terms.Limits.Memory/int64(size) {
		panic(noRoom{})
	}
	return n
}

// noRoom is the panic of a program that asks for more memory than there is.
type noRoom struct{}

// announce is host.At. A study asks only for results.
func (w *worker) announce(at int) {
	if w.variants == nil {
		w.send(event{At: &at})
	}
}

// results takes what cell i set and put on the sheet. A cell that faulted set
// its names in order, so all are kept up to the last that is not zero.
func (w *worker) results(i int, faulted bool) *results {
	globals := w.interpreter.Globals() // anew: the interpreter moves some
	names := w.program.Cells[i].Names
	if faulted {
		for len(names) > 0 && !isSet(globals[names[len(names)-1]]) {
			names = names[:len(names)-1]
		}
	}
	r := &results{Values: make(map[string]sheet.Value, len(names))}
	for _, name := range names {
		if v := globals[name]; v.IsValid() {
			r.Values[name] = capture(v)
		}
	}
	r.From, r.Entries = w.sheet.TakeChanged()
	return r
}

func isSet(v reflect.Value) bool { return v.IsValid() && !v.IsZero() }

// capture is sheet.Capture, but for functions of the interpreter.
func capture(v reflect.Value) sheet.Value {
	t := v.Type()
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if strings.HasPrefix(t.PkgPath(), "github.com/traefik/yaegi") {
		return sheet.Value{Kind: sheet.KindOther, Text: "func"}
	}
	return sheet.Capture(v)
}

// place returns the number of the statement that runs now. The watch reads it
// while the interpreter writes it: an aligned word, where an old number does no
// harm.
//
//go:norace
//go:noinline
func (w *worker) place() int { return *w.at }

// watch tells the runner where the program is and stops it at a limit.
func (w *worker) watch(cancel context.CancelFunc) {
	deadline := time.Now().Add(w.terms.time())
	last := 0
	for range time.Tick(beat) {
		if at := w.place(); at != last {
			last = at
			w.send(event{At: &at})
		}
		switch {
		case memory() > w.terms.Limits.Memory:
			w.stop(faultMemory, 2*beat, cancel)
		case time.Now().After(deadline):
			w.stop(faultTime, grace, cancel)
		}
	}
}

// stop ends the run. The interpreter gets a moment to stop, so that the values
// so far can be read; compiled code may not let it.
func (w *worker) stop(kind faultKind, wait time.Duration, cancel context.CancelFunc) {
	w.stopped.Store(kind)
	cancel()
	select {
	case <-w.finished: // and reported
		select {}
	case <-time.After(wait):
		w.send(event{Fault: &fault{Kind: kind, At: w.place()}})
		os.Exit(0)
	}
}

// memory returns the bytes that the process holds.
func memory() int64 {
	samples := []metrics.Sample{{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}}
	metrics.Read(samples)
	return int64(samples[0].Value.Uint64() - samples[1].Value.Uint64())
}

package engine

import (
	"bytes"
	"fmt"
	"reflect"
	"strings"

	"tautline/runner/document"
)

// faultKind is how a run ended early.
type faultKind string

const (
	faultPanic    faultKind = "panic"
	faultTime     faultKind = "time"
	faultMemory   faultKind = "memory"
	faultStack    faultKind = "stack"
	faultOutput   faultKind = "output"
	faultExit     faultKind = "exit"
	faultInternal faultKind = "internal"
)

// panicText is a panic's value in one line: the text of an error or a string
// as it stands.
func panicText(v any) string {
	for {
		r, ok := v.(reflect.Value)
		if !ok || !r.IsValid() || !r.CanInterface() {
			break
		}
		v = r.Interface()
	}
	text := fmt.Sprintf("panic: %v", v)
	switch v := v.(type) {
	case error:
		text = v.Error()
	case string:
		text = v
	}
	if len(text) > maxPanicText {
		text = strings.ToValidUTF8(text[:maxPanicText], "") + " …"
	}
	return strings.Join(strings.Fields(text), " ")
}

// maxPanicText is how many bytes of a panic's text a reader is asked to read.
const maxPanicText = 1000

// plain says what the runtime and the interpreter mean, by a part of their
// text. The interpreter's come from package reflect.
var plain = []struct{ part, message, hint string }{
	{"index out of range", "index out of range", "an index goes from 0 to one less than the length: see the bounds of the loop and how the list was made"},
	{"slice index out of bounds", "slice bounds out of range", "the bounds of s[a:b] go from 0 to the length, and a is at most b"},
	{"slice bounds out of range", "slice bounds out of range", "the bounds of s[a:b] go from 0 to the length, and a is at most b"},
	{"assignment to entry in nil map", "assignment to an entry of a nil map", "make the map first: m := map[string]float64{}"},
	{"integer divide by zero", "integer division by zero", "write one of the two as a float, such as 7.0/2, or make sure that the divisor is not 0"},
	{"nil pointer dereference", "nil pointer: got no value, want one", "the pointer was declared and never set"},
	{"on zero Value", "nil pointer: got no value, want one", "the pointer, map or function was declared and never set"},
	{"call of nil function", "nil function: got no value, want one", "the function was declared and never set"},
	{"nil pointer to embedded struct", "nil pointer: got no value, want one", "the embedded pointer was never set"},
	{"len out of range", "make: length out of range", "the length of a list is 0 or more and must fit in memory"},
	{"negative len", "make: got a negative length, want 0 or more", "see how the length was computed"},
	{"negative shift amount", "negative shift count", "see how the count was computed"},
	{"interface conversion", "type assertion failed", "use the form v, ok := x.(T)"},
}

// diagnose says how the run ended and what to do, without the place.
func diagnose(f fault, limits Limits) document.Diagnostic {
	d := document.Diagnostic{Severity: document.Error, Message: f.Message}
	switch f.Kind {
	case faultPanic:
		for _, known := range plain {
			if strings.Contains(f.Message, known.part) && fromRuntime(f.Message) {
				d.Message, d.Hint = known.message+detail(f.Message), known.hint
				return d
			}
		}
		d.Message = strings.TrimPrefix(d.Message, "runtime error: ")
		d.Hint = "change the numbers that lead here; the cells after this one did not run"
	case faultTime:
		d.Message = fmt.Sprintf("run time: the cells did not end within %v", limits.Time)
		d.Hint = "a loop here may have no end: count its steps and stop after enough of them, or allow the run more time"
	case faultMemory:
		d.Message = fmt.Sprintf("memory: the cells need more than %s", size(limits.Memory))
		d.Hint = "a list here grows without end or is made too long: keep only what the report shows"
	case faultStack:
		d.Message = "recursion: a function calls itself without end"
		d.Hint = "give it a case in which it returns without calling itself"
	case faultOutput:
		d.Message = fmt.Sprintf("output: the cells give more than %s of results", size(limits.Output))
		d.Hint = "keep fewer points: a report with this many helps nobody"
	case faultExit:
		d.Message = "worker: the process ended unexpectedly: " + f.Message
		d.Hint = "this is a fault of tautline, not of the notebook: please report it together with the notebook"
	case faultInternal:
		d.Message = "interpreter: it refused a program that the checker accepted: " + f.Message
		d.Hint = "this is a fault of tautline, not of the notebook: please report it together with the notebook"
	}
	return d
}

// fromRuntime reports whether a panic's text is of the runtime or of the
// interpreter, not of the library.
func fromRuntime(text string) bool {
	for _, prefix := range []string{"reflect", "runtime error", "assignment to entry in nil map", "interface conversion"} {
		if strings.HasPrefix(text, prefix) {
			return true
		}
	}
	return false
}

// detail returns the numbers of the runtime's message, such as ": [5] with
// length 3", or "".
func detail(text string) string {
	if i := strings.Index(text, " ["); i >= 0 {
		return ":" + text[i:]
	}
	return ""
}

func size(bytes int64) string {
	switch {
	case bytes >= 1<<30 && bytes%(1<<30) == 0:
		return fmt.Sprintf("%d GiB", bytes>>30)
	case bytes >= 1<<20:
		return fmt.Sprintf("%d MiB", bytes>>20)
	}
	return fmt.Sprintf("%d bytes", bytes)
}

// autopsy tells from the end of the process and what it wrote to its standard
// error why it sent no last event.
func autopsy(state string, stderr []byte) fault {
	has := func(text string) bool { return bytes.Contains(stderr, []byte(text)) }
	switch {
	case has("stack overflow"), has("stack exceeds"):
		return fault{Kind: faultStack}
	case has("out of memory"), has("cannot allocate memory"), has("address space collisions"), has("failed to allocate"):
		return fault{Kind: faultMemory}
	case strings.Contains(state, "CPU time limit exceeded"):
		return fault{Kind: faultTime}
	}
	line, _, _ := bytes.Cut(bytes.TrimSpace(stderr), []byte("\n"))
	if len(line) > 0 {
		state += ": " + string(line)
	}
	return fault{Kind: faultExit, Message: state}
}

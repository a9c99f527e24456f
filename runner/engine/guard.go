package engine

import (
	"runtime"
	"runtime/debug"
	"strconv"
	"time"

	"tautline/runner/outcome"
)

// protect puts on all guards of this process that hold from its start, before
// anything of a notebook reaches it, and returns each with what it does. Those
// of the system stand behind the first line: a cell has nothing to call that
// could do harm.
func protect(t terms) []outcome.Guard {
	l := t.Limits
	debug.SetMaxStack(maxStack)
	threads := runtime.GOMAXPROCS(0) + spareThreads
	debug.SetMaxThreads(threads)
	guards := []outcome.Guard{
		{Name: "pure packages", Holds: "a cell can name nothing that reaches a file, the network or the system"},
		{Name: "own process", Holds: "whatever happens in it, the runner lives; it ends with the runner"},
		{Name: "empty environment", Holds: "no variable of yours is seen"},
		closeInherited(),
		{Name: "run time at most " + l.Time.String(), Holds: "a loop without end is stopped"},
		{Name: "memory at most " + size(l.Memory), Holds: "a list that grows without end is stopped"},
		{Name: "stack at most " + size(maxStack), Holds: "a function that calls itself without end is stopped"},
		{Name: "results at most " + size(l.Output), Holds: "a flood of results is stopped"},
		{Name: "thread limit", Holds: "at most " + strconv.Itoa(threads) + " run"},
	}
	return append(guards, protectBySystem(t)...)
}

// processorTime is how long a worker may compute on all its threads together
// before the system ends it: the watch of time comes first.
func processorTime(t terms) time.Duration {
	return 4*t.time().Truncate(time.Second) + 14*time.Second
}

// spareThreads is how many threads a worker may have beside one for each
// processor.
const spareThreads = 64

// guard is a guard that is on unless err says why not.
func guard(name, holds string, err error) outcome.Guard {
	g := outcome.Guard{Name: name, Holds: holds}
	if err != nil {
		g.Off = err.Error()
	}
	return g
}

package engine

import "tautline/runner/outcome"

// closeInherited has nothing to close: the runner hands a process on Windows
// only what it names.
func closeInherited() outcome.Guard {
	return guard("no open file", "but the pipes to the runner", nil)
}

// protectBySystem is the runner's on Windows: it puts the worker into a job.
func protectBySystem(terms) []outcome.Guard { return nil }

package engine

import (
	"errors"

	"tautline/runner/outcome"
)

// protectBySystem puts on what this system enforces.
func protectBySystem(t terms) []outcome.Guard {
	openClock()
	return append(limitResources(resources(t)),
		guard("address space limit", "", errors.New("macOS does not keep to one: the watch of memory stands alone")),
		guard("system sandbox", "", errors.New("none is used on macOS: pure packages and the file limit stand alone")))
}

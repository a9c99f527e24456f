//go:build !linux && !darwin && !windows

package engine

import (
	"errors"
	"os"
	"syscall"

	"tautline/runner/outcome"
)

func executable() (string, error) { return os.Executable() }

func attributes() *syscall.SysProcAttr { return nil }

func kill(p *os.Process) { p.Kill() }

func confine(*os.Process, terms) (guards []outcome.Guard, release func()) {
	return nil, func() {}
}

var errSystem = errors.New("not written for this system")

func closeInherited() outcome.Guard { return guard("no open file", "", errSystem) }

func protectBySystem(terms) []outcome.Guard {
	return []outcome.Guard{guard("system sandbox", "", errSystem)}
}

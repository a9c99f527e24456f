package engine

import (
	"os"
	"syscall"

	"tautline/runner/outcome"
)

func executable() (string, error) { return os.Executable() }

// attributes make the worker a process group of its own.
func attributes() *syscall.SysProcAttr { return &syscall.SysProcAttr{Setpgid: true} }

// kill ends the worker and whatever it may have started.
func kill(p *os.Process) {
	if syscall.Kill(-p.Pid, syscall.SIGKILL) != nil {
		p.Kill()
	}
}

// confine puts on a new worker what only its parent can: here nothing.
func confine(*os.Process, terms) (guards []outcome.Guard, release func()) {
	return nil, func() {}
}

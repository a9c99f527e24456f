//go:build !linux

package engine

import (
	"os"
	"syscall"
)

func executable() (string, error) { return os.Executable() }

func attributes() *syscall.SysProcAttr { return nil }

func kill(p *os.Process) { p.Kill() }

// guard returns the protections that are on: here those that need nothing of
// the system.
func guard(l Limits) []string { return watchGuards(l) }

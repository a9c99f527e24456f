//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

// peak is the greatest memory that a finished process, or a child of it that it
// waited for, held.
func peak(s *os.ProcessState) int64 {
	usage, ok := s.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	if runtime.GOOS == "darwin" {
		return usage.Maxrss // in bytes there
	}
	return usage.Maxrss * 1024
}

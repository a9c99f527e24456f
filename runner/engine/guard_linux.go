package engine

import (
	"fmt"
	"os"
	"strings"
	"syscall"
	"time"

	"golang.org/x/sys/unix"
)

// executable is this very binary, even when its file was replaced since.
func executable() (string, error) {
	const self = "/proc/self/exe"
	if _, err := os.Stat(self); err != nil {
		return os.Executable()
	}
	return self, nil
}

// attributes make the worker a process group of its own that ends with the
// runner.
func attributes() *syscall.SysProcAttr {
	return &syscall.SysProcAttr{Setpgid: true, Pdeathsig: syscall.SIGKILL}
}

// kill ends the worker and whatever it may have started.
func kill(p *os.Process) {
	if syscall.Kill(-p.Pid, syscall.SIGKILL) != nil {
		p.Kill()
	}
}

// guard limits this process by what the kernel enforces, behind the watch, and
// returns what is on.
func guard(l Limits) []string {
	guards := watchGuards(l)
	seconds := uint64(l.Time/time.Second) + 1
	for _, g := range []struct {
		resource int
		limit    uint64
		text     string
	}{
		{unix.RLIMIT_AS, addressSpace() + 2*uint64(l.Memory) + 512<<20, "address space limited by the kernel"},
		{unix.RLIMIT_CPU, 4*seconds + 10, "processor time limited by the kernel"},
		{unix.RLIMIT_FSIZE, 0, "no file can be written to"},
		{unix.RLIMIT_CORE, 0, "no memory image is kept after a crash"},
		{unix.RLIMIT_NOFILE, 16, "at most 16 files can be open"},
	} {
		if unix.Setrlimit(g.resource, &unix.Rlimit{Cur: g.limit, Max: g.limit}) == nil {
			guards = append(guards, g.text)
		}
	}
	return guards
}

// addressSpace returns the bytes of address space that the process has
// reserved, most of them never used.
func addressSpace() uint64 {
	statm, err := os.ReadFile("/proc/self/statm")
	if err != nil {
		return 4 << 30
	}
	var pages uint64
	fmt.Fscan(strings.NewReader(string(statm)), &pages)
	return pages * uint64(os.Getpagesize())
}

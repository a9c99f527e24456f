//go:build linux || darwin

package engine

import (
	"errors"
	"os"
	"strconv"
	"time"

	"golang.org/x/sys/unix"

	"tautline/runner/outcome"
)

// closeInherited closes the files that the runner's own parent left open for
// whoever comes after. What this process opened itself is marked to be closed.
func closeInherited() outcome.Guard {
	files, err := os.ReadDir("/dev/fd")
	for _, f := range files {
		fd, e := strconv.Atoi(f.Name())
		if e != nil || fd < 3 {
			continue
		}
		if flags, e := unix.FcntlInt(uintptr(fd), unix.F_GETFD, 0); e == nil && flags&unix.FD_CLOEXEC == 0 {
			err = errors.Join(err, unix.Close(fd))
		}
	}
	return guard("no open file", "but the pipes to the runner", err)
}

// A resource is what the system limits for a process.
type resource struct {
	number      int
	limit       uint64
	name, holds string
}

// resources are those that every Unix limits.
func resources(t terms) []resource {
	return []resource{
		{unix.RLIMIT_CPU, uint64(processorTime(t) / time.Second), "processor time limit", "a process that computes on and on is ended"},
		{unix.RLIMIT_NOFILE, 0, "file limit", "no file, pipe or socket can be opened"},
		{unix.RLIMIT_FSIZE, 0, "file size limit", "no file can grow"},
		{unix.RLIMIT_CORE, 0, "core limit", "no image of the memory is kept after a crash"},
	}
}

// openClock has the runtime open the files that its clock waits with, before
// none can be opened.
func openClock() { time.AfterFunc(time.Hour, func() {}).Stop() }

// limitResources sets limits that this process cannot raise again.
func limitResources(resources []resource) []outcome.Guard {
	var guards []outcome.Guard
	for _, r := range resources {
		err := unix.Setrlimit(r.number, &unix.Rlimit{Cur: r.limit, Max: r.limit})
		guards = append(guards, guard(r.name, r.holds, err))
	}
	return guards
}

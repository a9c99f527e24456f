package engine

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/landlock-lsm/go-landlock/landlock"
	kernel "github.com/landlock-lsm/go-landlock/landlock/syscall"
	"golang.org/x/sys/unix"

	"tautline/runner/outcome"
)

// protectBySystem puts on what the kernel enforces on every thread. Each guard
// takes away what the one before needed.
func protectBySystem(t terms) []outcome.Guard {
	openClock()
	space := resource{unix.RLIMIT_AS, addressSpace() + 2*uint64(t.Limits.Memory) + 512<<20, "address space limit", "memory beyond twice its limit is refused"}
	guards := []outcome.Guard{restrictAccess()}
	guards = append(guards, limitResources(append([]resource{space}, resources(t)...))...)
	return append(guards, filterCalls())
}

// restrictAccess takes all files and, where the kernel knows how, the network
// and signals to others from this process, through Landlock.
func restrictAccess() outcome.Guard {
	version, err := kernel.LandlockGetABIVersion()
	if err != nil || version < 1 {
		return guard("Landlock", "", errors.New("this kernel has none, or it was not turned on when the machine started"))
	}
	holds := "no file and no folder"
	if version >= 4 {
		holds += ", no TCP"
	}
	if version >= 6 {
		holds += ", no signal to another process"
	}
	return guard("Landlock", holds, landlock.V11.BestEffort().Restrict())
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

//go:build linux && (amd64 || arm64)

package engine

import (
	"fmt"
	"os"
	"runtime"
	"unsafe"

	"golang.org/x/sys/unix"

	"tautline/runner/outcome"
)

// filterCalls lets this process, in every thread, make no system call but those
// that the runtime needs to compute, to wait and to speak through the pipes it
// has. All others fail as not permitted. A program of the kernel's own packet
// filter decides; the numbers differ between processors.
func filterCalls() outcome.Guard {
	holds := fmt.Sprintf("all but %d system calls are refused: no file, network, process, tracing or signal", len(allowedCalls)+len(archCalls)+len(limitedCalls()))
	program := filterProgram(filterArch, append(allowedCalls, archCalls...), limitedCalls())
	return guard("seccomp", holds, loadFilter(program))
}

// allowedCalls are those of all processors that the runtime may make as it
// likes.
var allowedCalls = []uint32{
	unix.SYS_FUTEX, unix.SYS_READ, unix.SYS_WRITE, unix.SYS_CLOSE, unix.SYS_PREAD64, // the pipes; no other file can be opened
	unix.SYS_MUNMAP, unix.SYS_MADVISE, unix.SYS_MREMAP, unix.SYS_MINCORE, unix.SYS_BRK,
	unix.SYS_EPOLL_PWAIT, unix.SYS_EPOLL_CTL, unix.SYS_PPOLL,
	unix.SYS_NANOSLEEP, unix.SYS_CLOCK_NANOSLEEP, unix.SYS_CLOCK_GETTIME, unix.SYS_GETTIMEOFDAY, unix.SYS_RESTART_SYSCALL,
	unix.SYS_SCHED_YIELD, unix.SYS_SCHED_GETAFFINITY, unix.SYS_GETPID, unix.SYS_GETTID, unix.SYS_GETRANDOM,
	unix.SYS_RT_SIGRETURN, unix.SYS_RT_SIGPROCMASK, unix.SYS_RT_SIGACTION, unix.SYS_SIGALTSTACK,
	unix.SYS_SET_ROBUST_LIST, unix.SYS_RSEQ, // of the C library's threads
	unix.SYS_EXIT, unix.SYS_EXIT_GROUP,
}

// A limitedCall is allowed when one argument has the wanted value under a mask.
type limitedCall struct {
	number     uint32
	argument   uint32
	mask, want uint32
}

func limitedCalls() []limitedCall {
	const all = ^uint32(0)
	const spaces = unix.CLONE_NEWCGROUP | unix.CLONE_NEWIPC | unix.CLONE_NEWNET | unix.CLONE_NEWNS |
		unix.CLONE_NEWPID | unix.CLONE_NEWUSER | unix.CLONE_NEWUTS
	return []limitedCall{
		{unix.SYS_MMAP, 2, unix.PROT_EXEC, 0},                              // memory, but none to hold new code
		{unix.SYS_MPROTECT, 2, unix.PROT_EXEC, 0},                          //
		{unix.SYS_CLONE, 0, unix.CLONE_THREAD | spaces, unix.CLONE_THREAD}, // a thread, never a process
		{unix.SYS_TGKILL, 0, all, uint32(os.Getpid())},                     // a signal to one's own threads
		{unix.SYS_PRCTL, 0, all, unix.PR_SET_VMA},                          // a name for memory
	}
}

// filterProgram decides by the architecture and number of a call, then by an
// argument. See the manual page seccomp(2) for struct seccomp_data.
func filterProgram(arch uint32, allowed []uint32, limited []limitedCall) []unix.SockFilter {
	const numberAt, archAt, argumentsAt = 0, 4, 16 // in struct seccomp_data
	load := func(at uint32) unix.SockFilter {
		return unix.SockFilter{Code: unix.BPF_LD | unix.BPF_W | unix.BPF_ABS, K: at}
	}
	unless := func(equal uint32, skip uint8) unix.SockFilter {
		return unix.SockFilter{Code: unix.BPF_JMP | unix.BPF_JEQ | unix.BPF_K, K: equal, Jf: skip}
	}
	answer := func(action uint32) unix.SockFilter {
		return unix.SockFilter{Code: unix.BPF_RET | unix.BPF_K, K: action}
	}
	refuse := answer(unix.SECCOMP_RET_ERRNO | uint32(unix.EPERM))
	allow := answer(unix.SECCOMP_RET_ALLOW)
	program := []unix.SockFilter{
		load(archAt),
		{Code: unix.BPF_JMP | unix.BPF_JEQ | unix.BPF_K, K: arch, Jt: 1},
		answer(unix.SECCOMP_RET_KILL_PROCESS),
		load(numberAt),
	}
	for _, number := range allowed {
		program = append(program, unless(number, 1), allow)
	}
	for _, c := range limited {
		low := argumentsAt + 8*c.argument // processors here keep the low half first
		program = append(program, unless(c.number, 5), load(low),
			unix.SockFilter{Code: unix.BPF_ALU | unix.BPF_AND | unix.BPF_K, K: c.mask},
			unless(c.want, 1), allow, refuse)
	}
	// The C library makes a thread by clone when there is no clone3, whose flags
	// a filter cannot see.
	return append(program, unless(unix.SYS_CLONE3, 1), answer(unix.SECCOMP_RET_ERRNO|uint32(unix.ENOSYS)), refuse)
}

// loadFilter puts a filter on all threads.
func loadFilter(program []unix.SockFilter) error {
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	if err := unix.Prctl(unix.PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0); err != nil {
		return fmt.Errorf("no_new_privs: %w", err)
	}
	list := unix.SockFprog{Len: uint16(len(program)), Filter: &program[0]}
	thread, _, errno := unix.Syscall(unix.SYS_SECCOMP, unix.SECCOMP_SET_MODE_FILTER, unix.SECCOMP_FILTER_FLAG_TSYNC, uintptr(unsafe.Pointer(&list)))
	runtime.KeepAlive(program)
	switch {
	case errno == unix.ENOSYS || errno == unix.EINVAL:
		return fmt.Errorf("this kernel has none: %w", errno)
	case errno != 0:
		return errno
	case thread != 0:
		return fmt.Errorf("thread %d would not take it", thread)
	}
	return nil
}

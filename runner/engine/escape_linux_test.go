package engine

import (
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"
	"unsafe"

	"golang.org/x/sys/unix"

	"tautline/runner/outcome"
)

// An escape is a test program in place of a worker: native code, as a cell would
// have to become to get past the interpreter, that guards itself like a worker
// and then tries what it could harm. It is this binary, called with escapeArg.
const escapeArg = "tautline-escape"

const secret = "the word of the day"

func init() {
	if len(os.Args) == 2 && os.Args[1] == escapeArg {
		escape()
		os.Exit(0)
	}
}

// A plan is what an escape is told on its standard input.
type plan struct {
	Guards  string // which of them: "all", "none" or one
	Address string // of a listener on this machine
	Folder  string // that may be written to, with a file "secret" in it
}

// A report is what an escape tells of itself.
type report struct {
	Guards   []outcome.Guard
	Attempts []attempt
}

// An attempt is one try of one thread.
type attempt struct {
	What string
	Err  string // why it failed; empty when it did what it should not
}

func escape() {
	var p plan
	if err := json.NewDecoder(os.Stdin).Decode(&p); err != nil {
		panic(err)
	}
	terms := terms{Limits{}.withDefaults(), 1}
	openClock()
	var r report
	var mu sync.Mutex
	tries := tries(p)
	try := func(where string) {
		for _, t := range tries {
			text := ""
			if err := t.do(); err != nil {
				text = err.Error()
			}
			mu.Lock()
			r.Attempts = append(r.Attempts, attempt{t.what + where, text})
			mu.Unlock()
		}
	}
	// Threads that are there before the guards have to be caught by them too.
	var begin, end sync.WaitGroup
	release := make(chan struct{})
	for range 4 {
		begin.Add(1)
		end.Go(func() {
			runtime.LockOSThread()
			begin.Done()
			<-release
			try(", in an old thread")
		})
	}
	begin.Wait()
	switch p.Guards {
	case "all":
		r.Guards = protect(terms)
	case "Landlock":
		r.Guards = []outcome.Guard{restrictAccess()}
	case "seccomp":
		r.Guards = []outcome.Guard{filterCalls()}
	case "limits":
		r.Guards = limitResources(resources(terms))
	}
	try("")
	close(release)
	end.Wait()
	end.Go(func() {
		runtime.LockOSThread()
		try(", in a new thread")
	})
	end.Wait()
	json.NewEncoder(os.Stdout).Encode(r)
}

// A try does one thing that a cell must not be able to do; an error says that it
// could not. It does no harm when it works.
type try struct {
	what   string
	layers string // the guards that prevent it each alone; "*" only all of them, or a kernel may lack it
	do     func() error
}

func tries(p plan) []try {
	parent := os.Getppid()
	path := func(name string) string { return filepath.Join(p.Folder, name) }
	zero := []byte("/\x00")
	call := func(number uintptr, args ...uintptr) func() error {
		return func() error {
			var a [6]uintptr
			copy(a[:], args)
			r, _, errno := unix.RawSyscall6(number, a[0], a[1], a[2], a[3], a[4], a[5])
			if errno != 0 {
				return errno
			}
			if opensFile[number] {
				unix.Close(int(r))
			}
			return nil
		}
	}
	file := func(name string, flags int) func() error {
		return func() error {
			f, err := os.OpenFile(name, flags, 0o600)
			if err == nil {
				f.Close()
			}
			return err
		}
	}
	socket := func(family, kind int) func() error {
		return func() error {
			fd, err := unix.Socket(family, kind, 0)
			if err == nil {
				unix.Close(fd)
			}
			return err
		}
	}
	return []try{
		{"read a file", "Landlock seccomp limits", file(path("secret"), os.O_RDONLY)},
		{"read /etc/passwd", "Landlock seccomp limits", file("/etc/passwd", os.O_RDONLY)},
		{"read /proc/self/environ", "Landlock seccomp limits", file("/proc/self/environ", os.O_RDONLY)},
		{"read the runner's environment", "Landlock seccomp limits", file(fmt.Sprintf("/proc/%d/environ", parent), os.O_RDONLY)},
		{"read a device", "Landlock seccomp limits", file("/dev/zero", os.O_RDONLY)},
		{"write a file", "Landlock seccomp limits", file(path("written"), os.O_WRONLY|os.O_CREATE)},
		{"list a folder", "Landlock seccomp limits", func() error { _, err := os.ReadDir("/"); return err }},
		{"make a folder", "Landlock seccomp", func() error {
			err := os.Mkdir(path(fmt.Sprint("made", unix.Gettid())), 0o700)
			return err
		}},
		{"see a file", "seccomp", func() error { _, err := os.Stat(path("secret")); return err }},
		{"see the working folder", "seccomp", call(unix.SYS_GETCWD, uintptr(unsafe.Pointer(&make([]byte, 4096)[0])), 4096)},
		{"change the working folder", "seccomp", call(unix.SYS_CHDIR, uintptr(unsafe.Pointer(&zero[0])))},
		{"open an Internet socket", "seccomp limits", socket(unix.AF_INET, unix.SOCK_STREAM)},
		{"open a datagram socket", "seccomp limits", socket(unix.AF_INET6, unix.SOCK_DGRAM)},
		{"open a local socket", "seccomp limits", socket(unix.AF_UNIX, unix.SOCK_STREAM)},
		{"open a raw socket", "seccomp limits", socket(unix.AF_NETLINK, unix.SOCK_RAW)},
		{"connect", "Landlock seccomp limits", func() error {
			c, err := net.DialTimeout("tcp", p.Address, 5*time.Second)
			if err == nil {
				c.Close()
			}
			return err
		}},
		{"run a program", "Landlock seccomp limits", func() error {
			c := exec.Command("/proc/self/exe", "-test.list=^$")
			c.Env = []string{}
			return c.Run()
		}},
		{"run a program in its place", "*", func() error {
			// It would not return: the missing interpreter of scripts says that the
			// call got as far as looking for the file.
			err := unix.Exec(path("missing"), []string{"missing"}, nil)
			if errors.Is(err, unix.ENOENT) {
				return nil
			}
			return err
		}},
		{"fork", "seccomp", fork},
		{"signal the runner", "Landlock seccomp", func() error { return unix.Kill(parent, 0) }},
		{"signal everybody", "seccomp", func() error { return unix.Kill(-1, 0) }},
		{"signal the runner's thread", "Landlock seccomp", func() error { return unix.Tgkill(parent, parent, 0) }},
		{"queue a signal", "seccomp", func() error {
			return call(unix.SYS_RT_SIGQUEUEINFO, uintptr(os.Getpid()), uintptr(unix.SIGURG), uintptr(unsafe.Pointer(&[128]byte{})))()
		}},
		{"hold the runner", "seccomp limits", call(unix.SYS_PIDFD_OPEN, uintptr(parent), 0)},
		{"trace the runner", "seccomp", func() error {
			err := call(unix.SYS_PTRACE, unix.PTRACE_CONT, uintptr(parent))()
			if errors.Is(err, unix.ESRCH) { // the call is open; it was not attached to
				return nil
			}
			return err
		}},
		{"read the runner's memory", "seccomp", readMemory(parent)},
		{"change the runner's limits", "seccomp", call(unix.SYS_PRLIMIT64, uintptr(parent), unix.RLIMIT_CORE, 0, uintptr(unsafe.Pointer(&unix.Rlimit{})))},
		{"see its limits", "seccomp", call(unix.SYS_PRLIMIT64, 0, unix.RLIMIT_CORE, 0, uintptr(unsafe.Pointer(&unix.Rlimit{})))},
		{"see who runs it", "seccomp", call(unix.SYS_GETRESUID, uintptr(unsafe.Pointer(&[3]uint32{})), uintptr(unsafe.Pointer(&[3]uint32{})), uintptr(unsafe.Pointer(&[3]uint32{})))},
		{"load code", "seccomp", func() error {
			m, err := unix.Mmap(-1, 0, 4096, unix.PROT_READ|unix.PROT_EXEC, unix.MAP_ANON|unix.MAP_PRIVATE)
			if err == nil {
				unix.Munmap(m)
			}
			return err
		}},
		{"make code of data", "seccomp", func() error {
			m, err := unix.Mmap(-1, 0, 4096, unix.PROT_READ|unix.PROT_WRITE, unix.MAP_ANON|unix.MAP_PRIVATE)
			if err != nil {
				return nil // that much has to work
			}
			defer unix.Munmap(m)
			return unix.Mprotect(m, unix.PROT_READ|unix.PROT_EXEC)
		}},
		{"make a file of memory", "seccomp limits", call(unix.SYS_MEMFD_CREATE, uintptr(unsafe.Pointer(&zero[1])), 0)},
		{"make a pipe", "seccomp limits", func() error {
			var fds [2]int
			err := unix.Pipe2(fds[:], unix.O_CLOEXEC)
			if err == nil {
				unix.Close(fds[0])
				unix.Close(fds[1])
			}
			return err
		}},
		{"copy a pipe", "seccomp limits", call(unix.SYS_DUP, 1)},
		{"share memory", "seccomp", func() error {
			id, err := unix.SysvShmGet(unix.IPC_PRIVATE, 4096, unix.IPC_CREAT|0o600)
			if err == nil {
				unix.SysvShmCtl(id, unix.IPC_RMID, nil)
			}
			return err
		}},
		{"see the machine's name", "seccomp", func() error { var u unix.Utsname; return unix.Uname(&u) }},
		{"watch files", "seccomp limits", call(unix.SYS_INOTIFY_INIT1, 0)},
		{"use another ring of calls", "*", call(unix.SYS_IO_URING_SETUP, 1, uintptr(unsafe.Pointer(&[256]byte{})))},
		{"name the process", "seccomp", call(unix.SYS_PRCTL, unix.PR_GET_DUMPABLE)},
		{"see a file that was left open", "all", func() error {
			b := make([]byte, 64)
			for fd := range 64 {
				if n, err := unix.Pread(fd, b, 0); err == nil && string(b[:n]) == secret {
					return nil
				}
			}
			return errors.New("there is none")
		}},
		{"see a variable of the environment", "none all Landlock seccomp limits", func() error {
			if len(os.Environ()) == 0 {
				return errors.New("there is none")
			}
			return nil
		}},
	}
}

// opensFile lists the calls that return a new file.
var opensFile = map[uintptr]bool{unix.SYS_PIDFD_OPEN: true, unix.SYS_MEMFD_CREATE: true, unix.SYS_DUP: true,
	unix.SYS_INOTIFY_INIT1: true, unix.SYS_IO_URING_SETUP: true}

// fork makes a process without a program of its own, which ends at once.
func fork() error {
	pid, _, errno := unix.RawSyscall6(unix.SYS_CLONE, uintptr(unix.SIGCHLD), 0, 0, 0, 0, 0)
	if errno != 0 {
		return errno
	}
	if pid == 0 {
		unix.RawSyscall(unix.SYS_EXIT, 0, 0, 0)
	}
	_, err := unix.Wait4(int(pid), nil, 0, nil)
	return err
}

// readMemory tries to read the start of a process's memory: no such address is
// the answer of a kernel that would have let it.
func readMemory(pid int) func() error {
	return func() error {
		b := make([]byte, 8)
		_, err := unix.ProcessVMReadv(pid, []unix.Iovec{{Base: &b[0], Len: 8}}, []unix.RemoteIovec{{Base: 0, Len: 8}}, 0)
		if errors.Is(err, unix.EFAULT) {
			return nil
		}
		return err
	}
}

// Native code in a guarded worker can do none of what the guards hold back, in
// any thread; and each guard that needs a system's help holds alone.
func TestEscape(t *testing.T) {
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "secret"), []byte(secret), 0o600); err != nil {
		t.Fatal(err)
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	left, err := unix.Open(filepath.Join(folder, "secret"), unix.O_RDONLY, 0) // for any child to inherit
	if err != nil {
		t.Fatal(err)
	}
	defer unix.Close(left)
	t.Setenv("TAUTLINE_SECRET", secret)
	p := plan{Address: listener.Addr().String(), Folder: folder}

	for _, guards := range []string{"none", "all", "Landlock", "seccomp", "limits"} {
		t.Run(guards, func(t *testing.T) {
			p.Guards = guards
			r := runEscape(t, p)
			for _, g := range r.Guards {
				if g.Off != "" {
					t.Skipf("%s: this test proves nothing here", g)
				}
			}
			layers := map[string]string{}
			for _, try := range tries(p) {
				layers[try.what] = try.layers
			}
			for _, a := range r.Attempts {
				what, _, _ := strings.Cut(a.What, ",")
				prevented := guards == "all" || strings.Contains(layers[what], guards)
				if guards != "all" && strings.Contains(layers[what], "*") {
					continue
				}
				if guards == "none" && a.What != what {
					continue // one thread is enough to see that the attempt is real
				}
				if prevented && a.Err == "" {
					t.Errorf("%s: it could", a.What)
				}
				if guards == "none" && !prevented && a.Err != "" {
					t.Errorf("%s: got %q without a guard: the attempt proves nothing", a.What, a.Err)
				}
			}
			if len(r.Attempts) != 6*len(layers) {
				t.Errorf("got %d attempts, want %d in each of 6 threads", len(r.Attempts), len(layers))
			}
		})
	}
}

func runEscape(t *testing.T, p plan) (r report) {
	t.Helper()
	cmd, err := command(escapeArg)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	cmd.Stdin = strings.NewReader(string(text))
	var stderr strings.Builder
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err == nil {
		err = json.Unmarshal(out, &r)
	}
	if err != nil {
		t.Fatalf("%v\n%s%s", err, out, stderr.String())
	}
	return r
}

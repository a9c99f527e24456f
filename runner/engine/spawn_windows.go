package engine

import (
	"errors"
	"os"
	"syscall"
	"time"
	"unsafe"

	"golang.org/x/sys/windows"

	"tautline/runner/outcome"
)

func executable() (string, error) { return os.Executable() }

func attributes() *syscall.SysProcAttr {
	return &syscall.SysProcAttr{HideWindow: true, CreationFlags: windows.CREATE_NO_WINDOW}
}

func kill(p *os.Process) { p.Kill() }

// confine puts a new worker, before it was given anything to do, into a job that
// the system limits and that ends with the runner.
func confine(p *os.Process, t terms) (guards []outcome.Guard, release func()) {
	job, err := newJob(p, t)
	release = func() {
		if job != 0 {
			windows.CloseHandle(job)
		}
	}
	return []outcome.Guard{guard("Windows job", "no second process, memory and processor time limited, no desktop, ends with the runner", err)}, release
}

// newJob returns a job with the process in it, limited as far as the error does
// not say otherwise. Closing it ends the process.
func newJob(p *os.Process, t terms) (windows.Handle, error) {
	job, err := windows.CreateJobObject(nil, nil)
	if err != nil {
		return 0, err
	}
	limits := windows.JOBOBJECT_EXTENDED_LIMIT_INFORMATION{
		BasicLimitInformation: windows.JOBOBJECT_BASIC_LIMIT_INFORMATION{
			LimitFlags: windows.JOB_OBJECT_LIMIT_KILL_ON_JOB_CLOSE | windows.JOB_OBJECT_LIMIT_ACTIVE_PROCESS |
				windows.JOB_OBJECT_LIMIT_PROCESS_MEMORY | windows.JOB_OBJECT_LIMIT_PROCESS_TIME |
				windows.JOB_OBJECT_LIMIT_DIE_ON_UNHANDLED_EXCEPTION,
			ActiveProcessLimit:      1,
			PerProcessUserTimeLimit: int64(processorTime(t) / (100 * time.Nanosecond)),
		},
		ProcessMemoryLimit: uintptr(2*t.Limits.Memory + 512<<20),
	}
	// JOB_OBJECT_UILIMIT_*: no clipboard, no other's windows, no global names,
	// no change of the display or the system, no end of the session.
	desktop := struct{ UIRestrictionsClass uint32 }{0xff}
	_, err1 := windows.SetInformationJobObject(job, windows.JobObjectExtendedLimitInformation, uintptr(unsafe.Pointer(&limits)), uint32(unsafe.Sizeof(limits)))
	_, err2 := windows.SetInformationJobObject(job, windows.JobObjectBasicUIRestrictions, uintptr(unsafe.Pointer(&desktop)), uint32(unsafe.Sizeof(desktop)))
	process, err3 := windows.OpenProcess(windows.PROCESS_SET_QUOTA|windows.PROCESS_TERMINATE, false, uint32(p.Pid))
	if err3 == nil {
		defer windows.CloseHandle(process)
		err3 = windows.AssignProcessToJobObject(job, process)
	}
	return job, errors.Join(err1, err2, err3)
}

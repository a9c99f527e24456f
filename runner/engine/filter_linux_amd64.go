package engine

import "golang.org/x/sys/unix"

// What the filter of calls needs to know of the processor.
const filterArch = unix.AUDIT_ARCH_X86_64

var archCalls = []uint32{unix.SYS_EPOLL_WAIT, unix.SYS_POLL, unix.SYS_TIME}

package engine

import "golang.org/x/sys/unix"

// What the filter of calls needs to know of the processor.
const filterArch = unix.AUDIT_ARCH_AARCH64

var archCalls []uint32

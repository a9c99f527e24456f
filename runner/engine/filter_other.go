//go:build linux && !amd64 && !arm64

package engine

import (
	"errors"

	"tautline/runner/outcome"
)

func filterCalls() outcome.Guard {
	return guard("seccomp", "", errors.New("no filter of system calls is written for this processor"))
}

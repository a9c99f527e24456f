//go:build unix

package runner_test

import "golang.org/x/sys/unix"

func makePipe(file string) error { return unix.Mkfifo(file, 0o666) }

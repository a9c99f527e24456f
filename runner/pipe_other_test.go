//go:build !unix

package runner_test

import "errors"

func makePipe(string) error { return errors.New("this system has no pipes among its files") }

// Package proof helps the tests of the library's packages: numbers against
// published ones, errors and panics by their words, formulas in comments against
// the code.
package proof

import (
	"math"
	"strings"
	"testing"
)

// Near fails unless got is within the relative tolerance of want, or within it
// absolutely if want is 0.
func Near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	bound := tol * math.Abs(want)
	if want == 0 {
		bound = tol
	}
	if !(math.Abs(got-want) <= bound) {
		t.Errorf("%s: got %.10g, want %.10g within %.1g", what, got, want, bound)
	}
}

// Must gives the value of a call that must not fail.
func Must[T any](v T, err error) func(t *testing.T) T {
	return func(t *testing.T) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// Fails fails unless the error holds the words.
func Fails(t *testing.T, what string, err error, words string) {
	t.Helper()
	if err == nil || !strings.Contains(err.Error(), words) {
		t.Errorf("%s: got error %v, want one with %q", what, err, words)
	}
}

// Panics fails unless the call panics with the words.
func Panics(t *testing.T, words string, call func()) {
	t.Helper()
	defer func() {
		t.Helper()
		if s, _ := recover().(string); !strings.Contains(s, words) {
			t.Errorf("got panic %q, want one with %q", s, words)
		}
	}()
	call()
}

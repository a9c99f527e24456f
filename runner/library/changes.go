package library

import (
	_ "embed" // the lists
	"slices"
	"strings"
	"sync"
)

//go:embed functions.txt
var functionsText string

//go:embed changes.txt
var changesText string

var functionDigests = sync.OnceValue(func() map[string]string {
	digests := map[string]string{}
	for line := range strings.Lines(functionsText) {
		name, digest, _ := strings.Cut(strings.TrimSpace(line), " ")
		digests[name] = digest
	}
	return digests
})

// FunctionDigest returns the digest of all source that a function, method or
// constant of the library can come to, such as "fabric.Torus.InnerEquator". It
// changes when, and only when, its results can have changed.
func FunctionDigest(name string) (string, bool) {
	d, ok := functionDigests()[name]
	return d, ok
}

// A Change is a change to the library after which functions give other results.
type Change struct {
	Number    int // from 1, in the order of time
	Functions []string
	What      string
}

// Changes lists them, the oldest first.
func Changes() []Change { return slices.Clone(changeList()) }

var changeList = sync.OnceValue(func() []Change {
	var list []Change
	for line := range strings.Lines(changesText) {
		names, what, _ := strings.Cut(strings.TrimSpace(line), ": ")
		list = append(list, Change{len(list) + 1, strings.Split(names, ", "), what})
	}
	return list
})

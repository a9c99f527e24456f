// Package owner finds what the statements of a notebook do to each other's names.
//
//	diags := owner.Check(tree)
//
// Each top-level name belongs to the cell that sets it: it is set before it is
// read, and no other cell changes it, under any name. So the order of reading is
// the order of computing, and every value is what its own cell made of it.
//
// Invariant: where it is in doubt whether two names share memory, they do.
package owner

import (
	"tautline/runner/check/tree"
	"tautline/runner/document"
)

// A keeper knows what changes which name.
type keeper struct {
	*tree.Tree
	aliases *aliases
}

// Check finds names that are read before they are set or changed by a cell that
// they do not belong to. It notes for each name what it is set from and whether
// that is a given.
func Check(t *tree.Tree) []document.Diagnostic {
	k := &keeper{t, findAliases(t)}
	k.values()
	return append(k.order(), k.changes()...)
}

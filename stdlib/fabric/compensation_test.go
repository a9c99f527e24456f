package fabric_test

import (
	"testing"

	"tautline/stdlib/fabric"
	"tautline/stdlib/internal/proof"
)

// Definition of strain, worked by hand.
func TestCutLength(t *testing.T) {
	proof.Near(t, "cut length", fabric.CutLength(2, 0.012), 1.9762846, 1e-7/2)
	proof.Panics(t, "want more than -1", func() { fabric.CutLength(2, -1) })
}

package tether_test

import (
	"testing"

	"tautline/stdlib/anchoring/tether"
	"tautline/stdlib/internal/proof"
)

// The calls by which each documented formula is compared with its function.
var formulaCalls = []proof.Call{
	proof.Of("Set.Pressure", tether.Set.Pressure, [][]any{{tether.Set{Density: 1.24}, 11.1}}),
}

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }

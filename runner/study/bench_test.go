package study_test

import (
	"testing"

	"tautline/runner"
	"tautline/runner/engine"
	"tautline/runner/study"
)

// A thousand samples of the landing bed.
func BenchmarkTolerances(b *testing.B) {
	res := runner.File(b.Context(), "../../notebooks/lagoon-bed.md", engine.Limits{})
	if !res.Ran() {
		b.Fatalf("the notebook did not run: %v", res.Diagnostics())
	}
	for b.Loop() {
		tol, err := study.Tolerances(b.Context(), res.Plan, res.Program, res.Outcome, 1000, 1, engine.Limits{}, nil)
		if err != nil || tol.Faulted > 0 {
			b.Fatal(err, tol)
		}
	}
}

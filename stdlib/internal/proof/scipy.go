package proof

import (
	"bytes"
	_ "embed"
	"encoding/binary"
	"fmt"
	"math"
	"os/exec"
	"testing"
	"time"

	"tautline/stdlib/internal/ldl"
)

//go:embed solve.py
var solve string

// AgainstScipy times the solution of a sparse system from its entries on, and reports
// how many times as long scipy's SuperLU takes for the same one; the solutions must
// agree. Where scipy is not installed the benchmark is skipped.
func AgainstScipy(b *testing.B, matrix *ldl.Matrix, right []float64) {
	python := ""
	for _, name := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(name, "-c", "import scipy.sparse.linalg").Run() == nil {
			python = name
			break
		}
	}
	if python == "" {
		b.Skip("scipy is not installed (Debian: python3-scipy)")
	}
	var rows, columns []int64
	var values []float64
	matrix.Entries(func(i, j int, v float64) {
		rows, columns, values = append(rows, int64(i)), append(columns, int64(j)), append(values, v)
		if i != j {
			rows, columns, values = append(rows, int64(j)), append(columns, int64(i)), append(values, v)
		}
	})
	var in, complaint bytes.Buffer
	for _, part := range []any{int64(matrix.Len()), int64(len(values)), rows, columns, values, right} {
		if err := binary.Write(&in, binary.LittleEndian, part); err != nil {
			b.Fatal(err)
		}
	}
	command := exec.Command(python, "-c", solve)
	command.Stdin, command.Stderr = &in, &complaint
	out, err := command.Output()
	if err != nil {
		b.Fatalf("scipy: %v: %s", err, complaint.String())
	}
	var theirs, sum float64
	if _, err := fmt.Sscan(string(out), &theirs, &sum); err != nil {
		b.Fatalf("scipy printed %q: %v", out, err)
	}
	least, own := math.Inf(1), 0.0
	for b.Loop() {
		start := time.Now()
		f, err := ldl.Analyse(matrix).Factor(matrix, 1e-14)
		if err != nil {
			b.Fatal(err)
		}
		x := append([]float64(nil), right...)
		f.Solve(x)
		least = min(least, time.Since(start).Seconds())
		own = 0
		for _, v := range x {
			own += v * v
		}
	}
	if math.Abs(own-sum) > 1e-6*sum {
		b.Errorf("solutions differ: squares sum to %g, with scipy to %g", own, sum)
	}
	b.ReportMetric(float64(matrix.Len()), "unknowns")
	b.ReportMetric(theirs/least, "scipy/ours")
}

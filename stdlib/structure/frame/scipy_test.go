package frame_test

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"tautline/stdlib/internal/ldl"
)

// The same matrix, factored and solved once by scipy's SuperLU: the best of
// three, in seconds.
const superLU = `
import sys, time
import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import splu
i, j, v = np.loadtxt(sys.argv[1], unpack=True)
i, j = i.astype(int), j.astype(int)
n = i.max() + 1
k = coo_matrix((v, (i, j)), shape=(n, n)).tocsc()
k = k + k.T
k.setdiag(k.diagonal() / 2)
b = np.ones(n)
best = 1e9
for _ in range(3):
    t = time.perf_counter()
    x = splu(k, permc_spec='MMD_AT_PLUS_A', options=dict(SymmetricMode=True), diag_pivot_thresh=0.0).solve(b)
    best = min(best, time.perf_counter() - t)
print(best, np.abs(k @ x - b).max())
`

// scipyPython is a Python that has scipy, "" if there is none.
func scipyPython() string {
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(python, "-c", "import scipy.sparse.linalg").Run() == nil {
			return python
		}
	}
	return ""
}

// BenchmarkAgainstScipy reports how many times as long as SuperLU the solution
// of one frame's matrix takes, order of elimination included in both.
func BenchmarkAgainstScipy(b *testing.B) {
	python := scipyPython()
	if python == "" {
		b.Skip("no Python with scipy here")
	}
	for _, size := range [][2]int{{3, 16}, {3, 160}, {11, 16}} {
		f, _ := tower(size[0], size[1])
		k, err := f.StiffnessMatrix()
		if err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprintf("%d members, %d bays", len(f.Members), size[0]), func(b *testing.B) {
			theirs := superLUSeconds(b, python, k)
			own := 1e9
			for b.Loop() {
				start := time.Now()
				factor, err := ldl.Analyse(k).Factor(k, 1e-12)
				if err != nil {
					b.Fatal(err)
				}
				x := make([]float64, k.Len())
				for i := range x {
					x[i] = 1
				}
				factor.Solve(x)
				own = min(own, time.Since(start).Seconds())
			}
			b.ReportMetric(own/theirs, "times-SuperLU")
		})
	}
}

func superLUSeconds(b *testing.B, python string, k *ldl.Matrix) float64 {
	b.Helper()
	path := filepath.Join(b.TempDir(), "matrix.txt")
	file, err := os.Create(path)
	if err != nil {
		b.Fatal(err)
	}
	w := bufio.NewWriter(file)
	k.Entries(func(i, j int, v float64) { fmt.Fprintf(w, "%d %d %.17g\n", i, j, v) })
	if err := w.Flush(); err != nil {
		b.Fatal(err)
	}
	if err := file.Close(); err != nil {
		b.Fatal(err)
	}
	out, err := exec.Command(python, "-c", superLU, path).Output()
	if err != nil {
		b.Fatalf("scipy: %v", err)
	}
	seconds, err := strconv.ParseFloat(strings.Fields(string(out))[0], 64)
	if err != nil {
		b.Fatal(err)
	}
	return seconds
}

package flatten_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"tautline/stdlib/fabric/flatten"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/ldl"
)

// saddle is a bent sheet of about so many triangles.
func saddle(triangles int) surface.Mesh {
	n := int(math.Sqrt(float64(triangles)/2)) + 1
	return grid(n, n, func(i, j int) surface.Point {
		x, y := float64(j)/float64(n-1)-0.5, float64(i)/float64(n-1)-0.5
		return surface.Point{X: x, Y: y, Z: 0.25 * (x*x - y*y + 0.5*x*y)}
	})
}

// How long flattening takes, and how it grows from 2,000 triangles to
// 20,000.
func BenchmarkFlatten(b *testing.B) {
	for _, triangles := range []int{2_000, 20_000} {
		b.Run(fmt.Sprint(triangles), func(b *testing.B) {
			m := saddle(triangles)
			for b.Loop() {
				f, err := flatten.Flatten(m, 1)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(f.Steps, "steps")
			}
		})
	}
}

// The same sparse system, the first of the least strain, solved by scipy
// (SuperLU) where it is installed: how many times as long that takes.
func BenchmarkAgainstScipy(b *testing.B) {
	n, rows, columns, values, right := flatten.FirstSystem(saddle(20_000))
	python := ""
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(name, "-c", "import scipy.sparse.linalg").Run() == nil {
			python = name
			break
		}
	}
	if python == "" {
		b.Skip("scipy is not installed (Debian: python3-scipy)")
	}
	var buf bytes.Buffer
	for _, part := range []any{int64(n), int64(len(values)), rows, columns, values, right} {
		if err := binary.Write(&buf, binary.LittleEndian, part); err != nil {
			b.Fatal(err)
		}
	}
	file := filepath.Join(b.TempDir(), "system")
	if err := os.WriteFile(file, buf.Bytes(), 0o644); err != nil {
		b.Fatal(err)
	}
	out, err := exec.Command(python, "testdata/solve.py", file).Output()
	if err != nil {
		b.Fatal(err)
	}
	fields := strings.Fields(string(out))
	theirs, _ := strconv.ParseFloat(fields[0], 64)
	sum, _ := strconv.ParseFloat(fields[1], 64)
	blocks := make([]ldl.Block, 0, len(values))
	for k, v := range values {
		if i, j := int(rows[k]), int(columns[k]); i == j {
			blocks = append(blocks, ldl.Block{Index: []int{i}, Values: []float64{v}})
		} else if i < j {
			blocks = append(blocks, ldl.Block{Index: []int{i, j}, Values: []float64{0, v, v, 0}})
		}
	}
	matrix := ldl.Assemble(n, blocks)
	least := math.Inf(1)
	var x []float64
	for b.Loop() {
		start := time.Now()
		f, err := ldl.Analyse(matrix).Factor(matrix, 1e-14)
		if err != nil {
			b.Fatal(err)
		}
		x = append([]float64(nil), right...)
		f.Solve(x)
		least = min(least, time.Since(start).Seconds())
	}
	own := 0.0
	for _, v := range x {
		own += v * v
	}
	if math.Abs(own-sum) > 1e-6*sum {
		b.Errorf("solutions differ: squares sum to %g, with scipy to %g", own, sum)
	}
	b.ReportMetric(theirs/least, "scipy/ours")
}

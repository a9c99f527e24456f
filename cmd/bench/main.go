// Command bench times a cold run of a notebook against `go run` of the same
// notebook exported as a Go program, with Go's build cache warm, and prints the
// ratio of time and of memory.
//
//	go run ./cmd/bench [-runs 11] [notebooks/lagoon-bed.md]
//
// Run it in the module's folder. Each figure is the median of whole processes,
// the two in turn, so that a change of the machine's speed meets both.
package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"time"
)

func main() {
	runs := flag.Int("runs", 11, "runs of each")
	flag.Parse()
	notebook := "notebooks/lagoon-bed.md"
	if flag.NArg() > 0 {
		notebook = flag.Arg(0)
	}
	if err := bench(notebook, *runs); err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
}

func bench(notebook string, runs int) error {
	folder, err := os.MkdirTemp("", "tautline-bench")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	program, exported := filepath.Join(folder, "tautline"), filepath.Join(folder, "main.go")
	if _, err := run("go", "build", "-o", program, "./cmd/tautline"); err != nil {
		return err
	}
	if _, err := run(program, "export", notebook, "-o", exported); err != nil {
		return err
	}
	ours := []string{program, "run", notebook, "-o", folder}
	theirs := []string{"go", "run", exported}
	var a, b []sample
	for i := range runs + 1 {
		x, err := run(ours...)
		if err != nil {
			return err
		}
		y, err := run(theirs...)
		if err != nil {
			return err
		}
		if i > 0 { // the first warms the caches
			a, b = append(a, x), append(b, y)
		}
	}
	fmt.Printf("%-44s %8s %9s\n", "median of "+fmt.Sprint(runs), "wall ms", "peak MiB")
	for _, row := range []struct {
		name string
		s    []sample
	}{{"tautline run, cold, report written", a}, {"go run of the export, build cache warm", b}} {
		fmt.Printf("%-44s %8.1f %9.1f\n", row.name, median(row.s, wall), median(row.s, memory))
	}
	fmt.Printf("%-44s %8.1f %9.1f\n", "ratio", median(b, wall)/median(a, wall), median(b, memory)/median(a, memory))
	return nil
}

type sample struct {
	wall   time.Duration
	memory int64 // bytes, of the largest single process
}

func wall(s sample) float64   { return float64(s.wall) / float64(time.Millisecond) }
func memory(s sample) float64 { return float64(s.memory) / (1 << 20) }

func median(samples []sample, of func(sample) float64) float64 {
	vs := make([]float64, len(samples))
	for i, s := range samples {
		vs[i] = of(s)
	}
	slices.Sort(vs)
	return vs[len(vs)/2]
}

func run(args ...string) (sample, error) {
	cmd := exec.Command(args[0], args[1:]...)
	start := time.Now()
	out, err := cmd.CombinedOutput()
	s := sample{wall: time.Since(start)}
	if err != nil {
		return s, fmt.Errorf("%v: %w\n%s", args, err, out)
	}
	s.memory = peak(cmd.ProcessState)
	return s, nil
}

// Command bench times a cold run of a notebook against `go run` of the same
// notebook exported as a Go program, with Go's build cache warm, and prints the
// ratios of time and of memory. `go run` is timed twice: for a program that it
// has run before, which it only starts again, and after an edit, which it has
// to compile and link as a designer's every save would.
//
//	go run ./cmd/bench [-runs 11] [notebooks/lagoon-bed.md]
//	go run ./cmd/bench -live [-runs 200] [notebooks/lagoon-bed.md]
//	go run ./cmd/bench -all
//
// With -live it times the live page instead: from a save to the event that
// carries the changed page, and from a number tried to the same. With -all it runs
// every figure of merit and writes them into DEVELOPERS.md.
//
// Run it in the module's folder. Each figure is the median of whole processes,
// the two in turn, so that a change of the machine's speed meets both.
package main

import (
	"cmp"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"time"
)

func main() {
	runs := flag.Int("runs", 0, "runs of each; 0 is 11, 200 with -live, 40 with -all")
	live := flag.Bool("live", false, "time the live page")
	everything := flag.Bool("all", false, "time everything that matters, and write it into DEVELOPERS.md")
	flag.Parse()
	notebook := "notebooks/lagoon-bed.md"
	if flag.NArg() > 0 {
		notebook = flag.Arg(0)
	}
	do, usual := bench, 11
	if *everything {
		do, usual, notebook = all, 40, "DEVELOPERS.md"
	}
	if *live {
		do, usual = benchLive, 200
	}
	if err := do(notebook, cmp.Or(*runs, usual)); err != nil {
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
	source, err := os.ReadFile(exported)
	if err != nil {
		return err
	}
	edit := func(i int) error { // as a changed number: other text, other program
		text := fmt.Sprintf("%s\nvar edit = %d\n\nfunc init() { edit++ }\n", source, time.Now().UnixNano()+int64(i))
		return os.WriteFile(exported, []byte(text), 0o666)
	}
	rows := []struct {
		name    string
		before  func(int) error
		command []string
		samples []sample
	}{
		{name: "tautline run, cold, report written", command: []string{program, "run", notebook, "-o", folder}},
		{name: "go run of the export, run before", command: []string{"go", "run", exported}},
		{name: "go run of the export, after an edit", before: edit, command: []string{"go", "run", exported}},
	}
	for i := range runs + 1 {
		for k := range rows {
			row := &rows[k]
			if row.before != nil {
				if err := row.before(i); err != nil {
					return err
				}
			} else if err := os.WriteFile(exported, source, 0o666); err != nil {
				return err
			}
			s, err := run(row.command...)
			if err != nil {
				return err
			}
			if i > 0 { // the first warms the caches
				row.samples = append(row.samples, s)
			}
		}
	}
	first := rows[0].samples
	fmt.Printf("%-38s %8s %6s %9s %6s\n", fmt.Sprintf("median of %d", runs), "wall ms", "ratio", "peak MiB", "ratio")
	for _, row := range rows {
		fmt.Printf("%-38s %8.1f %6.1f %9.1f %6.1f\n", row.name, median(row.samples, wall), median(row.samples, wall)/median(first, wall),
			median(row.samples, memory), median(row.samples, memory)/median(first, memory))
	}
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

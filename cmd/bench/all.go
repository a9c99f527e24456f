package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"time"
)

// A figure of merit: what a command prints, under a heading of its own.
type figure struct {
	what    string
	command []string
}

// figures are what matters to those who use the program.
func figures(runs int) []figure {
	n := strconv.Itoa(runs)
	test := func(pkg, bench string) []string {
		return []string{"go", "test", "./" + pkg, "-run", "^$", "-bench", bench, "-benchtime", "1s"}
	}
	return []figure{
		{"A cold run against `go run` of the same calculation", []string{"go", "run", "./cmd/bench", "-runs", n}},
		{"From a save to the changed page, and numbers tried", []string{"go", "run", "./cmd/bench", "-live", "-runs", n}},
		{"A notebook of 500 lines checked", test("runner/check", "Check")},
		{"A thousand samples of the tolerances", test("runner/study", "Tolerances")},
		{"A frame of 1,000 members, and of 10,000; against scipy", test("stdlib/structure/frame", "Tower$|AgainstScipy")},
		{"A million points counted by rainflow, against sorting them", test("stdlib/structure/fatigue", "Rainflow")},
		{"20,000 triangles laid flat; against scipy", test("stdlib/fabric/flatten", ".")},
		{"20,000 triangles finding their form; against scipy", test("stdlib/fabric/form", ".")},
		{"Anchors from 72 sides, each lost in turn", test("stdlib/anchoring/tether", "Survey$|SafeWind")},
		{"Riders thrown; against numpy", test("stdlib/motion/throwing", ".")},
		{"Records verified", test("runner/record", ".")},
	}
}

// all runs every figure of merit and puts the result into a file, between the
// heading "## Figures" and the next.
func all(file string, runs int) error {
	var b strings.Builder
	fmt.Fprintf(&b, "\nWritten by `go run ./cmd/bench -all` on %s, on %s, %d processors, %s %s/%s.\n",
		time.Now().Format("2 January 2006"), processor(), runtime.NumCPU(), strings.Replace(runtime.Version(), "go", "Go ", 1), runtime.GOOS, runtime.GOARCH)
	start, err := everyNotebook()
	if err != nil {
		return err
	}
	fmt.Fprintf(&b, "\n**Every notebook run and its report written:** %.1f s.\n", start.Seconds())
	for _, f := range figures(runs) {
		fmt.Fprintf(os.Stderr, "%s …\n", f.what)
		out, err := exec.Command(f.command[0], f.command[1:]...).CombinedOutput()
		if err != nil {
			return fmt.Errorf("%s: %w\n%s", strings.Join(f.command, " "), err, out)
		}
		fmt.Fprintf(&b, "\n**%s.** `%s`\n\n```\n%s```\n", f.what, shellWords(f.command), figuresOf(out))
	}
	text, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	changed, err := putUnder(text, "## Figures", b.String())
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	return os.WriteFile(file, changed, 0o666)
}

// everyNotebook times a cold run of all notebooks together.
func everyNotebook() (time.Duration, error) {
	folder, err := os.MkdirTemp("", "tautline-bench")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(folder)
	program := filepath.Join(folder, "tautline")
	if _, err := run("go", "build", "-o", program, "./cmd/tautline"); err != nil {
		return 0, err
	}
	notebooks, err := filepath.Glob("notebooks/*.md")
	if err != nil {
		return 0, err
	}
	start := time.Now()
	out, err := exec.Command(program, append([]string{"run", "-o", folder}, notebooks...)...).CombinedOutput()
	if err != nil {
		return 0, fmt.Errorf("%w\n%s", err, out)
	}
	return time.Since(start), nil
}

func shellWords(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		if quoted[i] = w; strings.ContainsAny(w, "^$|.") && !strings.Contains(w, "/") {
			quoted[i] = "'" + w + "'"
		}
	}
	return strings.Join(quoted, " ")
}

var (
	benchLine = regexp.MustCompile(`^Benchmark(\S+?)(?:-\d+)?\s+\d+\s+(.*)$`)
	spaces    = regexp.MustCompile(`\s{2,}|\t`)
)

// figuresOf keeps of what a command prints the lines with figures; those of Go's
// benchmarks without what says nothing to a reader.
func figuresOf(out []byte) string {
	var kept, benches []string
	for line := range strings.Lines(string(out)) {
		line = strings.TrimRight(line, "\n")
		if m := benchLine.FindStringSubmatch(line); m != nil {
			benches = append(benches, fmt.Sprintf("%-44s %s", strings.ReplaceAll(m[1], "_", " "), spaces.ReplaceAllString(readable(m[2]), "  ")))
		}
		kept = append(kept, line)
	}
	if len(benches) > 0 {
		kept = benches
	}
	return strings.Join(kept, "\n") + "\n"
}

var perOp = regexp.MustCompile(`([0-9.e+]+) ns/op`)

// readable turns nanoseconds an operation into a time for people.
func readable(metrics string) string {
	return perOp.ReplaceAllStringFunc(metrics, func(s string) string {
		ns, err := strconv.ParseFloat(perOp.FindStringSubmatch(s)[1], 64)
		if err != nil {
			return s
		}
		switch {
		case ns >= 1e9:
			return fmt.Sprintf("%.3g s", ns/1e9)
		case ns >= 1e6:
			return fmt.Sprintf("%.3g ms", ns/1e6)
		}
		return fmt.Sprintf("%.3g µs", ns/1e3)
	})
}

// putUnder replaces what stands between a heading and the next of its level.
func putUnder(text []byte, heading, body string) ([]byte, error) {
	at := bytes.Index(text, []byte("\n"+heading+"\n"))
	if at < 0 {
		return nil, fmt.Errorf("there is no heading %q", heading)
	}
	at += len(heading) + 2
	end := bytes.Index(text[at:], []byte("\n## "))
	if end < 0 {
		end = len(text) - at
	}
	return bytes.Join([][]byte{text[:at], []byte(body), text[at+end:]}, nil), nil
}

// processor names the machine's, where it says so.
func processor() string {
	text, _ := os.ReadFile("/proc/cpuinfo")
	for line := range strings.Lines(string(text)) {
		if name, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(name) == "model name" {
			return strings.TrimSpace(value)
		}
	}
	return runtime.GOARCH
}

package notebooks

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"tautline/runner"
	"tautline/runner/engine"
	"tautline/runner/export"
)

func TestMain(m *testing.M) {
	engine.Main()
	code := m.Run()
	if code == 0 && flag.Lookup("test.run").Value.String() == "" && flag.Lookup("test.list").Value.String() == "" {
		code = reportUnasked()
	}
	os.Exit(code)
}

// ran holds what each notebook of this folder gave: a run gives the same whoever
// asks, and many tests do.
var ran = map[string]*runner.Result{}

// run runs a notebook of this folder, once for all tests, and stops the test when
// it cannot be run to its end. What it gives is not changed.
func run(t *testing.T, file string) *runner.Result {
	t.Helper()
	res := ran[file]
	if res == nil {
		res = runner.File(context.Background(), file, engine.Limits{})
		ran[file] = res
	}
	for _, d := range res.Diagnostics() {
		t.Errorf("%s", d.Format(res.Source, false))
	}
	if !res.Ran() {
		t.Fatalf("%s did not run to its end: %v", file, res.Err)
	}
	return res
}

// all lists the notebooks, at least one.
func all(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob("*.md")
	if err != nil || len(files) == 0 {
		t.Fatalf("no notebooks here: %v", err)
	}
	return files
}

// Every notebook runs without a finding and all its checks hold.
func TestChecksHold(t *testing.T) {
	for _, file := range all(t) {
		res := run(t, file)
		checks := 0
		for _, e := range res.Outcome.Entries {
			if e.Check == nil {
				continue
			}
			checks++
			if !e.Check.Holds {
				t.Errorf("%s: check %q fails", file, e.Check.What)
			}
		}
		if checks == 0 {
			t.Errorf("%s checks nothing", file)
		}
	}
}

// Notebooks refer to each other by number.
func TestNumbersDiffer(t *testing.T) {
	has := map[string]string{}
	for _, file := range all(t) {
		n := runner.Check(file).Notebook.Title.Number
		if n == "" || has[n] != "" {
			t.Errorf("%s: number %q: got that of %q, want one of its own", file, n, has[n])
		}
		has[n] = file
	}
}

// Each name of a notebook has a known dimension, or the report could not say
// its unit.
func TestDimensionsKnown(t *testing.T) {
	for _, file := range all(t) {
		res := run(t, file)
		for ident, n := range res.Plan.Names {
			if v := res.Outcome.Values[ident]; v.Kind == "number" && !res.Plan.ObjectMeasure(n.Object).Known {
				t.Errorf("%s: the dimension of %s is unknown", file, ident)
			}
		}
	}
}

// Exported, compiled by Go and run, a notebook gives bit for bit what the
// interpreter gave.
func TestCompiledIsTheSame(t *testing.T) {
	for _, file := range all(t) {
		res := run(t, file)
		src, err := export.Program(res.Plan)
		if err != nil {
			t.Fatal(err)
		}
		main := filepath.Join(t.TempDir(), "main.go")
		if err := os.WriteFile(main, src, 0o666); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("go", "run", main).Output() // in this folder, for the data files
		if err != nil {
			t.Fatalf("%s compiled: %v", file, err)
		}
		got, want := printed(t, res), string(out)
		if got != want {
			t.Errorf("%s: interpreted and compiled differ:\n%s", file, firstDifference(got, want))
		}
	}
}

// site is a statement's number, which a compiled program does not know.
var site = regexp.MustCompile(`"Site":\d+`)

// printed is what an exported program prints, made of the outcome of a run.
func printed(t *testing.T, res *runner.Result) string {
	var b bytes.Buffer
	for _, c := range res.Plan.Cells {
		for _, n := range c.Names {
			if v, ok := res.Outcome.Values[n.Ident]; ok {
				b.WriteString(n.Ident + " = " + v.String() + "\n")
			}
		}
	}
	for _, e := range res.Outcome.Entries {
		line, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		b.Write(append(site.ReplaceAll(line, []byte(`"Site":0`)), '\n'))
	}
	return b.String()
}

func firstDifference(a, b string) string {
	as, bs := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range as {
		if i >= len(bs) || as[i] != bs[i] {
			return "interpreted: " + as[i] + "\ncompiled:    " + strings.Join(bs[min(i, len(bs)):min(i+1, len(bs))], "")
		}
	}
	return "the compiled program prints more"
}

// number is the value of a name, or of a field of it by position.
func number(t *testing.T, res *runner.Result, name string, field ...int) float64 {
	t.Helper()
	v, ok := res.Outcome.Values[name]
	for _, i := range field {
		v = v.Items[i]
	}
	ask(res, v.Number, name, field...)
	if !ok || v.Kind != "number" {
		t.Fatalf("%s: got no number", name)
	}
	return float64(v.Number)
}

// near fails unless got is want within a relative 1e-12, some thousand times
// the rounding of the few operations that lead to each number.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	proved[got] = true
	if !(math.Abs(got-want) <= 1e-12*math.Abs(want)) {
		t.Errorf("%s: got %.15g, want %.15g", what, got, want)
	}
}

package runner_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tautline/render"
	"tautline/runner"
	"tautline/runner/document"
	"tautline/runner/engine"
)

func TestMain(m *testing.M) {
	engine.Main()
	os.Exit(m.Run())
}

// Hostile and broken notebooks each end as a diagnostic at the line that says
// `// want: text` (or anywhere, where the prose says so), and as nothing else:
// what was computed before is kept, a report can be made of it, and the next
// notebook runs.
func TestHostile(t *testing.T) {
	files, err := filepath.Glob("testdata/hostile/*.md")
	if err != nil || len(files) < 25 {
		t.Fatalf("hostile notebooks: got %d, want 25 or more: %v", len(files), err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			limits := engine.Limits{}
			if text, err := os.ReadFile(file); err == nil && bytes.Contains(text, []byte("did not end within")) {
				limits.Time = time.Second // nobody wants to wait for the usual limit
			}
			res := runner.File(context.Background(), file, limits)
			if res.Err != nil {
				t.Fatal(res.Err)
			}
			compare(t, string(res.Source), res.Diagnostics())
			if res.Outcome != nil {
				if v := res.Outcome.Values["before"]; v.Number != 1500 {
					t.Errorf("the value computed before: got %v, want 1500", v)
				}
				if _, ok := res.Outcome.Values["after"]; ok {
					t.Error("the cell after the fault ran")
				}
			}
			if err := render.HTML(&bytes.Buffer{}, render.Assemble(res.Plan, res.Outcome, res.Findings, render.Identity{})); err != nil {
				t.Errorf("report: %v", err)
			}
		})
	}
}

// compare checks the diagnostics against the wants of a source.
func compare(t *testing.T, source string, diags []document.Diagnostic) {
	t.Helper()
	wants := map[int]string{}
	for i, line := range strings.Split(source, "\n") {
		if _, text, ok := strings.Cut(line, "// want: "); ok {
			wants[i+1] = text
		}
		if text, ok := strings.CutPrefix(line, "Want anywhere: "); ok {
			wants[0] = text
		}
	}
	if len(wants) == 0 {
		t.Fatal("the notebook wants nothing")
	}
	for _, d := range diags {
		line := d.Range.Start.Line
		if _, ok := wants[line]; !ok {
			line = 0
		}
		if text, ok := wants[line]; !ok || !strings.Contains(d.Message, text) {
			t.Errorf("unexpected: %s", d.Format([]byte(source), false))
		} else {
			delete(wants, line)
		}
	}
	for line, text := range wants {
		t.Errorf("line %d: no diagnostic with %q", line, text)
	}
}

package tree

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"
	"tautline/runner/document"
)

// TestSteps reads the notebooks in testdata/steps: "notebook" and, one line for
// each step, "steps" with its kind, place, names, reason and text.
func TestSteps(t *testing.T) {
	files, err := filepath.Glob("testdata/steps/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("testdata/steps: got %d files, %v, want some", len(files), err)
	}
	kinds := map[StepKind]string{StepCode: "code", StepAssign: "assign", StepSheet: "sheet", StepDeclare: "declare", StepComment: "comment"}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			views := map[string]string{}
			for _, f := range txtar.Parse(text).Files {
				views[f.Name] = string(f.Data)
			}
			src := strings.ReplaceAll(views["notebook"], "→", "\t")
			tree, diags := Read(parse(t, file, []byte(src)))
			for _, d := range diags {
				t.Errorf("unexpected:\n%s", d.Format([]byte(src), false))
			}
			var got strings.Builder
			for i, c := range tree.Cells {
				for _, s := range c.Steps {
					fmt.Fprintf(&got, "%d %-7s %d:%d-%d:%d", i, kinds[s.Kind],
						s.Range.Start.Line, s.Range.Start.Column, s.Range.End.Line, s.Range.End.Column)
					for _, n := range s.Names {
						fmt.Fprintf(&got, " %s", n.Ident)
						if n.Step != s || n.Cell != i {
							t.Errorf("%s: its step or cell is another", n.Ident)
						}
					}
					if s.Reason != "" {
						fmt.Fprintf(&got, " because %q", s.Reason)
					}
					fmt.Fprintf(&got, "\n\t%s\n", strings.NewReplacer("\n", "\n\t", "\t", "→").Replace(s.Text))
				}
			}
			if got.String() != views["steps"] {
				t.Errorf("got:\n%s\nwant:\n%s", got.String(), views["steps"])
			}
		})
	}
}

// TestSites: every statement has a number, those in the same place of the
// source have places in order, and a statement with a block ends before it.
func TestSites(t *testing.T) {
	src := "---\ntitle: test\n---\n\n```go\nx := 3.0\nfor i := range 3 {\n\tif x > 1 {\n\t\tx += float64(i)\n\t} else {\n\t\tx--\n\t}\n}\nfunc f() float64 { return x }\n```\n"
	tree, diags := Read(parse(t, "sites.md", []byte(src)))
	if len(diags) > 0 {
		t.Fatalf("got %v", diags)
	}
	lines := strings.Split(src, "\n")
	var got []string
	for i, s := range tree.Sites {
		if i == 0 {
			continue
		}
		if tree.Number(s.Stmt) != i {
			t.Errorf("number of site %d: got %d", i, tree.Number(s.Stmt))
		}
		line := lines[s.Range.Start.Line-1]
		if s.Range.End.Line != s.Range.Start.Line {
			t.Fatalf("site %d: got %v, want one line", i, s.Range)
		}
		got = append(got, fmt.Sprintf("%d %s", s.Range.Start.Line, line[s.Range.Start.Column-1:s.Range.End.Column-1]))
	}
	want := []string{"6 x := 3.0", "7 for i := range 3 ", "8 if x > 1 ", "9 x += float64(i)", "11 x--", "14 return x"}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got %q, want %q", got, want)
	}
}

// parse reads a notebook that has no mistake in its Markdown.
func parse(t *testing.T, file string, src []byte) *document.Notebook {
	t.Helper()
	nb, diags := document.Parse(file, src)
	for _, d := range diags {
		t.Fatalf("%s", d.Format(src, false))
	}
	return nb
}

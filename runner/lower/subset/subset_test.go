package subset

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"
	"tautline/runner/check"
	"tautline/runner/document"
)

// TestRefusals reads cells that are right but for what they may not use: each
// diagnostic stands where a comment `// want "text"` says. A line --- ends a
// cell.
func TestRefusals(t *testing.T) {
	files, err := filepath.Glob("testdata/refuse/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("testdata/refuse: got %d files, %v, want some", len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range txtar.Parse(text).Files {
			cells := strings.Split(strings.Trim(string(f.Data), "\n"), "\n---\n")
			source := "---\ntitle: test\n---\n\n```go\n" + strings.Join(cells, "\n```\n\n```go\n") + "\n```\n"
			name := filepath.Base(file) + ": " + f.Name
			nb, diags := document.Parse(name, []byte(source))
			plan, more := check.Check(nb)
			for _, d := range append(diags, more...) {
				if d.Severity == document.Error {
					t.Errorf("unexpected:\n%s", d.Format([]byte(source), false))
				}
			}
			var got []string
			for _, d := range Check(plan.Tree) {
				got = append(got, fmt.Sprintf("%d: %s", d.Range.Start.Line, d.Message))
			}
			if want := wanted(source); !slices.Equal(got, want) {
				t.Errorf("%s\ngot:\n%s\nwant:\n%s\n%s", name, strings.Join(got, "\n"), strings.Join(want, "\n"), source)
			}
		}
	}
}

var want = regexp.MustCompile(`// want "(.*)"$`)

// wanted lists the expected texts as "line: text".
func wanted(source string) (list []string) {
	for i, line := range strings.Split(source, "\n") {
		if m := want.FindStringSubmatch(line); m != nil {
			list = append(list, fmt.Sprintf("%d: %s", i+1, m[1]))
		}
	}
	return list
}

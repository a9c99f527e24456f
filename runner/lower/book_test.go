package lower_test

import (
	"encoding/json"
	"fmt"
	"go/types"
	"os"
	"regexp"
	"strings"
	"testing"

	"tautline/runner/check"
	"tautline/runner/document"
	"tautline/runner/engine"
	"tautline/runner/lower"
)

func TestMain(m *testing.M) {
	engine.Main()
	os.Exit(m.Run())
}

// A book is a notebook under test, read, checked and lowered.
type book struct {
	name    string
	source  string // Markdown
	plan    *check.Plan
	program *lower.Program // nil when an error was found
	diags   []document.Diagnostic
}

// notebook writes cells as a notebook. A line --- ends a cell.
func notebook(cells string) string {
	var b strings.Builder
	b.WriteString("---\ntitle: test\n---\n")
	for cell := range strings.SplitSeq(cells, "\n---\n") {
		fmt.Fprintf(&b, "\n```go\n%s\n```\n", strings.Trim(cell, "\n"))
	}
	return b.String()
}

// read takes a notebook as far as it goes.
func read(name, source string) *book {
	b := &book{name: name, source: source}
	nb, diags := document.Parse(name, []byte(source))
	b.diags = diags
	if nb == nil || len(errorsIn(diags)) > 0 {
		return b
	}
	b.plan, diags = check.Check(nb)
	if b.diags = append(b.diags, diags...); len(errorsIn(diags)) > 0 {
		return b
	}
	b.program, diags = lower.Lower(b.plan)
	b.diags = append(b.diags, diags...)
	return b
}

// errorsIn leaves warnings out.
func errorsIn(diags []document.Diagnostic) (list []document.Diagnostic) {
	for _, d := range diags {
		if d.Severity == document.Error {
			list = append(list, d)
		}
	}
	return list
}

// mustRead reads a notebook that has no errors.
func mustRead(t *testing.T, name, source string) *book {
	t.Helper()
	b := read(name, source)
	for _, d := range errorsIn(b.diags) {
		t.Errorf("%s", d.Format([]byte(source), false))
	}
	if b.program == nil {
		t.Fatalf("%s: not lowered", name)
	}
	return b
}

var site = regexp.MustCompile(`"Site":\d+`)

// interpreted runs a notebook in a worker and writes its values and entries as
// an exported program prints them.
func (b *book) interpreted(t *testing.T) string {
	t.Helper()
	out, err := engine.Run(t.Context(), b.program, engine.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	for _, f := range out.Faults {
		text.WriteString(f.Format([]byte(b.source), false))
	}
	for _, c := range b.plan.Cells {
		for _, n := range c.Names {
			if _, ok := n.Object.(*types.Var); !ok {
				continue
			}
			if v, ok := out.Values[n.Ident]; ok {
				fmt.Fprintln(&text, n.Ident, "=", v)
			} else {
				fmt.Fprintln(&text, n.Ident, "has no value")
			}
		}
	}
	for _, e := range out.Entries {
		line, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintln(&text, site.ReplaceAllString(string(line), `"Site":0`)) // a compiled program has none
	}
	return text.String()
}

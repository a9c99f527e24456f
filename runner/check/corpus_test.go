package check

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tautline/runner/document"
	"tautline/runner/library"
)

// The corpus is notebooks that say, in comments, what the checker must find in
// them. A comment holds one expectation or several:
//
//	T := p + r // want [p + r] "cannot add p (pressure) and r (length)"
//
// The text in brackets is the range of the diagnostic in its line; [] is an
// empty range or one that goes on to another line, without brackets only the
// line counts. After the message may stand
//
//	hint "…"     the whole hint, its lines joined by " / "
//	note-3 "…"   a note that points three lines further up
//
// want+1 and want-1 speak of the line below and above. A notebook in
// testdata/right has no diagnostics; there a comment names what its line sets:
//
//	T := p*r // is force per length
//	E := sheet.Given(20*units.J, 0, 0) // is units.Energy
//
// which is the name of a dimension, an alias of package units, or unknown.

// An expectation is one diagnostic that a notebook must give.
type expectation struct {
	line    int
	part    string // "[…]", or "" for any range of the line
	message string
	hint    string
	notes   []string // "line message"
}

const (
	quoted = `"(?:[^"\\]|\\.)*"`
	want   = `want([+-]\d+)? (\[.*?\] )?(` + quoted + `)(?: hint (` + quoted + `))?((?: note[+-]?\d* ` + quoted + `)*)`
)

var (
	wantPattern  = regexp.MustCompile(want)
	wantsPattern = regexp.MustCompile(`^` + want + `(?:, ` + want + `)*$`)
	notePattern  = regexp.MustCompile(`note([+-]?\d*) (` + quoted + `)`)
)

// expectations reads the comments of a notebook.
func expectations(t *testing.T, src string) []expectation {
	t.Helper()
	unquote := func(s string) string {
		text, err := strconv.Unquote(s)
		if err != nil {
			t.Fatalf("expectation %s: %v", s, err)
		}
		return text
	}
	var all []expectation
	for i, line := range strings.Split(src, "\n") {
		_, comment, ok := strings.Cut(line, "// want")
		if !ok {
			continue
		}
		comment = "want" + comment
		if !wantsPattern.MatchString(comment) {
			t.Fatalf("line %d: cannot read the expectation %s", i+1, comment)
		}
		for _, m := range wantPattern.FindAllStringSubmatch(comment, -1) {
			offset, _ := strconv.Atoi(m[1])
			e := expectation{line: i + 1 + offset, part: strings.TrimSpace(m[2]), message: unquote(m[3])}
			if m[4] != "" {
				e.hint = strings.ReplaceAll(unquote(m[4]), "{packages}", packageNames())
			}
			for _, n := range notePattern.FindAllStringSubmatch(m[5], -1) {
				offset, _ := strconv.Atoi(n[1])
				e.notes = append(e.notes, fmt.Sprintf("%d %s", e.line+offset, unquote(n[2])))
			}
			all = append(all, e)
		}
	}
	return all
}

// packageNames lists what cells can import, as a hint does.
func packageNames() string {
	var names []string
	for _, pkg := range library.Packages() {
		names = append(names, pkg.Name)
	}
	return strings.Join(names, ", ")
}

// meets compares a diagnostic with an expectation; lines are those of the
// notebook.
func (e expectation) meets(d document.Diagnostic, lines []string) bool {
	if d.Range.Start.Line != e.line || d.Message != e.message {
		return false
	}
	if e.part != "" && "["+covered(d.Range, lines)+"]" != e.part {
		return false
	}
	if e.hint != "" && strings.ReplaceAll(d.Hint, "\n", " / ") != e.hint {
		return false
	}
	var notes []string
	for _, n := range d.Notes {
		notes = append(notes, fmt.Sprintf("%d %s", n.Range.Start.Line, n.Message))
	}
	return len(e.notes) == 0 || strings.Join(notes, "\n") == strings.Join(e.notes, "\n")
}

// covered is the source in a range of one line.
func covered(r document.Range, lines []string) string {
	if r.Start.Line < 1 || r.Start.Line > len(lines) || r.Start.Line != r.End.Line {
		return ""
	}
	line := lines[r.Start.Line-1]
	return line[min(r.Start.Column-1, len(line)):min(r.End.Column-1, len(line))]
}

// notebooks returns the files of a folder of testdata.
func notebooks(t testing.TB, folder string) []string {
	t.Helper()
	files, err := filepath.Glob("testdata/" + folder + "/*.md")
	if err != nil || len(files) == 0 {
		t.Fatalf("notebooks in testdata/%s: got %d, %v, want some", folder, len(files), err)
	}
	return files
}

// A failer is a test of package testing or rapid.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

// read parses a notebook that has no mistake in its Markdown.
func read(t failer, file string, src []byte) *document.Notebook {
	t.Helper()
	nb, diags := document.Parse(file, src)
	for _, d := range diags {
		t.Fatalf("%s", d.Format(src, false))
	}
	return nb
}

func TestWrong(t *testing.T) {
	for _, file := range notebooks(t, "wrong") {
		t.Run(filepath.Base(file), func(t *testing.T) {
			src, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			want := expectations(t, string(src))
			if len(want) == 0 {
				t.Fatal("no expectation in the notebook")
			}
			lines := strings.Split(string(src), "\n")
			_, got := Check(read(t, file, src))
			for _, d := range got {
				plainSpoken(t, d, string(src))
				met := -1
				for i, e := range want {
					if met < 0 && e.meets(d, lines) {
						met = i
					}
				}
				if met < 0 {
					t.Errorf("unexpected [%s]:\n%s", covered(d.Range, lines), d.Format(src, false))
					continue
				}
				want = append(want[:met], want[met+1:]...)
			}
			for _, e := range want {
				t.Errorf("%s:%d: missing: %s %q hint %q notes %q", file, e.line, e.part, e.message, e.hint, e.notes)
			}
		})
	}
}

// inner are words of the machinery that mean nothing to a reader.
var inner = regexp.MustCompile(`__(cell|temp)\d|cell\d+( declarations)?:|package main|main\.|tautline/|stdlib|\x00`)

// plainSpoken checks that a diagnostic says nothing of the machinery that does
// not stand in the notebook.
func plainSpoken(t testing.TB, d document.Diagnostic, src string) {
	t.Helper()
	texts := []string{d.Message, d.Hint}
	for _, n := range d.Notes {
		texts = append(texts, n.Message)
	}
	for _, text := range texts {
		if m := inner.FindString(text); m != "" && !strings.Contains(src, m) || strings.Contains(text, "\t") {
			t.Errorf("diagnostic speaks of the machinery: %q", text)
		}
	}
	if strings.Contains(d.Message, "\n") || d.Message == "" {
		t.Errorf("message: got %q, want one line", d.Message)
	}
}

// withoutUnused leaves out the advice on givens that nothing uses and on unknown
// dimensions.
func withoutUnused(diags []document.Diagnostic) []document.Diagnostic {
	return slices.DeleteFunc(diags, func(d document.Diagnostic) bool {
		return strings.HasSuffix(d.Message, "is given and never used") || strings.HasPrefix(d.Message, "the dimension of ")
	})
}

// onlyErrors leaves out all advice.
func onlyErrors(diags []document.Diagnostic) []document.Diagnostic {
	return slices.DeleteFunc(diags, func(d document.Diagnostic) bool { return d.Severity != document.Error })
}

func TestRight(t *testing.T) {
	for _, file := range notebooks(t, "right") {
		t.Run(filepath.Base(file), func(t *testing.T) {
			src, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			plan, diags := Check(read(t, file, src))
			diags = withoutUnused(diags) // a line there shows its kind, no more
			for _, d := range diags {
				t.Errorf("unexpected:\n%s", d.Format(src, false))
			}
			if len(diags) > 0 {
				return
			}
			lines := strings.Split(string(src), "\n")
			count := 0
			for i, line := range lines {
				if _, comment, ok := strings.Cut(line, "// is "); ok {
					count++
					plan.expectKinds(t, i+1, strings.Split(comment, ", "))
				}
			}
			if count == 0 {
				t.Error("no expectation in the notebook")
			}
		})
	}
}

// expectKinds compares the kinds of the names set on a line with want.
func (p *Plan) expectKinds(t *testing.T, line int, want []string) {
	t.Helper()
	var got []string
	for _, c := range p.Cells {
		for _, n := range c.Names {
			if n.Range.Start.Line != line {
				continue
			}
			m := p.ObjectMeasure(n.Object)
			kind := m.Dimension.Name()
			if i := len(got); i < len(want) && want[i] == "units."+m.Alias {
				kind = want[i]
			}
			if !m.Known {
				kind = "unknown"
			}
			got = append(got, kind)
		}
	}
	if strings.Join(got, ", ") != strings.Join(want, ", ") {
		t.Errorf("line %d: got %q, want %q", line, got, want)
	}
}

// source is a notebook of the given cells.
func source(cells ...string) string {
	return "---\ntitle: test\n---\n\n```go\n" + strings.Join(cells, "```\n\n```go\n") + "```\n"
}

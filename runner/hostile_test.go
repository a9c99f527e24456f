package runner_test

import (
	"bytes"
	"context"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"

	"tautline/render"
	"tautline/render/report"
	"tautline/runner"
	"tautline/runner/document"
	"tautline/runner/engine"
)

func TestMain(m *testing.M) {
	engine.Main()
	code := m.Run()
	lists, _ := filepath.Glob("/proc/self/task/*/children")
	for _, list := range lists {
		if text, _ := os.ReadFile(list); len(bytes.TrimSpace(text)) > 0 {
			fmt.Fprintf(os.Stderr, "processes left behind: %s\n", text)
			code = 1
		}
	}
	os.Exit(code)
}

// Hostile and broken notebooks each end as the errors that they want, at the
// line that says `// want: text` or anywhere, where the prose says `Want
// anywhere: text`, and as nothing else; or, where it says `Want nothing.`,
// without any.
func TestHostile(t *testing.T) {
	files, err := filepath.Glob("testdata/hostile/*.md")
	if err != nil || len(files) < 150 {
		t.Fatalf("hostile notebooks: got %d, want 150 or more: %v", len(files), err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			t.Parallel()
			source, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			wants := wantsOf(string(source))
			if len(wants) == 0 && !strings.Contains(string(source), "\nWant nothing.\n") {
				t.Fatal("the notebook wants nothing and does not say so")
			}
			survive(t, file, wants)
		})
	}
}

// A want is the text of an error at a line, 0 for any.
type want struct {
	line int
	text string
}

func wantsOf(source string) (wants []want) {
	for i, line := range strings.Split(source, "\n") {
		if _, text, ok := strings.Cut(line, "// want: "); ok {
			wants = append(wants, want{i + 1, text})
		}
		if text, ok := strings.CutPrefix(line, "Want anywhere: "); ok {
			wants = append(wants, want{0, text})
		}
	}
	return wants
}

// survive runs a hostile notebook: it ends as it wants to, what was computed
// before is kept, what is said of it and the report that is made of it are inert,
// and the next notebook runs.
func survive(t *testing.T, file string, wants []want) {
	t.Helper()
	limits := engine.Limits{}
	for _, w := range wants { // nobody wants to wait for the usual limits
		if strings.Contains(w.text, "did not end") {
			limits.Time = 300 * time.Millisecond
		}
		if strings.HasPrefix(w.text, "memory") {
			limits.Memory = 256 << 20
		}
		if strings.HasPrefix(w.text, "output") {
			limits.Output = 8 << 20
		}
	}
	res := runner.File(t.Context(), file, limits)
	if res.Err != nil {
		t.Fatal(res.Err)
	}
	compare(t, res, wants)
	if res.Outcome != nil {
		if v := res.Outcome.Values["before"]; v.Number != 1500 {
			t.Errorf("the value computed before: got %v, want 1500", v)
		}
		if _, ok := res.Outcome.Values["after"]; ok && len(wants) > 0 {
			t.Error("the cell after the fault ran")
		}
	}
	if res.Plan != nil {
		var page bytes.Buffer
		if err := render.HTML(&page, render.Assemble(res.Plan, res.Outcome, res.Findings, report.Identity{})); err != nil {
			t.Errorf("report: %v", err)
		}
		inert(t, page.String())
	}
	next(t)
}

// compare checks the errors of a notebook against those that it wants.
func compare(t *testing.T, res *runner.Result, wants []want) {
	t.Helper()
	for _, d := range res.Diagnostics() {
		text := d.Format(res.Source, false)
		if i := strings.IndexFunc(text, func(c rune) bool { return c != '\n' && unicode.In(c, unicode.Cc, unicode.Bidi_Control) }); i >= 0 {
			t.Errorf("what the terminal gets holds %q", text[i:min(i+4, len(text))])
		}
		if d.Severity != document.Error {
			continue
		}
		i := slices.IndexFunc(wants, func(w want) bool {
			return (w.line == 0 || w.line == d.Range.Start.Line) && strings.Contains(d.Message, w.text)
		})
		if i < 0 {
			t.Errorf("unexpected: %.2000s", text)
			continue
		}
		wants = slices.Delete(slices.Clone(wants), i, i+1)
	}
	for _, w := range wants {
		t.Errorf("line %d: no error with %q", w.line, w.text)
	}
}

// next runs a notebook that harms nobody.
func next(t *testing.T) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "next.md")
	if err := os.WriteFile(file, []byte("---\ntitle: T\n---\n\n```go\np := 1.5 * units.KPa\nq := 2 * p\nsheet.AtMost(\"p\", p, q)\n```\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	res := runner.File(context.Background(), file, engine.Limits{})
	if !res.Ran() || res.Outcome.Values["q"].Number != 3000 {
		t.Errorf("the next notebook: got %+v, %v, want it to run", res.Diagnostics(), res.Err)
	}
}

var (
	// active are elements that do something, load something or change what
	// addresses mean.
	active = strings.Fields("script iframe frame object embed applet base link form input button img image video audio source foreignobject animate animatemotion animatetransform set use noscript template portal")
	// leads are the attributes that lead somewhere.
	leads = strings.Fields("href src action formaction data poster cite background ping srcset")
	safe  = regexp.MustCompile(`^(#|https?://|mailto:)`)
)

// inert checks that a page is well formed and does nothing by itself: no script,
// no handler, no address but of the usual kinds, no style but its own, and no
// character that is not what it looks like.
func inert(t *testing.T, page string) {
	t.Helper()
	if i := strings.IndexFunc(page, func(c rune) bool {
		return c != '\n' && c != '\t' && unicode.IsControl(c) || 0x202a <= c && c <= 0x202e || 0x2066 <= c && c <= 0x2069
	}); i >= 0 {
		t.Errorf("the page holds %q", page[max(0, i-20):i+4])
	}
	d := xml.NewDecoder(strings.NewReader(page))
	d.Entity = xml.HTMLEntity
	styles := 0
	for style := false; ; {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Errorf("the page is not well formed: %v", err)
			return
		}
		switch token := token.(type) {
		case xml.StartElement:
			name := token.Name.Local
			if slices.Contains(active, strings.ToLower(name)) {
				t.Errorf("the page has an element %s", name)
			}
			if style = strings.EqualFold(name, "style"); style {
				styles++
			}
			for _, a := range token.Attr {
				attribute := strings.ToLower(a.Name.Local)
				switch {
				case strings.HasPrefix(attribute, "on"), attribute == "srcdoc", attribute == "http-equiv":
					t.Errorf("the page has %s %s=%q", name, attribute, a.Value)
				case slices.Contains(leads, attribute) && !safe.MatchString(a.Value):
					t.Errorf("the page leads to %s=%q", attribute, a.Value)
				case strings.Contains(strings.ToLower(a.Value), "javascript:") && attribute != "aria-label" && attribute != "alttext":
					t.Errorf("the page has %s=%q", attribute, a.Value)
				}
			}
		case xml.CharData:
			if text := string(token); style && (strings.Contains(text, "url(") || strings.Contains(text, "@import")) {
				t.Errorf("a style of the page has %.200q", text)
			}
		case xml.EndElement:
			style = false
		case xml.Comment:
			t.Errorf("the page has a comment %.200q", token)
		}
	}
	if styles > 2 {
		t.Errorf("the page has %d styles, want its own 2", styles)
	}
}

// Hostile notebooks leave nothing running in the runner.
func TestHostileLeavesNothing(t *testing.T) {
	before := runtime.NumGoroutine()
	for _, name := range []string{"loop", "memory", "recursion", "output", "panic"} {
		runner.File(t.Context(), filepath.Join("testdata", "hostile", name+".md"), engine.Limits{Time: 100 * time.Millisecond, Memory: 128 << 20})
	}
	for deadline := time.Now().Add(5 * time.Second); runtime.NumGoroutine() > before; time.Sleep(10 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatalf("goroutines: got %d, want %d as before", runtime.NumGoroutine(), before)
		}
	}
}

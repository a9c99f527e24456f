package check

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"tautline/runner/document"
)

// FuzzCheck: whatever stands in the cells, the checker does not panic, finds
// the same twice, points into the notebook and says nothing of the machinery.
func FuzzCheck(f *testing.F) {
	for _, folder := range []string{"wrong", "right"} {
		for _, file := range notebooks(f, folder) {
			src, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			nb, _ := document.Parse(file, src)
			var texts []string
			for _, c := range nb.Cells() {
				texts = append(texts, c.Text)
			}
			f.Add(strings.Join(texts, cellMark), uint(0))
			for _, text := range texts {
				f.Add(text, uint(len(text)/2))
			}
		}
	}
	f.Fuzz(func(t *testing.T, text string, cut uint) {
		if len(text) > 1<<14 {
			t.Skip()
		}
		if n := uint(len(text)); cut > 0 && cut < n { // what comes after a cut is another cell
			text = text[:cut] + "\n" + cellMark + text[cut:]
		}
		src := []byte(source(strings.Split(text+"\n", cellMark)...))
		nb, _ := document.Parse("fuzz.md", src)
		if nb == nil {
			t.Skip()
		}
		plan, diags := Check(nb)
		lines := strings.Split(string(nb.Source), "\n")
		for _, d := range diags {
			within(t, d, d.Range, lines)
			for _, n := range d.Notes {
				within(t, d, n.Range, lines)
			}
			plainSpoken(t, d, string(src))
			d.Format(src, false)
		}
		for _, n := range plan.Names {
			if n.Object != nil {
				plan.ObjectMeasure(n.Object)
			}
		}
		for _, c := range plan.Cells {
			for _, s := range c.Steps {
				within(t, document.Diagnostic{Message: s.Text}, s.Range, lines)
			}
		}
		if _, again := Check(nb); fmt.Sprint(again) != fmt.Sprint(diags) {
			t.Errorf("checked twice:\n%v\n%v", diags, again)
		}
	})
}

// cellMark parts the cells in a fuzzed text.
const cellMark = "//---\n"

// within checks that a range lies in the notebook; one that is all zero is that
// of the whole file.
func within(t *testing.T, d document.Diagnostic, r document.Range, lines []string) {
	t.Helper()
	if r == (document.Range{}) && strings.HasPrefix(d.Message, "no cells") {
		return
	}
	for _, p := range []document.Position{r.Start, r.End} {
		if p.Line < 1 || p.Line > len(lines) || p.Column < 1 || p.Column > len(lines[p.Line-1])+1 {
			t.Errorf("%q: position %v lies outside the notebook", d.Message, p)
		}
	}
	if r.End.Compare(r.Start) < 0 {
		t.Errorf("%q: range %v ends before it starts", d.Message, r)
	}
}

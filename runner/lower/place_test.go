package lower_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tautline/runner/document"
	"tautline/runner/engine"
)

// TestFaults runs programs that end early: the fault stands where the comment
// `// fault "text"` says.
func TestFaults(t *testing.T) {
	for _, p := range corpus(t, "fault") {
		b := mustRead(t, p.name, p.source)
		out, err := engine.Run(t.Context(), b.program, engine.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		compare(t, b, out.Faults, comments(p.source, "fault"))
	}
}

// comments lists the expected texts as "line: text".
func comments(source, word string) (list []string) {
	find := regexp.MustCompile(`// ` + word + ` "(.*)"$`)
	for i, line := range strings.Split(source, "\n") {
		if m := find.FindStringSubmatch(line); m != nil {
			list = append(list, fmt.Sprintf("%d: %s", i+1, m[1]))
		}
	}
	return list
}

func compare(t *testing.T, b *book, diags []document.Diagnostic, want []string) {
	t.Helper()
	var got []string
	for _, d := range errorsIn(diags) {
		got = append(got, fmt.Sprintf("%d: %s", d.Range.Start.Line, d.Message))
	}
	if !slices.Equal(got, want) {
		t.Errorf("%s\ngot:\n%s\nwant:\n%s\n%s", b.name, strings.Join(got, "\n"), strings.Join(want, "\n"), b.source)
	}
}

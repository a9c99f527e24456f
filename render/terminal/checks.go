package terminal

import (
	"fmt"
	"io"

	"tautline/render/report"
)

// Checks prints one line a check and one for the notebook.
func Checks(w io.Writer, file string, r *report.Report) {
	for _, c := range r.Checks {
		word := "holds"
		if !c.Holds {
			word = "FAILS"
		}
		fmt.Fprintf(w, "%s:%d: %s %6s  %s\n", file, c.Line, word, Share(c.Utilisation), Describe(c))
	}
	for _, t := range r.Trials {
		fmt.Fprintf(w, "%s:%d: trial %s: %s, predicted %s\n", file, t.Line, t.What, PlainSpaces(t.Standing()), PlainSpaces(t.Foretold()))
	}
	fmt.Fprintf(w, "%s: %s\n", file, r.Verdict.Whole())
}

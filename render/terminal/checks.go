package terminal

import (
	"fmt"
	"io"

	"tautline/render/report"
)

// Checks prints one line a check and one for the notebook.
func Checks(w io.Writer, file string, r *report.Report) {
	for _, c := range r.Checks {
		check(w, file, c)
	}
	for _, t := range r.Trials {
		fmt.Fprintf(w, "%s:%d: trial %s: %s, predicted %s\n", file, t.Line, t.What, PlainSpaces(t.Standing()), PlainSpaces(t.Foretold()))
	}
	fmt.Fprintf(w, "%s: %s\n", file, r.Verdict.Whole())
}

// Fails prints one line for each check that fails.
func Fails(w io.Writer, file string, r *report.Report) {
	for _, c := range r.Checks {
		if !c.Holds {
			check(w, file, c)
		}
	}
}

func check(w io.Writer, file string, c *report.Check) {
	word := "holds"
	if !c.Holds {
		word = "FAILS"
	}
	fmt.Fprintf(w, "%s:%d: %s %6s  %s\n", file, c.Line, word, Share(c.Utilisation), Describe(c))
}

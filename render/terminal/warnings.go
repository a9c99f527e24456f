package terminal

import (
	"fmt"
	"io"

	"tautline/render/report"
)

// Warnings prints what the library said of its results, a line each at its place.
func Warnings(w io.Writer, file string, r *report.Report) {
	for _, said := range r.Warnings {
		fmt.Fprintf(w, "%s:%d: warning: %s: %s\n", file, said.Line, said.Name, PlainSpaces(Inert(said.Text)))
	}
}

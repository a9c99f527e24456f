package terminal

import (
	"fmt"
	"io"
	"strings"

	"tautline/render/comparison"
)

// Comparison says in what two states differ, the checks that crossed first.
func Comparison(w io.Writer, c *comparison.Comparison) {
	fmt.Fprintf(w, "earlier: %s\nlater:   %s\n", c.Was, c.Now)
	for _, cause := range c.Causes {
		fmt.Fprintf(w, "  %s\n", cause)
	}
	for _, g := range c.Groups {
		fmt.Fprintf(w, "%s\n", strings.ToLower(g.Name))
		for _, row := range g.Rows {
			line := row.What
			if row.Was != "" || row.Now != "" {
				line += ": " + row.Now + ", was " + row.Was
			}
			if row.Share != "" {
				line += ", " + row.Share
			}
			if row.Crossed {
				line = "CROSSED " + line
			}
			if row.Why != "" {
				line += " (" + row.Why + ")"
			}
			fmt.Fprintf(w, "  line %d: %s\n", row.Line, line)
		}
	}
	fmt.Fprintln(w, c.Sentence())
}

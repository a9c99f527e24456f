package page

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"tautline/render/report"
)

// bar draws the utilisation of a check: a scale that ends at 115 %, with a post at 100 %.
// What is over the post is hatched, so that it stands out without colour.
func bar(c *report.Check) template.HTML {
	if math.IsNaN(c.Utilisation) {
		return `<span class="bar"></span>`
	}
	const full = 80.0
	length := full * min(max(c.Utilisation, 0), 1.15)
	var b strings.Builder
	b.WriteString(`<svg class="bar" viewBox="0 0 92 12" aria-hidden="true" focusable="false"><path class="rail" d="M0 6H80"/>`)
	fmt.Fprintf(&b, `<path class="fill" d="M0 3H%.1fV9H0Z"/>`, min(length, full))
	if !c.Holds {
		over := max(length, full+6)
		fmt.Fprintf(&b, `<path class="over" d="M81.5 2H%.1fV10H81.5Z"/>`, over)
		for x := 84.0; x < over; x += 3.5 {
			fmt.Fprintf(&b, `<path class="hatch" d="M%.1f 10L%.1f 2"/>`, x-2, x+1)
		}
	}
	b.WriteString(`<path class="post" d="M80.5 0V12"/></svg>`)
	return template.HTML(b.String())
}

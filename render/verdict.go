package render

import (
	"fmt"
	"html/template"
	"math"
	"strconv"
	"strings"
)

// Sentence is the verdict in words: "All 9 checks hold."
func (v Verdict) Sentence() string {
	switch v.Kind {
	case AllHold:
		if v.Hold == 1 {
			return "The one check holds."
		}
		return fmt.Sprintf("All %d checks hold.", v.Hold)
	case SomeFail:
		if total := v.Hold + v.Fail; total == 1 {
			return "The one check fails."
		}
		return fmt.Sprintf("%d of %d checks %s.", v.Fail, v.Hold+v.Fail, verb(v.Fail, "fail"))
	case NotDone:
		s := "No verdict: the run did not finish"
		if v.Faults > 0 {
			s += fmt.Sprintf(", with %d %s", v.Faults, plural(v.Faults, "fault"))
		}
		if v.Hold+v.Fail > 0 {
			s += fmt.Sprintf(". Before it ended %d %s held and %d failed", v.Hold, plural(v.Hold, "check"), v.Fail)
		}
		return s + "."
	case NotRun:
		return fmt.Sprintf("No verdict: not run, %d %s found.", v.Faults, plural(v.Faults, "error"))
	case NoChecks:
		return "No verdict: nothing was checked."
	}
	return fmt.Sprintf("No verdict: unknown kind %d.", v.Kind)
}

// Whole is the verdict with how the trials stand.
func (v Verdict) Whole() string { return strings.TrimSpace(v.Sentence() + " " + v.Tried()) }

// Tried says how the trials stand; empty where there is none, or no run whose
// predictions count.
func (v Verdict) Tried() string {
	if v.Kind == NotDone || v.Kind == NotRun {
		return ""
	}
	return v.Trials.Sentence()
}

// Lead is the word before the governing check.
func (v Verdict) Lead() string {
	if v.Governing != nil && !v.Governing.Holds {
		return "Worst"
	}
	return "Governing"
}

// Good reports whether the run came to its end and nothing that was checked or
// measured fails.
func (v Verdict) Good() bool {
	return (v.Kind == AllHold || v.Kind == NoChecks) && v.Trials.Outside == 0
}

// Class names the look of the verdict.
func (v Verdict) Class() string {
	if v.Trials.Outside > 0 {
		return "fails"
	}
	switch v.Kind {
	case AllHold:
		return "holds"
	case SomeFail, NotDone, NotRun:
		return "fails"
	}
	return "open"
}

func verb(n int, s string) string {
	if n == 1 {
		return s + "s"
	}
	return s
}

func plural(n int, s string) string {
	if n == 1 {
		return s
	}
	return s + "s"
}

// Word is the outcome of the check in one word.
func (c *Check) Word() string {
	if c.Holds {
		return "holds"
	}
	return "FAILS"
}

// Percent is the utilisation, such as "87 %"; empty when there is none. A check
// that fails never reads as 100 %.
func (c *Check) Percent() string {
	u := 100 * c.Utilisation
	switch {
	case math.IsNaN(u):
		return ""
	case math.IsInf(u, 0) || u >= 1e5:
		return "no capacity"
	case !c.Holds && u < 100.05:
		return "over 100\u202f%"
	case !c.Holds && u < 100.5:
		return strconv.FormatFloat(u, 'f', 1, 64) + "\u202f%"
	}
	return strconv.FormatFloat(u, 'f', 0, 64) + "\u202f%"
}

// Bar draws the utilisation: a scale that ends at 115 %, with a post at 100 %.
// What is over the post is hatched, so that it stands out without colour.
func (c *Check) Bar() template.HTML {
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

// Allowed is what the rule asks for: "at most 21 kN/m".
func (c *Check) Allowed() string {
	if len(c.Capacity) == 0 {
		return "must hold"
	}
	words := make([]string, len(c.Capacity))
	for i, q := range c.Capacity {
		words[i] = q.String()
	}
	return c.Rule + " " + strings.Join(words, " to ")
}

// String is the number and its unit, kept on one line.
func (q Quantity) String() string {
	if q.Unit == "" || q.Unit == "°" { // degrees follow the number at once, as ISO 80000-1 has it
		return q.Number + q.Unit
	}
	return q.Number + "\u00a0" + q.Unit
}

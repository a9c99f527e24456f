package report

import (
	"fmt"
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
		return fmt.Sprintf("%d of %d checks %s.", v.Fail, v.Hold+v.Fail, Verb(v.Fail, "fail"))
	case NotDone:
		s := "No verdict: the run did not finish"
		if v.Faults > 0 {
			s += fmt.Sprintf(", with %d %s", v.Faults, Plural(v.Faults, "fault"))
		}
		if v.Hold+v.Fail > 0 {
			s += fmt.Sprintf(". Before it ended %d %s held and %d failed", v.Hold, Plural(v.Hold, "check"), v.Fail)
		}
		return s + "."
	case NotRun:
		return fmt.Sprintf("No verdict: not run, %d %s found.", v.Faults, Plural(v.Faults, "error"))
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

// Governs reports whether c is closer to failing, or fails by more, than d.
func Governs(c, d *Check) bool {
	if c.Holds != d.Holds {
		return !c.Holds
	}
	share := func(c *Check) float64 {
		if math.IsNaN(c.Utilisation) {
			return -1
		}
		return c.Utilisation
	}
	return share(c) > share(d)
}

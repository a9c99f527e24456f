// Package terminal prints what a report says on a terminal, in plain spaces that
// can be searched for.
package terminal

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"tautline/render/report"
)

// Share is a utilisation in percent; empty when there is none.
func Share(u float64) string {
	switch {
	case math.IsNaN(u):
		return ""
	case math.IsInf(u, 0):
		return "∞"
	}
	return fmt.Sprintf("%.0f %%", 100*u)
}

// Describe says a check in words: "long seam: 3.1 kN/m, at most 4.44 kN/m".
func Describe(c *report.Check) string {
	text := c.What
	if len(c.Capacity) > 0 {
		text += ": " + Say(c.Demand) + ", " + c.Rule + " "
		var ends []string
		for _, q := range c.Capacity {
			ends = append(ends, Say(q))
		}
		text += strings.Join(ends, " to ")
	}
	return text
}

// Say is a quantity for a terminal: with an ordinary space, which can be searched
// for.
func Say(q report.Quantity) string { return strings.ReplaceAll(q.String(), "\u00a0", " ") }

// PlainSpaces makes a text that can be searched for on a terminal.
func PlainSpaces(s string) string {
	return strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(s)
}

// Inert is text of which a terminal shows every character.
func Inert(text string) string {
	return strings.Map(func(r rune) rune {
		if r != '\n' && unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) {
			return unicode.ReplacementChar
		}
		return r
	}, text)
}

// Package lettering is what all pictures of a report share: their two sizes, the
// inks that are variables of the page, and how words and numbers are fitted in.
package lettering

import (
	"sort"
	"strings"
	"unicode"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// OneLine makes a text safe for one line of a drawing.
func OneLine(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
	return strings.Join(strings.Fields(s), " ")
}

// Wrap breaks text at its spaces into at most three lines.
func Wrap(style draw.TextStyle, text string, width vg.Length) []string {
	var lines []string
	for _, word := range strings.Fields(text) {
		if n := len(lines); n > 0 && (n == 3 || style.Width(lines[n-1]+" "+word) <= width) {
			lines[n-1] += " " + word
		} else {
			lines = append(lines, word)
		}
	}
	for i := range lines {
		lines[i] = Fit(style, lines[i], width)
	}
	return lines
}

// Fit cuts text down to width.
func Fit(style draw.TextStyle, text string, width vg.Length) string {
	if style.Width(text) <= width {
		return text
	}
	runes := []rune(text)
	n := sort.Search(len(runes), func(n int) bool { return style.Width(string(runes[:n])+"…") > width })
	return strings.TrimRight(string(runes[:max(0, n-1)]), " ") + "…"
}

// Named names what is measured in a unit: "bed pressure in kPa". What has no
// label is named otherwise.
func Named(label, unit, otherwise string) string {
	label = OneLine(label)
	if label == "" {
		label = otherwise
	}
	if unit != "" {
		label += " in " + OneLine(unit)
	}
	return label
}

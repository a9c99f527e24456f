package mathml

import (
	"html"
	"strings"
	"unicode"
	"unicode/utf8"
)

const (
	minus     = "−"      // U+2212
	dot       = "⋅"      // U+22C5, between factors
	apply     = "\u2061" // function application, invisible
	hardSpace = "\u00a0"
	thinSpace = "\u202f" // narrow, no break

	space = `<mspace width="0.25em"></mspace>`
)

// Math wraps inner, a result of this package, as a formula that may stand in a
// page: in a line of its own when display is true, else within the text. The
// plain text alt stands in for it where MathML is not shown.
func Math(inner string, display bool, alt string) string {
	tag := "math"
	if display {
		tag += ` display="block"`
	}
	if alt != "" {
		tag += ` alttext="` + escape(alt) + `"`
	}
	return el(tag, inner)
}

// Row sets parts, results of this package, side by side.
func Row(parts ...string) string { return el("mrow", parts...) }

// Text is plain upright text, its spaces kept.
func Text(s string) string {
	return el("mtext", escape(strings.ReplaceAll(s, " ", hardSpace)))
}

// Operator is an infix operator or relation such as =, ≤ or →.
func Operator(op string) string { return el(`mo form="infix"`, escape(op)) }

// Steps sets the steps of a calculation under each other, the equals signs in
// line: left = right[0], below it = right[1], and so on.
func Steps(left string, right ...string) string {
	var rows []string
	for _, r := range right {
		rows = append(rows, el("mtr",
			el(cellRight, left), el(cellEquals, Operator("=")), el(cellLeft, r)))
		left = ""
	}
	return el(`mtable displaystyle="true"`, rows...)
}

// times is the dot between factors.
var times = el(`mo form="infix" lspace="0.18em" rspace="0.18em"`, dot)

// Cells of a table by where their content stands. MathML Core leaves this to
// the stylesheet of the page.
const (
	cellLeft   = `mtd class="left"`
	cellRight  = `mtd class="right"`
	cellEquals = `mtd class="equals"`
)

// el is an element; tag may hold attributes.
func el(tag string, content ...string) string {
	name, _, _ := strings.Cut(tag, " ")
	return "<" + tag + ">" + strings.Join(content, "") + "</" + name + ">"
}

// italic is an identifier: slanted when it is one letter, upright when it is a
// word or a capital Greek letter.
func italic(s string) string {
	if strings.Contains(greekCapitals, s) {
		return upright(s)
	}
	return el("mi", escape(s))
}

// upright is an identifier in upright letters.
func upright(s string) string {
	if utf8.RuneCountInString(s) == 1 {
		return el(`mi mathvariant="normal"`, escape(s))
	}
	return el("mi", escape(s))
}

// fence sets inner between two fences, which grow only with what is taller than
// a line.
func fence(open, inner, close string) string {
	stretchy := ` stretchy="false"`
	for _, tall := range []string{"<mfrac", "<msqrt", "<mroot", "<mtable"} {
		if strings.Contains(inner, tall) {
			stretchy = ""
		}
	}
	return el("mrow",
		el(`mo form="prefix"`+stretchy, escape(open)), inner,
		el(`mo form="postfix"`+stretchy, escape(close)))
}

// escape makes s safe as text and within a quoted attribute. What XML cannot
// hold, and marks that would reverse the order of reading, become U+FFFD.
func escape(s string) string {
	return html.EscapeString(strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r':
			return ' '
		case r < ' ' || r == 0xFFFE || r == 0xFFFF || unicode.Is(unicode.Bidi_Control, r):
			return unicode.ReplacementChar
		}
		return r
	}, s))
}

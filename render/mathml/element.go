package mathml

import (
	"html"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Signs that formulas are set with.
const (
	Minus     = "−"      // U+2212
	Dot       = "⋅"      // U+22C5, between factors
	Apply     = "\u2061" // function application, invisible
	hardSpace = "\u00a0"
	thinSpace = "\u202f" // narrow, no break

	Space = `<mspace width="0.25em"></mspace>`
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
		tag += ` alttext="` + Escape(alt) + `"`
	}
	return Element(tag, inner)
}

// Row sets parts, results of this package, side by side.
func Row(parts ...string) string { return Element("mrow", parts...) }

// Text is plain upright text, its spaces kept.
func Text(s string) string {
	return Element("mtext", Escape(strings.ReplaceAll(s, " ", hardSpace)))
}

// Operator is an infix operator or relation such as =, ≤ or →.
func Operator(op string) string { return Element(`mo form="infix"`, Escape(op)) }

// Steps sets the steps of a calculation under each other, the equals signs in
// line: left = right[0], below it = right[1], and so on.
func Steps(left string, right ...string) string {
	var rows []string
	for _, r := range right {
		rows = append(rows, Element("mtr",
			Element(CellRight, left), Element(cellEquals, Operator("=")), Element(CellLeft, r)))
		left = ""
	}
	return Element(`mtable displaystyle="true"`, rows...)
}

// times is the dot between factors.
var times = Element(`mo form="infix" lspace="0.18em" rspace="0.18em"`, Dot)

// Cells of a table by where their content stands. MathML Core leaves this to
// the stylesheet of the page.
const (
	CellLeft   = `mtd class="left"`
	CellRight  = `mtd class="right"`
	cellEquals = `mtd class="equals"`
)

// Element is an element; tag may hold attributes.
func Element(tag string, content ...string) string {
	name, _, _ := strings.Cut(tag, " ")
	return "<" + tag + ">" + strings.Join(content, "") + "</" + name + ">"
}

// Italic is an identifier: slanted when it is one letter, upright when it is a
// word or a capital Greek letter.
func Italic(s string) string {
	if strings.Contains(greekCapitals, s) {
		return Upright(s)
	}
	return Element("mi", Escape(s))
}

// Upright is an identifier in upright letters.
func Upright(s string) string {
	if utf8.RuneCountInString(s) == 1 {
		return Element(`mi mathvariant="normal"`, Escape(s))
	}
	return Element("mi", Escape(s))
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
	return Element("mrow",
		Element(`mo form="prefix"`+stretchy, Escape(open)), inner,
		Element(`mo form="postfix"`+stretchy, Escape(close)))
}

// Escape makes s safe as text and within a quoted attribute. What XML cannot
// hold, and marks that would reverse the order of reading, become U+FFFD.
func Escape(s string) string {
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

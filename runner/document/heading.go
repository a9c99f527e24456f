package document

import (
	"fmt"
	"strings"
	"unicode"
)

// headingID makes an ID of a heading's words: small letters and digits, the
// words joined by "-". One that is taken gets a number.
func (r *reader) headingID(text []Inline) string {
	const limit = 64
	var b strings.Builder
	gap := false
	for _, c := range strings.ToLower(PlainText(text)) {
		if !unicode.In(c, unicode.Letter, unicode.Number, unicode.Mark) {
			gap = b.Len() > 0
			continue
		}
		if b.Len() >= limit {
			break
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteRune(c)
	}
	base := b.String()
	if base == "" {
		base = "section"
	}
	id := base
	for n := max(2, r.copies[base]); r.ids[id]; n++ {
		id = fmt.Sprintf("%s-%d", base, n)
		r.copies[base] = n + 1
	}
	r.ids[id] = true
	return id
}

// PlainText returns the characters of running text without their form: a
// formula as its TeX, a picture as the words for it.
func PlainText(text []Inline) string {
	var b strings.Builder
	for _, n := range text {
		switch n := n.(type) {
		case Text:
			b.WriteString(string(n))
		case Emphasis:
			b.WriteString(PlainText(n))
		case Strong:
			b.WriteString(PlainText(n))
		case Strike:
			b.WriteString(PlainText(n))
		case CodeSpan:
			b.WriteString(string(n))
		case Link:
			b.WriteString(PlainText(n.Text))
		case Image:
			b.WriteString(n.Alt)
		case InlineMath:
			b.WriteString(string(n))
		case Break:
			b.WriteByte(' ')
		default:
			panic(fmt.Sprintf("document: PlainText: got %T, want an Inline of this package", n))
		}
	}
	return b.String()
}

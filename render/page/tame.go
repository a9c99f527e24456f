package page

import (
	"strings"
	"unicode/utf8"
)

// Tame replaces what no page should hold, whatever a cell made of it: control
// characters, which are no text, and the characters that turn the direction of
// what follows, with which 9.81 can look like 18.9.
func Tame(page string) string {
	if !anyWild(page) {
		return page
	}
	return strings.Map(func(c rune) rune {
		if wild(c) {
			return '\ufffd'
		}
		return c
	}, page)
}

// anyWild reports whether a page holds such a character. Nearly none does, and
// nearly all of a page is ASCII.
func anyWild(page string) bool {
	for i := 0; i < len(page); i++ {
		switch b := page[i]; {
		case ' ' <= b && b <= '~':
		case b < utf8.RuneSelf:
			if wild(rune(b)) {
				return true
			}
		default:
			c, n := utf8.DecodeRuneInString(page[i:])
			if wild(c) {
				return true
			}
			i += n - 1
		}
	}
	return false
}

// wild reports whether c is a control character or one of the embeddings,
// overrides and isolates of the bidirectional algorithm (UAX #9, 2).
func wild(c rune) bool {
	switch {
	case c == '\n', c == '\t':
		return false
	case c < 0x20, 0x7f <= c && c < 0xa0, 0x202a <= c && c <= 0x202e, 0x2066 <= c && c <= 0x2069:
		return true
	}
	return false
}

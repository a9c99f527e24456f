// Package formula finds the formulas in Markdown. Its parser knows none in this
// grammar, so displayed ones are read by its hook and inline ones are lifted out of
// the text before it sees them: TeX is full of characters that mean something in
// Markdown.
package formula

import (
	"bytes"
	"strconv"
	"strings"

	"tautline/runner/document/margin"
)

// Displayed reads a formula $$ … $$ at the start of data and returns it with
// its bytes. It may run over several lines, none of them blank, and nothing
// else stands on its first and last line.
func Displayed(data []byte) (tex string, size int) {
	line, _, _ := bytes.Cut(data, []byte("\n"))
	if margin.Indent(line) > 3 || !bytes.HasPrefix(bytes.TrimLeft(line, margin.White), []byte("$$")) {
		return "", 0
	}
	var b strings.Builder
	for size < len(data) {
		line, _, _ := bytes.Cut(data[size:], []byte("\n"))
		if margin.Blank(line) {
			return "", 0
		}
		text := bytes.Trim(line, margin.White)
		if size == 0 {
			text = text[2:]
		} else {
			b.WriteByte('\n')
		}
		size = min(size+len(line)+1, len(data))
		body, end := bytes.CutSuffix(text, []byte("$$"))
		b.Write(body)
		if end || bytes.Contains(body, []byte("$$")) {
			tex = strings.TrimSpace(b.String())
			if !end || tex == "" || strings.Contains(tex, "$$") || tex[0] == '$' {
				return "", 0
			}
			return tex, size
		}
	}
	return "", 0
}

// A Sealed part of running text is a code span or a formula, with its marks:
// nothing in it means anything in Markdown.
type Sealed struct {
	Start, End int
	Formula    bool
}

// SealedParts finds the code spans and formulas of a text, in one pass: the
// ends of code spans are looked up, and the next dollar says whether the one
// before it starts a formula. So prices stay prices: "$5 and $6" has a space
// before its second dollar.
func SealedParts(text []byte) []Sealed {
	var parts []Sealed
	ticks := tickRuns(text)
	open := -1 // where a formula may have started
	for i, n := 0, 1; i < len(text); i += n {
		n = 1
		switch text[i] {
		case '\\':
			n = 2
		case '`':
			n = run(text, i)
			if end := after(ticks, n, i); end >= 0 {
				parts = append(parts, Sealed{Start: i, End: end + n})
				n = end + n - i
				open = -1
			}
		case '$':
			n = run(text, i)
			switch {
			case open >= 0 && run(text, open) == n && closes(text, i, n):
				parts = append(parts, Sealed{open, i + n, true})
				open = -1
			case n <= 2 && i+n < len(text) && !isSpace(text[i+n]):
				open = i
			default:
				open = -1
			}
		}
	}
	return parts
}

// closes reports whether the n dollars at i can end a formula.
func closes(text []byte, i, n int) bool {
	return !isSpace(text[i-1]) && (i+n == len(text) || text[i+n] < '0' || text[i+n] > '9')
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' }

// run returns how often text[i] stands there in a row.
func run(text []byte, i int) int {
	n := 1
	for i+n < len(text) && text[i+n] == text[i] {
		n++
	}
	return n
}

// tickRuns returns the starts of the runs of backticks, by length.
func tickRuns(text []byte) map[int][]int {
	runs := map[int][]int{}
	for i := 0; i < len(text); i++ {
		if text[i] == '`' {
			n := run(text, i)
			runs[n] = append(runs[n], i)
			i += n - 1
		}
	}
	return runs
}

// after returns the first place past i in lists[n] and drops those before it;
// -1 if there is none.
func after(lists map[int][]int, n, i int) int {
	list := lists[n]
	for len(list) > 0 && list[0] <= i {
		list = list[1:]
	}
	lists[n] = list
	if len(list) == 0 {
		return -1
	}
	return list[0]
}

// isFormula reports whether a piece of text is a formula with its dollars.
func isFormula(piece string) bool {
	return piece != "" && piece[0] == '$' && strings.Trim(piece, "$") != ""
}

// stand is the character that stands for a lifted formula in the text, on both
// sides of its number. Unicode keeps it out of any text; one that is there all
// the same is lifted like a formula.
const (
	stand   = "\uffff"
	escaped = "%EF%BF%BF" // stand in the address of a link
)

// Lift takes the formulas out of text and returns them as they were written.
func Lift(text []byte) (rest []byte, lifted []string) {
	if !bytes.Contains(text, []byte("$")) && !bytes.Contains(text, []byte(stand)) {
		return text, nil
	}
	put := func(piece string) {
		rest = append(rest, stand+strconv.Itoa(len(lifted))+stand...)
		lifted = append(lifted, strings.ReplaceAll(piece, "\n", " "))
	}
	keep := func(piece []byte) {
		for i, part := range bytes.Split(piece, []byte(stand)) {
			if i > 0 {
				put(stand)
			}
			rest = append(rest, part...)
		}
	}
	done := 0
	for _, p := range SealedParts(text) {
		if p.Formula {
			keep(text[done:p.Start])
			put(string(text[p.Start:p.End]))
			done = p.End
		}
	}
	keep(text[done:])
	return rest, lifted
}

// Lower puts lifted formulas back as they were written.
func Lower(text string, lifted []string) string {
	if len(lifted) == 0 {
		return text
	}
	var b strings.Builder
	for i, part := range strings.Split(strings.ReplaceAll(text, escaped, stand), stand) {
		if i%2 == 1 {
			part = pick(part, lifted)
		}
		b.WriteString(part)
	}
	return b.String()
}

// Pieces calls f for each part of a text that formulas were lifted from: plain
// characters, or a formula without its dollars.
func Pieces(text string, lifted []string, f func(part string, isFormula bool)) {
	for i, part := range strings.Split(text, stand) {
		if i%2 == 1 {
			part = pick(part, lifted)
		}
		if i%2 == 1 && isFormula(part) {
			f(strings.Trim(part, "$"), true)
		} else {
			f(part, false)
		}
	}
}

// pick returns the lifted formula with the given number.
func pick(number string, lifted []string) string {
	if k, err := strconv.Atoi(number); err == nil && 0 <= k && k < len(lifted) {
		return lifted[k]
	}
	return number
}

package document

import (
	"bytes"
	"strconv"
	"strings"
)

// Formulas. The Markdown parser knows none in this grammar, so displayed ones
// are read by its hook and inline ones are lifted out of the text before it
// sees them: TeX is full of characters that mean something in Markdown.

// displayed reads a formula $$ … $$ at the start of data and returns it with
// its bytes. It may run over several lines, none of them blank, and nothing
// else stands on its first and last line.
func displayed(data []byte) (tex string, size int) {
	line, _, _ := bytes.Cut(data, []byte("\n"))
	if indentOf(line) > 3 || !bytes.HasPrefix(bytes.TrimLeft(line, white), []byte("$$")) {
		return "", 0
	}
	var b strings.Builder
	for size < len(data) {
		line, _, _ := bytes.Cut(data[size:], []byte("\n"))
		if blank(line) {
			return "", 0
		}
		text := bytes.Trim(line, white)
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

// A scanner cuts running text into code spans, formulas, escaped characters
// and what is between them. Ends are looked up, not searched for, so that a
// text full of lone marks takes no longer than another.
type scanner struct {
	text    []byte
	ticks   map[int][]int // starts of the runs of backticks, by length
	dollars map[int][]int // starts of the runs of dollars that can end a formula
}

func newScanner(text []byte) *scanner {
	s := &scanner{text: text, ticks: map[int][]int{}, dollars: map[int][]int{}}
	for i, n := 0, 1; i < len(text); i += n {
		n = run(text, i)
		switch text[i] {
		case '`':
			s.ticks[n] = append(s.ticks[n], i)
		case '$':
			if s.closes(i, n) {
				s.dollars[n] = append(s.dollars[n], i)
			}
		case '\\':
			n = min(2, len(text)-i)
			if n == 2 && text[i+1] == '`' { // may end a code span: no escapes there
				n = 1
			}
		default:
			n = 1
		}
	}
	return s
}

// run returns how often text[i] stands there in a row.
func run(text []byte, i int) int {
	n := 1
	for i+n < len(text) && text[i+n] == text[i] {
		n++
	}
	return n
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' }

// closes reports whether the n dollars at i can end a formula: no space before
// them and no digit after them, so that prices stay prices.
func (s *scanner) closes(i, n int) bool {
	return i > 0 && !isSpace(s.text[i-1]) &&
		(i+n == len(s.text) || s.text[i+n] < '0' || s.text[i+n] > '9')
}

// next returns the end of the piece that starts at i. It is asked in rising
// order.
func (s *scanner) next(i int) int {
	end := -1
	n := run(s.text, i)
	switch s.text[i] {
	case '`':
		end = after(s.ticks, n, i)
	case '$':
		if n <= 2 && i+n < len(s.text) && !isSpace(s.text[i+n]) {
			end = after(s.dollars, n, i)
		}
	case '\\':
		return min(i+2, len(s.text))
	default:
		return i + 1
	}
	if end < 0 {
		return i + n
	}
	return end + n
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

// lift takes the formulas out of text and returns them as they were written.
func lift(text []byte) (rest []byte, lifted []string) {
	if !bytes.Contains(text, []byte("$")) && !bytes.Contains(text, []byte(stand)) {
		return text, nil
	}
	put := func(piece string) {
		rest = append(rest, stand+strconv.Itoa(len(lifted))+stand...)
		lifted = append(lifted, piece)
	}
	s := newScanner(text)
	for i, end := 0, 0; i < len(text); i = end {
		end = s.next(i)
		if text[i] == stand[0] && bytes.HasPrefix(text[i:], []byte(stand)) {
			end = i + len(stand)
		}
		if piece := string(text[i:end]); piece == stand || isFormula(piece) {
			put(piece)
		} else {
			rest = append(rest, strings.ReplaceAll(piece, stand, "\ufffd")...)
		}
	}
	return rest, lifted
}

// lower puts lifted formulas back as they were written.
func lower(text string, lifted []string) string {
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

// pick returns the lifted formula with the given number.
func pick(number string, lifted []string) string {
	if k, err := strconv.Atoi(number); err == nil && 0 <= k && k < len(lifted) {
		return lifted[k]
	}
	return number
}

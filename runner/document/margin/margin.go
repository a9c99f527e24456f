// Package margin reads the marks that quotes and list items put before the lines
// they hold. These are the rules of CommonMark 0.31.2, sections 2.2 and 5, as the
// Markdown parser applies them, so that what is left of a line is what the parser
// saw.
package margin

import "bytes"

// White is the white space of a line.
const White = " \t"

// Blank reports whether a line has nothing on it.
func Blank(line []byte) bool { return len(bytes.TrimLeft(line, White)) == 0 }

// Widen turns the tabs among the marks at the start of a line into spaces. A
// tab runs to the next multiple of four columns of the source line; once marks
// are off, those columns would be lost.
func Widen(line []byte) []byte {
	if bytes.IndexByte(line, '\t') < 0 {
		return line
	}
	var wide []byte
	i := 0
	for n := prefixLen(line); i < n; i++ {
		if line[i] != '\t' {
			wide = append(wide, line[i])
			continue
		}
		for more := true; more; more = len(wide)%4 != 0 {
			wide = append(wide, ' ')
		}
	}
	return append(wide, line[i:]...)
}

// Narrow returns the offset in line of the byte at offset x of the widened
// line. A tab that x divides lies before it whole.
func Narrow(line []byte, x int) int {
	n := prefixLen(line)
	column := 0
	for i := range line {
		if column >= x {
			return i
		}
		if column++; line[i] == '\t' && i < n {
			column = (column + 3) / 4 * 4
		}
	}
	return len(line)
}

// prefixLen returns the length of the white space and marks at the start of line.
func prefixLen(line []byte) int {
	i := 0
	for i < len(line) {
		if n := numberLen(line[i:]); line[i] == ' ' || line[i] == '\t' || line[i] == '>' {
			i++
		} else if n > 0 && i+n < len(line) && (line[i+n] == ' ' || line[i+n] == '\t') {
			i += n
		} else {
			break
		}
	}
	return i
}

// numberLen returns the length of the list mark at the start of text: one of
// - + * or a number with . or ); 0 if there is none.
func numberLen(text []byte) int {
	i := 0
	for i < len(text) && i < 10 && '0' <= text[i] && text[i] <= '9' {
		i++
	}
	if i == len(text) || i > 9 {
		return 0
	}
	switch c := text[i]; {
	case i == 0 && (c == '-' || c == '+' || c == '*'), i > 0 && (c == '.' || c == ')'):
		return i + 1
	}
	return 0
}

// Indent returns the spaces at the start of a widened line.
func Indent(line []byte) int { return len(line) - len(bytes.TrimLeft(line, " ")) }

// Dedent takes up to width spaces off a widened line.
func Dedent(line []byte, width int) []byte { return line[min(width, Indent(line)):] }

// Quoted returns what a quote holds of a widened line. A line without the mark
// belongs to a quote as the lazy continuation of a paragraph.
func Quoted(line []byte) []byte {
	i := Indent(line)
	if i > 3 || i == len(line) || line[i] != '>' {
		return line
	}
	return Dedent(line[i+1:], 1)
}

// A Bullet is the mark at the start of a list item.
type Bullet struct {
	Width int    // columns up to the item's text
	Text  []byte // nil if the first line has none
}

// ItemStart reads a list mark at the start of a widened line.
func ItemStart(line []byte) (b Bullet, ok bool) {
	indent := Indent(line)
	if indent > 3 {
		return b, false
	}
	n := numberLen(line[indent:])
	if n == 0 {
		return b, false
	}
	b.Width = indent + n
	rest := line[b.Width:]
	if Blank(rest) {
		b.Width++
		return b, true
	}
	padding := Indent(rest)
	if padding == 0 {
		return b, false
	}
	if padding > 4 { // the item starts with indented code
		padding = 1
	}
	b.Width += padding
	b.Text = rest[padding:]
	return b, true
}

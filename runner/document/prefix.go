package document

import "bytes"

// The marks that quotes and list items put before the lines they hold. These
// are the rules of CommonMark 0.31.2, section 5, as the Markdown parser applies
// them, so that what is left of a line is what the parser saw of it.

const white = " \t"

func blank(line []byte) bool { return len(bytes.TrimLeft(line, white)) == 0 }

// nextColumn returns the column, from 0, after c; a tab runs to the next
// multiple of four.
func nextColumn(column int, c byte) int {
	if c == '\t' {
		return column + 4 - column%4
	}
	return column + 1
}

// skipWhite goes over white space at line[i:], where line[i] stands at column.
func skipWhite(line []byte, i, column int) (int, int) {
	for i < len(line) && (line[i] == ' ' || line[i] == '\t') {
		column = nextColumn(column, line[i])
		i++
	}
	return i, column
}

// indentOf returns the columns of white space at the start of line.
func indentOf(line []byte) int {
	_, column := skipWhite(line, 0, 0)
	return column
}

// dedent takes width columns of white space off line, whose first byte stands
// at column from. What is left of a tab becomes spaces.
func dedent(line []byte, from, width int) []byte {
	i, column := 0, from
	for i < len(line) && column < from+width && (line[i] == ' ' || line[i] == '\t') {
		column = nextColumn(column, line[i])
		i++
	}
	if (from+width)%4 != 0 { // later tabs would change their width
		i, column = skipWhite(line, i, column)
	}
	extra := column - from - width
	if extra <= 0 {
		return line[i:]
	}
	return append(bytes.Repeat([]byte{' '}, extra), line[i:]...)
}

// quoted returns what a quote holds of line. A line without the mark belongs to
// a quote as the lazy continuation of a paragraph.
func quoted(line []byte) []byte {
	i, column := skipWhite(line, 0, 0)
	if column > 3 || i == len(line) || line[i] != '>' {
		return line
	}
	if i++; i < len(line) && (line[i] == ' ' || line[i] == '\t') {
		return dedent(line[i:], i, 1)
	}
	return line[i:]
}

// A bullet is the mark at the start of a list item.
type bullet struct {
	char  byte // - + * for a list without numbers, . or ) after a number
	width int  // columns up to the item's text
	text  []byte
}

// itemStart reads a list mark at the start of line.
func itemStart(line []byte) (b bullet, ok bool) {
	i, column := skipWhite(line, 0, 0)
	if column > 3 || i == len(line) {
		return b, false
	}
	start := i
	for i < len(line) && '0' <= line[i] && line[i] <= '9' {
		i++
	}
	digits := i - start
	if i == len(line) || digits > 9 ||
		digits == 0 && line[i] != '-' && line[i] != '+' && line[i] != '*' ||
		digits > 0 && line[i] != '.' && line[i] != ')' {
		return b, false
	}
	b.char = line[i]
	if i++; blank(line[i:]) {
		b.width = i + 1
		return b, true
	}
	_, column = skipWhite(line, i, i)
	padding := column - i
	if padding == 0 {
		return b, false
	}
	if padding > 4 { // the item starts with indented code
		padding = 1
	}
	b.width = i + padding
	b.text = dedent(line[i:], i, padding)
	return b, true
}

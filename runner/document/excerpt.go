package document

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// excerptWidth is how many columns of a source line are shown; a longer line
// shows the part around the range.
const excerptWidth = 96

// Format prints d with the lines of src that it points at, src being the
// notebook's Source:
//
//	bed.md:14:9: error: HoopTension: got a mass, want a pressure
//	    14  T := fabric.HoopTension(m, r)
//	                                ^
//	hint: give the pressure in the tube first
//
// Control characters of src never reach the terminal. With color the parts are
// set apart by ANSI sequences.
func (d Diagnostic) Format(src []byte, color bool) string {
	e := excerpt{src: src, color: color, gutter: len(strconv.Itoa(d.Range.Start.Line))}
	for _, n := range d.Notes {
		e.gutter = max(e.gutter, len(strconv.Itoa(n.Range.Start.Line)))
	}
	tone := red
	if d.Severity == Warning {
		tone = yellow
	}
	e.head(d.File, d.Range.Start, d.Severity.String(), tone, d.Message)
	e.source(d.Range, tone)
	for _, n := range d.Notes {
		e.head(d.File, n.Range.Start, "note", dim, n.Message)
		e.source(n.Range, dim)
	}
	if d.Hint != "" {
		e.paint("hint:", dim)
		for i, line := range strings.Split(d.Hint, "\n") {
			if i > 0 {
				e.out.WriteString("\n    ")
			}
			e.out.WriteString(" " + printable(line))
		}
		e.out.WriteByte('\n')
	}
	return e.out.String()
}

// The ANSI sequences of the tones.
const (
	red    = "\x1b[1;31m"
	yellow = "\x1b[1;33m"
	dim    = "\x1b[2m"
	plain  = "\x1b[0m"
)

type excerpt struct {
	src    []byte
	color  bool
	gutter int // digits of the largest line number
	out    strings.Builder
}

func (e *excerpt) paint(s, tone string) {
	if e.color && s != "" {
		s = tone + s + plain
	}
	e.out.WriteString(s)
}

func (e *excerpt) head(file string, at Position, word, tone, message string) {
	e.out.WriteString(printable(file) + ":")
	if at.Line > 0 {
		fmt.Fprintf(&e.out, "%d:%d:", at.Line, at.Column)
	}
	e.out.WriteByte(' ')
	e.paint(word+":", tone)
	e.out.WriteString(" " + printable(message) + "\n")
}

// source prints the first line of a range and underlines what of it belongs to
// the range.
func (e *excerpt) source(r Range, tone string) {
	line, ok := lineOf(e.src, r.Start.Line)
	if !ok || r.Start.Column < 1 {
		return
	}
	from := min(r.Start.Column-1, len(line))
	to := len(line)
	if r.End.Line == r.Start.Line {
		to = min(max(r.End.Column-1, from), len(line))
	}
	text, skip, width := window(line, from, to)
	number := fmt.Sprintf("    %*d  ", e.gutter, r.Start.Line)
	e.paint(number, dim)
	e.out.WriteString(strings.TrimRight(text, " ") + "\n" + strings.Repeat(" ", len(number)+skip))
	e.paint(strings.Repeat("^", width), tone)
	e.out.WriteByte('\n')
}

// lineOf returns line n of src, from 1, without its end.
func lineOf(src []byte, n int) ([]byte, bool) {
	if n < 1 {
		return nil, false
	}
	for ; n > 1; n-- {
		i := bytes.IndexByte(src, '\n')
		if i < 0 {
			return nil, false
		}
		src = src[i+1:]
	}
	line, _, _ := bytes.Cut(src, []byte("\n"))
	return bytes.TrimSuffix(line, []byte("\r")), true
}

// window returns line as it is shown, the columns before line[from:to] in it
// and the columns of that part, at least one.
func window(line []byte, from, to int) (text string, skip, width int) {
	start := windowStart(line, from)
	var b strings.Builder
	column := 0
	if start > 0 {
		b.WriteString("…")
		column++
	}
	end := -1
	for i := start; i < len(line); {
		c, size := utf8.DecodeRune(line[i:])
		if i <= from {
			skip = column
		}
		if i >= to && end < 0 {
			end = column
		}
		if column >= excerptWidth {
			b.WriteString("…")
			break
		}
		s := shown(c, column)
		b.WriteString(s)
		if !unicode.Is(unicode.Mn, c) {
			column += utf8.RuneCountInString(s)
		}
		i += size
		if i <= from {
			skip = column
		}
	}
	if end < 0 {
		end = column
	}
	return b.String(), skip, max(end-skip, 1)
}

// windowStart returns where the shown part of line starts, so that from is well
// in it and it is as full as can be.
func windowStart(line []byte, from int) int {
	const margin = excerptWidth / 4
	if utf8.RuneCount(line[:from]) < excerptWidth-margin {
		return 0
	}
	back := max(margin, excerptWidth-1-utf8.RuneCount(line[from:]))
	start := from
	for ; back > 0 && start > 0; back-- {
		_, size := utf8.DecodeLastRune(line[:start])
		start -= size
	}
	return start
}

// shown returns how a character of the source is shown in a column.
func shown(c rune, column int) string {
	switch {
	case c == '\t':
		return strings.Repeat(" ", 4-column%4)
	case unicode.In(c, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp):
		return "\ufffd"
	}
	return string(c)
}

// printable replaces characters that would steer a terminal.
func printable(s string) string {
	return strings.Map(func(c rune) rune {
		if unicode.In(c, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) {
			return '\ufffd'
		}
		return c
	}, s)
}

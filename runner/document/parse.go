package document

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"github.com/gomarkdown/markdown/parser"
)

// MaxSize is the largest notebook in bytes. Measured data belongs in CSV files
// beside a notebook, not in it.
const MaxSize = 2 << 20

// maxFindings bounds the diagnostics of one file; after so many the cause is
// one and the same.
const maxFindings = 200

// Parse reads a notebook. The notebook holds whatever could be read, also when
// there are errors; it is nil only for a file that is not text or is over
// MaxSize. The diagnostics come in source order. Their lines and columns, like
// every position in the notebook, are those of the file; a byte order mark
// counts for nothing.
func Parse(file string, src []byte) (*Notebook, []Diagnostic) {
	r := &reader{file: file, ids: map[string]bool{}, copies: map[string]int{}}
	if !r.accept(src) {
		return nil, r.diags
	}
	r.nb = &Notebook{File: file, Source: normalize(src)}
	r.lines = splitLines(r.nb.Source)
	r.markdown(r.title())
	r.fragments()
	Sort(r.diags)
	return r.nb, r.diags
}

// A reader is the state of one Parse.
type reader struct {
	file  string
	nb    *Notebook
	lines [][]byte // Source without line ends
	wide  [][]byte // lines without tabs in their prefixes
	diags []Diagnostic

	md       *parser.Parser
	cells    int             // cells so far
	deep     bool            // nesting has been reported
	ids      map[string]bool // heading IDs taken
	copies   map[string]int  // headings so far with the same words
	toFollow []fragment      // links to headings, looked up at the end
}

// full reports whether further findings go unreported.
func (r *reader) full() bool { return len(r.diags) > maxFindings }

func (r *reader) report(d Diagnostic) {
	if r.full() {
		return
	}
	d.File = r.file
	if len(r.diags) == maxFindings {
		d = Diagnostic{
			File:    r.file,
			Range:   d.Range,
			Message: fmt.Sprintf("findings: got more than %d, want fewer", maxFindings),
			Hint:    "put the first ones right and run again",
		}
	}
	r.diags = append(r.diags, d)
}

func (r *reader) fail(at Range, hint, format string, args ...any) {
	r.report(Diagnostic{Range: at, Hint: hint, Message: fmt.Sprintf(format, args...)})
}

func (r *reader) warn(at Range, hint, format string, args ...any) {
	r.report(Diagnostic{Severity: Warning, Range: at, Hint: hint, Message: fmt.Sprintf(format, args...)})
}

// accept reports whether src is a text that can be a notebook.
func (r *reader) accept(src []byte) bool {
	if len(src) > MaxSize {
		r.fail(Range{}, "split the notebook, or move data into CSV files beside it",
			"file size: got %d bytes, want at most %d", len(src), MaxSize)
		return false
	}
	at, what := firstNonText(src)
	if at < 0 {
		return true
	}
	line, start := 1, 0
	for i := 0; i < at; i++ {
		if src[i] == '\n' || src[i] == '\r' && (i+1 == len(src) || src[i+1] != '\n') {
			line, start = line+1, i+1
		}
	}
	pos := Position{line, at - start + 1}
	r.fail(Range{pos, Position{line, pos.Column + 1}}, "save the notebook as UTF-8 text, without this character",
		"file: got %s at offset %d, want UTF-8 text", what, at)
	return false
}

// firstNonText returns the offset of the first thing that is no part of a text,
// and its name: broken UTF-8, a control character, or a character that turns the
// direction of what follows (UAX #9, 2), by which a line can look like another.
// The offset is -1 when all is text.
func firstNonText(src []byte) (offset int, what string) {
	for i := 0; i < len(src); {
		c, n := rune(src[i]), 1
		if c >= utf8.RuneSelf {
			if c, n = utf8.DecodeRune(src[i:]); c == utf8.RuneError && n == 1 {
				return i, fmt.Sprintf("byte 0x%02x", src[i])
			}
		}
		switch {
		case c == '\n', c == '\r', c == '\t', c == '\f':
		case c < 0x20 || c == 0x7f:
			return i, fmt.Sprintf("byte 0x%02x", c)
		case 0x202a <= c && c <= 0x202e, 0x2066 <= c && c <= 0x2069:
			return i, fmt.Sprintf("the invisible %U, which turns the direction of what follows,", c)
		}
		i += n
	}
	return -1, ""
}

// normalize returns a copy of src with LF line ends and no byte order mark.
func normalize(src []byte) []byte {
	src = bytes.TrimPrefix(src, []byte("\ufeff"))
	out := make([]byte, 0, len(src))
	for i, c := range src {
		switch {
		case c != '\r':
			out = append(out, c)
		case i+1 == len(src) || src[i+1] != '\n':
			out = append(out, '\n')
		}
	}
	return out
}

// splitLines splits at line feeds; a last line feed starts no further line.
func splitLines(src []byte) [][]byte {
	lines := bytes.Split(src, []byte("\n"))
	if last := len(lines) - 1; len(lines[last]) == 0 {
		lines = lines[:last]
	}
	return lines
}

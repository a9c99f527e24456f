// Package canonical writes JSON in its one canonical form, that of RFC 8785: no
// white space, members in the order of their names' UTF-16 code units, the
// shortest escapes, numbers as ECMAScript writes them. The same data is the same
// bytes everywhere, so that a digest or a signature of them means something.
//
//	text, err := canonical.Marshal(v)
//	same, err := canonical.Transform(otherText)
//
// What has no canonical form is refused: a number that is no finite float64,
// text that is not UTF-8, half a surrogate pair, a name that stands twice.
package canonical

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// Marshal writes v as encoding/json does, in canonical form.
func Marshal(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return nil, err
	}
	return Transform(b.Bytes())
}

// Transform writes a JSON text in canonical form.
func Transform(text []byte) ([]byte, error) {
	if !utf8.Valid(text) {
		return nil, fmt.Errorf("JSON text: got bytes that are not UTF-8, want UTF-8")
	}
	r := &reader{text: text, out: make([]byte, 0, len(text))}
	if err := r.value(0); err != nil {
		return nil, err
	}
	if r.space(); r.at < len(text) {
		return nil, r.unexpected("the end")
	}
	return r.out, nil
}

// Number writes a number as ECMAScript does (ECMA-262, Number::toString); -0 is 0.
func Number(f float64) (string, error) {
	switch size := math.Abs(f); {
	case math.IsNaN(f) || math.IsInf(f, 0):
		return "", fmt.Errorf("JSON number: got %v, want a finite number", f)
	case f == 0:
		return "0", nil
	case size >= 1e-6 && size < 1e21:
		return strconv.FormatFloat(f, 'f', -1, 64), nil
	}
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(f, 'e', -1, 64), "e")
	return mantissa + "e" + exponent[:1] + strings.TrimLeft(exponent[1:], "0"), nil
}

// maxDepth is how deep lists and objects may be nested.
const maxDepth = 100

// A reader reads a JSON text and writes each value in canonical form.
type reader struct {
	text []byte
	at   int
	out  []byte
}

func (r *reader) unexpected(want string) error {
	got := "the end"
	if r.at < len(r.text) {
		c, _ := utf8.DecodeRune(r.text[r.at:])
		got = strconv.QuoteRune(c)
	}
	return fmt.Errorf("JSON text, byte %d: got %s, want %s", r.at, got, want)
}

func (r *reader) space() {
	for r.at < len(r.text) && strings.IndexByte(" \t\r\n", r.text[r.at]) >= 0 {
		r.at++
	}
}

// next takes a byte, after white space, if it is c.
func (r *reader) next(c byte) bool {
	r.space()
	if r.at < len(r.text) && r.text[r.at] == c {
		r.at++
		return true
	}
	return false
}

func (r *reader) value(depth int) error {
	if depth > maxDepth {
		return fmt.Errorf("JSON text, byte %d: got more than %d levels of lists and objects, want fewer", r.at, maxDepth)
	}
	r.space()
	for _, word := range []string{"null", "true", "false"} {
		if bytes.HasPrefix(r.text[r.at:], []byte(word)) {
			r.at += len(word)
			r.out = append(r.out, word...)
			return nil
		}
	}
	switch {
	case r.next('{'):
		return r.object(depth)
	case r.next('['):
		return r.list(depth)
	case r.next('"'):
		s, err := r.rest()
		r.quote(s)
		return err
	}
	return r.number()
}

func (r *reader) list(depth int) error {
	r.out = append(r.out, '[')
	for more := !r.next(']'); more; {
		if err := r.value(depth + 1); err != nil {
			return err
		}
		if more = r.next(','); more {
			r.out = append(r.out, ',')
		} else if !r.next(']') {
			return r.unexpected("a comma or ]")
		}
	}
	r.out = append(r.out, ']')
	return nil
}

// A member of an object, as it is written.
type member struct {
	name string
	text []byte // name and value
}

func (r *reader) object(depth int) error {
	start := len(r.out)
	var members []member
	var ends []int // of each in the output
	for more := !r.next('}'); more; {
		if !r.next('"') {
			return r.unexpected("a name in quotes")
		}
		name, err := r.rest()
		if err != nil {
			return err
		}
		if !r.next(':') {
			return r.unexpected("a colon")
		}
		r.quote(name)
		r.out = append(r.out, ':')
		if err := r.value(depth + 1); err != nil {
			return err
		}
		members, ends = append(members, member{name: name}), append(ends, len(r.out))
		if more = r.next(','); !more && !r.next('}') {
			return r.unexpected("a comma or }")
		}
	}
	whole := slices.Clone(r.out[start:])
	from := 0
	for i, end := range ends {
		members[i].text = whole[from : end-start]
		from = end - start
	}
	slices.SortFunc(members, func(a, b member) int { return order(a.name, b.name) })
	r.out = append(r.out[:start], '{')
	for i, m := range members {
		if i > 0 {
			if m.name == members[i-1].name {
				return fmt.Errorf("JSON object: got the name %q twice, want it once", m.name)
			}
			r.out = append(r.out, ',')
		}
		r.out = append(r.out, m.text...)
	}
	r.out = append(r.out, '}')
	return nil
}

// order compares names by their UTF-16 code units. Without a character that takes
// two of them that is the order of their bytes.
func order(a, b string) int {
	if wide := func(r rune) bool { return r > 0xffff }; strings.IndexFunc(a, wide) < 0 && strings.IndexFunc(b, wide) < 0 {
		return strings.Compare(a, b)
	}
	return slices.Compare(utf16.Encode([]rune(a)), utf16.Encode([]rune(b)))
}

// rest reads a text up to its closing quote; the opening one is read.
func (r *reader) rest() (string, error) {
	plain := r.at
	for plain < len(r.text) && isPlain(r.text[plain]) {
		plain++
	}
	var b strings.Builder
	b.Write(r.text[r.at:plain])
	r.at = plain
	for r.at < len(r.text) {
		switch c := r.text[r.at]; {
		case c == '"':
			r.at++
			return b.String(), nil
		case c < 0x20:
			return "", r.unexpected("an escape for a control character")
		case c != '\\':
			b.WriteByte(c)
			r.at++
		default:
			c, err := r.escape()
			if err != nil {
				return "", err
			}
			b.WriteRune(c)
		}
	}
	return "", r.unexpected("a closing quote")
}

// escape reads one character that is written with a backslash.
func (r *reader) escape() (rune, error) {
	if r.at+1 >= len(r.text) {
		return 0, r.unexpected("a whole escape")
	}
	const letters, meant = `"\/bfnrt`, "\"\\/\b\f\n\r\t"
	if i := strings.IndexByte(letters, r.text[r.at+1]); i >= 0 {
		r.at += 2
		return rune(meant[i]), nil
	}
	c, ok := r.hex()
	if !ok {
		return 0, r.unexpected("a known escape")
	}
	if !utf16.IsSurrogate(c) {
		return c, nil
	}
	low, ok := r.hex()
	if c = utf16.DecodeRune(c, low); !ok || c == utf8.RuneError {
		return 0, r.unexpected("both halves of a surrogate pair")
	}
	return c, nil
}

// hex reads \u and four digits.
func (r *reader) hex() (rune, bool) {
	if r.at+6 > len(r.text) || r.text[r.at] != '\\' || r.text[r.at+1] != 'u' {
		return 0, false
	}
	v, err := strconv.ParseUint(string(r.text[r.at+2:r.at+6]), 16, 16)
	if err != nil {
		return 0, false
	}
	r.at += 6
	return rune(v), true
}

func (r *reader) number() error {
	end := r.at
	for end < len(r.text) && strings.IndexByte("+-.0123456789eE", r.text[end]) >= 0 {
		end++
	}
	text := r.text[r.at:end]
	if !json.Valid(text) {
		return r.unexpected("a value")
	}
	f, err := strconv.ParseFloat(string(text), 64)
	if err != nil {
		return fmt.Errorf("JSON number: got %.40s, want one that a float64 holds", text)
	}
	r.at = end
	s, err := Number(f)
	r.out = append(r.out, s...)
	return err
}

// isPlain reports whether a byte stands in a quoted text for itself.
func isPlain(c byte) bool { return c >= 0x20 && c != '"' && c != '\\' }

// quote writes a text with the shortest escapes.
func (r *reader) quote(s string) {
	r.out = append(r.out, '"')
	from := 0
	for i := range len(s) {
		c := s[i]
		if isPlain(c) {
			continue
		}
		r.out = append(r.out, s[from:i]...)
		from = i + 1
		const letters, meant = "bfnrt\"\\", "\b\f\n\r\t\"\\"
		if j := strings.IndexByte(meant, c); j >= 0 {
			r.out = append(r.out, '\\', letters[j])
		} else {
			r.out = fmt.Appendf(r.out, `\u%04x`, c)
		}
	}
	r.out = append(append(r.out, s[from:]...), '"')
}

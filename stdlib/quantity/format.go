package quantity

import (
	"bytes"
	"math"
	"strconv"
	"unicode/utf8"
)

const (
	// DefaultDigits is the number of significant digits that a calculation
	// shows when nothing else is asked for.
	DefaultDigits = 4

	// MaxDigits is the most that is printed: beyond it stand the rounding errors
	// of float64 arithmetic, not the number. 1.7999999999999998 was meant to be
	// 1.8, and to 13 digits it is.
	MaxDigits = 13
)

// Text returns v, in SI base units, as number and unit, "1.8 kPa", joined by a
// no-break space; "30°" without one, as ISO 80000-1 has it for degrees. What is
// not a number has no unit. Digits are those of Format.
func Text(v float64, u Unit, digits int) string {
	var buf [96]byte
	b := appendFormat(buf[:0], v, u, digits)
	if u.Symbol == "" || math.IsNaN(v) {
		return string(b)
	}
	if u.Symbol != "°" {
		b = append(b, "\u00a0"...)
	}
	return string(append(b, u.Symbol...))
}

// Format returns the number of v, in SI base units, counted in u and rounded to
// significant digits: 4 when digits is 0, at most 13.
//
// The value is first taken to 13 digits, which drops the rounding errors of the
// arithmetic, then rounded as written, halves away from zero. Digits before the
// decimal sign are never rounded away, so 12 345.6 prints "12 346". Zeros at the
// end of the decimals go when nothing was rounded away: 1.8 prints "1.8" but
// 1.80001 "1.800". From 10 000 up a narrow no-break space parts the thousands;
// below 1e-4 and from 1e7 up the number prints as "2.1×10¹¹". The minus sign is
// U+2212. NaN prints as "not a number", infinity as "∞".
//
// Source: ISO 80000-1, printing of numbers (grouping by threes, × 10ⁿ) and
// rounding (rule B), from memory: verify against the document; the limits are
// common practice, no source.
func Format(v float64, u Unit, digits int) string {
	var buf [64]byte
	return string(appendFormat(buf[:0], v, u, digits))
}

// FormatExact returns the number of v, in SI base units, counted in u, with as
// many digits as it has, 13 at most: 300 prints "300" and 0.0254 "0.0254". They
// read back within 1e-12. A number of more than maxDigits, 13 when that is 0, is
// rounded as by Format. It is for givens, which are shown as they were put in.
func FormatExact(v float64, u Unit, maxDigits int) string {
	if maxDigits <= 0 {
		maxDigits = MaxDigits
	}
	return Format(v, u, maxDigits)
}

func appendFormat(dst []byte, v float64, u Unit, digits int) []byte {
	if digits <= 0 {
		digits = DefaultDigits
	}
	x := u.FromSI(v)
	switch {
	case math.IsNaN(x):
		return append(dst, "not a number"...)
	case math.IsInf(x, 1):
		return append(dst, "∞"...)
	case math.IsInf(x, -1):
		return append(dst, "−∞"...)
	}
	if u.Offset != 0 && math.Abs(x) < 1e6 {
		// The rounding errors are those of the kelvins: nine decimals stand.
		x = math.Round(x*1e9) / 1e9
	}
	if x < 0 {
		dst = append(dst, "−"...)
	}
	d := newDecimal(math.Abs(x))
	d.round(min(digits, MaxDigits))
	return d.append(dst)
}

// Numbers with a decimal exponent from plainFrom to below plainTo print without
// a power of ten.
const plainFrom, plainTo = -4, 7

// A decimal is the number digits[0].digits[1]digits[2]… × 10^exponent, of n
// ASCII digits.
type decimal struct {
	digits   [MaxDigits + 8]byte // with room for the point and the exponent
	n        int
	exponent int
}

// newDecimal returns x, finite and not negative, to MaxDigits.
func newDecimal(x float64) decimal {
	var d decimal
	text := strconv.AppendFloat(d.digits[:0], x, 'e', MaxDigits-1, 64)
	mark := bytes.IndexByte(text, 'e')
	d.exponent, _ = strconv.Atoi(string(text[mark+1:]))
	copy(text[1:], text[2:mark]) // close up over the point
	d.n = MaxDigits
	return d
}

// round leaves significant digits or, if that is more, a whole number, without
// the zeros at its end if nothing but zeros went.
func (d *decimal) round(digits int) {
	keep := digits
	if d.exponent < plainTo {
		keep = max(keep, d.exponent+1)
	}
	exact := true
	for _, c := range d.digits[keep:d.n] {
		exact = exact && c == '0'
	}
	up := keep < d.n && d.digits[keep] >= '5'
	d.n = keep
	for i := keep - 1; up && i >= 0; i-- {
		up = d.digits[i] == '9'
		if d.digits[i]++; up {
			d.digits[i] = '0'
		}
	}
	if up { // 99.99 became 00.00
		d.digits[0] = '1'
		d.exponent++
		d.n = digits
	}
	for exact && d.n > 1 && d.digits[d.n-1] == '0' {
		d.n--
	}
}

// append prints d.
func (d *decimal) append(dst []byte) []byte {
	digits := d.digits[:d.n]
	switch {
	case d.exponent < plainFrom || d.exponent >= plainTo:
		dst = appendFraction(append(dst, digits[0]), digits[1:])
		return appendRaised(append(dst, "×10"...), d.exponent)
	case d.exponent < 0:
		dst = append(dst, "0."...)
		for range -d.exponent - 1 {
			dst = append(dst, '0')
		}
		return append(dst, digits...)
	}
	whole := d.exponent + 1
	for i := range whole {
		if left := whole - i; whole >= 5 && i > 0 && left%3 == 0 {
			dst = append(dst, "\u202f"...)
		}
		if i < d.n {
			dst = append(dst, digits[i])
		} else {
			dst = append(dst, '0')
		}
	}
	return appendFraction(dst, digits[min(whole, d.n):])
}

func appendFraction(dst, digits []byte) []byte {
	if len(digits) == 0 {
		return dst
	}
	return append(append(dst, '.'), digits...)
}

// superscripts are the raised figures 0 to 9.
var superscripts = [...]rune{'⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'}

// appendRaised prints n as an exponent: "⁻⁵".
func appendRaised(dst []byte, n int) []byte {
	if n < 0 {
		dst = append(dst, "⁻"...)
		n = -n
	}
	var buf [20]byte
	for _, c := range strconv.AppendInt(buf[:0], int64(n), 10) {
		dst = utf8.AppendRune(dst, superscripts[c-'0'])
	}
	return dst
}

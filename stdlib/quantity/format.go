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

	// MaxDigits is the most that Format prints: beyond it stand the rounding
	// errors of float64 arithmetic, not the number.
	MaxDigits = 13

	// noise is the relative error taken for rounding: 1.7999999999999998 was
	// meant to be 1.8.
	noise = 1e-12
)

// Text returns v, in SI base units, as number and unit, "1.8 kPa", joined by a
// no-break space; "30°" without one, as ISO 80000-1 has it for degrees. Digits
// are those of Format.
func Text(v float64, u Unit, digits int) string {
	var buf [96]byte
	b := appendFormat(buf[:0], v, u, digits)
	if u.Symbol != "" && u.Symbol != "°" {
		b = append(b, "\u00a0"...)
	}
	return string(append(b, u.Symbol...))
}

// Format returns the number of v, in SI base units, counted in u and rounded to
// significant digits: 4 when digits is 0, at most 13.
//
// Digits before the decimal sign are never rounded away, so 12 345.6 prints
// "12 346". Zeros at the end of the decimals go when nothing was rounded away:
// 1.8 prints "1.8" but 1.80001 "1.800", and a value within 1e-12 of a round one
// is that one. From 10 000 up a narrow no-break space parts the thousands;
// below 1e-4 and from 1e7 up the number prints as "2.1×10¹¹". The minus sign is
// U+2212. NaN prints as "not a number", infinity as "∞".
//
// Source: ISO 80000-1, printing of numbers (grouping by threes, × 10ⁿ; from
// memory: verify against the document); the limits are common practice, no
// source.
func Format(v float64, u Unit, digits int) string {
	var buf [64]byte
	return string(appendFormat(buf[:0], v, u, digits))
}

// FormatExact returns the number of v, in SI base units, counted in u, with the
// fewest digits that read back within 1e-12 of it: 300 prints "300" and 0.0254
// "0.0254". A value that takes more than maxDigits is rounded as by Format; 0
// stands for 13. It is for givens, which are shown as they were put in.
func FormatExact(v float64, u Unit, maxDigits int) string {
	if maxDigits <= 0 || maxDigits > MaxDigits {
		maxDigits = MaxDigits
	}
	for digits := 1; digits < maxDigits; digits++ {
		var d decimal
		if d.set(v, u, digits); d.special != "" || d.exact {
			var buf [64]byte
			return string(d.append(buf[:0]))
		}
	}
	return Format(v, u, maxDigits)
}

func appendFormat(dst []byte, v float64, u Unit, digits int) []byte {
	if digits <= 0 {
		digits = DefaultDigits
	}
	var d decimal
	d.set(v, u, min(digits, MaxDigits))
	return d.append(dst)
}

// Numbers with a decimal exponent from plainFrom to below plainTo print without
// a power of ten.
const plainFrom, plainTo = -4, 7

// A decimal is a number rounded to n significant digits:
// ±digits[0].digits[1]digits[2]… × 10^exponent.
type decimal struct {
	special  string // the text of a number that is not finite
	negative bool
	digits   [32]byte // ASCII
	n        int
	exponent int
	exact    bool // nothing but noise was rounded away
}

// set makes d the number of v in u, rounded to significant digits or, if that
// keeps more of it, to a whole number.
func (d *decimal) set(v float64, u Unit, digits int) {
	x := (v - u.Offset) / u.Factor
	switch {
	case math.IsNaN(x):
		d.special = "not a number"
		return
	case math.IsInf(x, 1):
		d.special = "∞"
		return
	case math.IsInf(x, -1):
		d.special = "−∞"
		return
	}
	// The noise of a temperature is that of the kelvins below it.
	tolerance := noise * (math.Abs(x) + math.Abs(u.Offset/u.Factor))
	if math.Abs(x) <= tolerance {
		x = 0
	}
	d.negative = x < 0
	d.round(math.Abs(x), digits, tolerance)
}

// round sets the digits of x, which is finite and not negative.
func (d *decimal) round(x float64, digits int, tolerance float64) {
	text := strconv.AppendFloat(d.digits[:0], x, 'e', digits-1, 64)
	mark := bytes.IndexByte(text, 'e')
	d.exponent, _ = strconv.Atoi(string(text[mark+1:]))
	if d.exponent >= digits && d.exponent < plainTo {
		text = strconv.AppendFloat(d.digits[:0], x, 'f', 0, 64)
		mark = len(text)
		d.exponent = mark - 1
	}
	rounded, _ := strconv.ParseFloat(string(text), 64)
	d.exact = math.Abs(rounded-x) <= tolerance

	d.n = mark
	if mark > 1 && text[1] == '.' {
		copy(text[1:], text[2:mark])
		d.n--
	}
	if d.exact {
		for d.n > 1 && d.digits[d.n-1] == '0' {
			d.n--
		}
	}
}

// append prints d.
func (d *decimal) append(dst []byte) []byte {
	if d.special != "" {
		return append(dst, d.special...)
	}
	if d.negative {
		dst = append(dst, "−"...)
	}
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

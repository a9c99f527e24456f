package lettering

import (
	"math"
	"strconv"
	"strings"
)

// NiceStep returns the 1, 2 or 5 times a power of ten that is nearest to v.
func NiceStep(v float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(v)))
	switch m := v / power; {
	case m < 1.5:
		return power
	case m < 3.5:
		return 2 * power
	case m < 7.5:
		return 5 * power
	}
	return 10 * power
}

// Number writes v with four significant digits, for words.
func Number(v float64) string {
	switch {
	case math.IsNaN(v):
		return "not a number"
	case math.IsInf(v, 0):
		return "infinite"
	case v == 0:
		return "0"
	}
	if e := math.Floor(math.Log10(math.Abs(v))); e >= 6 || e < -4 {
		m, exp, _ := strings.Cut(strconv.FormatFloat(v, 'e', 3, 64), "e")
		n, _ := strconv.Atoi(exp)
		return Typeset(TrimZeros(m)) + "×10" + Superscript(n)
	}
	digits := max(0, 3-int(math.Floor(math.Log10(math.Abs(v)))))
	return Typeset(TrimZeros(strconv.FormatFloat(v, 'f', digits, 64)))
}

// TrimZeros takes off the zeros at the end of a decimal fraction.
func TrimZeros(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// Typeset gives a number a true minus sign and, from five digits before the
// point, narrow spaces between groups of three.
func Typeset(s string) string {
	sign := ""
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		if s = rest; strings.Trim(s, "0.") != "" {
			sign = "−"
		}
	}
	whole, fraction, dot := strings.Cut(s, ".")
	if len(whole) > 4 {
		for i := len(whole) - 3; i > 0; i -= 3 {
			whole = whole[:i] + "\u202f" + whole[i:]
		}
	}
	if dot {
		whole += "." + fraction
	}
	return sign + whole
}

// Superscript writes n as an exponent.
func Superscript(n int) string {
	return strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴",
		"5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹").Replace(strconv.Itoa(n))
}

// Percent is a utilisation to a tenth of a percent, such as "87.3 %". One of a
// check that fails never reads as 100 %.
func Percent(utilisation float64, holds bool) string {
	u := 100 * utilisation
	switch {
	case math.IsInf(u, 0) || u >= 1e5:
		return "no capacity"
	case !holds && u < 100.05:
		return "over 100\u202f%"
	}
	return strconv.FormatFloat(u, 'f', 1, 64) + "\u202f%"
}

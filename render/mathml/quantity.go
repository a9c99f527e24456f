package mathml

import (
	"regexp"
	"strings"
)

// Quantity prints a number and its unit, upright, with a thin space between
// that does not break. The number may have a sign, grouped digits and a power
// of ten, "1.2×10⁶" or "1.2e6"; what is not a number is printed as text. The
// unit is printed as it stands, such as "kN/m", "m³/h" or "°C"; the marks of
// angle °, ′ and ″ follow without space; an empty unit prints nothing.
func Quantity(number, unit string) string { return quantity(number, unit).ml }

func quantity(number, unit string) box {
	b := numeral(number)
	if unit == "" {
		return b
	}
	gap := thinSpace
	if followsAtOnce(unit) {
		gap = ""
	}
	b.ml = Element("mrow", b.ml, Element("mtext", Escape(gap+strings.ReplaceAll(unit, " ", hardSpace))))
	b.text += strings.ReplaceAll(gap, thinSpace, " ") + unit
	b.width += runes(gap + unit)
	b.number = false
	b.level = min(b.level, levelQuantity)
	b.textLevel = b.level
	return b
}

// followsAtOnce reports whether a unit is a mark of angle, which follows its number
// without space (ISO 80000-1).
func followsAtOnce(unit string) bool { return unit == "°" || unit == "′" || unit == "″" }

// numberForm is a sign, digits that may be grouped, and a power of ten.
var numberForm = regexp.MustCompile(
	`^([-+−]?)((?:[0-9][0-9,_'  \x{00a0}\x{2009}\x{202f}]*)?(?:\.[0-9]*)?)(?:[eE]([-+−]?[0-9]+)|(?: ?[×·] ?10([⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)))?$`)

var plainDigits = strings.NewReplacer("⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4",
	"⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9", "⁻", "-", "⁺", "", "+", "", Minus, "-")

// numeral is a number as people write it: 1e6 becomes 10⁶, .5 becomes 0.5.
func numeral(s string) box {
	m := numberForm.FindStringSubmatch(s)
	if m == nil || strings.Trim(m[2], ".") == "" {
		return atom(Text(s), s)
	}
	mantissa := strings.TrimSuffix(strings.ReplaceAll(m[2], "_", ""), ".")
	if strings.HasPrefix(mantissa, ".") {
		mantissa = "0" + mantissa
	}
	b := atom(Element("mn", Escape(mantissa)), mantissa)
	b.number = true
	if exp := plainDigits.Replace(m[3] + m[4]); exp != "" {
		digits := strings.TrimLeft(strings.TrimPrefix(exp, "-"), "0")
		e := atom(Element("mn", digits), digits)
		if digits == "" {
			e = atom(Element("mn", "0"), "0")
		} else if strings.HasPrefix(exp, "-") {
			e = negative(e)
		}
		ten := power(atom(Element("mn", "10"), "10"), e)
		if mantissa != "1" {
			ten = box{
				ml: Element("mrow", b.ml, Operator("×"), ten.ml), text: b.text + "×" + ten.text,
				level: levelQuantity, textLevel: levelQuantity, width: b.width + ten.width + 1,
			}
		}
		b = ten
		b.number = true
	}
	if m[1] == "-" || m[1] == Minus {
		b = negative(b)
	}
	return b
}

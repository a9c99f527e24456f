// Package quantity knows what the numbers of a notebook are: the dimension
// behind each name in package units, the units that dimension is written in,
// and how an engineer writes the number.
//
//	d, _ := quantity.OfAlias("Pressure") // kg·m⁻¹·s⁻²
//	u := quantity.Choose(d, 1800, quantity.SI)
//	quantity.Text(1800, u, 0) // "1.8 kPa"
//
// Its two nouns are Dimension, the exponents that the checker multiplies and
// divides, and Unit, a symbol with its size in SI base units.
//
// Invariants: values come and go in SI base units; all factors are those of
// package units; the same value, unit and digits give the same text everywhere.
package quantity

import (
	"cmp"
	"strconv"
	"strings"
)

// Dimension holds the exponents of the base dimensions. The zero value is the
// pure number. Dimensions are comparable with ==, which tells a plane angle
// from a number; Equal does not.
type Dimension struct {
	Length, Mass, Time, Temperature, Current Rat

	// Angle only tells how to show a value: 1 rad is 1 in SI.
	Angle Rat
}

// dim returns the dimension m^l · kg^m · s^t · K^k · A^a · rad^r.
func dim(l, m, t, k, a, r int) Dimension {
	return Dimension{Int(l), Int(m), Int(t), Int(k), Int(a), Int(r)}
}

// Mul returns the dimension of a product of a d and an e.
func (d Dimension) Mul(e Dimension) Dimension {
	return Dimension{
		Length:      d.Length.Add(e.Length),
		Mass:        d.Mass.Add(e.Mass),
		Time:        d.Time.Add(e.Time),
		Temperature: d.Temperature.Add(e.Temperature),
		Current:     d.Current.Add(e.Current),
		Angle:       d.Angle.Add(e.Angle),
	}
}

// Div returns the dimension of a d divided by an e.
func (d Dimension) Div(e Dimension) Dimension { return d.Mul(e.Pow(Int(-1))) }

// Pow returns the dimension of a d raised to the power n.
func (d Dimension) Pow(n Rat) Dimension {
	return Dimension{
		Length:      d.Length.Mul(n),
		Mass:        d.Mass.Mul(n),
		Time:        d.Time.Mul(n),
		Temperature: d.Temperature.Mul(n),
		Current:     d.Current.Mul(n),
		Angle:       d.Angle.Mul(n),
	}
}

// Equal reports whether a d and an e may be added. Angles do not count: an arc
// r·θ is a length.
func (d Dimension) Equal(e Dimension) bool { return d.withoutAngle() == e.withoutAngle() }

// IsNumber reports whether d is that of a pure number or an angle.
func (d Dimension) IsNumber() bool { return d.withoutAngle() == Dimension{} }

func (d Dimension) withoutAngle() Dimension {
	d.Angle = Rat{}
	return d
}

// String returns d in SI base units, as "kg·m⁻¹·s⁻²", and "1" for the pure
// number.
func (d Dimension) String() string {
	if d == (Dimension{}) {
		return "1"
	}
	var b strings.Builder
	for _, f := range [...]struct {
		base string
		exp  Rat
	}{
		{"kg", d.Mass}, {"m", d.Length}, {"s", d.Time},
		{"K", d.Temperature}, {"A", d.Current}, {"rad", d.Angle},
	} {
		if f.exp == (Rat{}) {
			continue
		}
		if b.Len() > 0 {
			b.WriteString("·")
		}
		b.WriteString(f.base)
		switch {
		case f.exp.over != 0:
			b.WriteString("^(" + f.exp.String() + ")")
		case f.exp != Int(1):
			b.Write(appendRaised(nil, int(f.exp.num)))
		}
	}
	return b.String()
}

// ParseDimension reads what String writes. It reports false for any other text.
func ParseDimension(text string) (Dimension, bool) {
	var d Dimension
	if text == "1" {
		return d, true
	}
	exponents := map[string]*Rat{"kg": &d.Mass, "m": &d.Length, "s": &d.Time, "K": &d.Temperature, "A": &d.Current, "rad": &d.Angle}
	for factor := range strings.SplitSeq(text, "·") {
		base := strings.TrimRight(factor, "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
		exp := unraised.Replace(factor[len(base):])
		if name, over, ok := strings.Cut(factor, "^("); ok {
			base, exp = name, strings.TrimSuffix(over, ")")
		}
		n, over, _ := strings.Cut(cmp.Or(exp, "1")+"/1", "/")
		num, err1 := strconv.Atoi(n)
		den, err2 := strconv.Atoi(strings.TrimSuffix(over, "/1"))
		if exponents[base] == nil || err1 != nil || err2 != nil {
			return Dimension{}, false
		}
		*exponents[base] = Frac(num, den)
	}
	return d, d.String() == text
}

// unraised sets raised digits on the line.
var unraised = strings.NewReplacer("⁻", "-", "⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9")

// Name returns the trade's word for d, such as "pressure" or "force per
// length", or its String when there is none.
func (d Dimension) Name() string {
	if k := kindOf(d); k != nil {
		return k.name
	}
	return d.String()
}

// OfAlias returns the dimension that an alias of package units stands for:
// OfAlias("Pressure") is kg·m⁻¹·s⁻². It reports false for names that are no
// dimension, Same and Any among them.
func OfAlias(name string) (Dimension, bool) {
	k := kindNamed[name]
	if k == nil {
		return Dimension{}, false
	}
	return k.dimension, true
}

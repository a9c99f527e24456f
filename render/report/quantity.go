package report

import (
	"math"
	"strings"

	"tautline/stdlib/quantity"
)

// A Quantity is a formatted number with its unit. Unit may be empty.
type Quantity struct{ Number, Unit string }

// String is the number and its unit, kept on one line.
func (q Quantity) String() string {
	if q.Unit == "" || q.Unit == "°" { // degrees follow the number at once, as ISO 80000-1 has it
		return q.Number + q.Unit
	}
	return q.Number + "\u00a0" + q.Unit
}

// In is a computed value in a unit, with the usual digits.
func In(v float64, u quantity.Unit) Quantity {
	q := Quantity{Number: quantity.Format(v, u, 0), Unit: u.Symbol}
	if math.IsNaN(v) {
		q.Unit = ""
	}
	return q
}

// Exactly is a chosen value in a unit, with all its digits.
func Exactly(v float64, u quantity.Unit) Quantity {
	return Quantity{quantity.FormatExact(v, u, 0), u.Symbol}
}

// Difference is a difference of values that are shown in a unit: between
// temperatures it has no zero point.
func Difference(v float64, u quantity.Unit) Quantity { return Exactly(v, differenceUnit(u)) }

func differenceUnit(u quantity.Unit) quantity.Unit {
	if u.Offset != 0 {
		u.Offset, u.Symbol = 0, strings.NewReplacer("°C", "K", "°F", "Δ°F").Replace(u.Symbol)
	}
	return u
}

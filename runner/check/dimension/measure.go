package dimension

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"tautline/stdlib/quantity"
)

// A Measure is what kind of quantity a number is.
type Measure struct {
	Known     bool // false when the dimension cannot be inferred
	Dimension quantity.Dimension
	Alias     string // of package units, where one names it more closely: Energy, not Moment
}

// Unit chooses the unit in which a value is printed: that of the largest of vs.
func (m Measure) Unit(sys quantity.System, vs ...float64) quantity.Unit {
	if !m.Known {
		return quantity.Unit{Factor: 1}
	}
	largest := quantity.Largest(vs)
	if u, ok := quantity.ChooseAs(m.Alias, largest, sys); ok {
		return u
	}
	return quantity.Choose(m.Dimension, largest, sys)
}

var leadingNumber = regexp.MustCompile(`^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?`)

// Read returns the quantity that a person typed, "250mm" or "1.8 kPa", in SI base
// units. Only a pure number needs no unit.
func (m Measure) Read(text string) (float64, error) {
	typed := strings.ReplaceAll(strings.TrimSpace(text), "−", "-")
	number := leadingNumber.FindString(typed)
	v, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return 0, fmt.Errorf("got %q, want a number with its unit, such as 250mm", text)
	}
	symbol := strings.TrimSpace(typed[len(number):])
	u, ok := quantity.Lookup(symbol)
	switch {
	case !ok:
		if near := quantity.Nearest(symbol); near != "" {
			return 0, fmt.Errorf("got %q: there is no unit %q; did you mean %s?", text, symbol, near)
		}
		return 0, fmt.Errorf("got %q: there is no unit %q", text, symbol)
	case !m.Known:
		return u.ToSI(v), nil
	case symbol == "" && m.Dimension != quantity.Dimension{}:
		return 0, fmt.Errorf("got the bare number %q, want %s with its unit, such as %s%s", text, m.Dimension.Name(), number, m.Unit(quantity.SI, 0).Symbol)
	case !u.Dimension.Equal(m.Dimension), m.Dimension.IsNumber() && u.Dimension != m.Dimension:
		return 0, fmt.Errorf("got %q (%s), want %s", text, u.Dimension.Name(), m.Dimension.Name())
	case u.Offset != 0 && m.Alias == "TemperatureDifference":
		return 0, fmt.Errorf("got %q, a temperature, want a difference: write %sK", text, number)
	}
	return u.ToSI(v), nil
}

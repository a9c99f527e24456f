package dimension

import (
	"math"
	"strings"
	"testing"

	"tautline/stdlib/quantity"
)

// Quantities as people type them, by the definitions of the units: 1 in is
// 25.4 mm (international yard and pound agreement, 1959), 0 °C is 273.15 K (SI
// brochure, 9th edition, 2.3.1).
func TestRead(t *testing.T) {
	of := func(alias string) Measure {
		d, _ := quantity.OfAlias(alias)
		return Measure{Known: true, Dimension: d, Alias: alias}
	}
	for _, c := range []struct {
		of   Measure
		text string
		want float64
	}{
		{of("Length"), "250mm", 0.25}, {of("Length"), "250 mm", 0.25}, {of("Length"), " .25m ", 0.25}, {of("Length"), "-1in", -0.0254},
		{of("Length"), "2.5e2mm", 0.25}, {of("Length"), "−1m", -1},
		{of("Pressure"), "1.8kPa", 1800}, {of("Angle"), "30deg", math.Pi / 6}, {of("Angle"), "30°", math.Pi / 6},
		{of("Number"), "0.4", 0.4}, {of("Number"), "40%", 0.4}, {of("Temperature"), "20degC", 293.15}, {of("TemperatureDifference"), "20K", 20},
		{Measure{}, "3", 3},
	} {
		got, err := c.of.Read(c.text)
		if err != nil || math.Abs(got-c.want) > 1e-15*math.Abs(c.want) {
			t.Errorf("%s %q: got %.17g, %v, want %g", c.of.Alias, c.text, got, err, c.want)
		}
	}
	for _, c := range []struct {
		of         Measure
		text, want string
	}{
		{of("Length"), "250kPa", "got \"250kPa\" (pressure), want length"},
		{of("Length"), "250", "with its unit, such as 250mm"},
		{of("Angle"), "30", "got the bare number"},
		{of("Number"), "30deg", "(angle), want pure number"},
		{of("Length"), "250Mm", "did you mean mm?"},
		{of("Length"), "250 zzzzzz", "there is no unit"},
		{of("Length"), "mm", "want a number with its unit"},
		{of("Length"), "", "want a number with its unit"},
		{of("TemperatureDifference"), "20degC", "write 20K"},
	} {
		if got, err := c.of.Read(c.text); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s %q: got %g, %v, want an error with %q", c.of.Alias, c.text, got, err, c.want)
		}
	}
}

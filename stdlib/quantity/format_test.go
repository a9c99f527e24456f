package quantity

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// symbol returns the unit with a symbol that exists.
func symbol(s string) Unit {
	u, ok := Lookup(s)
	if !ok {
		panic("no unit " + s)
	}
	return u
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		v      float64
		unit   string
		digits int
		want   string
	}{
		// Whole and short numbers as given.
		{0.3, "mm", 0, "300"},
		{1.8 * 1e3, "kPa", 0, "1.8"},
		{1.7999999999999998, "", 0, "1.8"},
		{1.7999999999999998, "", 17, "1.8"},
		{0.1 + 0.2, "", 13, "0.3"},
		{1.80001, "", 0, "1.800"},
		{0, "", 0, "0"},
		{math.Copysign(0, -1), "", 0, "0"},
		{45 * math.Pi / 180, "°", 0, "45"},
		{0.254, "in", 0, "10"},

		// Rounding.
		{1470.9975, "", 7, "1470.998"},
		{0.125, "", 2, "0.13"},
		{-0.135, "", 2, "−0.14"},
		{99999.7, "", 0, "100\u202f000"},
		{9999999.7, "", 0, "1.000×10⁷"},
		{math.Pi, "", 0, "3.142"},
		{math.Pi, "", 1, "3"},
		{math.Pi, "", 7, "3.141593"},
		{-2.0 / 3, "", 3, "−0.667"},
		{9.9996, "", 0, "10.00"},
		{9999.7, "", 0, "10\u202f000"},
		{0.00099996, "", 0, "0.001000"},
		{12345.6, "", 0, "12\u202f346"},
		{1234.56, "", 0, "1235"},
		{12340.4, "", 0, "12\u202f340"},

		// Thousands.
		{1850, "", 0, "1850"},
		{10000, "", 0, "10\u202f000"},
		{-1234567, "", 0, "−1\u202f234\u202f567"},

		// Powers of ten.
		{0.0001, "", 0, "0.0001"},
		{0.00012345678, "", 0, "0.0001235"},
		{12e-6, "1/K", 0, "1.2×10⁻⁵"},
		{9.99999e-5, "", 0, "0.0001000"},
		{9999999, "", 0, "9\u202f999\u202f999"},
		{2.1e11, "Pa", 0, "2.1×10¹¹"},
		{1e7, "", 0, "1×10⁷"},
		{-12345678, "", 0, "−1.235×10⁷"},
		{1e300, "", 0, "1×10³⁰⁰"},

		// A thermometer's zero.
		{293.15, "°C", 0, "20"},
		{273.15 + 0.1, "°C", 0, "0.1"},
		{273.15 + 1e-13, "°C", 0, "0"},
		{273.15, "°F", 0, "32"},
		{233.15, "°F", 0, "−40"},

		// Not finite.
		{math.NaN(), "kPa", 0, "not a number"},
		{math.Inf(1), "kPa", 0, "∞"},
		{math.Inf(-1), "°C", 0, "−∞"},
	} {
		if got := Format(c.v, symbol(c.unit), c.digits); got != c.want {
			t.Errorf("Format(%v, %s, %d): got %q, want %q", c.v, c.unit, c.digits, got, c.want)
		}
	}
}

// TestPublishedConversions writes values in other units. Strip strength, water
// columns and psi are of conventional definition (NIST SP 811, appendix B.8);
// 1850 N on 50 mm is the classic trap of ISO 1421 strip tests.
func TestPublishedConversions(t *testing.T) {
	for _, c := range []struct {
		x        float64
		from, to string
		digits   int
		want     string
	}{
		{1850, "N/50mm", "kN/m", 5, "37"},
		{1850, "N/50mm", "lbf/in", 6, "211.275"},
		{3, "inH2O", "Pa", 6, "747.267"},
		{150, "mmH2O", "Pa", 7, "1470.998"},
		{12, "mbar", "Pa", 4, "1200"},
		{0.15, "psi", "Pa", 7, "1034.214"},
		{1, "hp", "W", 7, "745.6999"},
		{1, "ft³", "m³", 7, "0.02831685"},
		{100, "mph", "km/h", 7, "160.9344"},
		{18, "oz/yd²", "g/m²", 7, "610.3035"},
		{1000, "cfm", "m³/h", 7, "1699.011"},
		{50, "ksi", "MPa", 7, "344.7379"},
	} {
		from, to := symbol(c.from), symbol(c.to)
		if got := Format(from.ToSI(c.x), to, c.digits); got != c.want {
			t.Errorf("%g %s in %s: got %s, want %s", c.x, c.from, c.to, got, c.want)
		}
	}
}

func TestFormatExact(t *testing.T) {
	for _, c := range []struct {
		v    float64
		unit string
		max  int
		want string
	}{
		{0.3, "mm", 0, "300"},
		{0.0254, "m", 0, "0.0254"},
		{1.7999999999999998, "", 0, "1.8"},
		{1.80001, "", 0, "1.80001"},
		{12345678, "", 0, "1.2345678×10⁷"},
		{12345.5, "", 0, "12\u202f345.5"},
		{12345, "", 3, "12\u202f345"},
		{math.Pi, "", 6, "3.14159"},
		{math.Pi, "", 0, "3.14159265359"},
		{101325, "kPa", 0, "101.325"},
		{288.15, "°C", 0, "15"},
		{math.NaN(), "", 0, "not a number"},
	} {
		if got := FormatExact(c.v, symbol(c.unit), c.max); got != c.want {
			t.Errorf("FormatExact(%v, %s, %d): got %q, want %q", c.v, c.unit, c.max, got, c.want)
		}
	}
}

func TestText(t *testing.T) {
	for _, c := range []struct {
		v    float64
		unit string
		want string
	}{
		{1800, "kPa", "1.8\u00a0kPa"},
		{math.Pi / 6, "°", "30°"},
		{math.Pi / 6, "°/s", "30\u00a0°/s"},
		{0.05, "%", "5\u00a0%"},
		{0.6, "", "0.6"},
		{math.NaN(), "kPa", "not a number"},
		{math.Inf(1), "kPa", "∞\u00a0kPa"},
	} {
		if got := Text(c.v, symbol(c.unit), 0); got != c.want {
			t.Errorf("Text(%v, %s): got %q, want %q", c.v, c.unit, got, c.want)
		}
	}
}

// number is any finite float64 of a size that occurs, and unit any unit.
func number() *rapid.Generator[float64] {
	return rapid.Custom(func(t *rapid.T) float64 {
		m := rapid.Float64Range(-10, 10).Draw(t, "mantissa")
		return m * math.Pow(10, float64(rapid.IntRange(-30, 30).Draw(t, "power")))
	})
}

func anyUnit() *rapid.Generator[Unit] { return rapid.SampledFrom(Units()) }

var ascii = strings.NewReplacer("−", "-", "\u202f", "", "×10", "e", "⁻", "-", "⁰", "0", "¹", "1",
	"²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9")

// readBack returns the value of a printed number and the place value of its
// last printed digit.
func readBack(t *rapid.T, text string) (x, last float64) {
	s := ascii.Replace(text)
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatalf("%q does not read back: %v", text, err)
	}
	mantissa, power, _ := strings.Cut(s, "e")
	_, decimals, _ := strings.Cut(mantissa, ".")
	exponent := 0
	if power != "" {
		if exponent, err = strconv.Atoi(power); err != nil {
			t.Fatalf("%q: power %v", text, err)
		}
	}
	return x, math.Pow(10, float64(exponent-len(decimals)))
}

// TestFormatReadsBack checks that a printed number is within half a unit of its
// last digit of the value, and has as many digits as asked for unless those left
// out are zeros. What the 13 digits that are kept first drop, and nine decimals
// of a temperature, is below 1e-12 and allowed on top.
func TestFormatReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, u := number().Draw(t, "v"), anyUnit().Draw(t, "unit")
		digits := rapid.IntRange(1, 16).Draw(t, "digits")
		text := Format(v, u, digits)
		got, last := readBack(t, text)
		want := u.FromSI(v)
		allowed := 1e-12 * (math.Abs(want) + math.Abs(u.Offset/u.Factor))
		off := math.Abs(got - want)
		if off > last/2+allowed {
			t.Fatalf("Format(%v, %s, %d): got %s, off %v by %g, want within half of %g",
				v, u.Symbol, digits, text, want, off, last)
		}
		// 9.6 to one digit is 10: its first digit is that of the text.
		asked := math.Max(math.Abs(want), math.Abs(got)) * math.Pow(10, float64(1-min(digits, MaxDigits)))
		if last > asked*(1+1e-12) && off > allowed {
			t.Fatalf("Format(%v, %s, %d): got %s, off %v by %g, want more digits",
				v, u.Symbol, digits, text, want, off)
		}
		checkLook(t, text)
	})
}

// checkLook checks what every printed number keeps to.
func checkLook(t *rapid.T, text string) {
	plain, power, scientific := strings.Cut(text, "×10")
	if strings.ContainsAny(text, "eE-") || strings.HasPrefix(plain, ".") {
		t.Fatalf("%q: not as printed by hand", text)
	}
	whole, _, _ := strings.Cut(strings.TrimPrefix(plain, "−"), ".")
	if scientific && (len(whole) != 1 || whole == "0" || power == "") {
		t.Fatalf("%q: want one digit before the decimal sign", text)
	}
	groups := strings.Split(whole, "\u202f")
	for i, g := range groups {
		if i > 0 && len(g) != 3 || i == 0 && len(groups) == 1 && len(g) > 4 || len(g) == 0 {
			t.Fatalf("%q: want groups of three digits from 10 000 up", text)
		}
	}
}

// TestFormatAnything checks that every float64 prints, in every unit.
func TestFormatAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{
			math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, math.SmallestNonzeroFloat64,
		})).Draw(t, "v")
		u := anyUnit().Draw(t, "unit")
		text := Text(v, u, rapid.IntRange(-1, 20).Draw(t, "digits"))
		if text == "" || strings.ContainsAny(text, ":\x00") {
			t.Fatalf("Text(%v, %s): got %q", v, u.Symbol, text)
		}
	})
}

// TestFormatExactReadsBack checks that any value reads back within 1e-12 and
// that a decimal of up to 12 digits prints with no more of them in any unit.
func TestFormatExactReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, u := number().Draw(t, "v"), anyUnit().Draw(t, "unit")
		got, _ := readBack(t, FormatExact(v, u, 0))
		want := u.FromSI(v)
		if tol := 1e-12 * (math.Abs(want) + math.Abs(u.Offset/u.Factor)); math.Abs(got-want) > tol {
			t.Fatalf("FormatExact(%v, %s): got %g, want %g within %g", v, u.Symbol, got, want, tol)
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		u := anyUnit().Filter(func(u Unit) bool { return u.Offset == 0 }).Draw(t, "unit")
		n := rapid.Int64Range(1, 999_999_999_999).Draw(t, "n")
		x := float64(n) * math.Pow(10, float64(rapid.IntRange(-12, 0).Draw(t, "power")))
		digits := strings.Trim(strconv.FormatInt(n, 10), "0")
		text := ascii.Replace(FormatExact(u.ToSI(x), u, 0))
		mantissa, _, _ := strings.Cut(strings.ReplaceAll(text, ".", ""), "e")
		if got := strings.Trim(mantissa, "0"); len(got) > len(digits) {
			t.Fatalf("FormatExact(%v %s): got %s, want the digits %s", x, u.Symbol, text, digits)
		}
	})
}

// TestFormatAllocates holds the printing of a number to the one allocation of
// its text.
func TestFormatAllocates(t *testing.T) {
	u, d := symbol("kPa"), of("Pressure")
	if n := testing.AllocsPerRun(100, func() { Format(1234.5678, u, 0) }); n > 1 {
		t.Errorf("Format: got %v allocations, want 1", n)
	}
	if n := testing.AllocsPerRun(100, func() { Choose(d, 1234.5678, SI) }); n > 0 {
		t.Errorf("Choose: got %v allocations, want none", n)
	}
}

func BenchmarkChoose(b *testing.B) {
	d := of("Pressure")
	for b.Loop() {
		Choose(d, 1234.5678, SI)
	}
}

func BenchmarkFormat(b *testing.B) {
	u := symbol("kPa")
	for b.Loop() {
		Format(1234.5678, u, 0)
	}
}

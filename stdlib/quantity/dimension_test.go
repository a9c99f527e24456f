package quantity

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func rat() *rapid.Generator[Rat] {
	return rapid.Custom(func(t *rapid.T) Rat {
		return Frac(rapid.IntRange(-12, 12).Draw(t, "n"), rapid.IntRange(1, 12).Draw(t, "d"))
	})
}

func dimension() *rapid.Generator[Dimension] {
	return rapid.Custom(func(t *rapid.T) Dimension {
		r := rat()
		return Dimension{
			Length: r.Draw(t, "length"), Mass: r.Draw(t, "mass"), Time: r.Draw(t, "time"),
			Temperature: r.Draw(t, "temperature"), Current: r.Draw(t, "current"), Angle: r.Draw(t, "angle"),
		}
	})
}

func bigRat(r Rat) *big.Rat { return big.NewRat(int64(r.num), r.den()) }

// TestRatAgainstBig compares the arithmetic with that of math/big.
func TestRatAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rat().Draw(t, "a"), rat().Draw(t, "b")
		for _, c := range []struct {
			op   string
			got  Rat
			want *big.Rat
		}{
			{"+", a.Add(b), new(big.Rat).Add(bigRat(a), bigRat(b))},
			{"×", a.Mul(b), new(big.Rat).Mul(bigRat(a), bigRat(b))},
			{"-", a.Neg(), new(big.Rat).Neg(bigRat(a))},
		} {
			if bigRat(c.got).Cmp(c.want) != 0 {
				t.Fatalf("%s %s %s: got %s, want %s", a, c.op, b, c.got, c.want.RatString())
			}
			if c.got.String() != c.want.RatString() {
				t.Fatalf("%s %s %s: got %s not in lowest terms, want %s", a, c.op, b, c.got, c.want.RatString())
			}
		}
	})
}

func TestRatOf(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string // "" if x is no fraction
	}{
		{0, "0"}, {2, "2"}, {-1, "-1"}, {0.5, "1/2"}, {1.0 / 3, "1/3"}, {-2.0 / 3, "-2/3"},
		{1.5, "3/2"}, {1.0 / 7, "1/7"}, {0.123, ""}, {1e9, ""},
	} {
		r, ok := RatOf(c.x)
		if ok != (c.want != "") || ok && r.String() != c.want {
			t.Errorf("RatOf(%v): got %s, %v, want %q", c.x, r, ok, c.want)
		}
	}
}

// TestRatStaysInRange raises an exponent far beyond any formula.
func TestRatStaysInRange(t *testing.T) {
	up, down := Int(3), Frac(1, 3)
	for range 100 {
		up, down = up.Mul(up), down.Mul(down)
	}
	if up.num <= 0 || down.num != 1 || down.den() <= 0 {
		t.Errorf("3 and 1/3 squared 100 times: got %s and %s", up, down)
	}
	if got := Frac(1, 0); got != (Rat{}) {
		t.Errorf("Frac(1, 0): got %s, want 0", got)
	}
}

// TestDimensionGroup checks that dimensions are a commutative group under Mul
// and that Pow distributes over it.
func TestDimensionGroup(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := dimension()
		a, b, c := d.Draw(t, "a"), d.Draw(t, "b"), d.Draw(t, "c")
		m, n := rat().Draw(t, "m"), rat().Draw(t, "n")
		for _, law := range []struct {
			name      string
			got, want Dimension
		}{
			{"a(bc) = (ab)c", a.Mul(b.Mul(c)), a.Mul(b).Mul(c)},
			{"ab = ba", a.Mul(b), b.Mul(a)},
			{"a·1 = a", a.Mul(Dimension{}), a},
			{"a/a = 1", a.Div(a), Dimension{}},
			{"ab/b = a", a.Mul(b).Div(b), a},
			{"a² = aa", a.Pow(Int(2)), a.Mul(a)},
			{"(ab)ⁿ = aⁿbⁿ", a.Mul(b).Pow(n), a.Pow(n).Mul(b.Pow(n))},
			{"aᵐaⁿ = aᵐ⁺ⁿ", a.Pow(m).Mul(a.Pow(n)), a.Pow(m.Add(n))},
			{"(aᵐ)ⁿ = aᵐⁿ", a.Pow(m).Pow(n), a.Pow(m.Mul(n))},
			{"a⁰ = 1", a.Pow(Rat{}), Dimension{}},
		} {
			if law.got != law.want {
				t.Fatalf("%s: got %s, want %s", law.name, law.got, law.want)
			}
		}
		if turned := a.Mul(of("Angle")); !a.Equal(turned) {
			t.Fatalf("%s and %s: got different, want equal", a, turned)
		}
	})
}

// of returns the dimension of an alias that exists.
func of(alias string) Dimension {
	d, ok := OfAlias(alias)
	if !ok {
		panic("no alias " + alias)
	}
	return d
}

func TestDimensionText(t *testing.T) {
	for _, c := range []struct {
		d            Dimension
		symbol, name string
	}{
		{Dimension{}, "1", "pure number"},
		{of("Pressure"), "kg·m⁻¹·s⁻²", "pressure"},
		{of("Pressure").Mul(of("Length")), "kg·s⁻²", "force per length"},
		{of("Force").Mul(of("Length")), "kg·m²·s⁻²", "moment or energy"},
		{of("Length").Mul(of("Angle")), "m·rad", "length"},
		{of("Angle"), "rad", "angle"},
		{of("AngularSpeed").Pow(Int(2)).Mul(of("Length")), "m·s⁻²·rad²", "acceleration"},
		{of("Speed").Div(of("Length")), "s⁻¹", "per time"},
		{of("Mass").Mul(of("Volume")), "kg·m³", "kg·m³"},
		{of("Pressure").Pow(Frac(1, 2)), "kg^(1/2)·m^(-1/2)·s⁻¹", "kg^(1/2)·m^(-1/2)·s⁻¹"},
		{of("Voltage").Mul(of("Current")), "kg·m²·s⁻³", "power"},
		{of("Voltage").Div(of("Current")), "kg·m²·s⁻³·A⁻²", "electric resistance"},
	} {
		if got := c.d.String(); got != c.symbol {
			t.Errorf("String: got %s, want %s", got, c.symbol)
		}
		if got := c.d.Name(); got != c.name {
			t.Errorf("%s: Name: got %q, want %q", c.symbol, got, c.name)
		}
	}
	if !of("Angle").IsNumber() || of("Length").IsNumber() {
		t.Error("IsNumber: want true for an angle and false for a length")
	}
}

// What String writes ParseDimension reads back, and nothing else.
func TestParseDimension(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := dimension().Draw(t, "d")
		if got, ok := ParseDimension(d.String()); got != d || !ok {
			t.Fatalf("ParseDimension(%q): got %v, %v", d.String(), got, ok)
		}
	})
	for _, text := range []string{"", "x", "m·", "m⁰", "m^(1/0)", "m^(2/4)", "s·m", "m²³⁻", "11", "m·m", "kg·m^(3)"} {
		if got, ok := ParseDimension(text); ok {
			t.Errorf("ParseDimension(%q): got %v, want none", text, got)
		}
	}
}

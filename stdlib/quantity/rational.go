package quantity

import (
	"math"
	"strconv"
)

// Rat is a rational exponent, such as the 1/2 that a square root leaves. It is
// always in lowest terms, so two equal Rats are == and may be map keys. The
// zero value is 0. A numerator or denominator beyond ±2³¹ stays there: no
// formula comes near it.
type Rat struct {
	num  int32
	over int32 // denominator less one, so that the zero value is 0/1
}

// Int returns n as a Rat.
func Int(n int) Rat { return reduce(int64(n), 1) }

// Frac returns n/d in lowest terms. Frac(n, 0) is 0.
func Frac(n, d int) Rat { return reduce(int64(n), int64(d)) }

// maxDenominator bounds what RatOf takes for a fraction: no law of mechanics
// has a finer exponent.
const maxDenominator = 12

// RatOf returns the fraction that the float64 x was written as, such as 1/3 for
// 1.0/3. It reports false when x is no fraction with a denominator up to 12 and
// a numerator up to 1000.
func RatOf(x float64) (Rat, bool) {
	for d := 1.0; d <= maxDenominator; d++ {
		n := math.Round(x * d)
		if math.Abs(n) <= 1000 && n/d == x {
			return Frac(int(n), int(d)), true
		}
	}
	return Rat{}, false
}

// reduce returns n/d in lowest terms with a positive denominator.
func reduce(n, d int64) Rat {
	if d == 0 {
		return Rat{}
	}
	if d < 0 {
		n, d = -n, -d
	}
	if g := gcd(max(n, -n), d); g > 1 {
		n, d = n/g, d/g
	}
	n = min(max(n, math.MinInt32), math.MaxInt32)
	return Rat{int32(n), int32(min(d-1, math.MaxInt32))}
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func (r Rat) den() int64 { return int64(r.over) + 1 }

// Add returns r + s.
func (r Rat) Add(s Rat) Rat {
	if r.over == 0 && s.over == 0 {
		return reduce(int64(r.num)+int64(s.num), 1)
	}
	return reduce(int64(r.num)*s.den()+int64(s.num)*r.den(), r.den()*s.den())
}

// Neg returns -r.
func (r Rat) Neg() Rat { return reduce(-int64(r.num), r.den()) }

// Mul returns r × s.
func (r Rat) Mul(s Rat) Rat {
	return reduce(int64(r.num)*int64(s.num), r.den()*s.den())
}

// String returns "2", "-1" or "1/2".
func (r Rat) String() string {
	s := strconv.Itoa(int(r.num))
	if r.over != 0 {
		s += "/" + strconv.FormatInt(r.den(), 10)
	}
	return s
}

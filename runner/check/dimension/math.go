package dimension

import (
	"go/ast"
	"go/constant"
	"go/token"
	"math/big"

	"tautline/stdlib/quantity"
)

// math returns the results of a function of package math, by its kind.
func (d *Inference) math(e *ast.CallExpr, name string) []*shape {
	for _, a := range e.Args {
		d.expr(a)
	}
	one := func(s *shape) []*shape { return []*shape{s} }
	if len(e.Args) == 0 { // NaN
		return one(d.anything(true))
	}
	x := d.expr(e.Args[0])
	switch name {
	case "Sqrt":
		return one(x.power(big.NewRat(1, 2)))
	case "Cbrt":
		return one(x.power(big.NewRat(1, 3)))
	case "Pow":
		return one(d.pow(e))
	case "Abs", "Copysign", "Ldexp":
		return one(x.fresh())
	case "Max", "Min", "Hypot", "Dim", "Mod", "Remainder", "Nextafter":
		return one(d.alike(e, "math."+name))
	case "Atan2":
		d.alike(e, "math.Atan2")
		return one(known("Angle"))
	case "Asin", "Acos", "Atan":
		d.wantNumber(e.Args[0], "math."+name)
		return one(known("Angle"))
	case "Sin", "Cos", "Tan", "Sincos":
		if x.isBare() {
			text := d.tree.OneLine(e.Args[0])
			d.report(e.Args[0], writeAngle(text), "math.%s: got the bare number %s, want an angle", name, text)
		} else {
			d.wantNumber(e.Args[0], "math."+name)
		}
		return []*shape{number(), number()}
	case "FMA":
		return one(d.fma(e))
	case "Inf", "Float64frombits", "Float32frombits":
		return one(d.anything(name == "Inf"))
	case "IsNaN", "IsInf", "Signbit", "Float64bits", "Float32bits":
		return one(nil)
	}
	for _, a := range e.Args { // exponentials, logarithms, rounding, special functions
		d.wantNumber(a, "math."+name)
	}
	return []*shape{number(), number()}
}

// fma is x*y + z.
func (d *Inference) fma(e *ast.CallExpr) *shape {
	p := product(token.MUL, d.expr(e.Args[0]), d.expr(e.Args[1]))
	d.assign(p, "math.FMA: z", e.Args[2], d.expr(e.Args[2]))
	return p
}

// rounds says which functions depend on the unit that a number is counted in.
var rounds = map[string]bool{"math.Ceil": true, "math.Floor": true, "math.Round": true, "math.RoundToEven": true,
	"math.Trunc": true, "math.Modf": true, "int": true}

// wantNumber checks that an argument of a function is a pure number or an
// angle.
func (d *Inference) wantNumber(arg ast.Expr, name string) {
	s := d.expr(arg)
	if s == nil || s.scalar() != s || equate(s.dim, term{}) {
		return
	}
	dim, ok := s.dimension()
	hint := "divide by a quantity of the same dimension first"
	if code := unitFor(dim, true); ok && rounds[name] && code != "" {
		hint = "count in a unit first: " + name + "(" + factorText(d.tree.OneLine(arg)) + "/" + code + ")"
	}
	if name == "math.Sin" || name == "math.Cos" || name == "math.Tan" {
		d.report(arg, hint, "%s: got %s, want an angle", name, noun(dim))
		return
	}
	d.report(arg, hint, "%s: got %s, want a pure number", name, noun(dim))
}

func (d *Inference) pow(e *ast.CallExpr) *shape {
	base, exponent := d.expr(e.Args[0]), e.Args[1]
	d.wantNumber(exponent, "exponent")
	if base == nil {
		return nil
	}
	if v := d.tree.Info.Types[exponent].Value; v != nil {
		f, _ := constant.Float64Val(v)
		if r, ok := quantity.RatOf(f); ok {
			exact, _ := new(big.Rat).SetString(r.String())
			return base.power(exact)
		}
	}
	if number := d.expr(exponent); number != nil && !equate(number.dim, term{}) {
		return d.anything(false) // reported
	}
	if !equate(base.dim, term{}) {
		dim, _ := base.dimension()
		d.report(e, "raise a ratio to the power, or use a constant exponent", "power of %s with an exponent that is not a constant fraction", noun(dim))
		return d.anything(false)
	}
	return number()
}

func (s *shape) power(r *big.Rat) *shape {
	if s == nil {
		return nil
	}
	return &shape{dim: s.dim.power(r)}
}

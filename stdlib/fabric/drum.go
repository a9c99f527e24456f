package fabric

import (
	"cmp"
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/ode"
	"tautline/stdlib/internal/root"
	"tautline/stdlib/units"
)

// A Drum is a round panel held all round its edge, such as an end cap or a
// window, flat and without tension before the pressure blows it out.
type Drum struct {
	Radius    units.Length         // more than 0
	Stiffness units.ForcePerLength // tensile stiffness E·t, the same in all directions, more than 0
	Poisson   units.Number         // contraction over stretch, from 0 to 0.5
	Pressure  units.Pressure       // gauge, more than 0
}

// A Dish is a drum under pressure.
type Dish struct {
	Rise     units.Length         // of the centre above the edge
	Centre   units.ForcePerLength // line force at the centre, the same in all directions
	Edge     units.ForcePerLength // line force at the edge, square to it
	Volume   units.Volume         // between the panel and its flat shape
	Warnings []string
}

func (d Drum) check() error {
	return cmp.Or(argument.Positive("radius", d.Radius), argument.Positive("stiffness", d.Stiffness),
		argument.Within("Poisson's ratio", d.Poisson, 0, 0.5), argument.Positive("pressure", d.Pressure))
}

// load is the pressure as a number without dimension.
func (d Drum) load() float64 { return d.Pressure * d.Radius / d.Stiffness }

// Shallow gives the dish under a load that stays upright, such as water or
// snow, which also serves for gas pressure while the dish is flat: up to a rise
// of a tenth of the radius the line forces differ by 2 %.
//
// The line force over the radius is Hencky's power series, sixty terms, with the
// corrected coefficients; its first is found by halving so that the edge does
// not move. Line forces go with the power 2/3 of the pressure, the rise with the
// power 1/3. A rise of more than a fifth of the radius carries a warning. It is
// an error if a field is out of its range.
//
// Source: Hencky, Zeitschrift für Mathematik und Physik 63 (1915) 311-317, as
// corrected by Chien (1948) and Alekseev (1953).
func (d Drum) Shallow() (Dish, error) {
	if err := d.check(); err != nil {
		return Dish{}, fmt.Errorf("drum: %w", err)
	}
	first := root.Bisect(1.4, 2.2, func(b0 float64) float64 {
		b := hencky(b0)
		return b.slope(1) + (1-d.Poisson)*b.at(1)
	})
	b := hencky(first)
	q := d.load()
	force := math.Pow(q, 2.0/3) / 4 * d.Stiffness
	rise := 2 * math.Cbrt(q) * d.Radius
	dish := Dish{
		Rise:   rise * quad.Fixed(func(x float64) float64 { return x / b.at(x) }, 0, 1, 32, nil, 0),
		Centre: force * b.at(0),
		Edge:   force * b.at(1),
	}
	dish.Volume = math.Pi * d.Radius * d.Radius * rise * quad.Fixed(func(x float64) float64 { return x * x * x / b.at(x) }, 0, 1, 32, nil, 0)
	if dish.Rise > d.Radius/5 {
		dish.Warnings = append(dish.Warnings, fmt.Sprintf(
			"rise is %.2g of the radius: too deep for the shallow theory; use Blown", dish.Rise/d.Radius))
	}
	dish.Warnings = append(dish.Warnings, d.stretched(dish)...)
	return dish, nil
}

// Blown gives the dish under the pressure of a gas, which stays square to the
// fabric.
//
// The line forces are integrated from the centre outward, where they begin with
// their power series; the line force there is found by halving so that the edge
// does not move. It is an error if a field is out of its range or the pressure
// is more than the stiffness over the radius, where no fabric is elastic.
//
// Source: equilibrium and compatibility of a round membrane with moderate
// slopes, as in Fichter, Some solutions for the large deflections of uniformly
// loaded circular membranes, NASA TP-3658 (1997), from memory: verify against
// the document.
func (d Drum) Blown() (Dish, error) {
	q := d.load()
	err := d.check()
	if err == nil && q > 1 {
		err = fmt.Errorf("pressure: got %g Pa, want at most %g Pa: the panel would stretch without end", d.Pressure, d.Stiffness/d.Radius)
	}
	if err != nil {
		return Dish{}, fmt.Errorf("drum: %w", err)
	}
	low, high := math.Log(0.1*math.Pow(q, 2.0/3)), math.Log(math.Pow(q, 2.0/3)+2*q)
	centre := math.Exp(root.Bisect(low, high, func(n float64) float64 {
		edge, ok := d.outward(math.Exp(n))
		if !ok {
			return -1
		}
		return edge[1] - d.Poisson*edge[0]
	}))
	edge, ok := d.outward(centre)
	if !ok {
		return Dish{}, fmt.Errorf("drum: no line force at the centre carries %g Pa", d.Pressure)
	}
	dish := Dish{
		Rise:   d.Radius * edge[2],
		Centre: d.Stiffness * centre,
		Edge:   d.Stiffness * edge[0],
		Volume: d.Radius * d.Radius * d.Radius * edge[3],
	}
	dish.Warnings = d.stretched(dish)
	return dish, nil
}

// outward integrates from a line force at the centre, over the stiffness, to the
// edge: line force outward and around, rise over the radius, volume over its
// cube. It fails where the fabric would go slack on the way.
func (d Drum) outward(centre float64) (edge []float64, ok bool) {
	q, nu := d.load(), d.Poisson
	const r0 = 1e-3
	bend := -q * q / (64 * centre * centre) * (1 + 4*(3+nu)*centre)
	run, err := ode.System{
		Derivative: func(r float64, y, dydr []float64) {
			out, around := y[0], y[1]
			slope := q * r / (2 * out)
			dydr[0] = (around-out)/r - q*slope
			dydr[1] = nu*dydr[0] + ((1+nu)*(out-around)-slope*slope/2)/r
			dydr[2] = slope
			dydr[3] = math.Pi * r * r * slope
		},
		Scale:     []float64{centre * 1e-3, centre * 1e-3, 1e-6, 1e-6},
		Tolerance: 1e-11,
		Events:    []func(float64, []float64) float64{func(_ float64, y []float64) float64 { return y[0] - 1e-4*centre }},
	}.Run(r0, []float64{
		centre + bend*r0*r0,
		centre + (3*bend+q*q/(2*centre))*r0*r0,
		q * r0 * r0 / (4 * centre),
		math.Pi * q * r0 * r0 * r0 * r0 / (8 * centre),
	}, 1)
	_, edge = run.Last()
	return edge, err == nil && run.Event < 0
}

// stretched warns of a strain beyond which coated fabric is not linear.
func (d Drum) stretched(dish Dish) []string {
	if strain := dish.Centre / d.Stiffness * (1 - d.Poisson); strain > 0.05 {
		return []string{fmt.Sprintf("strain at the centre is %.0f %%: coated fabric is no longer linear there; take its measured curve", 100*strain)}
	}
	return nil
}

// A series is Hencky's: coefficients of the even powers of the radius.
type series []float64

// hencky is the series that begins with b0: each coefficient follows from those
// before by B²(x²B″ + 3xB′) = -8x².
func hencky(b0 float64) series {
	const terms = 60
	b := series{b0}
	square := []float64{b0 * b0} // coefficients of B²
	for m := 1; m < terms; m++ {
		sum := 0.0
		if m == 1 {
			sum = -8
		}
		for k := 1; k < m; k++ {
			sum -= float64(4*k*(k+1)) * b[k] * square[m-k]
		}
		b = append(b, sum/(float64(4*m*(m+1))*square[0]))
		product := 0.0
		for k := range b {
			product += b[k] * b[m-k]
		}
		square = append(square, product)
	}
	return b
}

func (b series) at(x float64) float64 {
	sum := 0.0
	for k := len(b) - 1; k >= 0; k-- {
		sum = sum*x*x + b[k]
	}
	return sum
}

func (b series) slope(x float64) float64 {
	sum := 0.0
	for k := len(b) - 1; k >= 1; k-- {
		sum = sum*x*x + float64(2*k)*b[k]
	}
	return sum * x
}

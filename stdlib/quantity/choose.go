package quantity

import "math"

// A rung is a resolved step: the unit to use from an SI magnitude on.
type rung struct {
	from float64
	unit *Unit
}

// slack keeps a value that rounding left just below a step, such as a computed
// 999.999 999 999 9 Pa, on that step.
const slack = 1e-9

// ladders holds the rungs of each kind in SI and US.
var ladders = resolveAll()

func resolveAll() map[*kind][2][]rung {
	m := make(map[*kind][2][]rung, len(kinds))
	for i := range kinds {
		k := &kinds[i]
		m[k] = [2][]rung{resolve(k.si), resolve(k.us)}
	}
	return m
}

func resolve(steps []step) []rung {
	rungs := make([]rung, len(steps))
	for i, s := range steps {
		u := bySymbol[plain.Replace(s.symbol)]
		rungs[i] = rung{s.from * u.Factor * (1 - slack), u}
	}
	return rungs
}

// Choose returns the unit in which the trade writes a value v, in SI base
// units, of dimension d: 1800 Pa in kPa, 80 Pa in Pa. A dimension without a
// trade name gets its SI base units without a prefix, in both systems.
//
// Two quantities of one dimension look alike here: an energy is shown as a
// moment and a temperature in kelvin. Where the alias is known, ChooseAs does
// better.
func Choose(d Dimension, v float64, sys System) Unit {
	if k := kindOf(d); k != nil {
		return k.choose(v, sys)
	}
	d = d.withoutAngle()
	return Unit{Symbol: d.String(), Factor: 1, Dimension: d, Systems: both}
}

// ChooseAs returns the unit for a value v, in SI base units, declared with an
// alias of package units: "Energy" in J, "Temperature" in °C, "SectionModulus"
// in cm³. It reports false when the alias names no dimension.
func ChooseAs(alias string, v float64, sys System) (Unit, bool) {
	k := kindNamed[alias]
	if k == nil {
		return Unit{}, false
	}
	return k.choose(v, sys), true
}

// ChooseFor returns one unit for all values vs, in SI base units: that of the
// largest.
func ChooseFor(d Dimension, vs []float64, sys System) Unit {
	return Choose(d, Largest(vs), sys)
}

// Largest returns the largest magnitude in vs, leaving out what is not finite,
// and 0 for none.
func Largest(vs []float64) float64 {
	var largest float64
	for _, v := range vs {
		if v = math.Abs(v); v > largest && !math.IsInf(v, 0) {
			largest = v
		}
	}
	return largest
}

func (k *kind) choose(v float64, sys System) Unit {
	rungs := ladders[k][0]
	if sys == US {
		rungs = ladders[k][1]
	}
	v = math.Abs(v)
	best := rungs[0].unit
	for _, r := range rungs[1:] {
		if v >= r.from {
			best = r.unit
		}
	}
	return *best
}

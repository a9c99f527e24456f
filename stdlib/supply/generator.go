package supply

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Generator stands in for the mains.
type Generator struct {
	Name      string
	Rated     units.Power  // apparent, in VA, more than 0
	Factor    units.Number // power factor that it is rated at, more than 0 to 1
	Reactance units.Number // transient, per unit of its rating, more than 0 to 1
}

func (g Generator) check() error {
	return cmp.Or(argument.Positive("rating", g.Rated), argument.Within("power factor", g.Factor, 1e-9, 1), argument.Within("reactance", g.Reactance, 1e-9, 1))
}

// Dip is the share of its voltage that the generator loses for a moment when a load
// starts.
//
//	dip = g.Reactance*start/(g.Rated + g.Reactance*start)
//
// The apparent power of the start is 0 or more; outside it panics, as it does for a
// generator that is none.
//
// Source: voltage divider of the transient reactance and a load of reactance alone;
// common practice, no source. The maker's curve comes before it.
func (g Generator) Dip(start units.Power) units.Number {
	argument.Demand("supply: Generator.Dip", g.check(), argument.NotNegative("start", start))
	return g.Reactance * start / (g.Rated + g.Reactance*start)
}

// A Fed is a set on a generator.
type Fed struct {
	Name     string
	Use      units.Number // of what it is rated for, the greater of apparent and real power
	Dip      units.Number // when the load that starts hardest starts
	Holds    bool         // both within the limits
	Warnings []string
}

// Feed judges the generator for what loads draw: with at most a share of its rating
// in use, and at most a dip when the hardest of them starts.
//
// The greatest use is more than 0 to 1, the greatest dip more than 0 to less than 1;
// outside is an error. A generator that runs with less than 0.3 of its rating
// carries a warning: a diesel soots.
//
// Source: definition; limits are the caller's: 0.8 in use, and 0.15 to 0.2 for
// contactors and drives that drop out below, are common practice, no source.
func (g Generator) Feed(s Sum, use, dip units.Number) (Fed, error) {
	if err := cmp.Or(g.check(), argument.Within("greatest use", use, 1e-9, 1), argument.Within("greatest dip", dip, 1e-9, 1-1e-9)); err != nil {
		return Fed{}, fmt.Errorf("generator %q: %w", g.Name, err)
	}
	f := Fed{Name: g.Name, Use: max(s.Apparent/g.Rated, s.Real/(g.Rated*g.Factor)), Dip: g.Dip(s.Start)}
	f.Holds = f.Use <= use*(1+1e-9) && f.Dip <= dip*(1+1e-9)
	if f.Use < 0.3 {
		f.Warnings = append(f.Warnings, fmt.Sprintf("%s runs at %.0f %% of its rating: a diesel that idles all day soots", g.Name, 100*f.Use))
	}
	return f, nil
}

// Choose is the smallest generator of a list that feeds the loads within the
// limits, as Feed judges it.
//
// It is an error where Feed is one, and where none of the list is enough, naming the
// largest and what it lacks.
//
// Source: as Generator.Feed.
func Choose(list []Generator, s Sum, use, dip units.Number) (Generator, error) {
	if len(list) == 0 {
		return Generator{}, fmt.Errorf("generators: got none, want one or more")
	}
	var best, largest Generator
	for _, g := range list {
		f, err := g.Feed(s, use, dip)
		if err != nil {
			return Generator{}, err
		}
		if f.Holds && (best.Rated == 0 || g.Rated < best.Rated) {
			best = g
		}
		if g.Rated > largest.Rated {
			largest = g
		}
	}
	if best.Rated == 0 {
		f, _ := largest.Feed(s, use, dip)
		return Generator{}, fmt.Errorf("generators: got none that is enough: the largest, %s, is used to %.0f %% of at most %.0f %%, and dips by %.0f %% of at most %.0f %%",
			largest.Name, 100*f.Use, 100*use, 100*f.Dip, 100*dip)
	}
	return best, nil
}

// InventedGenerators is a table of generators, invented for examples. No maker is
// meant; a design takes a maker's table.
func InventedGenerators() []Generator {
	var list []Generator
	for _, kva := range []float64{3, 5, 8, 12, 20} {
		list = append(list, Generator{Name: fmt.Sprintf("G%.0f (invented)", kva), Rated: kva * units.KVA, Factor: 0.8, Reactance: 0.2})
	}
	return list
}

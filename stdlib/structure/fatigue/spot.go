package fatigue

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Spot is a place where a crack may start: the detail, and how each force and
// moment makes stress there. The stress is
// Fx/Ax + Fy/Ay + Fz/Az + Mx/Wx + My/Wy + Mz/Wz; an area or modulus of 0 is left
// out, and a sign says on which side of the section the spot lies.
type Spot struct {
	Name       string // of the weld or edge; spots of one name are one place
	Detail     Detail
	Ax, Ay, Az units.Area
	Wx, Wy, Wz units.SectionModulus
}

// Stress is the history of stress at the spot.
//
// Loads whose lists do not fit, or with a number that is not finite, are an
// error.
//
// Source: elastic beam theory.
func (s Spot) Stress(l Loads) ([]units.Pressure, error) {
	if err := l.check(); err != nil {
		return nil, fmt.Errorf("stress at %q: %w", s.Name, err)
	}
	out := make([]float64, len(l.Time))
	for k, per := range [6]float64{s.Ax, s.Ay, s.Az, s.Wx, s.Wy, s.Wz} {
		list := l.lists()[k]
		if per == 0 || len(list) == 0 {
			continue
		}
		if err := argument.Finite("area or modulus of "+components[k], per); err != nil {
			return nil, fmt.Errorf("stress at %q: %w", s.Name, err)
		}
		for i, v := range list {
			out[i] += v / per
		}
	}
	for i, v := range out {
		if v-v != 0 {
			return nil, fmt.Errorf("stress at %q: time %.4g s: got loads that are not finite, want finite ones", s.Name, l.Time[i])
		}
	}
	return out, nil
}

// A Place is what one event does to the spots of one name.
type Place struct {
	Name     string
	Detail   string         // that does the most damage here
	Greatest units.Pressure // range at it, with the factor on load
	Normal   units.Number   // damage by normal stress, at the worst of the spots
	Shear    units.Number   // damage by shear stress, at the worst of the spots
	Damage   units.Number   // both together
	Worst    Spot           // of the spots, the one that does the most damage
	Cycles   []Cycle        // that one event does to it
}

// An Assessment is what one event does to a frame's details.
type Assessment struct {
	Governing string       // the place that gives way first
	Detail    string       // and its detail
	Damage    units.Number // of one event there
	Places    []Place      // in the order in which they were first named
	Unlimited bool         // no place is damaged
	Source    string
}

// Assess counts the cycles of an event at every spot and says which place gives
// way first.
//
// The event recurs: its end joins its beginning. Several spots of one name, such
// as the ends of a weld, are one place: the worst of its normal stresses and the
// worst of its shear stresses do their damage together.
//
// No spots, loads that do not fit and categories out of range are errors.
//
// Caution: the loads are those in service that come with every event, not the
// rare ones that strength is checked for, and their dynamics are in them.
//
// Source: EN 1993-1-9:2005, 8(3) and Annex A; ASTM E1049-85.
func Assess(spots []Spot, loads Loads, f Factors) (Assessment, error) {
	if len(spots) == 0 {
		return Assessment{}, fmt.Errorf("fatigue: got no spots, want at least one")
	}
	if err := cmp.Or(f.check(), loads.check()); err != nil {
		return Assessment{}, fmt.Errorf("fatigue: %w", err)
	}
	a := Assessment{Source: "EN 1993-1-9:2005; " + f.Source}
	at := map[string]int{}
	for _, s := range spots {
		if err := s.Detail.check(); err != nil {
			return Assessment{}, fmt.Errorf("fatigue at %q: %w", s.Name, err)
		}
		stress, err := s.Stress(loads)
		if err != nil {
			return Assessment{}, err
		}
		cycles, err := RepeatingRainflow(stress)
		if err != nil {
			return Assessment{}, fmt.Errorf("fatigue at %q: %w", s.Name, err)
		}
		d, err := s.Detail.Damage(cycles, f)
		if err != nil {
			return Assessment{}, err
		}
		i, known := at[s.Name]
		if !known {
			i = len(a.Places)
			at[s.Name] = i
			a.Places = append(a.Places, Place{Name: s.Name, Detail: s.Detail.Name, Greatest: d.Greatest, Worst: s, Cycles: cycles})
		}
		a.Places[i].add(s, d, cycles)
	}
	for i, p := range a.Places {
		if i == 0 || p.Damage > a.Damage {
			a.Governing, a.Detail, a.Damage = p.Name, p.Detail, p.Damage
		}
	}
	a.Unlimited = a.Damage == 0
	return a, nil
}

func (p *Place) add(s Spot, d Damage, cycles []Cycle) {
	if d.Sum > math.Max(p.Normal, p.Shear) || p.Damage == 0 && d.Greatest > p.Greatest {
		p.Detail, p.Greatest, p.Worst, p.Cycles = s.Detail.Name, d.Greatest, s, cycles
	}
	if s.Detail.Shear {
		p.Shear = math.Max(p.Shear, d.Sum)
	} else {
		p.Normal = math.Max(p.Normal, d.Sum)
	}
	p.Damage = p.Normal + p.Shear
}

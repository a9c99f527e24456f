package crew

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Stowed is a mass and where it stands in a vehicle.
type Stowed struct {
	Name string
	Mass units.Mass   // more than 0
	At   units.Length // of its middle, behind the front support; before it negative
}

// Stow says where the pieces of a packing list stand: one place for each kind, of
// the middle of all of that kind, behind the front support.
//
// Another count of places than of kinds is an error.
//
// Source: definition.
func (p Packed) Stow(places []units.Length) ([]Stowed, error) {
	if len(places) != len(p.Name) {
		return nil, fmt.Errorf("places: got %d for %d kinds of pieces, want one for each", len(places), len(p.Name))
	}
	var out []Stowed
	for i, name := range p.Name {
		out = append(out, Stowed{name, p.Masses[i], places[i]})
	}
	return out, nil
}

// A Carriage stands on two supports: a van on its axles, a trailer on the tow ball
// in front and its axle behind. Two axles close together count as one between them.
type Carriage struct {
	Name       string
	Empty      units.Mass   // of itself, with all people in it, more than 0
	EmptyFront units.Mass   // of that, on the front support, 0 to Empty
	Base       units.Length // from the front support to the rear one, more than 0
	Most       units.Mass   // it may weigh, more than 0
	MostFront  units.Mass   // that the front support may carry, more than 0
	MostRear   units.Mass   // and the rear one, more than 0
	LeastFront units.Number // share of all that has to stand on the front support, 0 to 1
}

func (c Carriage) check() error {
	return cmp.Or(argument.Positive("empty mass", c.Empty), argument.Within("empty mass on the front support", c.EmptyFront, 0, c.Empty), argument.Positive("base", c.Base),
		argument.Positive("most it may weigh", c.Most), argument.Positive("most on the front support", c.MostFront), argument.Positive("most on the rear support", c.MostRear),
		argument.Within("least share on the front support", c.LeastFront, 0, 1))
}

// Supports are what the two supports of a loaded carriage bear.
type Supports struct {
	Front    units.Mass // of the front axle, or on the tow ball
	Rear     units.Mass
	Mass     units.Mass   // of all
	Centre   units.Length // of the load's mass, behind the front support
	Least    units.Mass   // that has to stand on the front support
	Holds    bool         // all within their limits
	Warnings []string
}

// Load is what the supports bear with a load: each mass by its lever about the other
// support.
//
// No load, or a number out of its range, is an error. A support beyond its limit,
// too little on the front one and too much in all carry warnings.
//
// Caution: a trailer with too little on the ball sways and throws the car; a steered
// axle with too little on it does not steer. The driver answers for plates and
// papers, and a weighbridge decides.
//
// Source: equilibrium of a beam on two supports, worked here; limits are the
// caller's, from the plates.
func (c Carriage) Load(load []Stowed) (Supports, error) {
	if err := c.check(); err != nil {
		return Supports{}, fmt.Errorf("carriage %q: %w", c.Name, err)
	}
	if len(load) == 0 {
		return Supports{}, fmt.Errorf("carriage %q: load: got none, want one or more", c.Name)
	}
	mass, moment := 0.0, 0.0
	for _, s := range load {
		if err := cmp.Or(argument.Positive("mass", s.Mass), argument.Finite("place", s.At)); err != nil {
			return Supports{}, fmt.Errorf("carriage %q: %q: %w", c.Name, s.Name, err)
		}
		mass, moment = mass+s.Mass, moment+s.Mass*s.At
	}
	s := Supports{Rear: c.Empty - c.EmptyFront + moment/c.Base, Mass: c.Empty + mass, Centre: moment / mass}
	s.Front = s.Mass - s.Rear
	s.Least = c.LeastFront * s.Mass
	for _, limit := range []struct {
		what      string
		got, most units.Mass
	}{{"weighs", s.Mass, c.Most}, {"puts on its front support", s.Front, c.MostFront}, {"puts on its rear support", s.Rear, c.MostRear}} {
		if !atMost(limit.got, limit.most) {
			s.Warnings = append(s.Warnings, fmt.Sprintf("%s %s %.0f kg, more than %.0f kg", c.Name, limit.what, limit.got, limit.most))
		}
	}
	if !atMost(s.Least, s.Front) {
		s.Warnings = append(s.Warnings, fmt.Sprintf("%s puts %.0f kg on its front support, less than the %.0f kg that have to stand there: move the load forward", c.Name, s.Front, s.Least))
	}
	s.Holds = len(s.Warnings) == 0
	return s, nil
}

// LeastNose is the least that a trailer has to put on the tow ball: a twenty-fifth of
// its mass, but no more than 25 kg need be.
//
//	m = min(0.04*trailer, 25)
//
// Masses are in kg. The trailer's mass is more than 0; outside it panics. Between a
// twentieth and a fourteenth tows better (common practice, no source), within what
// the plates of ball and coupling allow.
//
// Source: StVZO, § 44 (3), from memory: verify against the text and the law of the
// place.
func LeastNose(trailer units.Mass) units.Mass {
	argument.Demand("crew: LeastNose", argument.Positive("mass of the trailer", trailer))
	return min(0.04*trailer, 25*units.Kg)
}

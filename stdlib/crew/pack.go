package crew

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Piece is what is packed as one.
type Piece struct {
	Name  string
	Count units.Number // of equal pieces, whole, 1 or more
	Mass  units.Mass   // of one, more than 0
	Long  units.Length // of the box about one as it is packed, more than 0, in any order
	Wide  units.Length
	High  units.Length
}

func (p Piece) check() error {
	return cmp.Or(argument.Whole("count", p.Count), argument.Within("count", p.Count, 1, 1e6), argument.Positive("mass", p.Mass),
		argument.Positive("length", p.Long), argument.Positive("width", p.Wide), argument.Positive("height", p.High))
}

// A Vehicle is the van or the trailer.
type Vehicle struct {
	Name    string
	Payload units.Mass   // with driver and crew taken off, more than 0
	Long    units.Length // of the space for the load, more than 0
	Wide    units.Length
	High    units.Length
	Door    units.Length // width of its door, more than 0
	Lintel  units.Length // height of its door, more than 0
	Fill    units.Number // share of the space that pieces fill, more than 0 to 1; 0.6 is common, no source
}

func (v Vehicle) check() error {
	return cmp.Or(argument.Positive("payload", v.Payload), argument.Positive("length", v.Long), argument.Positive("width", v.Wide), argument.Positive("height", v.High),
		argument.Positive("door", v.Door), argument.Positive("lintel", v.Lintel), argument.Within("fill", v.Fill, 1e-9, 1))
}

// Packed is what goes into a vehicle, for a list.
type Packed struct {
	Name        []string
	Count       []units.Number
	Each        []units.Mass
	Masses      []units.Mass // of all of a kind
	Volumes     []units.Volume
	Mass        units.Mass
	Volume      units.Volume
	MassShare   units.Number // of the payload
	VolumeShare units.Number // of the space that pieces fill
	Most        units.Mass   // of one piece
	Misfits     []string     // pieces that do not pass the door or are longer than the space
	Warnings    []string
}

// Pack loads pieces into the vehicle, by mass, by volume and one by one through the
// door.
//
// It does not find places for them: what fits by volume may still not stack. What
// axles and tow ball bear follows from places given to Stow, by Carriage.Load. No
// piece, or a number out of its range, is an error; too much mass or volume, and a
// piece that does not fit, carry warnings.
//
// Caution: a load that is not lashed down kills in a crash. The driver answers for
// it, and for masses, axles and coupling.
//
// Source: sums, worked here.
func (v Vehicle) Pack(pieces []Piece) (Packed, error) {
	if err := v.check(); err != nil {
		return Packed{}, fmt.Errorf("vehicle %q: %w", v.Name, err)
	}
	if len(pieces) == 0 {
		return Packed{}, fmt.Errorf("vehicle %q: pieces: got none, want one or more", v.Name)
	}
	var p Packed
	for _, piece := range pieces {
		if err := piece.check(); err != nil {
			return Packed{}, fmt.Errorf("piece %q: %w", piece.Name, err)
		}
		mass, volume := piece.Count*piece.Mass, piece.Count*piece.Long*piece.Wide*piece.High
		p.Name, p.Count, p.Each = append(p.Name, piece.Name), append(p.Count, piece.Count), append(p.Each, piece.Mass)
		p.Masses, p.Volumes = append(p.Masses, mass), append(p.Volumes, volume)
		p.Mass, p.Volume, p.Most = p.Mass+mass, p.Volume+volume, math.Max(p.Most, piece.Mass)
		if !v.takes(piece) {
			p.Misfits = append(p.Misfits, piece.Name)
			p.Warnings = append(p.Warnings, fmt.Sprintf("%s does not go into the %s", piece.Name, v.Name))
		}
	}
	p.MassShare = p.Mass / v.Payload
	p.VolumeShare = p.Volume / (v.Fill * v.Long * v.Wide * v.High)
	if p.MassShare > 1 {
		p.Warnings = append(p.Warnings, fmt.Sprintf("%.0f kg are more than the %.0f kg that the %s may carry", p.Mass, v.Payload, v.Name))
	}
	if p.VolumeShare > 1 {
		p.Warnings = append(p.Warnings, fmt.Sprintf("%.1f m³ are more than the %.1f m³ that pieces fill of the %s", p.Volume, p.Volume/p.VolumeShare, v.Name))
	}
	return p, nil
}

// takes reports whether a piece passes the door, turned as it has to be, and then
// lies in the space.
func (v Vehicle) takes(p Piece) bool {
	side := []float64{p.Long, p.Wide, p.High}
	for _, turned := range [][3]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}} {
		long, wide, high := side[turned[0]], side[turned[1]], side[turned[2]]
		if atMost(long, v.Long) && atMost(wide, math.Min(v.Wide, v.Door)) && atMost(high, math.Min(v.High, v.Lintel)) {
			return true
		}
	}
	return false
}

// atMost is v ≤ limit, with rounding left aside.
func atMost(v, limit float64) bool { return v <= limit*(1+1e-9) }

// Pieces is how many pieces are packed.
//
// Source: definition.
func (p Packed) Pieces() units.Number {
	n := 0.0
	for _, c := range p.Count {
		n += c
	}
	return n
}

// Fits says whether all goes in: by mass, by volume and each piece through the
// door.
//
// Source: definition.
func (p Packed) Fits() bool {
	return atMost(p.MassShare, 1) && atMost(p.VolumeShare, 1) && len(p.Misfits) == 0
}

// Heavier are the names of the pieces heavier than a mass, which has to be more
// than 0; else it panics.
//
// Source: definition.
func (p Packed) Heavier(than units.Mass) []string {
	argument.Demand("crew: Packed.Heavier", argument.Positive("mass", than))
	var names []string
	for i, m := range p.Each {
		if m > than && !slices.Contains(names, p.Name[i]) {
			names = append(names, p.Name[i])
		}
	}
	return names
}

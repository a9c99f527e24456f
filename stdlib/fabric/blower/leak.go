package blower

import (
	"cmp"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A SeamLeak is air that escapes through needle holes, known from one measurement
// and the exponent with which it grows.
type SeamLeak struct {
	Flow     units.VolumeFlow // at the pressure At, 0 or more
	At       units.Pressure   // gauge, of the measurement, more than 0
	Exponent units.Number     // from 0.5 (a hole) to 1 (fine pores); about 0.65 for stitched seams
}

func (s SeamLeak) check() error {
	return cmp.Or(argument.NotNegative("seam leak", s.Flow), argument.Positive("pressure of the leak test", s.At),
		argument.Within("seam leak exponent", s.Exponent, 0.5, 1))
}

// FlowAt is what escapes through the seams at a pressure.
//
//	Q = s.Flow*pow(p/s.At, s.Exponent)
//
// The gauge pressure p is 0 or more. It panics if p or a field is out of its
// range.
//
// Source: power law of air leakage, ASTM E779; ASHRAE Handbook, Fundamentals,
// infiltration.
func (s SeamLeak) FlowAt(p units.Pressure) units.VolumeFlow {
	argument.Demand("blower: SeamLeak.FlowAt", s.check(), argument.NotNegative("pressure", p))
	return s.Flow * math.Pow(p/s.At, s.Exponent)
}

// Over is the leak of a length of the seam that was measured on a trial piece.
//
// The length is 0 or more, that of the trial piece more than 0; outside it
// panics.
//
// Source: flow goes with length.
func (s SeamLeak) Over(length, trial units.Length) SeamLeak {
	argument.Demand("blower: SeamLeak.Over", s.check(), argument.NotNegative("length", length), argument.Positive("length of the trial piece", trial))
	s.Flow *= length / trial
	return s
}

// A ClothLeak is air that escapes through the cloth itself, known from its
// permeability.
type ClothLeak struct {
	Speed    units.Speed    // flow over area at the pressure At, 0 or more
	At       units.Pressure // gauge, of the measurement, more than 0
	Exponent units.Number   // from 0.5 to 1; 1 for fine pores
	Area     units.Area     // of the cloth, 0 or more
}

func (c ClothLeak) check() error {
	return cmp.Or(argument.NotNegative("permeability of the cloth", c.Speed), argument.Positive("pressure of the permeability test", c.At),
		argument.Within("cloth leak exponent", c.Exponent, 0.5, 1), argument.NotNegative("area of the cloth", c.Area))
}

// FlowAt is what escapes through the cloth at a pressure.
//
//	Q = c.Speed*c.Area*pow(p/c.At, c.Exponent)
//
// The gauge pressure p is 0 or more. It panics if p or a field is out of its
// range.
//
// Source: permeability as measured by ISO 9237, from memory: verify against the
// document; power law of air leakage.
func (c ClothLeak) FlowAt(p units.Pressure) units.VolumeFlow {
	argument.Demand("blower: ClothLeak.FlowAt", c.check(), argument.NotNegative("pressure", p))
	return c.Speed * c.Area * math.Pow(p/c.At, c.Exponent)
}

// A Leak is everything through which a bed loses air: its flows add.
type Leak struct {
	Openings []Orifice
	Seams    []SeamLeak
	Cloth    []ClothLeak
}

func (l Leak) check() error {
	for _, o := range l.Openings {
		if err := o.check(); err != nil {
			return err
		}
	}
	for _, s := range l.Seams {
		if err := s.check(); err != nil {
			return err
		}
	}
	for _, c := range l.Cloth {
		if err := c.check(); err != nil {
			return err
		}
	}
	return nil
}

// FlowAt is all that escapes at a pressure.
//
// The gauge pressure p is 0 or more. It panics if p or a part of the leak is out
// of its range.
//
// Source: continuity.
func (l Leak) FlowAt(p units.Pressure) units.VolumeFlow {
	var q units.VolumeFlow
	for _, o := range l.Openings {
		q += o.FlowAt(p)
	}
	for _, s := range l.Seams {
		q += s.FlowAt(p)
	}
	for _, c := range l.Cloth {
		q += c.FlowAt(p)
	}
	return q
}

package blower

import (
	"cmp"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A SeamLeak is air that escapes through needle holes and cloth, known from one
// measurement and the exponent with which it grows.
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

// A Leak is everything through which a bed loses air: its flows add.
type Leak struct {
	Openings []Orifice
	Seams    []SeamLeak
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
	return q
}

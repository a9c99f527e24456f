package joint

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A TStub is a flange that bolts pull on each side of a web: the model for every
// plate that bends between its bolts and what is welded to it, such as an end
// plate. Prying presses its edges down and adds to the bolts' tension.
type TStub struct {
	Bolt      Bolt
	Bolts     units.Number   // in tension, on both sides together: 2 for one row
	Thickness units.Length   // of the flange, more than 0
	Fy        units.Pressure // of the flange, more than 0
	Reach     units.Length   // m: from the bolt to the web, less 0.8 of the weld's leg or of the root radius
	Edge      units.Length   // e: from the bolt to the flange's edge
	Length    units.Length   // of the flange along the web that works for these bolts: see RowLength
}

// A TStubResistance is what a TStub may carry, in the three ways in which it can
// fail.
type TStubResistance struct {
	Plate      units.Force // mode 1: the flange yields, prying at its greatest
	Mixed      units.Force // mode 2: bolts break while the flange yields
	Bolts      units.Force // mode 3: bolts break, no prying
	Resistance units.Force // the least of the three
	Mode       units.Number
	Prying     units.Force // that is added to the tension of all bolts when the stub carries its resistance
	Source     string
}

// RowLength is the length of flange that works for one row of two bolts away
// from any other row: as a circle or a fan of yield lines round each bolt,
// whichever is shorter.
//
//	l = min(2*pi*reach, 4*reach + 1.25*edge)
//
// The distances reach (m) and edge (e) are more than 0; outside it panics. The
// length must not exceed what the flange has.
//
// Source: EN 1993-1-8:2005, Table 6.6, row alone, first row inside.
func RowLength(reach, edge units.Length) units.Length {
	argument.Demand("joint: RowLength", argument.Positive("reach m", reach), argument.Positive("edge e", edge))
	return math.Min(2*math.Pi*reach, 4*reach+1.25*edge)
}

// Resistance is what the stub may carry at the web.
//
// Mode 1: 4·Mpl/m; mode 2: (2·Mpl + n·bolts)/(m + n); mode 3: the bolts alone;
// with Mpl = l·t²·fy/(4·M0) and n the edge distance, at most 1.25·m. Prying is
// taken to develop, which is on the safe side for the bolts.
//
// A field out of range is an error.
//
// Source: EN 1993-1-8:2005, 6.2.4, Table 6.2, method 1.
func (s TStub) Resistance(f Factors) (TStubResistance, error) {
	err := cmp.Or(s.Bolt.check(), argument.Above("bolts", s.Bolts, 0), argument.Whole("bolts", s.Bolts), argument.Positive("thickness", s.Thickness),
		argument.Positive("yield strength fy", s.Fy), argument.Positive("reach m", s.Reach), argument.Positive("edge e", s.Edge),
		argument.Positive("length", s.Length), factor("M0", f.M0), factor("M2", f.M2))
	if err != nil {
		return TStubResistance{}, fmt.Errorf("bolted flange: %w", err)
	}
	plastic := s.Length * s.Thickness * s.Thickness * s.Fy / 4 / f.M0
	n := math.Min(s.Edge, 1.25*s.Reach)
	bolts := s.Bolts * s.Bolt.Tension(f)
	r := TStubResistance{
		Plate:  4 * plastic / s.Reach,
		Mixed:  (2*plastic + n*bolts) / (s.Reach + n),
		Bolts:  bolts,
		Source: "EN 1993-1-8:2005, Table 6.2, method 1",
	}
	r.Resistance, r.Mode = r.Plate, 1
	if r.Mixed < r.Resistance {
		r.Resistance, r.Mode = r.Mixed, 2
	}
	if r.Bolts < r.Resistance {
		r.Resistance, r.Mode = r.Bolts, 3
	}
	switch r.Mode {
	case 1: // both the web line and the bolt line yield
		r.Prying = 2 * plastic / n
	case 2:
		r.Prying = bolts - r.Mixed
	}
	return r, nil
}

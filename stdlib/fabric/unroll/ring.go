package unroll

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Ring is a bent tube made of straight pieces with mitred ends: a closed ring
// or an arch. The centre line of the pieces touches the circle, the cuts all go
// through its middle.
type Ring struct {
	Radius units.Length // of the centre line's circle, more than Tube
	Tube   units.Length // radius of the tube, more than 0
	Sweep  units.Angle  // 360° for a closed ring, 180° for a half-round arch; more than 0
	Pieces units.Number // along the ring, 3 or more when closed, else 1 or more
}

func (r Ring) check() error {
	for _, err := range []error{
		argument.Positive("ring radius", r.Radius), argument.Positive("tube radius", r.Tube), argument.Whole("pieces", r.Pieces),
		argument.Within("sweep in degrees", r.Sweep/units.Deg, math.SmallestNonzeroFloat64, 360+1e-9), argument.Within("pieces", r.Pieces, 1, 1000),
	} {
		if err != nil {
			return err
		}
	}
	if r.Tube >= r.Radius {
		return fmt.Errorf("tube radius: got %g m, want less than the ring radius %g m: the ring touches itself", r.Tube, r.Radius)
	}
	if r.half() > 60*units.Deg+1e-9 {
		return fmt.Errorf("pieces: got %g over %g°, want at least %g", r.Pieces, r.Sweep/units.Deg, math.Ceil(r.Sweep/(120*units.Deg)))
	}
	return nil
}

// half is the angle of each cut against square.
func (r Ring) half() float64 { return r.Sweep / (2 * r.Pieces) }

func (r Ring) closed() bool { return r.Sweep > 2*math.Pi-1e-6 }

func (r Ring) demand(call string) { argument.Demand("unroll: "+call, r.check()) }

// CentreLength is the length of a piece along the centre line.
//
//	L = 2*r.Radius*sin(r.Sweep/(2*r.Pieces))/cos(r.Sweep/(2*r.Pieces))
//
// It panics if a field is out of its range.
//
// Source: polygon round a circle, derived here.
func (r Ring) CentreLength() units.Length {
	r.demand("Ring.CentreLength")
	return 2 * r.Radius * math.Tan(r.half())
}

// OuterLength is the length of a piece on the outer side of the ring.
//
//	L = 2*(r.Radius + r.Tube)*sin(r.Sweep/(2*r.Pieces))/cos(r.Sweep/(2*r.Pieces))
//
// It panics if a field is out of its range.
//
// Source: as CentreLength.
func (r Ring) OuterLength() units.Length {
	r.demand("Ring.OuterLength")
	return 2 * (r.Radius + r.Tube) * math.Tan(r.half())
}

// InnerLength is the length of a piece on the inner side of the ring.
//
//	L = 2*(r.Radius - r.Tube)*sin(r.Sweep/(2*r.Pieces))/cos(r.Sweep/(2*r.Pieces))
//
// It panics if a field is out of its range.
//
// Source: as CentreLength.
func (r Ring) InnerLength() units.Length {
	r.demand("Ring.InnerLength")
	return 2 * (r.Radius - r.Tube) * math.Tan(r.half())
}

// Surface is the fabric within the seams.
//
//	A = 4*pi*r.Tube*r.Radius*r.Pieces*sin(r.Sweep/(2*r.Pieces))/cos(r.Sweep/(2*r.Pieces))
//
// It panics if a field is out of its range.
//
// Source: a mitred tube has the surface of a square one of the same centre line.
func (r Ring) Surface() units.Area {
	r.demand("Ring.Surface")
	return 2 * math.Pi * r.Tube * r.Pieces * r.CentreLength()
}

// Volume is the air that the ring holds.
//
//	V = 2*pi*r.Tube*r.Tube*r.Radius*r.Pieces*sin(r.Sweep/(2*r.Pieces))/cos(r.Sweep/(2*r.Pieces))
//
// It panics if a field is out of its range.
//
// Source: a mitred tube holds what a square one of the same centre line holds.
func (r Ring) Volume() units.Volume {
	r.demand("Ring.Volume")
	return math.Pi * r.Tube * r.Tube * r.Pieces * r.CentreLength()
}

// Segment is one of the ring's pieces as a tube.
//
// It panics if a field is out of its range.
//
// Source: as CentreLength.
func (r Ring) Segment() Tube {
	r.demand("Ring.Segment")
	return Tube{Radius: r.Tube, Length: r.CentreLength(), Start: r.half(), End: r.half()}
}

// pattern.Pattern is the ring's pieces and seams. Each segment is cut in panels, 1 or
// more round the tube, the first seam along the ring at the angle from: 0 is the
// outer side, ±180° the inner. Panels of equal shape are the same piece. The ease
// is that of every seam.
//
// Fields out of their ranges are an error, as is a ring that touches itself.
//
// Source: as CentreLength.
func (r Ring) Pattern(name string, panels units.Number, from units.Angle, ease units.Number) (pattern.Pattern, error) {
	err := r.check()
	for _, e := range []error{argument.Whole("panels", panels), argument.Within("panels", panels, 1, 36), argument.Finite("from", from)} {
		if err == nil {
			err = e
		}
	}
	if err != nil {
		return pattern.Pattern{}, fmt.Errorf("ring %s: %w", name, err)
	}
	around := make([]pattern.Piece, int(panels))
	for k := range around {
		piece := name
		if panels > 1 {
			piece = fmt.Sprintf("%s %d", name, k+1)
		}
		step := 2 * math.Pi / panels
		if around[k], err = r.Segment().Panel(piece, from+step*float64(k), from+step*float64(k+1)); err != nil {
			return pattern.Pattern{}, fmt.Errorf("ring %s: %w", name, err)
		}
	}
	return r.sewn(name, around, ease)
}

// sewn joins panels that lie side by side round the tube into the whole ring.
func (r Ring) sewn(name string, around []pattern.Piece, ease float64) (pattern.Pattern, error) {
	joints := r.Pieces
	if !r.closed() {
		joints--
	}
	var p pattern.Pattern
	for k, piece := range around {
		piece.Count = r.Pieces
		p.Pieces = append(p.Pieces, piece)
		if joints > 0 {
			s := pattern.Sew(fmt.Sprintf("%s end to end", piece.Name), piece.Name+"/end", piece.Name+"/start", ease)
			s.Count = joints
			p.Seams = append(p.Seams, s)
		}
		next := around[(k+1)%len(around)]
		s := pattern.Sew(fmt.Sprintf("%s along %d", name, k+1), piece.Name+"/right", next.Name+"/left", ease)
		s.Count = r.Pieces
		p.Seams = append(p.Seams, s)
	}
	return p, p.Check()
}

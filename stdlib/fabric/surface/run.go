package surface

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Run is a round tube of straight legs that meet in mitres.
type Run struct {
	Corners []Point      // of its centre line, two or more, all different
	Tube    units.Length // radius of the tube, more than 0
	Closed  bool         // the last corner leads back to the first
	Open    bool         // without the flat ends
	Around  int          // pieces round the tube, 0: 24
	Along   int          // pieces along each leg, 0: as long as those around
}

// MitredRing is a closed run of straight legs round the z axis that touches a
// circle from outside with the middle of each leg: how a ring is sewn of tubes.
//
// The radius of the ring is more than that of the tube, legs is a whole number of
// 3 or more: outside it panics.
func MitredRing(radius, tube units.Length, legs units.Number) Run {
	argument.Demand("surface: MitredRing", argument.Positive("tube", tube), argument.Above("radius", radius, tube),
		argument.Whole("legs", legs), argument.Within("legs", legs, 3, 360))
	out := radius / math.Cos(math.Pi/legs)
	r := Run{Tube: tube, Closed: true}
	for i := range int(legs) {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / legs)
		r.Corners = append(r.Corners, Point{out * cos, out * sin, 0})
	}
	return r
}

// Mesh is the parts "leg 1" and so on and, unless it is open or closed to a ring,
// "near end" and "far end". Its seams are "mitre 1" and so on, "near seam" and "far
// seam" round the ends, and "long seam".
//
// A field out of its range is an error, and a leg that is too short for the
// mitres at its ends, or a closed run that does not lie in a plane and would
// twist.
func (r Run) Mesh() (Mesh, error) {
	w := &weave{}
	err := cmp.Or(argument.Positive("tube radius", r.Tube), pieces("pieces around", &r.Around, 24, 3))
	if least := 2; err == nil {
		if r.Closed {
			least = 3
		}
		if len(r.Corners) < least {
			err = fmt.Errorf("corners: got %d, want at least %d", len(r.Corners), least)
		}
	}
	if err == nil {
		err = w.run(r)
	}
	return w.mesh(err, "run")
}

func (w *weave) run(r Run) error {
	legs, err := r.legs()
	if err != nil {
		return err
	}
	var first, last []int
	var long []int
	for i, l := range legs {
		steps := r.Along
		if err := pieces("pieces along", &steps, usual(l.length*float64(r.Around)/(2*math.Pi*r.Tube)), 1); err != nil {
			return err
		}
		var lines [][]int
		for k := range steps + 1 {
			line := last
			switch {
			case k == steps && i == len(legs)-1 && r.Closed:
				line = first
			case k > 0 || i == 0:
				line = w.loop(r.Around, func(s float64) vec { return l.at(r.Tube, s, float64(k)/float64(steps)) })
			}
			lines = append(lines, line)
		}
		w.cloth(w.part(numbered("leg", i)), lines)
		if i == 0 {
			first = lines[0]
			long = append(long, first[0])
		}
		last = lines[steps]
		long = append(long, column(lines, 0)[1:]...)
		if i < len(legs)-1 || r.Closed {
			w.seam(numbered("mitre", i), last)
		}
	}
	if !r.Closed {
		if !r.Open {
			w.lid("near end", first, legs[0].from, false)
			w.lid("far end", last, legs[len(legs)-1].to, true)
		}
		w.seam("near seam", first)
		w.seam("far seam", last)
	}
	w.seam("long seam", long)
	return nil
}

// A leg of a run: a straight tube between two planes.
type leg struct {
	from, to vec
	way      vec // along it
	side, up vec
	start    vec // normal of the plane at its start
	end      vec // and at its end
	length   float64
}

// at is the point at a share of the way round and along.
func (l leg) at(radius, round, along float64) vec {
	p := frame{vec{}, l.side, l.up, radius}.at(round)
	a := l.from.Plus(p).Minus(l.way.Times(p.Dot(l.start) / l.way.Dot(l.start)))
	b := l.to.Plus(p).Minus(l.way.Times(p.Dot(l.end) / l.way.Dot(l.end)))
	return a.Toward(b, along)
}

func (r Run) legs() ([]leg, error) {
	count := len(r.Corners) - 1
	if r.Closed {
		count++
	}
	legs := make([]leg, count)
	for i := range legs {
		from, to := r.Corners[i].vec(), r.Corners[(i+1)%len(r.Corners)].vec()
		way := to.Minus(from)
		if !(way.Length() > 0) {
			return nil, fmt.Errorf("leg %d: got no length, want corners that differ", i+1)
		}
		legs[i] = leg{from: from, to: to, way: way.Unit(), start: way.Unit(), end: way.Unit(), length: way.Length()}
	}
	for i := range legs {
		j := i + 1
		if j == count {
			if !r.Closed {
				break
			}
			j = 0
		}
		mitre := legs[i].way.Plus(legs[j].way)
		if mitre.Length() < 0.1 {
			return nil, fmt.Errorf("mitre %d: the legs turn back on each other: want a bend of less than 174°", i+1)
		}
		legs[i].end, legs[j].start = mitre.Unit(), mitre.Unit()
	}
	upright := vec{0, 0, 1}
	if math.Abs(legs[0].way[2]) > 0.9 {
		upright = vec{1}
	}
	legs[0].side = upright.Cross(legs[0].way).Unit()
	legs[0].up = legs[0].way.Cross(legs[0].side)
	for i := 1; i < count; i++ {
		legs[i].side, legs[i].up = legs[i-1].carried(legs[i].way)
	}
	if r.Closed {
		if _, up := legs[count-1].carried(legs[0].way); up.Minus(legs[0].up).Length() > 1e-9 {
			return nil, fmt.Errorf("closed run: the corners do not lie in a plane, so the tube would twist: join runs that are not closed")
		}
	}
	for i, l := range legs {
		for k := range 360 {
			round := float64(k) / 360
			if a, b := l.at(r.Tube, round, 0), l.at(r.Tube, round, 1); !(b.Minus(a).Dot(l.way) > 0) {
				return nil, fmt.Errorf("leg %d: got %.4g m, too short for the mitres at its ends with a tube of radius %g m", i+1, l.length, r.Tube)
			}
		}
	}
	return legs, nil
}

// carried turns the section with the run into another direction, without twist.
func (l leg) carried(way vec) (side, up vec) {
	axis, cos := l.way.Cross(way), l.way.Dot(way)
	turn := func(v vec) vec { // Rodrigues' formula
		return v.Times(cos).Plus(axis.Cross(v)).Plus(axis.Times(axis.Dot(v) / (1 + cos)))
	}
	return turn(l.side), turn(l.up)
}

package surface

import (
	"cmp"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Tube is straight and round, along x from 0, or a cone frustum when its far
// end has a radius of its own.
type Tube struct {
	Radius    units.Length // more than 0; at x = 0 of a frustum
	FarRadius units.Length // of a frustum at x = Length; 0: as Radius
	Length    units.Length // more than 0
	Open      bool         // without the flat ends
	Around    int          // pieces round the tube, 0: 24
	Along     int          // pieces from end to end, 0: as long as those around
}

// Mesh is the part "tube" and, unless it is open, "near end" and "far end". Its
// seams are "near seam" and "far seam" round the ends, and "long seam" below.
//
// A field out of its range is an error.
func (t Tube) Mesh() (Mesh, error) {
	err := cmp.Or(argument.Positive("radius", t.Radius), argument.NotNegative("far radius", t.FarRadius), argument.Positive("length", t.Length),
		pieces("pieces around", &t.Around, 24, 3))
	if t.FarRadius == 0 {
		t.FarRadius = t.Radius
	}
	piece := math.Pi * (t.Radius + t.FarRadius) / float64(t.Around)
	err = cmp.Or(err, pieces("pieces along", &t.Along, usual(t.Length/piece), 1))
	if err != nil {
		return (&weave{}).mesh(err, "tube")
	}
	w := &weave{}
	lines := w.sweep(t.Along, t.Around, func(s float64) frame {
		return frame{vec{s * t.Length}, vec{0, 1}, vec{0, 0, 1}, t.Radius + s*(t.FarRadius-t.Radius)}
	})
	w.cloth(w.part("tube"), lines)
	if !t.Open {
		w.lid("near end", lines[0], vec{}, false)
		w.lid("far end", lines[t.Along], vec{t.Length}, true)
	}
	w.seam("near seam", lines[0])
	w.seam("far seam", lines[t.Along])
	w.seam("long seam", column(lines, 0))
	return w.mesh(nil, "tube")
}

// A Ring is a tube bent to a circle about the z axis: a torus.
type Ring struct {
	Radius units.Length // to the centre of the tube, more than Tube
	Tube   units.Length // radius of the tube, more than 0
	Around int          // pieces round the tube, 0: 24
	Along  int          // pieces along the ring, 0: as long as those around
}

// Mesh is the part "ring". Its seams are "inner seam" and "outer seam", along the
// ring at its least and greatest radius.
//
// A field out of its range is an error.
func (r Ring) Mesh() (Mesh, error) {
	err := cmp.Or(argument.Positive("tube radius", r.Tube), argument.Above("ring radius", r.Radius, r.Tube),
		pieces("pieces around", &r.Around, 24, 4), pieces("pieces along", &r.Along, usual(float64(r.Around)*r.Radius/r.Tube), 3))
	if err != nil {
		return (&weave{}).mesh(err, "ring")
	}
	r.Around += r.Around % 2 // so that both seams lie on points
	w := &weave{}
	var lines [][]int
	for i := range r.Along {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(r.Along))
		out := vec{cos, sin}
		lines = append(lines, w.loop(r.Around, frame{out.Times(r.Radius), vec{0, 0, 1}, out, r.Tube}.at))
	}
	lines = append(lines, lines[0])
	w.cloth(w.part("ring"), lines)
	w.seam("inner seam", column(lines, 0))
	w.seam("outer seam", column(lines, r.Around/2))
	return w.mesh(nil, "ring")
}

// An Arch is a tube that stands on two legs in the plane of x and z and is bent to
// half a circle between them.
type Arch struct {
	Span   units.Length // from leg to leg, centre to centre, more than twice Tube
	Leg    units.Length // straight part of each leg, 0 or more
	Tube   units.Length // radius of the tube, more than 0
	Open   bool         // without the flat feet
	Around int          // pieces round the tube, 0: 24
	Along  int          // pieces from foot to foot, 0: as long as those around
}

// Mesh is the part "arch" and, unless it is open, "left foot" and "right foot".
// Its seams are "left foot seam" and "right foot seam" round the feet, "inner
// seam" and "outer seam" along it.
//
// A field out of its range is an error.
func (a Arch) Mesh() (Mesh, error) {
	radius := a.Span / 2
	length := 2*a.Leg + math.Pi*radius
	err := cmp.Or(argument.Positive("tube radius", a.Tube), argument.Above("span", a.Span, 2*a.Tube), argument.NotNegative("leg", a.Leg),
		pieces("pieces around", &a.Around, 24, 4), pieces("pieces along", &a.Along, usual(length*float64(a.Around)/(2*math.Pi*a.Tube)), 3))
	if err != nil {
		return (&weave{}).mesh(err, "arch")
	}
	a.Around += a.Around % 2
	w := &weave{}
	lines := w.sweep(a.Along, a.Around, func(s float64) frame {
		way := s*length - a.Leg // from the spring of the left leg
		turn := min(max(way/radius, 0), math.Pi)
		sin, cos := math.Sincos(turn)
		out := vec{-cos, 0, sin}
		below := way - turn*radius // beyond the half circle, along the leg
		centre := out.Times(radius).Plus(vec{radius, 0, a.Leg + below})
		if below > 0 {
			centre[2] = a.Leg - below
		}
		return frame{centre, vec{0, 1}, out, a.Tube}
	})
	w.cloth(w.part("arch"), lines)
	if !a.Open {
		w.lid("left foot", lines[0], vec{}, false)
		w.lid("right foot", lines[a.Along], vec{a.Span}, true)
	}
	w.seam("left foot seam", lines[0])
	w.seam("right foot seam", lines[a.Along])
	w.seam("inner seam", column(lines, 0))
	w.seam("outer seam", column(lines, a.Around/2))
	return w.mesh(nil, "arch")
}

// A frame is the section of a tube: a circle in the plane of two directions at
// right angles, which turns from -up through -side, up and side.
type frame struct {
	centre   vec
	side, up vec
	radius   float64
}

func (f frame) at(round float64) vec {
	sin, cos := math.Sincos(2 * math.Pi * round)
	return f.centre.Plus(f.side.Times(-f.radius * sin)).Plus(f.up.Times(-f.radius * cos))
}

// sweep lays the sections along a tube; the way along is side × up.
func (w *weave) sweep(along, around int, f func(s float64) frame) [][]int {
	var lines [][]int
	for i := range along + 1 {
		lines = append(lines, w.loop(around, f(float64(i)/float64(along)).at))
	}
	return lines
}

// lid closes a loop with a flat part of shrunk copies of it about a centre, its
// outer side the one from which the loop runs counter-clockwise, or the other one.
func (w *weave) lid(name string, rim []int, centre vec, other bool) {
	first := len(w.Triangles)
	w.disc(w.part(name), rim, func(round, out float64) vec {
		x := round * float64(len(rim)-1)
		k := min(int(x), len(rim)-2)
		a, b := w.Points[rim[k]].vec(), w.Points[rim[k+1]].vec()
		return centre.Toward(a.Toward(b, x-float64(k)), out)
	})
	if other {
		for i := first; i < len(w.Triangles); i++ {
			t := &w.Triangles[i]
			t.B, t.C = t.C, t.B
		}
	}
}

// column is the line of the k-th points of lines.
func column(lines [][]int, k int) []int {
	var out []int
	for _, l := range lines {
		out = append(out, l[k])
	}
	return out
}

// usual rounds a count of pieces.
func usual(count float64) int { return int(math.Round(min(max(count, 1), 2000))) }

package surface

import (
	"cmp"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Disc is flat and round in the plane z = 0, facing up.
type Disc struct {
	Radius units.Length // more than 0
	Rings  int          // rings of triangles from the middle to the rim, 0: 8
}

// Mesh is the part "disc" with the seam "rim". Ring k has 6·k points, so that all
// triangles are much alike.
//
// A field out of its range is an error.
func (d Disc) Mesh() (Mesh, error) {
	err := cmp.Or(argument.Positive("radius", d.Radius), pieces("rings", &d.Rings, 8, 1))
	if err != nil {
		return (&weave{}).mesh(err, "disc")
	}
	w := &weave{}
	at := func(round, out float64) vec {
		sin, cos := math.Sincos(2 * math.Pi * round)
		return vec{d.Radius * out * cos, d.Radius * out * sin}
	}
	rim := w.loop(6*d.Rings, func(s float64) vec { return at(s, 1) })
	w.disc(w.part("disc"), rim, at)
	w.seam("rim", rim)
	return w.mesh(nil, "disc")
}

// A Dome is a cap of a ball about the z axis, its top at z = Radius.
type Dome struct {
	Radius units.Length // of the ball, more than 0
	Angle  units.Angle  // at the ball's centre from the top to the rim, less than π; 0: a quarter turn, half a ball
	Gores  units.Number // panels round the axis, a whole number of 3 or more, 0: 6
	Rows   int          // rows of triangles from the top to the rim, 0: 8
}

// Mesh is the part "dome". Its seams are "rim" and "gore 1" and so on, from the
// top to the rim.
//
// A field out of its range is an error.
func (d Dome) Mesh() (Mesh, error) {
	if d.Angle == 0 {
		d.Angle = math.Pi / 2
	}
	w := &weave{}
	err := cmp.Or(argument.Positive("radius", d.Radius), argument.Within("angle", d.Angle, 1e-3, math.Pi-1e-3),
		panels("gores", &d.Gores, 6, 3), pieces("rows", &d.Rows, 8, 1))
	if err == nil {
		w.ball("dome", d.Radius, d.Angle, int(d.Gores), d.Rows)
	}
	return w.mesh(err, "dome")
}

// A Sphere is a ball about the origin.
type Sphere struct {
	Radius units.Length // more than 0
	Gores  units.Number // panels round the z axis, a whole number of 3 or more, 0: 6
	Rows   int          // rows of triangles from pole to pole, 0: 16
}

// Mesh is the part "sphere". Its seams are "gore 1" and so on, from the upper to
// the lower pole.
//
// A field out of its range is an error.
func (b Sphere) Mesh() (Mesh, error) {
	w := &weave{}
	err := cmp.Or(argument.Positive("radius", b.Radius), panels("gores", &b.Gores, 6, 3), pieces("rows", &b.Rows, 16, 4))
	if err == nil {
		w.ball("sphere", b.Radius, math.Pi, int(b.Gores), b.Rows)
	}
	return w.mesh(err, "sphere")
}

// ball lays gores from the upper pole down to an angle, which may be the lower
// pole.
func (w *weave) ball(name string, radius, angle float64, gores, rows int) {
	top := w.lay(vec{0, 0, radius})
	lines := [][]int{make([]int, gores+1)} // row by row, each gore's points after the other's
	per := []int{1}                        // points of a gore in the row
	for g := range lines[0] {
		lines[0][g] = top
	}
	for k := 1; k <= rows; k++ {
		row := float64(k) / float64(rows)
		sin, cos := math.Sincos(angle * row)
		if k == rows && angle == math.Pi {
			bottom := w.lay(vec{0, 0, -radius})
			line := make([]int, gores+1)
			for g := range line {
				line[g] = bottom
			}
			lines, per = append(lines, line), append(per, 1)
			break
		}
		n := max(1, usual(2*math.Pi*sin/float64(gores)/(angle/float64(rows))))
		per = append(per, n)
		lines = append(lines, w.loop(gores*n, func(s float64) vec {
			y, x := math.Sincos(2 * math.Pi * s)
			return vec{radius * sin * x, radius * sin * y, radius * cos}
		}))
	}
	part := w.part(name)
	for k := 1; k <= rows; k++ {
		for g := range gores {
			w.strip(part, lines[k-1][g*per[k-1]:(g+1)*per[k-1]+1], lines[k][g*per[k]:(g+1)*per[k]+1])
		}
	}
	if angle < math.Pi {
		w.seam("rim", lines[rows])
	}
	for g := range gores {
		var seam []int
		for k, line := range lines {
			seam = append(seam, line[g*per[k]])
		}
		w.seam(numbered("gore", g), seam)
	}
}

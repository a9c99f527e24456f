package surface

import (
	"cmp"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Panel is flat and rectangular in the plane z = 0, facing up, with a corner in
// the origin.
type Panel struct {
	Width  units.Length // along x, more than 0
	Length units.Length // along y, more than 0
	Across int          // pieces along x, 0: 12
	Along  int          // pieces along y, 0: as long as those along x
}

// Mesh is the part "panel". Its seams are "left" and "right" at the least and
// greatest x, "near" and "far" at the least and greatest y.
//
// A field out of its range is an error.
func (p Panel) Mesh() (Mesh, error) {
	err := cmp.Or(argument.Positive("width", p.Width), argument.Positive("length", p.Length), pieces("pieces across", &p.Across, 12, 1))
	err = cmp.Or(err, pieces("pieces along", &p.Along, usual(p.Length/p.Width*float64(p.Across)), 1))
	w := &weave{}
	if err == nil {
		var lines [][]int
		for i := range p.Across + 1 {
			x := p.Width * float64(i) / float64(p.Across)
			lines = append(lines, w.line(p.Along, func(s float64) vec { return vec{x, s * p.Length} }))
		}
		w.cloth(w.part("panel"), lines)
		w.seam("left", lines[0])
		w.seam("right", lines[p.Across])
		w.seam("near", column(lines, 0))
		w.seam("far", column(lines, p.Along))
	}
	return w.mesh(err, "panel")
}

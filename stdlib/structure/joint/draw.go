package joint

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/vector"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// Draw puts the weld group on a drawing: the welds as lines at their roots, the
// centre of the group, and the end that governs the check.
//
// Welds in one plane of the joint's axes are seen square to it, any others in
// isometry.
func (g WeldGroup) Draw(d *sheet.Drawing, c WeldCheck) {
	view := g.view()
	for _, w := range g.Welds {
		x0, y0 := view(w.From)
		x1, y1 := view(w.To)
		name := fmt.Sprintf("fillet weld, throat %.3g mm", w.Throat/units.Mm)
		d.Line(name, []units.Length{x0, x1}, []units.Length{y0, y1})
	}
	if l, err := g.Line(); err == nil {
		x, y := view(l.Centre)
		d.Mark("centre of the welds", x, y)
	}
	x, y := view(c.At)
	d.Mark(fmt.Sprintf("%s, %.0f %% used", c.Governing, 100*c.Directional), x, y)
}

// view projects the joint's axes onto a picture.
func (g WeldGroup) view() func(p Point) (x, y float64) {
	var low, high vector.Vector
	for i, w := range g.Welds {
		for _, v := range []vector.Vector{w.From.vector(), w.To.vector()} {
			for k := range 3 {
				if i == 0 {
					low[k], high[k] = v[k], v[k]
				}
				low[k], high[k] = math.Min(low[k], v[k]), math.Max(high[k], v[k])
			}
		}
	}
	size := high.Minus(low).Length()
	flat := func(k int) bool { return high[k]-low[k] <= 1e-9*size }
	switch {
	case flat(0):
		return func(p Point) (x, y float64) { return p.Y, p.Z }
	case flat(1):
		return func(p Point) (x, y float64) { return p.X, p.Z }
	case flat(2):
		return func(p Point) (x, y float64) { return p.X, p.Y }
	}
	sin, cos := math.Sincos(30 * units.Deg)
	return func(p Point) (x, y float64) { return (p.Y - p.X) * cos, p.Z - (p.X+p.Y)*sin }
}

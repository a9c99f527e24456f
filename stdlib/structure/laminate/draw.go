package laminate

import (
	"fmt"

	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// Draw puts the laminate's section on a drawing, to scale: the first ply at the
// bottom, each with its thickness, and the whole. Plies of one name and direction
// look alike.
func (l Laminate) Draw(d *sheet.Drawing) {
	h := l.Thickness()
	wide := 1.5 * h
	z := 0.0
	for _, p := range l.Plies {
		name := fmt.Sprintf("%s, %.2f mm", p.Name, p.Thickness/units.Mm)
		if p.Angle != 0 {
			name += fmt.Sprintf(", at %.0f°", p.Angle/units.Deg)
		}
		d.Area(name, []units.Length{0, wide, wide, 0}, []units.Length{z, z, z + p.Thickness, z + p.Thickness})
		z += p.Thickness
	}
	d.Outline([]units.Length{0, wide, wide, 0}, []units.Length{0, 0, h, h})
	d.Dimension(wide, 0, wide, h, -0.15*h)
}

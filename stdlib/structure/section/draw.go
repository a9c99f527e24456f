package section

import (
	"math"

	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// Draw draws the section about its centroid, with its axes, height, width and
// name.
func (s Section) Draw(d *sheet.Drawing) { s.DrawAt(d, 0, 0) }

// DrawAt draws the section with its centroid at (x, y), as Draw does.
func (s Section) DrawAt(d *sheet.Drawing, x, y units.Length) {
	for _, l := range s.Outline() {
		at := l.moved(0, x, y)
		d.Outline(at.Y, at.Z)
	}
	left, right := x-s.Left, x-s.Left+s.Width
	bottom, top := y-s.Bottom, y-s.Bottom+s.Height
	over := math.Max((s.Width+s.Height)/20, 8*units.Mm) // so that the name clears the dimension of a small section too
	d.Thin([]float64{left - over, right + over}, []float64{y, y})
	d.Thin([]float64{x, x}, []float64{bottom - over, top + over})
	d.Text("y", right+1.5*over, y)
	d.Text("z", x, top+1.5*over)
	d.Dimension(left, bottom, left, top, 3*over)
	d.Dimension(left, bottom, right, bottom, -3*over)
	d.Text(s.Name, (left+right)/2, bottom-6*over)
}

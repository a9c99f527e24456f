package motion

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// Draw draws the base in a state, seen from behind, the right and above at equal
// angles to all axes, moved aside by a distance on the paper.
//
// The heavy outline is the Hull, or an oval about the seats; the areas are the
// riders, from the seat's point down to the hull; thin lines are the post and the
// axes of pitch and roll. It panics when a number is not finite.
//
// Source: isometric projection.
func (b Base) Draw(d *sheet.Drawing, s State, name string, aside units.Length) {
	argument.Demand("motion: Base.Draw", s.check(), argument.Finite("aside", aside))
	turns := s.turns()
	project := func(part int, points ...Point) (xs, ys []float64) {
		for _, p := range points {
			w := b.world(turns, part, p).order(0)
			xs = append(xs, aside+(w[0]-w[1])*math.Cos(math.Pi/6))
			ys = append(ys, w[2]+(w[0]+w[1])/2)
		}
		return xs, ys
	}
	reach := 0.4
	for _, seat := range b.Seats {
		reach = math.Max(reach, 0.4+math.Hypot(seat.At.X, seat.At.Y))
	}
	d.Thin(project(0, Point{X: -reach / 2}, Point{X: reach / 2}))
	d.Thin(project(0, Point{Y: -reach / 2}, Point{Y: reach / 2}))
	d.Thin(project(0, Point{}, b.PitchAxis))
	p, r := b.PitchAxis, b.RollAxis
	d.Thin(project(0, Point{p.X, p.Y - reach/2, p.Z}, Point{p.X, p.Y + reach/2, p.Z}))
	d.Thin(project(1, Point{}, r))
	d.Thin(project(1, Point{r.X - reach, r.Y, r.Z}, Point{r.X + reach, r.Y, r.Z}))
	hull := b.Hull
	if len(hull) < 3 {
		for i := range 36 {
			sin, cos := math.Sincos(float64(i) * 10 * units.Deg)
			hull = append(hull, Point{X: reach * cos, Y: reach / 2 * sin})
		}
	}
	d.Outline(project(2, hull...))
	for _, seat := range b.Seats {
		sin, cos := math.Sincos(seat.Facing)
		at := func(forward, left, up float64) Point {
			return Point{seat.At.X + forward*cos - left*sin, seat.At.Y + forward*sin + left*cos, seat.At.Z + up}
		}
		const half, head = 0.2, 0.35
		low := hull[0].Z - seat.At.Z
		xs, ys := project(2, at(0, -half, low), at(0, half, low), at(0, half, 0.05), at(0, half/2, head), at(0, -half/2, head), at(0, -half, 0.05))
		d.Area("rider", xs, ys)
	}
	xs, ys := project(0, Point{Z: -0.25})
	d.Text(name, xs[0], ys[0])
}

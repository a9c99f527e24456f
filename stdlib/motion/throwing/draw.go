package throwing

import (
	"fmt"
	"math"

	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// Draw draws the landings over the plan of the bed: in tones how many landed on
// each square, the contours of the envelopes, the wall's inner side with its width,
// the hull at the start of the moments drawn, and the base.
//
// Source: plan to scale; contours as in Game.Throw.
func (l Landings) Draw(d *sheet.Drawing) {
	g := l.Game
	for _, s := range l.Squares {
		const half = pitch / 2
		d.Shade([]float64{s.X - half, s.X + half, s.X + half, s.X - half}, []float64{s.Y - half, s.Y - half, s.Y + half, s.Y + half}, math.Log10(s.Flights))
	}
	if len(l.Squares) > 0 {
		most := 1.0
		for _, s := range l.Squares {
			most = max(most, math.Log10(s.Flights))
		}
		d.Scale(fmt.Sprintf("middles of %.0f flights that land on 0.1 m by 0.1 m, as a power of ten: 0 is one, 1 ten, 2 a hundred", l.Clear), 0, max(most, 1))
	}
	d.Circle(0, 0, g.Bed.Inner)
	if ride, err := g.Programme.Ride(g.Base); err == nil && len(g.Base.Hull) > 2 {
		state := ride.At(g.From)
		var xs, ys []float64
		for _, p := range g.Base.Hull {
			at := g.Base.Point(state, p).At
			xs, ys = append(xs, at.X+g.Bed.X), append(ys, at.Y+g.Bed.Y)
		}
		d.Area("what threw them", xs, ys)
	}
	if g.PostRadius > 0 {
		d.Circle(g.Bed.X, g.Bed.Y, g.PostRadius)
	}
	for _, e := range l.Envelopes {
		d.Line(fmt.Sprintf("%.4g %% of the middles", 100*e.Share), append(e.X, e.X[0]), append(e.Y, e.Y[0]))
	}
	const clear = 0.25 * units.M
	d.Dimension(-g.Bed.Inner, 0, g.Bed.Inner, 0, -g.Bed.Inner-clear)
}

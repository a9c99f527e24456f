package fabric

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// A Row is a mattress whose bays differ in pitch or pressure. Baffles of one
// height stand between the bays, a round bulge closes the row at each end, and
// the row is free to draw together sideways.
type Row struct {
	Bays   []Bay
	Height units.Length // of the baffles, straight from their lower to their upper edge, more than 0
}

// A Bay is the space between two baffles.
type Bay struct {
	Pitch    units.Length   // from baffle to baffle, inflated, more than 0
	Pressure units.Pressure // gauge, 0 or more
}

// A RowForce is what the panels of a row carry.
type RowForce struct {
	Lobe   []units.ForcePerLength // across the top and bottom of each bay
	Baffle []BaffleState          // before each bay, and one after the last
	End    []units.ForcePerLength // across the bulge at the first and at the last end
}

// A BaffleState is a baffle under the pressures to its sides.
type BaffleState struct {
	Force  units.ForcePerLength // along the baffle, carried by its seams
	Upward units.ForcePerLength // what of it holds the top down
	Side   units.ForcePerLength // what of it pulls each edge towards the higher pressure
	Bulge  units.Length         // how far its middle stands out towards the lower pressure
	Cut    units.Length         // its height along the fabric
}

func (r Row) check() error {
	err := argument.Positive("height", r.Height)
	if err == nil && len(r.Bays) == 0 {
		err = fmt.Errorf("bays: got none, want one or more")
	}
	for i, b := range r.Bays {
		err = cmp.Or(err, argument.Positive(fmt.Sprintf("pitch of bay %d", i+1), b.Pitch), argument.NotNegative(fmt.Sprintf("pressure of bay %d", i+1), b.Pressure))
	}
	return err
}

// Row is the same mattress as a row of so many bays.
//
// The number of bays is a whole number from 1 to 1000; outside it panics.
func (m Mattress) Row(bays units.Number) Row {
	m.demand("Mattress.Row")
	argument.Demand("fabric: Mattress.Row", argument.Within("bays", bays, 1, 1000), argument.Whole("bays", bays))
	r := Row{Height: m.Height}
	for range int(bays) {
		r.Bays = append(r.Bays, Bay{Pitch: m.Pitch, Pressure: m.Pressure})
	}
	return r
}

// Forces gives the line forces in all panels.
//
// Each bay's top and bottom are arcs of one circle over half of √(height² +
// pitch²). At a baffle, half of both bays' pressure times pitch pulls up, and
// half of the difference of their pressures times height pulls to the side,
// which the baffle can only carry by bulging to an arc. The end bulges are half
// circles over the height, with the pressure of their bay.
//
// It is an error if there is no bay or a field is out of its range.
//
// Source: equilibrium of cuts through the crowns and of the edges of the
// baffles, derived here.
func (r Row) Forces() (RowForce, error) {
	if err := r.check(); err != nil {
		return RowForce{}, fmt.Errorf("row of bays: %w", err)
	}
	var f RowForce
	first, last := r.Bays[0], r.Bays[len(r.Bays)-1]
	left := Bay{Pressure: first.Pressure} // the bulge has no pitch to the baffle
	for _, b := range append(r.Bays, Bay{Pressure: last.Pressure}) {
		f.Baffle = append(f.Baffle, r.baffle(left, b))
		left = b
	}
	for _, b := range r.Bays {
		f.Lobe = append(f.Lobe, Mattress{b.Pitch, r.Height, b.Pressure}.LineForce())
	}
	f.End = []units.ForcePerLength{first.Pressure * r.Height / 2, last.Pressure * r.Height / 2}
	return f, nil
}

func (r Row) baffle(left, right Bay) BaffleState {
	s := BaffleState{
		Upward: (left.Pressure*left.Pitch + right.Pressure*right.Pitch) / 2,
		Side:   math.Abs(left.Pressure-right.Pressure) * r.Height / 2,
		Cut:    r.Height,
	}
	s.Force = math.Hypot(s.Upward, s.Side)
	if s.Side > 0 {
		half := math.Atan2(s.Side, s.Upward)
		s.Bulge = r.Height / 2 * math.Tan(half/2)
		s.Cut = r.Height * half / math.Sin(half)
	}
	return s
}

// Draw draws the row's section to scale, its lower seams at the height 0 and its
// first baffle at x = 0, with the pitch, the height of the baffles and that of
// the crowns.
//
// It panics where Forces gives an error.
func (r Row) Draw(d *sheet.Drawing) {
	argument.Demand("fabric: Row.Draw", r.check())
	f, _ := r.Forces()
	var x, highest, crown units.Length
	var top outline
	for i, b := range r.Bays {
		radius := math.Hypot(b.Pitch, r.Height) / 2
		if rise := radius - r.Height/2; rise > highest || i == 0 {
			highest, crown = rise, x+b.Pitch/2
		}
		top.arc(x+b.Pitch/2, r.Height/2, radius, math.Atan2(r.Height, -b.Pitch), math.Atan2(r.Height, b.Pitch))
		x += b.Pitch
	}
	skin := top
	skin.arc(x, r.Height/2, r.Height/2, math.Pi/2, -math.Pi/2)
	for i := len(top.x) - 1; i >= 0; i-- { // the bottom mirrors the top
		skin.x, skin.y = append(skin.x, top.x[i]), append(skin.y, r.Height-top.y[i])
	}
	skin.arc(0, r.Height/2, r.Height/2, -math.Pi/2, -3*math.Pi/2)
	d.Outline(skin.x, skin.y)

	x = 0
	for i, s := range f.Baffle {
		bulge := s.Bulge
		if i > 0 && i < len(r.Bays) && r.Bays[i-1].Pressure < r.Bays[i].Pressure {
			bulge = -bulge
		}
		xs, ys := bulged(x, r.Height, bulge)
		d.Line("baffle", xs, ys)
		if i < len(r.Bays) {
			x += r.Bays[i].Pitch
		}
	}
	d.Dimension(0, -highest, r.Bays[0].Pitch, -highest, -0.15*r.Height)
	d.Dimension(x+0.65*r.Height, 0, x+0.65*r.Height, r.Height, 0)
	d.Dimension(crown, -highest, crown, r.Height+highest, 0)
}

// An outline is the points of a line.
type outline struct{ x, y []units.Length }

// arc appends an arc about (x, y) between two angles.
func (o *outline) arc(x, y, radius units.Length, from, to units.Angle) {
	const pieces = 24
	for i := range pieces + 1 {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/pieces)
		o.x, o.y = append(o.x, x+radius*cos), append(o.y, y+radius*sin)
	}
}

// bulged is an upright line whose middle stands out to the right.
func bulged(x, height, bulge units.Length) (xs, ys []units.Length) {
	if bulge == 0 {
		return []units.Length{x, x}, []units.Length{0, height}
	}
	radius := (height*height/4 + bulge*bulge) / (2 * math.Abs(bulge))
	half := math.Asin(math.Min(1, height/2/radius))
	var o outline
	o.arc(x+math.Abs(bulge)-radius, height/2, radius, -half, half)
	if bulge < 0 {
		for i := range o.x {
			o.x[i] = 2*x - o.x[i]
		}
	}
	return o.x, o.y
}

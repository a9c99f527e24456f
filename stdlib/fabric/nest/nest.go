// Package nest lays the pieces of a pattern on a roll of cloth, so that little
// is wasted, each with its warp the way it has to lie.
//
//	roll := nest.Roll{Width: 2.05 * units.M, Margin: 15 * units.Mm, Gap: 4 * units.Mm}
//	lay := sheet.Must(roll.Lay(sewn, 200, 1))
//	sheet.AtLeast("yield of the roll", lay.Yield, 0.75)
//
// The roll's length is x, its width y. A piece may be turned as its Grain, Across
// and OneWay allow, and is never turned over, since coated cloth has a face.
//
// Invariants: the cut lines of a lay keep the Gap from one another and the Margin
// from the selvedges and the roll's end; the same call gives the same lay. The lay
// is a good one, not the best: pieces are pushed up against those before them in
// many orders, and the shortest lay is kept.
package nest

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/polygon"
	"tautline/stdlib/kept"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// A Roll is cloth as it comes, and how it may be used.
type Roll struct {
	Width  units.Length // from selvedge to selvedge, more than 0
	Margin units.Length // kept clear along the selvedges and at the beginning, 0 or more
	Gap    units.Length // between cut lines, 0 or more, below a micrometre none: the knife's width and play
}

// A Lay is where every piece lies on a roll.
type Lay struct {
	Roll       Roll
	Pattern    pattern.Pattern
	Placements []Placement
	Length     units.Length // of the roll that is used up, with its margins
	Fabric     units.Area   // within the cut lines
	Yield      units.Number // fabric over the roll that is used up
	Tries      units.Number // orders that were tried
}

// A Placement is where one copy of a piece lies: turned about its origin, then
// moved by (X, Y).
type Placement struct {
	Piece string
	Copy  units.Number // from 1
	Turn  units.Angle  // anticlockwise
	X, Y  units.Length
}

// Put is a point of the piece on the roll. Not for cells.
func (p Placement) Put(q polygon.Point) polygon.Point {
	sin, cos := math.Sincos(p.Turn)
	return polygon.Point{X: p.X + q.X*cos - q.Y*sin, Y: p.Y + q.X*sin + q.Y*cos}
}

// Lay puts every copy of every piece on the roll. It tries so many orders of the
// pieces, 1 or more, drawn from the seed, a whole number of 0 or more, and keeps
// the one that needs the least length. More tries never make it longer.
//
// A piece that is wider than the roll in every way that it may lie is an error
// that names it, as is a pattern that cannot be cut and a number out of its range.
//
// Source: common practice, no source: greedy placing against a front, improved by
// random exchanges.
func (r Roll) Lay(p pattern.Pattern, tries, seed units.Number) (Lay, error) {
	return kept.Result("nest.Roll.Lay", order{r, p, tries, seed}, order.lay)
}

// An order is what a lay depends on.
type order struct {
	Roll        Roll
	Pattern     pattern.Pattern
	Tries, Seed float64
}

func (o order) lay() (Lay, error) {
	r, p, tries, seed := o.Roll, o.Pattern, o.Tries, o.Seed
	if err := r.check(p, tries, seed); err != nil {
		return Lay{}, fmt.Errorf("lay: %w", err)
	}
	if r.Gap < finest {
		r.Gap = 0
	}
	parts, err := r.parts(p)
	if err != nil {
		return Lay{}, fmt.Errorf("lay: %w", err)
	}
	best := search(r.columns(), parts, int(tries), uint64(seed))
	lay := Lay{Roll: r, Pattern: p, Tries: tries}
	for _, at := range best.places {
		part := parts[at.part]
		placement := r.placement(part, at)
		lay.Placements = append(lay.Placements, placement)
		lay.Fabric += part.outline.Area()
		for _, q := range part.outline {
			lay.Length = max(lay.Length, placement.Put(q).X+r.Margin)
		}
	}
	lay.Yield = lay.Fabric / (r.Width * lay.Length)
	return lay, nil
}

func (r Roll) check(p pattern.Pattern, tries, seed float64) error {
	for _, err := range []error{
		argument.Positive("width of the roll", r.Width), argument.NotNegative("margin", r.Margin), argument.NotNegative("gap", r.Gap),
		argument.Whole("tries", tries), argument.Within("tries", tries, 1, 1e6), argument.Whole("seed", seed), argument.Within("seed", seed, 0, 1<<53),
		p.Check(),
	} {
		if err != nil {
			return err
		}
	}
	if r.Width <= 2*r.Margin+column {
		return fmt.Errorf("width of the roll: got %g m with margins of %g m, want room between them", r.Width, r.Margin)
	}
	if p.Count() > 2000 {
		return fmt.Errorf("pattern: got %g copies of pieces, want 2000 at most: lay it in parts", p.Count())
	}
	return nil
}

// Draw shows the lay, its roll in stretches below one another: the cut lines, and in
// every copy the number of its piece, as Pattern.Draw counts them. A piece is drawn
// where it begins.
//
// A piece that cannot be cut is an error.
func (l Lay) Draw(d *sheet.Drawing) error {
	stretch := math.Sqrt(2 * l.Length * l.Roll.Width)
	rows := math.Max(1, math.Round(l.Length/stretch))
	stretch = l.Length / rows
	shift := func(row float64) polygon.Point { return polygon.Point{X: -row * stretch, Y: -1.6 * row * l.Roll.Width} }
	for row := range int(rows) {
		y := shift(float64(row)).Y
		d.Thin([]float64{0, stretch, stretch, 0, 0}, []float64{y, y, y + l.Roll.Width, y + l.Roll.Width, y})
		d.Text(fmt.Sprintf("from %.1f m", float64(row)*stretch), stretch/2, y-0.2*l.Roll.Width)
	}
	d.Dimension(0, 0, 0, l.Roll.Width, 0.2*l.Roll.Width)
	outlines, numbers := map[string]polygon.Loop{}, map[string]int{}
	for i, piece := range l.Pattern.Pieces {
		outline, _, err := piece.CutLine()
		if err != nil {
			return err
		}
		outlines[piece.Name], numbers[piece.Name] = outline, i+1
	}
	for _, at := range l.Placements {
		outline := outlines[at.Piece]
		begins := math.Inf(1)
		for _, q := range outline {
			begins = math.Min(begins, at.Put(q).X)
		}
		move := shift(math.Min(rows-1, math.Floor(begins/stretch)))
		at.X, at.Y = at.X+move.X, at.Y+move.Y
		d.Outline(at.put(outline))
		middle := at.Put(outline.Inner())
		d.Text(fmt.Sprint(numbers[at.Piece]), middle.X, middle.Y)
	}
	return nil
}

func (p Placement) put(loop polygon.Loop) (xs, ys []float64) {
	for _, q := range loop {
		q = p.Put(q)
		xs, ys = append(xs, q.X), append(ys, q.Y)
	}
	return xs, ys
}

package pattern

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/polygon"
	"tautline/stdlib/sheet"
)

// Draw shows every piece once, in rows: its cut line, its seam line and openings
// within, its warp, its name and count.
//
// A piece that cannot be cut is an error.
func (p Pattern) Draw(d *sheet.Drawing) error {
	const space = 0.1 // of the width of a row, between pieces
	total, widest := 0.0, 0.0
	for _, piece := range p.Pieces {
		total += piece.Width() * piece.Height()
		widest = max(widest, piece.Width())
	}
	row := max(1.5*math.Sqrt(total), widest)
	x, y, deepest := 0.0, 0.0, 0.0
	for _, piece := range p.Pieces {
		outline, openings, err := piece.CutLine()
		if err != nil {
			return err
		}
		low, high := outline.Bounds()
		if x > 0 && x+high.X-low.X > row {
			x, y, deepest = 0, y-deepest-space*row, 0
		}
		move := polygon.Point{X: x - low.X, Y: y - high.Y}
		piece.draw(d, outline, openings, move)
		x += high.X - low.X + space/2*row
		deepest = max(deepest, high.Y-low.Y)
	}
	return nil
}

func (p Piece) draw(d *sheet.Drawing, outline polygon.Loop, openings []polygon.Loop, move polygon.Point) {
	d.Outline(moved(outline, move))
	for _, loop := range append(openings, p.seamLine()) {
		d.Thin(moved(append(loop, loop[0]), move))
	}
	at := outline.Inner()
	sin, cos := math.Sincos(p.Grain)
	reach := 0.3 * math.Sqrt(outline.Area())
	x, y := at.X+move.X, at.Y+move.Y
	d.Arrow("", x-reach/2*cos, y-reach/2*sin, x+reach/2*cos, y+reach/2*sin)
	d.Text(fmt.Sprintf("%s ×%g", p.Name, p.Count), x, y)
}

func moved(loop polygon.Loop, by polygon.Point) (xs, ys []float64) {
	for _, p := range loop {
		xs, ys = append(xs, p.X+by.X), append(ys, p.Y+by.Y)
	}
	return xs, ys
}

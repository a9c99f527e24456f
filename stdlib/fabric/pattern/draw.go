package pattern

import (
	"fmt"
	"math"
	"unicode/utf8"

	"tautline/stdlib/internal/polygon"
	"tautline/stdlib/sheet"
)

// Draw shows every piece once, in rows: its cut line, its seam line and openings
// within, its warp, and below it its number, from 1, its name and count.
//
// A piece that cannot be cut is an error.
func (p Pattern) Draw(d *sheet.Drawing) error {
	pictures := make([]picture, len(p.Pieces))
	row := 0.0 // its width
	for i, piece := range p.Pieces {
		outline, openings, err := piece.CutLine()
		if err != nil {
			return err
		}
		low, high := outline.Bounds()
		pictures[i] = picture{piece, outline, openings, low, high, fmt.Sprintf("%d: %s ×%g", i+1, piece.Name, piece.Count)}
		row = max(row, high.X-low.X)
	}
	for range 100 { // until it is wider than high, as a page of a report has room
		if height := arrange(pictures, row, nil); height <= 0.75*row {
			break
		}
		row *= 1.05
	}
	arrange(pictures, row, d)
	return nil
}

// A picture is a piece as it is drawn, and its name below.
type picture struct {
	piece     Piece
	outline   polygon.Loop
	openings  []polygon.Loop
	low, high polygon.Point
	name      string
}

// arrange lays pictures in rows of a width and says how high they stand. It draws
// them where there is something to draw on.
func arrange(pictures []picture, row float64, d *sheet.Drawing) (height float64) {
	space, letter := 0.02*row, 0.0105*row // about, as a report prints names
	x, y, deepest := 0.0, 0.0, 0.0
	for _, p := range pictures {
		wide, tall := p.high.X-p.low.X, p.high.Y-p.low.Y
		width := max(wide, letter*float64(utf8.RuneCountInString(p.name)))
		if x > 0 && x+width > row*(1+1e-9) {
			x, y, deepest = 0, y-deepest-3*space, 0
		}
		if middle := x + width/2; d != nil {
			p.piece.draw(d, p.outline, p.openings, polygon.Point{X: middle - (p.low.X+p.high.X)/2, Y: y - p.high.Y})
			d.Text(p.name, middle, y-tall-space)
		}
		x += width + space
		deepest = max(deepest, tall)
	}
	return deepest + 2*space - y
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
}

func moved(loop polygon.Loop, by polygon.Point) (xs, ys []float64) {
	for _, p := range loop {
		xs, ys = append(xs, p.X+by.X), append(ys, p.Y+by.Y)
	}
	return xs, ys
}

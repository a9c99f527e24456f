package nest

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/internal/polygon"
)

// column is the width of the strips along the roll in which the front of what
// lies there is known. A piece fills every strip that it touches, so none
// overlaps another; finer strips would waste a little less.
const column = 4e-3 // m

// columns is the number of strips between the margins. Cut lines are taken half a
// gap wider all round, so half a gap may lie over the margin.
func (r Roll) columns() int {
	return int(math.Floor((r.Width-2*r.Margin+r.Gap)/column + 1e-9))
}

// A part is a copy of a piece and the ways in which it may lie.
type part struct {
	piece   string
	copy    float64
	outline polygon.Loop
	ways    []way
}

// A way is a part turned, as its extent along the roll in each strip, and where
// its lower corner was.
type way struct {
	turn      float64
	low, high []float64
	length    float64
	corner    polygon.Point
}

// finest is the least gap that counts: no table cuts to a thousandth of a
// millimetre, and less would be lost in rounding.
const finest = 1e-6

// parts lists all copies.
func (r Roll) parts(p pattern.Pattern) ([]part, error) {
	var parts []part
	for _, piece := range p.Pieces {
		outline, _, err := piece.CutLine()
		if err != nil {
			return nil, err
		}
		wide := outline
		if r.Gap > 0 {
			width := make([]float64, len(outline))
			for i := range width {
				// A corner of a circle of chords stands in by 0.1 % of its radius.
				width[i] = r.Gap / 2 * 1.001
			}
			wide = outline.Offset(width, polygon.Rounded)[0]
		}
		one := part{piece: piece.Name, outline: outline}
		narrowest := math.Inf(1)
		for _, turn := range turns(piece) {
			w := newWay(wide, turn)
			narrowest = min(narrowest, across(outline, turn))
			if len(w.low) <= r.columns() {
				one.ways = append(one.ways, w)
			}
		}
		if len(one.ways) == 0 {
			return nil, fmt.Errorf("piece %s: %.1f mm across the roll, want at most %.1f mm: split it, or let its warp lie another way",
				piece.Name, narrowest*1e3, (float64(r.columns())*column-r.Gap)*1e3)
		}
		for k := range int(piece.Count) {
			one.copy = float64(k + 1)
			parts = append(parts, one)
		}
	}
	return parts, nil
}

// turns lists the angles by which a piece may be turned on the roll.
func turns(p pattern.Piece) []float64 {
	list := []float64{-p.Grain}
	if p.Across {
		list = append(list, math.Pi/2-p.Grain)
	}
	if !p.OneWay {
		for _, turn := range list {
			list = append(list, turn+math.Pi)
		}
	}
	return list
}

func turned(loop polygon.Loop, turn float64) polygon.Loop {
	at := Placement{Turn: turn}
	out := make(polygon.Loop, len(loop))
	for i, p := range loop {
		out[i] = at.Put(p)
	}
	return out
}

func across(loop polygon.Loop, turn float64) float64 {
	low, high := turned(loop, turn).Bounds()
	return high.Y - low.Y
}

func newWay(loop polygon.Loop, turn float64) way {
	loop = turned(loop, turn)
	low, high := loop.Bounds()
	n := max(1, int(math.Ceil((high.Y-low.Y)/column-1e-9)))
	w := way{turn: turn, low: make([]float64, n), high: make([]float64, n), length: high.X - low.X, corner: low}
	for k := range n {
		w.low[k], w.high[k] = math.Inf(1), math.Inf(-1)
	}
	for i, a := range loop {
		b := loop[(i+1)%len(loop)]
		w.fill(polygon.Point{X: a.X - low.X, Y: a.Y - low.Y}, polygon.Point{X: b.X - low.X, Y: b.Y - low.Y})
	}
	return w
}

// fill widens the strips that a side touches to what it covers of them.
func (w way) fill(a, b polygon.Point) {
	if a.Y > b.Y {
		a, b = b, a
	}
	n := len(w.low)
	first := min(max(int(math.Floor(a.Y/column-1e-9)), 0), n-1)
	last := min(max(int(math.Floor(b.Y/column+1e-9)), 0), n-1)
	at := func(y float64) float64 {
		if b.Y == a.Y {
			return a.X
		}
		return a.X + (b.X-a.X)*min(1, max(0, (y-a.Y)/(b.Y-a.Y)))
	}
	for k := first; k <= last; k++ {
		x0, x1 := at(float64(k)*column), at(float64(k+1)*column)
		if a.Y == b.Y {
			x1 = b.X
		}
		w.low[k] = min(w.low[k], x0, x1)
		w.high[k] = max(w.high[k], x0, x1)
	}
}

// placement is where a copy lies, in lengths.
func (r Roll) placement(p part, at place) Placement {
	w := p.ways[at.way]
	half := r.Gap / 2
	return Placement{Piece: p.piece, Copy: p.copy, Turn: w.turn,
		X: r.Margin - half + at.x - w.corner.X,
		Y: r.Margin - half + float64(at.column)*column - w.corner.Y}
}

// Package cutting writes what the cutting table and the sewing room work from:
// pieces and lays at full size as SVG and DXF, the list of pieces and the map of
// seams as HTML and CSV.
//
//	sheet.ShopFile("bed-lay.dxf", sheet.Must(cutting.LayDXF(lay)))
//	sheet.ShopFile("bed-pieces.csv", sheet.Must(cutting.ListCSV(bed)))
//	sheet.ShopFile("bed-seams.html", sheet.Must(cutting.SeamsHTML(bed)))
//
// Drawings are in millimetres, one to one, in four layers: cut (where the knife
// goes), mark (seam lines, hems, notches, grain, what is drawn on the cloth),
// drill (holes to punch) and text. Each holds a square of exactly 100 mm on the
// layer mark: whoever opens the file measures it first, since a printer or a
// program that scales it spoils the cloth.
//
// Invariants: closed outlines are closed shapes, not strings of lines; the same
// pattern gives the same bytes.
package cutting

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric/nest"
	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/internal/polygon"
)

// The layers of a drawing.
const (
	cut = iota
	mark
	drill
	text
	layers
)

var layerNames = [layers]string{"cut", "mark", "drill", "text"}

// A drawing is what a file shows, in millimetres, y upward.
type drawing struct {
	title  string
	lines  []line
	rounds []round
	labels []label
}

type line struct {
	layer  int
	points []polygon.Point
	closed bool
}

type round struct {
	layer    int
	centre   polygon.Point
	diameter float64
}

type label struct {
	at     polygon.Point // its middle
	height float64
	words  string
}

const (
	smallText = 6.0   // mm, numbers of notches
	largeText = 15.0  // mm, names of pieces
	square    = 100.0 // mm, the test square
	tick      = 10.0  // mm, a notch where no allowance has room for it
	apart     = 30.0  // mm, between the pieces and the test square
)

// A put moves a point of a piece, in metres, to its place in the drawing.
type put func(polygon.Point) polygon.Point

// onTable puts a piece on the drawing as it is.
func onTable(p polygon.Point) polygon.Point { return polygon.Point{X: p.X * 1e3, Y: p.Y * 1e3} }

func (d *drawing) line(layer int, closed bool, points []polygon.Point, to put) {
	l := line{layer: layer, closed: closed}
	for _, p := range points {
		l.points = append(l.points, to(p))
	}
	d.lines = append(d.lines, l)
}

// A cutOut is a piece with its cut lines.
type cutOut struct {
	pattern.Piece
	outline  polygon.Loop
	openings []polygon.Loop
	room     polygon.Point // a place for its name
}

func newCutOut(p pattern.Piece) (cutOut, error) {
	outline, openings, err := p.CutLine()
	if err != nil {
		return cutOut{}, err
	}
	return cutOut{p, outline, openings, outline.Inner()}, nil
}

// piece draws a copy of a piece with its marks, or copy 0 for all of them.
func (d *drawing) piece(p cutOut, copy float64, name string, to put) error {
	d.line(cut, true, p.outline, to)
	for i, o := range p.openings {
		only := p.Openings[i].Only
		if only > 0 && copy > only {
			continue
		}
		d.line(cut, true, o, to)
		if p.Openings[i].Allowance > 0 {
			d.edge(p.Openings[i], to)
		}
		d.label(some(p.Openings[i].Name, only, copy), smallText, o.Inner(), to)
	}
	for _, e := range p.Edges {
		if e.Allowance > 0 {
			d.edge(e, to)
		}
	}
	for _, e := range p.Lines {
		d.edge(e, to)
	}
	for _, h := range p.Drills {
		if h.Only > 0 && copy > h.Only {
			continue
		}
		d.rounds = append(d.rounds, round{drill, to(polygon.Point{X: h.X, Y: h.Y}), h.Diameter * 1e3})
		d.label(some(h.Name, h.Only, copy), smallText, polygon.Point{X: h.X, Y: h.Y - h.Diameter/2 - smallText*1e-3}, to)
	}
	for _, n := range p.Notches {
		if err := d.notch(p.Piece, n, to); err != nil {
			return err
		}
	}
	d.grain(p.Grain, p.room, to)
	d.label(name, largeText, p.room, to)
	return nil
}

// some says of a drawing for all copies how many have a thing.
func some(name string, only, copy float64) string {
	if only > 0 && copy == 0 {
		return fmt.Sprintf("%s, in %g only", name, only)
	}
	return name
}

func (d *drawing) edge(e pattern.Edge, to put) {
	points := make([]polygon.Point, len(e.X))
	for i := range points {
		points[i] = polygon.Point{X: e.X[i], Y: e.Y[i]}
	}
	d.line(mark, false, points, to)
}

// notch draws a tick from the seam line across the allowance, and its number on
// the other side.
func (d *drawing) notch(p pattern.Piece, n pattern.Notch, to put) error {
	at, out, reach, err := p.Tick(n)
	if err != nil {
		return err
	}
	if reach == 0 {
		reach = -tick * 1e-3
	}
	step := func(s float64) polygon.Point { return polygon.Point{X: at.X + s*out.X, Y: at.Y + s*out.Y} }
	d.line(mark, false, []polygon.Point{at, step(reach)}, to)
	d.label(fmt.Sprintf("%g", n.Number), smallText, step(-1.5*smallText*1e-3), to)
	return nil
}

// grain draws an arrow along the warp.
func (d *drawing) grain(angle float64, at polygon.Point, to put) {
	sin, cos := math.Sincos(angle)
	point := func(along, across float64) polygon.Point {
		return polygon.Point{X: at.X + along*cos - across*sin, Y: at.Y + along*sin + across*cos}
	}
	const half, barb, off = 0.1, 0.02, -0.02 // m; beside the name
	d.line(mark, false, []polygon.Point{point(-half, off), point(half, off)}, to)
	d.line(mark, false, []polygon.Point{point(half-barb, off+barb/2), point(half, off), point(half-barb, off-barb/2)}, to)
}

func (d *drawing) label(words string, height float64, at polygon.Point, to put) {
	d.labels = append(d.labels, label{to(at), height, words})
}

// testSquare draws the square with its lower left corner at (x, y) mm.
func (d *drawing) testSquare(x, y float64) {
	as := func(p polygon.Point) polygon.Point { return p }
	d.line(mark, true, []polygon.Point{{X: x, Y: y}, {X: x + square, Y: y}, {X: x + square, Y: y + square}, {X: x, Y: y + square}}, as)
	d.label("measure: 100 mm", smallText, polygon.Point{X: x + square/2, Y: y + square/2}, as)
}

// bounds are the corners of all that is drawn.
func (d *drawing) bounds() (low, high polygon.Point) {
	var all polygon.Loop
	for _, l := range d.lines {
		all = append(all, l.points...)
	}
	return all.Bounds()
}

// onePiece draws a piece and the test square below it.
func onePiece(p pattern.Piece) (drawing, error) {
	if err := p.Check(); err != nil {
		return drawing{}, err
	}
	whole, err := newCutOut(p)
	if err != nil {
		return drawing{}, err
	}
	d := drawing{title: p.Name}
	if err := d.piece(whole, 0, fmt.Sprintf("%s, cut %g", p.Name, p.Count), onTable); err != nil {
		return drawing{}, err
	}
	low, _ := d.bounds()
	d.testSquare(low.X, low.Y-apart-square)
	return d, nil
}

// wholeLay draws a lay, the edges of its roll and the test square beyond its end.
func wholeLay(l nest.Lay) (drawing, error) {
	d := drawing{title: fmt.Sprintf("Lay of %.0f mm on a roll of %.0f mm", l.Length*1e3, l.Roll.Width*1e3)}
	for _, y := range []float64{0, l.Roll.Width} {
		d.line(mark, false, []polygon.Point{{X: 0, Y: y}, {X: l.Length, Y: y}}, onTable)
	}
	pieces := map[string]cutOut{}
	for _, p := range l.Pattern.Pieces {
		piece, err := newCutOut(p)
		if err != nil {
			return drawing{}, err
		}
		pieces[p.Name] = piece
	}
	for _, at := range l.Placements {
		piece := pieces[at.Piece]
		name := piece.Name
		if piece.Count > 1 {
			name = fmt.Sprintf("%s, %g of %g", piece.Name, at.Copy, piece.Count)
		}
		if err := d.piece(piece, at.Copy, name, func(p polygon.Point) polygon.Point { return onTable(at.Put(p)) }); err != nil {
			return drawing{}, err
		}
	}
	d.testSquare(l.Length*1e3+apart, 0)
	return d, nil
}

// PieceSVG is the drawing of one piece as SVG, at full size.
//
// A piece that cannot be cut is an error.
func PieceSVG(p pattern.Piece) (string, error) {
	d, err := onePiece(p)
	if err != nil {
		return "", err
	}
	return d.svg(), nil
}

// PieceDXF is the drawing of one piece as DXF R12, in millimetres.
//
// A piece that cannot be cut is an error.
func PieceDXF(p pattern.Piece) (string, error) {
	d, err := onePiece(p)
	if err != nil {
		return "", err
	}
	return d.dxf(), nil
}

// LaySVG is the drawing of a lay as SVG, at full size.
//
// A lay of pieces that cannot be cut is an error.
func LaySVG(l nest.Lay) (string, error) {
	d, err := wholeLay(l)
	if err != nil {
		return "", err
	}
	return d.svg(), nil
}

// LayDXF is the drawing of a lay as DXF R12, in millimetres.
//
// A lay of pieces that cannot be cut is an error.
func LayDXF(l nest.Lay) (string, error) {
	d, err := wholeLay(l)
	if err != nil {
		return "", err
	}
	return d.dxf(), nil
}

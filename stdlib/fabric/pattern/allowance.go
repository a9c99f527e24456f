package pattern

import (
	"fmt"

	"tautline/stdlib/fabric"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/polygon"
	"tautline/stdlib/units"
)

// Compensate shrinks every piece by what the fabric stretches under pressure, so
// that it has its drawn size in use: lengths along the warp are divided by 1 +
// warp, those across it by 1 + weft, as fabric.CutLength has it. Match then says
// what seams between pieces of different grain have come to.
//
// The strains are positive for stretch and more than -1, from a biaxial test at
// the forces in use. It is an error outside, and for a pattern with notches: they
// come after.
//
// Source: definition of strain on the unstretched length.
func (p Pattern) Compensate(warp, weft units.Number) (Pattern, error) {
	for _, err := range []error{argument.Above("warp strain", warp, -1), argument.Above("weft strain", weft, -1)} {
		if err != nil {
			return p, fmt.Errorf("compensation: %w", err)
		}
	}
	along, across := fabric.CutLength(1, warp), fabric.CutLength(1, weft)
	var err error
	for _, piece := range p.Pieces {
		if len(piece.Notches) > 0 {
			return p, fmt.Errorf("compensation: piece %s: got notches, want none yet: notch what has its final size", piece.Name)
		}
		p, err = p.edit(piece.Name, func(piece Piece) (Piece, error) {
			piece.stretch(along, across)
			return piece, nil
		})
		if err != nil {
			return p, fmt.Errorf("compensation: %w", err)
		}
	}
	return p, nil
}

// stretch multiplies lengths along and across the grain.
func (p Piece) stretch(along, across float64) {
	sin, cos := sincos(p.Grain)
	move := func(x, y *float64) {
		u, v := along*(*x*cos+*y*sin), across*(*y*cos-*x*sin)
		*x, *y = u*cos-v*sin, u*sin+v*cos
	}
	for _, list := range [][]Edge{p.Edges, p.Openings, p.Lines} {
		for _, e := range list {
			for i := range e.X {
				move(&e.X[i], &e.Y[i])
			}
		}
	}
	for i := range p.Drills {
		move(&p.Drills[i].X, &p.Drills[i].Y)
	}
}

// Allow gives every edge that a seam joins the seam allowance, every other edge
// round a piece a hem, and openings that no seam joins none. Both widths are 0 or
// more.
//
// Widths out of their range are an error, as are allowances that meet, such as
// those of a slit.
func (p Pattern) Allow(seam, hem units.Length) (Pattern, error) {
	for _, err := range []error{argument.NotNegative("seam allowance", seam), argument.NotNegative("hem", hem)} {
		if err != nil {
			return p, fmt.Errorf("allowance: %w", err)
		}
	}
	var err error
	for _, piece := range p.Pieces {
		p, err = p.edit(piece.Name, func(piece Piece) (Piece, error) {
			for i := range piece.Edges {
				e := &piece.Edges[i]
				e.Hem = p.sewn(piece.Name+"/"+e.Name) == 0
				if e.Allowance = seam; e.Hem {
					e.Allowance = hem
				}
			}
			for i := range piece.Openings {
				if e := &piece.Openings[i]; p.sewn(piece.Name+"/"+e.Name) > 0 {
					e.Allowance = seam
				}
			}
			return piece, piece.checkAllowances()
		})
		if err != nil {
			return p, err
		}
	}
	return p, nil
}

// checkAllowances finds where the allowances of two edges want the same cloth, as
// in a slit: there the seam line lies further inside than a corner explains.
func (p Piece) checkAllowances() error {
	outline, _, err := p.CutLine()
	if err != nil {
		return err
	}
	const explained = 4 // widths, at an inner corner of 29° and more
	line, owner := p.outline()
	widest := 0.0
	for _, e := range p.Edges {
		widest = max(widest, e.Allowance)
	}
	for i, q := range line {
		if !outline.Within(q, explained*widest+joint, float64(i)/float64(len(line))) {
			return fmt.Errorf("piece %s: edge %q at (%.1f, %.1f) mm lies %.1f mm inside the cut line: its allowance meets that of another edge; want a wider gap or a narrower allowance",
				p.Name, p.Edges[owner[i]].Name, q.X*1e3, q.Y*1e3, outline.Distance(q)*1e3)
		}
	}
	return nil
}

// CutLine is where the knife goes: the outline with its allowances, and the
// openings less theirs. Not for cells.
func (p Piece) CutLine() (outline polygon.Loop, openings []polygon.Loop, err error) {
	line, owner := p.outline()
	width := make([]float64, len(line))
	for i, e := range owner {
		width[i] = p.Edges[e].Allowance
	}
	loops := line.Offset(width, p.corner())
	if len(loops) != 1 {
		return nil, nil, fmt.Errorf("piece %s: its allowances meet in %d places: want a narrower allowance or a wider gap", p.Name, max(1, len(loops)-1))
	}
	for _, o := range p.Openings {
		loop := o.loop()
		width := make([]float64, len(loop))
		for i := range width {
			width[i] = -o.Allowance
		}
		left := loop.Offset(width, p.corner())
		if len(left) != 1 {
			return nil, nil, fmt.Errorf("piece %s: opening %q: an allowance of %.1f mm leaves %d holes, want one", p.Name, o.Name, o.Allowance*1e3, len(left))
		}
		openings = append(openings, left[0])
	}
	return loops[0], openings, nil
}

func (p Piece) corner() polygon.Corner {
	if p.Rounded {
		return polygon.Rounded
	}
	return polygon.Mitred
}

// CutArea is the fabric that a copy of the piece takes off the roll, with its
// allowances and with what its openings waste.
//
// Source: geometry of a polygon.
func (p Piece) CutArea() (units.Area, error) {
	outline, _, err := p.CutLine()
	if err != nil {
		return 0, err
	}
	return outline.Area(), nil
}

package surface

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Mattress is a bed of lobes held by upright baffles: x across the baffles, y
// along them, z upward from the middle of its depth. Each bay is a round tube
// that its neighbours cut into, so that the whole is in balance as it stands.
type Mattress struct {
	Length units.Length // along the baffles, more than 0
	Bays   units.Number // a whole number of 1 or more
	Pitch  units.Length // from baffle to baffle, more than 0
	Height units.Length // of the baffles, more than 0
	Open   bool         // without the flat ends
	Across int          // pieces across a lobe, 0: 8
	Along  int          // pieces along the baffles, 0: as long as those across
}

// Mesh is the parts "skin", "baffle" and, unless it is open, "near end" and "far
// end". Its seams are "baffle 1 top" and "baffle 1 bottom", with ends also "baffle 1
// near" and "baffle 1 far", and so on, "near seam" and "far seam".
//
// A field out of its range is an error.
func (m Mattress) Mesh() (Mesh, error) {
	err := cmp.Or(argument.Positive("pitch", m.Pitch), argument.Positive("height", m.Height), panels("bays", &m.Bays, 0, 1))
	if err != nil {
		return (&weave{}).mesh(err, "mattress")
	}
	l := lobed{m.Length, slices.Repeat([]float64{m.Pitch}, int(m.Bays)), slices.Repeat([]float64{m.Height}, int(m.Bays)+1), false, m.Open, m.Across, m.Along}
	return l.mesh("mattress")
}

// A Wall stands upright: a mattress set on its end, its baffles upright, with x
// along the wall, y across it and z upward from its foot.
type Wall struct {
	Height    units.Length // more than 0
	Bays      units.Number // a whole number of 1 or more
	Pitch     units.Length // from baffle to baffle, more than 0
	Thickness units.Length // width of the baffles, more than 0
	Open      bool         // without foot and top
	Across    int          // pieces across a lobe, 0: 8
	Along     int          // pieces from foot to top, 0: as long as those across
}

// Mesh is the parts "skin", "baffle" and, unless it is open, "foot" and "top". Its
// seams are "baffle 1 front" and "baffle 1 back", with foot and top also "baffle 1
// foot" and "baffle 1 top", and so on, "foot seam" and "top seam".
//
// A field out of its range is an error.
func (l Wall) Mesh() (Mesh, error) {
	err := cmp.Or(argument.Positive("pitch", l.Pitch), argument.Positive("thickness", l.Thickness), panels("bays", &l.Bays, 0, 1))
	if err != nil {
		return (&weave{}).mesh(err, "wall")
	}
	m, err := lobed{l.Height, slices.Repeat([]float64{l.Pitch}, int(l.Bays)), slices.Repeat([]float64{l.Thickness}, int(l.Bays)+1), false, l.Open, l.Across, l.Along}.mesh("wall")
	if err != nil {
		return Mesh{}, err
	}
	m = m.mapped(func(v vec) vec { return vec{v[0], -v[2], v[1]} })
	rename(m.Parts, "near end", "foot", "far end", "top")
	for i := range m.Seams {
		s := []string{m.Seams[i].Name}
		rename(s, "near seam", "foot seam", "far seam", "top seam")
		m.Seams[i].Name = s[0]
		for _, turned := range [][2]string{{" top", " front"}, {" bottom", " back"}, {" near", " foot"}, {" far", " top"}} {
			if n, is := strings.CutSuffix(s[0], turned[0]); is {
				m.Seams[i].Name = n + turned[1]
			}
		}
	}
	return m, nil
}

// A Wedge is a mattress whose baffles grow from its thin to its thick end: a ramp,
// level in the middle of its depth.
type Wedge struct {
	Length units.Length // along the baffles, more than 0
	Bays   units.Number // a whole number of 1 or more
	Pitch  units.Length // from baffle to baffle, more than 0
	Low    units.Length // height at the thin end, more than 0
	High   units.Length // height at the thick end, at least Low
	Open   bool         // without the flat ends
	Across int          // pieces across a lobe, 0: 8
	Along  int          // pieces along the baffles, 0: as long as those across
}

// Mesh has the parts and seams of a Mattress.
//
// A field out of its range is an error, and a wedge so steep that a baffle would
// lie outside the round of its bay.
func (g Wedge) Mesh() (Mesh, error) {
	err := cmp.Or(argument.Positive("pitch", g.Pitch), argument.Positive("low height", g.Low), argument.Positive("high height", g.High), panels("bays", &g.Bays, 0, 1))
	if err == nil && g.High < g.Low {
		err = fmt.Errorf("high height: got %g m, want at least the low height %g m", g.High, g.Low)
	}
	if err != nil {
		return (&weave{}).mesh(err, "wedge")
	}
	l := lobed{g.Length, slices.Repeat([]float64{g.Pitch}, int(g.Bays)), nil, false, g.Open, g.Across, g.Along}
	for i := range int(g.Bays) + 1 {
		l.heights = append(l.heights, g.Low+(g.High-g.Low)*float64(i)/g.Bays)
	}
	return l.mesh("wedge")
}

// A Box is cut of flat panels, with upright baffles across it that make its top
// and bottom stand up in lobes under pressure: x across the baffles, y along
// them, z upward from the middle of its depth.
type Box struct {
	Length units.Length // along the baffles, more than 0
	Width  units.Length // across the baffles, more than 0
	Height units.Length // more than 0
	Bays   units.Number // between sides and baffles, a whole number of 1 or more
	Open   bool         // without the flat ends
	Across int          // pieces across a bay, 0: 8
	Along  int          // pieces along the baffles, 0: as long as those across
}

// Mesh has the parts and seams of a Mattress; sides, top and bottom are its
// "skin".
//
// A field out of its range is an error.
func (b Box) Mesh() (Mesh, error) {
	err := cmp.Or(argument.Positive("width", b.Width), argument.Positive("height", b.Height), panels("bays", &b.Bays, 0, 1))
	if err != nil {
		return (&weave{}).mesh(err, "box")
	}
	l := lobed{b.Length, slices.Repeat([]float64{b.Width / b.Bays}, int(b.Bays)), slices.Repeat([]float64{b.Height}, int(b.Bays)+1), true, b.Open, b.Across, b.Along}
	return l.mesh("box")
}

// A lobed thing is a row of bays: pitches of the bays, heights of the baffles and
// of the outermost chords, which have no baffle.
type lobed struct {
	length           float64
	pitches, heights []float64
	flat             bool
	open             bool
	across, along    int
}

// bay is the section of one bay: a circle cut by the chords at its sides.
type bay struct {
	from, to      float64 // x of its chords
	left, right   float64 // their heights
	centre, round float64 // x of the circle's centre, its radius; 0 when flat
}

// top is the point at a share of the way from the left chord's upper end to the
// right one's, in x and z.
func (b bay) top(s float64) (x, z float64) {
	if b.round == 0 {
		return b.from + s*(b.to-b.from), b.left/2 + s*(b.right-b.left)/2
	}
	a0, a1 := math.Atan2(b.left/2, b.from-b.centre), math.Atan2(b.right/2, b.to-b.centre)
	sin, cos := math.Sincos(a0 + s*(a1-a0))
	return b.centre + b.round*cos, b.round * sin
}

// outside is the point at a share of the way round the end of the row, from the
// lower end of the left chord to its upper end, or of the right one's.
func (b bay) outside(s float64, right bool) (x, z float64) {
	chord, height := b.from, b.left
	if right {
		chord, height = b.to, b.right
	}
	if b.round == 0 {
		return chord, (s - 0.5) * height
	}
	way, off := 1.0, chord-b.centre
	if !right {
		way, off = -1, -off
	}
	half := math.Atan2(height/2, off)
	sin, cos := math.Sincos((2*s - 1) * half)
	return b.centre + way*b.round*cos, b.round * sin
}

func (l lobed) bays() ([]bay, error) {
	var out []bay
	x := 0.0
	for i, s := range l.pitches {
		b := bay{from: x, to: x + s, left: l.heights[i], right: l.heights[i+1]}
		if !l.flat {
			a := s/2 + (b.right*b.right-b.left*b.left)/(8*s) // of the centre from the left chord: both chords in one circle
			b.centre, b.round = x+a, math.Hypot(a, b.left/2)
			if a <= 0 || a >= s {
				return nil, fmt.Errorf("bay %d: baffles of %g m and %g m do not fit one round bay of %g m: take a greater pitch or more bays", i+1, b.left, b.right, s)
			}
		}
		out = append(out, b)
		x += s
	}
	return out, nil
}

func (l lobed) mesh(what string) (Mesh, error) {
	w := &weave{}
	err := cmp.Or(argument.Positive("length", l.length), pieces("pieces across", &l.across, 8, 2))
	if err != nil {
		return w.mesh(err, what)
	}
	bays, err := l.bays()
	if err != nil {
		return w.mesh(err, what)
	}
	piece := l.pitches[0] / float64(l.across)
	if err := pieces("pieces along", &l.along, usual(l.length/piece), 1); err != nil {
		return w.mesh(err, what)
	}
	up := max(2, usual(l.heights[0]/piece))
	var near, far section
	skin, baffle := [][]int{}, make([][][]int, len(bays)-1)
	for k := range l.along + 1 {
		s := w.section(bays, l.across, up, l.length*float64(k)/float64(l.along))
		if k == 0 {
			near = s
		}
		far = s
		skin = append(skin, s.outline())
		for i, line := range s.baffles {
			baffle[i] = append(baffle[i], line)
		}
	}
	w.cloth(w.part("skin"), skin)
	for i, lines := range baffle {
		w.cloth(w.part("baffle"), lines)
		w.seam(numbered("baffle", i)+" bottom", column(lines, 0))
		w.seam(numbered("baffle", i)+" top", column(lines, up))
	}
	if !l.open {
		for i, b := range bays {
			middle := (b.from + b.to) / 2
			w.lid("near end", near.bay(i), vec{middle, 0, 0}, false)
			w.lid("far end", far.bay(i), vec{middle, l.length, 0}, true)
		}
		for i := range near.baffles { // the ends meet on the baffles
			w.seam(numbered("baffle", i)+" near", near.baffles[i])
			w.seam(numbered("baffle", i)+" far", far.baffles[i])
		}
	}
	w.seam("near seam", near.outline())
	w.seam("far seam", far.outline())
	return w.mesh(nil, what)
}

// A section across all bays at one y.
type section struct {
	tops, bottoms [][]int // of each bay, from left to right
	baffles       [][]int // upward
	left, right   []int   // round the ends, upward
}

func (w *weave) section(bays []bay, across, up int, y float64) section {
	var s section
	between := func(from, to, steps int, f func(s float64) (x, z float64)) []int {
		line := []int{from}
		for k := 1; k < steps; k++ {
			x, z := f(float64(k) / float64(steps))
			line = append(line, w.lay(vec{x, y, z}))
		}
		return append(line, to)
	}
	var low, high []int // ends of the chords
	for i := range len(bays) + 1 {
		x, h := bays[0].from, bays[0].left
		if i > 0 {
			x, h = bays[i-1].to, bays[i-1].right
		}
		low, high = append(low, w.lay(vec{x, y, -h / 2})), append(high, w.lay(vec{x, y, h / 2}))
	}
	for i, b := range bays {
		s.tops = append(s.tops, between(high[i], high[i+1], across, b.top))
		s.bottoms = append(s.bottoms, between(low[i], low[i+1], across, func(s float64) (x, z float64) {
			x, z = b.top(s)
			return x, -z
		}))
		if i > 0 {
			s.baffles = append(s.baffles, between(low[i], high[i], up, func(s float64) (x, z float64) { return b.from, (s - 0.5) * b.left }))
		}
	}
	last := len(bays) - 1
	s.left = between(low[0], high[0], outerPieces(bays[0], false, across, up), func(s float64) (x, z float64) { return bays[0].outside(s, false) })
	s.right = between(low[last+1], high[last+1], outerPieces(bays[last], true, across, up), func(s float64) (x, z float64) { return bays[last].outside(s, true) })
	return s
}

// outerPieces is how many pieces make the round end as fine as a lobe.
func outerPieces(b bay, right bool, across, up int) int {
	if b.round == 0 {
		return up
	}
	off, height := b.centre-b.from, b.left
	if right {
		off, height = b.to-b.centre, b.right
	}
	round := 2 * math.Atan2(height/2, off)
	lobe := math.Pi - 2*math.Atan2(b.left/2, b.centre-b.from)
	return max(2, usual(float64(across)*round/math.Max(lobe, 0.2)))
}

// outline runs round the section counter-clockwise as seen along y: left along
// the top, down the left end, right and up.
func (s section) outline() []int {
	var line []int
	for _, t := range slices.Backward(s.tops) {
		line = append(line, mirrored(t)[:len(t)-1]...)
	}
	line = append(line, mirrored(s.left)[:len(s.left)-1]...)
	for _, b := range s.bottoms {
		line = append(line, b[:len(b)-1]...)
	}
	return append(line, s.right...)
}

// bay is the loop round bay i, the same way as the outline.
func (s section) bay(i int) []int {
	left, right := s.left, s.right
	if i > 0 {
		left = s.baffles[i-1]
	}
	if i < len(s.baffles) {
		right = s.baffles[i]
	}
	line := mirrored(s.tops[i])
	line = append(line, mirrored(left)[1:]...)
	line = append(line, s.bottoms[i][1:]...)
	return append(line, right[1:]...)
}

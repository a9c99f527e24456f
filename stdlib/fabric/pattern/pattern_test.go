package pattern_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// rectangle is a piece of four straight edges.
func rectangle(name string, width, height float64) pattern.Piece {
	return pattern.Piece{Name: name, Count: 1, Edges: []pattern.Edge{
		pattern.Line("bottom", 0, 0, width, 0), pattern.Line("right", width, 0, width, height),
		pattern.Line("top", width, height, 0, height), pattern.Line("left", 0, height, 0, 0),
	}}
}

func TestPieceRefuses(t *testing.T) {
	for _, c := range []struct {
		what   string
		change func(p *pattern.Piece)
		words  string
	}{
		{"open outline", func(p *pattern.Piece) { p.Edges[3] = pattern.Line("left", 0, 1, 0, 0.004) },
			`piece flap: edge "bottom" begins 4 mm from the end of edge "left": want a closed outline`},
		{"crossing", func(p *pattern.Piece) {
			p.Edges[0], p.Edges[1] = pattern.Line("bottom", 0, 0, 2, 1), pattern.Line("right", 2, 1, 2, 0)
			p.Edges[2] = pattern.Line("top", 2, 0, 0, 1)
		}, `piece flap: outline meets itself at (1000.0, 500.0) mm, edge "bottom" with edge "top"`},
		{"clockwise", func(p *pattern.Piece) {
			slices.Reverse(p.Edges)
			for i := range p.Edges {
				slices.Reverse(p.Edges[i].X)
				slices.Reverse(p.Edges[i].Y)
			}
		}, "piece flap: outline runs clockwise"},
		{"no copies", func(p *pattern.Piece) { p.Count = 0 }, "piece flap: count: got 0, want more than 0"},
		{"two edges of one name", func(p *pattern.Piece) { p.Edges[1].Name = "bottom" }, `piece flap: edge 2: got the name "bottom"`},
		{"not a number", func(p *pattern.Piece) { p.Edges[1].X[1] = math.NaN() }, `piece flap: edge 2 "right": point 2`},
		{"opening over the edge", func(p *pattern.Piece) { p.Openings = []pattern.Edge{pattern.Circle("tube", 0.1, 0.5, 0.2)} },
			`piece flap: opening "tube": reaches over the seam line`},
		{"openings over one another", func(p *pattern.Piece) {
			p.Openings = []pattern.Edge{pattern.Circle("tube", 0.5, 0.5, 0.2), pattern.Slot("zip", 0.7, 0.5, 0.4, 0.01, 0)}
		}, `piece flap: openings "tube" and "zip" lie over one another`},
		{"hole outside", func(p *pattern.Piece) { p.Drills = []pattern.Drill{{Name: "D-ring", X: 3, Y: 0.5, Diameter: 0.01}} },
			`piece flap: hole "D-ring" at (3000.0, 500.0) mm`},
		{"notch beyond the edge", func(p *pattern.Piece) { p.Notches = []pattern.Notch{{Edge: "left", At: 1.2, Number: 4}} },
			"piece flap: notch 4: place on edge left: got 1.2, want 0 to 1"},
		{"notch on no edge", func(p *pattern.Piece) { p.Notches = []pattern.Notch{{Edge: "hem", Number: 4}} },
			`piece flap: notch 4: piece flap: edge: got "hem", want one of: bottom, right, top, left`},
	} {
		p := rectangle("flap", 2, 1)
		c.change(&p)
		proof.Fails(t, c.what, p.Check(), c.words)
	}
}

func TestSeamRefuses(t *testing.T) {
	p := pattern.Pattern{Pieces: []pattern.Piece{rectangle("top", 2, 1), rectangle("side", 2.03, 0.5)}}
	for _, c := range []struct {
		what  string
		seam  pattern.Seam
		words string
	}{
		{"lengths differ", pattern.Sew("rim", "top/bottom", "side/top", 0.01),
			"seam rim: top/bottom is 2000.0 mm and side/top is 2030.0 mm long: they differ by 30.0 mm, 1.50 %, want 1.00 % at most"},
		{"no such edge", pattern.Sew("rim", "top/bottom", "side/hem", 0.01), `seam rim: piece side: edge: got "hem"`},
		{"no such piece", pattern.Sew("rim", "top/bottom", "base/hem", 0.01), `seam rim: piece: got "base", want one of: top, side`},
		{"no slash", pattern.Sew("rim", "top/bottom", "side", 0.01), `edge: got "side", want piece/edge`},
		{"one side", pattern.Seam{Name: "rim", Count: 1, Sides: []pattern.Side{{Edges: []string{"top/left"}}}}, "seam rim: got 1 sides, want 2 or more"},
	} {
		proof.Fails(t, c.what, p.WithSeams(c.seam).Check(), c.words)
	}
	if err := p.WithSeams(pattern.Sew("rim", "top/bottom", "side/top", 0.0151)).Check(); err != nil {
		t.Errorf("seam within its ease: got %v", err)
	}
	_, err := pattern.Join(p, p)
	proof.Fails(t, "the same pieces twice", err, "piece top: got two of that name")
}

// 2 m less 1.2 % of stretch are cut 2/1.012 m long: the strain is on the length
// cut. Along the grain only, whichever way it runs.
func TestCompensate(t *testing.T) {
	for _, c := range []struct{ grain, width, height float64 }{
		{0, 1.9762846, 1 / 1.003}, {90, 2 / 1.003, 1 / 1.012}, {180, 1.9762846, 1 / 1.003},
	} {
		piece := rectangle("panel", 2, 1)
		piece.Grain = c.grain * units.Deg
		piece.Drills = []pattern.Drill{{Name: "eyelet", X: 1, Y: 0.5, Diameter: 0.01}}
		p := proof.Must(pattern.Pattern{Pieces: []pattern.Piece{piece}}.Compensate(0.012, 0.003))(t)
		proof.Near(t, "width", p.Pieces[0].Width(), c.width, 3e-8) // its last printed digit
		proof.Near(t, "height", p.Pieces[0].Height(), c.height, 1e-14)
		proof.Near(t, "eyelet", p.Pieces[0].Drills[0].X, c.width/2, 3e-8)
		proof.Near(t, "the first is as it was", piece.Width(), 2, 0)
	}
	// On the bias both strains show: x = (u + v)/√2 of the two shrunk parts.
	piece := rectangle("panel", 2, 1)
	piece.Grain = 45 * units.Deg
	p := proof.Must(pattern.Pattern{Pieces: []pattern.Piece{piece}}.Compensate(0.25, 0))(t)
	bottom := edge(t, p.Pieces[0], "bottom")
	proof.Near(t, "bias edge", bottom.Length(), 2*math.Hypot(0.8, 1)/math.Sqrt2, 1e-14)
	_, err := pattern.Pattern{Pieces: []pattern.Piece{piece}}.Compensate(-1, 0)
	proof.Fails(t, "all stretched away", err, "warp strain: got -1, want more than -1")
}

// Allowances worked by hand: a rectangle 2 × 1 with 20 mm on the seam along its
// bottom and 40 mm of hem elsewhere; a tube's hole gets smaller.
func TestAllow(t *testing.T) {
	a := rectangle("a", 2, 1)
	a.Openings = []pattern.Edge{pattern.Circle("tube", 1, 0.5, 0.2), pattern.Circle("air", 0.4, 0.5, 0.1)}
	sleeve := rectangle("sleeve", 2*math.Pi*0.2, 0.5)
	p := pattern.Pattern{Pieces: []pattern.Piece{a, rectangle("b", 2, 1), sleeve}}.WithSeams(
		pattern.Sew("joint", "a/bottom", "b/top", 0), pattern.Sew("sleeve", "a/tube", "sleeve/bottom", 0.01))
	p = proof.Must(p.Allow(0.02, 0.04))(t)
	outline, openings, err := p.Pieces[0].CutLine()
	if err != nil {
		t.Fatal(err)
	}
	proof.Near(t, "cut area", outline.Area(), 2.08*1.06, 1e-14)
	proof.Near(t, "cut area by the method", proof.Must(p.Pieces[0].CutArea())(t), 2.08*1.06, 1e-14)
	// The sides of a polygon of 360 moved in by 20 mm: apothem 0.2·cos 0.5° less 20 mm.
	apothem := 0.2*math.Cos(math.Pi/360) - 0.02
	proof.Near(t, "hole for the sleeve", openings[0].Area(), 360*apothem*apothem*math.Tan(math.Pi/360), 1e-9)
	proof.Near(t, "air hole as drawn", openings[1].Area(), 180*0.01*math.Sin(2*math.Pi/360), 1e-9)
	for _, e := range p.Pieces[0].Edges {
		if e.Hem != (e.Name != "bottom") {
			t.Errorf("edge %s: got hem %v", e.Name, e.Hem)
		}
	}
	slit := pattern.Piece{Name: "slit", Count: 1, Edges: []pattern.Edge{{Name: "rim",
		X: []float64{0, 3, 3, 1, 0.9, 0.9, 1, 3, 3, 0, 0}, Y: []float64{0, 0, 1, 1, 0.9, 1.15, 1.05, 1.05, 2, 2, 0}}}}
	_, err = pattern.Pattern{Pieces: []pattern.Piece{slit}}.Allow(0, 0.04)
	proof.Fails(t, "allowances that meet", err, "piece slit: its allowances meet in 1 places")
	slit.Edges[0].X, slit.Edges[0].Y = []float64{0, 3, 3, 1, 1, 3, 3, 0, 0}, []float64{0, 0, 1, 1, 1.05, 1.05, 2, 2, 0}
	_, err = pattern.Pattern{Pieces: []pattern.Piece{slit}}.Allow(0, 0.04)
	proof.Fails(t, "a slit filled by its allowances", err, `piece slit: edge "rim" at (1000.0, 1000.0) mm lies 1040.0 mm inside the cut line`)
}

// Both sides of a seam carry the same numbers at the same shares of their length,
// counted the way they lie when sewn: all seams of a bed, and of a split one.
func TestNotch(t *testing.T) {
	m := unroll.RoundMattress{Radius: 1.2, Height: 0.6, Pitch: 0.5, Passage: 0.05}
	p := proof.Must(m.Pattern("bed", 1e-3))(t)
	p = proof.Must(p.Split("bed lobe 3", 0, 0.3, 0, 1e-6))(t)
	p = proof.Must(p.Notch(0.3))(t)
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	most := 0
	for _, s := range p.Seams {
		var shares [][2]float64 // of the first side: number, share
		for k, side := range s.Sides {
			var got [][2]float64
			total := 0.0
			for _, ref := range side.Edges {
				name, e, _ := strings.Cut(ref, "/")
				piece := proof.Must(p.Piece(name))(t)
				for _, n := range piece.Notches {
					if n.Edge == e {
						got = append(got, [2]float64{n.Number, total + n.At})
					}
				}
				total += edge(t, piece, e).Length()
			}
			for i := range got {
				got[i][1] /= total
				if side.Reversed {
					got[i][1] = 1 - got[i][1]
				}
			}
			slices.SortFunc(got, func(a, b [2]float64) int { return int(math.Copysign(1, a[1]-b[1])) })
			if k == 0 {
				shares = got
				most = max(most, len(got))
				if len(got) == 0 {
					t.Errorf("seam %s: got no marks", s.Name)
				}
				continue
			}
			// A lobe's long edge in two parts meets baffles that are whole: it
			// has marks for both ways of counting.
			for _, want := range shares {
				if !slices.ContainsFunc(got, func(g [2]float64) bool { return g[0] == want[0] && math.Abs(g[1]-want[1]) < 1e-6 }) {
					t.Errorf("seam %s, side %v: got marks %v, want one like %v", s.Name, side.Edges, got, want)
				}
			}
		}
	}
	if most < 6 {
		t.Errorf("got %d marks on the longest seam, want one every 300 mm of 2.2 m", most)
	}
}

// A panel split twice: the parts have its area, the old seam joins their edges in
// a row and still matches.
func TestSplit(t *testing.T) {
	long := rectangle("long", 6, 1)
	long.Openings = []pattern.Edge{pattern.Circle("tube", 1, 0.5, 0.2)}
	long.Drills = []pattern.Drill{{Name: "eyelet", X: 5, Y: 0.5, Diameter: 0.01}}
	long.Lines = []pattern.Edge{pattern.Line("fold", 0.5, 0.9, 5.5, 0.9)}
	p := pattern.Pattern{Pieces: []pattern.Piece{long, rectangle("other", 6, 1)}}.WithSeams(
		pattern.Sew("joint", "long/bottom", "other/top", 0), pattern.Sew("joint 2", "long/top", "other/bottom", 0))
	p = proof.Must(p.Split("long", 2, 0, 90*units.Deg, 0))(t)
	p = proof.Must(p.Split("long b", 4, 0, 100*units.Deg, 0))(t)
	var names []string
	area := 0.0
	for _, piece := range p.Pieces {
		names = append(names, piece.Name)
		area += piece.Area()
	}
	if got := strings.Join(names, ", "); got != "long a, long b a, long b b, other" {
		t.Errorf("pieces: got %s", got)
	}
	proof.Near(t, "fabric", area, 12-180*0.04*math.Sin(math.Pi/180), 1e-9) // less a circle of 360 sides
	for i, want := range []string{"[long a/bottom long b a/bottom long b b/bottom]", "[long b b/top long b a/top long a/top]"} {
		if got := fmt.Sprint(p.Seams[i].Sides[0].Edges); got != want {
			t.Errorf("seam %s: got %s, want %s", p.Seams[i].Name, got, want)
		}
	}
	a, b := proof.Must(p.Piece("long a"))(t), proof.Must(p.Piece("long b b"))(t)
	if len(a.Openings) != 1 || len(b.Drills) != 1 || len(a.Lines) != 1 || len(b.Lines) != 1 {
		t.Errorf("parts: got %d openings, %d holes, %d and %d lines, want one each", len(a.Openings), len(b.Drills), len(a.Lines), len(b.Lines))
	}
	_, err := p.Split("long a", 1, 0, 90*units.Deg, 0)
	proof.Fails(t, "through the opening", err, `split of piece long a: the line cuts opening "tube"`)
	_, err = p.Split("other", 9, 0, 90*units.Deg, 0)
	proof.Fails(t, "beside the piece", err, "the line does not meet the piece")
	horseshoe := pattern.Piece{Name: "horseshoe", Count: 1, Edges: []pattern.Edge{
		pattern.Line("outside", 0, 0, 3, 0), pattern.Line("right", 3, 0, 3, 2), pattern.Line("tip", 3, 2, 2, 2), pattern.Line("in", 2, 2, 2, 1),
		pattern.Line("neck", 2, 1, 1, 1), pattern.Line("back", 1, 1, 1, 2), pattern.Line("tip 2", 1, 2, 0, 2), pattern.Line("left", 0, 2, 0, 0)}}
	_, err = pattern.Pattern{Pieces: []pattern.Piece{horseshoe}}.Split("horseshoe", 0, 1.5, 0, 0)
	proof.Fails(t, "through two legs", err, "want 2")
}

// Splits at random lines lose no fabric and keep every seam.
func TestSplitKeepsFabric(t *testing.T) {
	whole, err := unroll.RoundMattress{Radius: 1.2, Height: 0.6, Pitch: 0.5}.Pattern("bed", 1e-3)
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		piece := whole.Pieces[rapid.IntRange(0, len(whole.Pieces)-1).Draw(t, "piece")]
		x := rapid.Float64Range(-0.4, 0.4).Draw(t, "x") * piece.Width()
		y := rapid.Float64Range(-0.4, 0.4).Draw(t, "y") * piece.Height()
		angle := rapid.Float64Range(-3, 3).Draw(t, "angle")
		p, err := whole.Split(piece.Name, x, y, angle, 1e-6)
		if err != nil {
			low, high := math.Inf(1), math.Inf(-1) // of the distance from the line
			for _, e := range piece.Edges {
				for i := range e.X {
					d := (e.Y[i]-y)*math.Cos(angle) - (e.X[i]-x)*math.Sin(angle)
					low, high = min(low, d), max(high, d)
				}
			}
			misses := low >= -1e-6 || high <= 1e-6
			if misses != strings.Contains(err.Error(), "does not meet") || !misses && !strings.Contains(err.Error(), "cuts") {
				t.Fatal(err)
			}
			return
		}
		a, _ := p.Piece(piece.Name + " a")
		b, _ := p.Piece(piece.Name + " b")
		if got := a.Area() + b.Area(); math.Abs(got-piece.Area()) > 1e-9 {
			t.Fatalf("parts have %g m², want %g", got, piece.Area())
		}
	})
}

// A picture of the pieces shows each once, apart from the others.
func TestDraw(t *testing.T) {
	p := proof.Must(unroll.RoundMattress{Radius: 1.2, Height: 0.6, Pitch: 0.5}.Pattern("bed", 1e-3))(t)
	d := new(sheet.Sheet).NewDrawing("pieces")
	if err := p.Draw(d); err != nil {
		t.Fatal(err)
	}
	outlines, names := 0, 0
	for i, s := range d.Shapes {
		switch s.Kind {
		case sheet.ShapeText:
			names++
		case sheet.ShapeOutline:
			outlines++
			for _, o := range d.Shapes[:i] {
				if o.Kind == sheet.ShapeOutline && slices.Min(s.X) < slices.Max(o.X) && slices.Min(o.X) < slices.Max(s.X) &&
					slices.Min(s.Y) < slices.Max(o.Y) && slices.Min(o.Y) < slices.Max(s.Y) {
					t.Errorf("two pieces are drawn over one another")
				}
			}
		}
	}
	if outlines != len(p.Pieces) || names != outlines {
		t.Errorf("got %d outlines and %d names, want %d", outlines, names, len(p.Pieces))
	}
}

func edge(t *testing.T, p pattern.Piece, name string) pattern.Edge {
	t.Helper()
	return proof.Must(p.Edge(name))(t)
}

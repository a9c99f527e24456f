package nest_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/nest"
	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/internal/polygon"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

func rectangle(name string, width, height, count float64) pattern.Piece {
	return pattern.Piece{Name: name, Count: count, Edges: []pattern.Edge{
		pattern.Line("bottom", 0, 0, width, 0), pattern.Line("right", width, 0, width, height),
		pattern.Line("top", width, height, 0, height), pattern.Line("left", 0, height, 0, 0),
	}}
}

// laid is the cut line of each copy on the roll.
func laid(t interface{ Fatal(...any) }, l nest.Lay) []polygon.Loop {
	var loops []polygon.Loop
	for _, at := range l.Placements {
		piece, err := l.Pattern.Piece(at.Piece)
		if err != nil {
			t.Fatal(err)
		}
		outline, _, err := piece.CutLine()
		if err != nil {
			t.Fatal(err)
		}
		var loop polygon.Loop
		for _, p := range outline {
			loop = append(loop, at.Put(p))
		}
		loops = append(loops, loop)
	}
	return loops
}

// clearance is the least distance between two outlines, worked point against
// side; -1 when they cross or one holds the other by more than rounding.
func clearance(a, b polygon.Loop) float64 {
	for i := range a {
		p, q := a[i], a[(i+1)%len(a)]
		for j := range b {
			r, s := b[j], b[(j+1)%len(b)]
			if apart(side(p, q, r), side(p, q, s)) && apart(side(r, s, p), side(r, s, q)) {
				return -1
			}
		}
	}
	least := math.Inf(1)
	for _, pair := range [][2]polygon.Loop{{a, b}, {b, a}} {
		for _, p := range pair[0] {
			for j := range pair[1] {
				q, r := pair[1][j], pair[1][(j+1)%len(pair[1])]
				dx, dy := r.X-q.X, r.Y-q.Y
				s := min(1, max(0, ((p.X-q.X)*dx+(p.Y-q.Y)*dy)/(dx*dx+dy*dy)))
				least = min(least, math.Hypot(p.X-q.X-s*dx, p.Y-q.Y-s*dy))
			}
		}
	}
	if least > 1e-9 && (holds(a, b[0]) || holds(b, a[0])) {
		return -1
	}
	return least
}

func apart(x, y float64) bool { return min(x, y) < -1e-12 && max(x, y) > 1e-12 }

func side(p, q, r polygon.Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }

// holds counts crossings of a ray to the right.
func holds(l polygon.Loop, p polygon.Point) bool {
	in := false
	for i := range l {
		a, b := l[i], l[(i+1)%len(l)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)*(b.X-a.X)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// judge proves a lay from its outlines alone: every copy there, on the roll, apart
// from the others, its warp allowed, length and yield as said.
func judge(t interface {
	Fatal(...any)
	Fatalf(string, ...any)
}, l nest.Lay) {
	loops := laid(t, l)
	if len(loops) != int(l.Pattern.Count()) {
		t.Fatalf("got %d placements, want %g", len(loops), l.Pattern.Count())
	}
	seen := map[string]bool{}
	end, area := 0.0, 0.0
	for i, a := range loops {
		at := l.Placements[i]
		piece, _ := l.Pattern.Piece(at.Piece)
		key := fmt.Sprint(at.Piece, at.Copy)
		if seen[key] || at.Copy < 1 || at.Copy > piece.Count {
			t.Fatalf("copy %g of %s: there twice or not wanted", at.Copy, at.Piece)
		}
		seen[key] = true
		quarter := math.Mod((at.Turn+piece.Grain)/(math.Pi/2)+8, 4)
		if q := math.Round(quarter); math.Abs(quarter-q) > 1e-9 || !piece.Across && math.Mod(q, 2) == 1 || piece.OneWay && q >= 2 && q < 4 {
			t.Fatalf("copy %g of %s: turned by %g quarters off its grain", at.Copy, at.Piece, quarter)
		}
		low, high := a.Bounds()
		m := l.Roll.Margin - 1e-9
		if low.X < m || low.Y < m || high.Y > l.Roll.Width-m {
			t.Fatalf("copy %g of %s: at %v to %v, want it %g m clear of the edges of the roll", at.Copy, at.Piece, low, high, l.Roll.Margin)
		}
		end = max(end, high.X)
		area += a.Area()
		for j, b := range loops[:i] {
			if c := clearance(a, b); c < l.Roll.Gap-1e-9 {
				t.Fatalf("%s and %s: %g m apart, want %g", at.Piece, l.Placements[j].Piece, c, l.Roll.Gap)
			}
		}
	}
	if math.Abs(end+l.Roll.Margin-l.Length) > 1e-9 {
		t.Fatalf("length: got %g m, pieces end at %g", l.Length, end)
	}
	if want := area / (l.Length * l.Roll.Width); math.Abs(l.Yield-want) > 1e-9 {
		t.Fatalf("yield: got %g, want %g", l.Yield, want)
	}
}

// Rectangles whose best lay is plain: ten of 1 × 0.5 m on a roll of 1 m with no
// gaps need 5 m, all of it used.
func TestRectangles(t *testing.T) {
	p := pattern.Pattern{Pieces: []pattern.Piece{rectangle("a", 1, 0.5, 10)}}
	l := proof.Must(nest.Roll{Width: 1}.Lay(p, 1, 0))(t)
	proof.Near(t, "length", l.Length, 5, 1e-12)
	proof.Near(t, "yield", l.Yield, 1, 1e-12)
	judge(t, l)
	// With 20 mm round the roll and 10 mm between, two no longer lie side by side.
	l = proof.Must(nest.Roll{Width: 1, Margin: 0.02, Gap: 0.01}.Lay(p, 1, 0))(t)
	proof.Near(t, "length with gaps", l.Length, 10+9*0.01+2*0.02, 1e-4)
	judge(t, l)
	p = proof.Must(p.Lay("a", 0, true, false))(t)
	l = proof.Must(nest.Roll{Width: 1, Margin: 0, Gap: 0}.Lay(p, 20, 0))(t)
	proof.Near(t, "length, either way", l.Length, 5, 1e-12)
	judge(t, l)
}

// Two right triangles, one turned end for end, lie in the rectangle of one: the
// front steps by strips of 4 mm, which costs a strip's share of the slope.
func TestTrianglesInterlock(t *testing.T) {
	piece := pattern.Piece{Name: "gusset", Count: 2, Edges: []pattern.Edge{
		pattern.Line("base", 0, 0, 1, 0), pattern.Line("slope", 1, 0, 0, 0.6), pattern.Line("side", 0, 0.6, 0, 0)}}
	l := proof.Must(nest.Roll{Width: 0.62}.Lay(pattern.Pattern{Pieces: []pattern.Piece{piece}}, 5, 0))(t)
	if l.Length > 1+2*4e-3/0.6+1e-9 {
		t.Errorf("got %g m, want 1 m and two strips' slope", l.Length)
	}
	judge(t, l)
	piece.OneWay = true
	l = proof.Must(nest.Roll{Width: 0.62}.Lay(pattern.Pattern{Pieces: []pattern.Piece{piece}}, 5, 0))(t)
	if l.Length < 1.9 {
		t.Errorf("one way: got %g m, want the triangles behind one another", l.Length)
	}
	judge(t, l)
}

func TestTooWide(t *testing.T) {
	p := pattern.Pattern{Pieces: []pattern.Piece{rectangle("small", 1, 0.5, 1), rectangle("apron", 3, 2.2, 1)}}
	_, err := nest.Roll{Width: 2.05, Margin: 0.01}.Lay(p, 1, 0)
	proof.Fails(t, "wide piece", err, "piece apron: 2200.0 mm across the roll, want at most 2028.0 mm: split it")
	split := proof.Must(p.Split("apron", 0, 1.1, 0, 0))(t)
	judge(t, proof.Must(nest.Roll{Width: 2.05, Margin: 0.01}.Lay(split, 1, 0))(t))
	_, err = nest.Roll{Width: math.NaN()}.Lay(p, 1, 0)
	proof.Fails(t, "no width", err, "width of the roll: got NaN")
	_, err = nest.Roll{Width: 1, Margin: 0.5}.Lay(p, 1, 0)
	proof.Fails(t, "all margin", err, "want room between them")
}

// Random pieces, bent and straight: no two touch, whatever their shapes.
func TestLayIsClear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p pattern.Pattern
		for i := range rapid.IntRange(1, 5).Draw(t, "pieces") {
			piece := star(t, fmt.Sprintf("star %d", i))
			piece.Count = float64(rapid.IntRange(1, 4).Draw(t, "copies"))
			piece.Grain = rapid.Float64Range(-4, 4).Draw(t, "grain")
			piece.Across, piece.OneWay = rapid.Bool().Draw(t, "across"), rapid.Bool().Draw(t, "one way")
			p.Pieces = append(p.Pieces, piece)
		}
		roll := nest.Roll{Width: 2.2, Margin: rapid.Float64Range(0, 0.05).Draw(t, "margin"), Gap: rapid.Float64Range(0, 0.03).Draw(t, "gap")}
		l, err := roll.Lay(p, 4, 7)
		if err != nil {
			t.Fatal(err)
		}
		judge(t, l)
	})
}

// A gap lost in rounding is none: the outlines of its width would cross themselves.
func TestHairlineGap(t *testing.T) {
	p := proof.Must(unroll.RoundMattress{Radius: 2.25, Height: 0.75, Pitch: 0.55, Passage: 0.1}.Pattern("bed", 1e-3))(t)
	p = proof.Must(p.Allow(20*units.Mm, 30*units.Mm))(t)
	none := proof.Must(nest.Roll{Width: 2.05, Margin: 0.015}.Lay(p, 2, 1))(t)
	for _, gap := range []float64{1e-300, 1.8e-15, 1e-9} {
		l := proof.Must(nest.Roll{Width: 2.05, Margin: 0.015, Gap: gap}.Lay(p, 2, 1))(t)
		judge(t, l)
		if l.Length != none.Length {
			t.Errorf("a gap of %g m: got %g m of the roll, want %g m as with none", gap, l.Length, none.Length)
		}
	}
}

func star(t *rapid.T, name string) pattern.Piece {
	n := rapid.IntRange(3, 12).Draw(t, "corners")
	e := pattern.Edge{Name: "rim", Allowance: 0.01}
	for i := range n {
		a := 2 * math.Pi * (float64(i) + rapid.Float64Range(-0.3, 0.3).Draw(t, "turn")) / float64(n)
		r := rapid.Float64Range(0.3, 0.9).Draw(t, "radius")
		e.X, e.Y = append(e.X, r*math.Cos(a)), append(e.Y, r*math.Sin(a))
	}
	e.X, e.Y = append(e.X, e.X[0]), append(e.Y, e.Y[0])
	return pattern.Piece{Name: name, Count: 1, Rounded: true, Edges: []pattern.Edge{e}}
}

// The bed's own pieces: the same lay twice, never longer with more tries.
func TestLayOfBed(t *testing.T) {
	p := proof.Must(unroll.RoundMattress{Radius: 2.25, Height: 0.75, Pitch: 0.55, Passage: 0.1}.Pattern("bed", 1e-3))(t)
	p = proof.Must(p.Allow(20*units.Mm, 30*units.Mm))(t)
	roll := nest.Roll{Width: 2.05, Margin: 0.015, Gap: 0.004}
	length := math.Inf(1)
	for _, tries := range []float64{1, 2, 10, 40} {
		l := proof.Must(roll.Lay(p, tries, 1))(t)
		if l.Length > length {
			t.Errorf("%g tries: got %g m, longer than %g m with fewer", tries, l.Length, length)
		}
		length = l.Length
		if again := proof.Must(roll.Lay(p, tries, 1))(t); !reflect.DeepEqual(l, again) {
			t.Errorf("%g tries: the second lay differs from the first", tries)
		}
		if tries == 40 {
			judge(t, l)
			t.Logf("%.2f m, yield %.3f", l.Length, l.Yield)
		}
	}
}

func BenchmarkLay(b *testing.B) {
	p, err := unroll.RoundMattress{Radius: 2.25, Height: 0.75, Pitch: 0.55, Passage: 0.1}.Pattern("bed", 1e-3)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		l, err := nest.Roll{Width: 2.05, Margin: 0.015, Gap: 0.004}.Lay(p, 100, 1)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(l.Yield, "yield")
	}
}

// How nesting grows from one bed of 28 pieces to ten of them.
func BenchmarkGrowth(b *testing.B) {
	p, err := unroll.RoundMattress{Radius: 2.25, Height: 0.75, Pitch: 0.55, Passage: 0.1}.Pattern("bed", 1e-3)
	if err != nil {
		b.Fatal(err)
	}
	for _, beds := range []float64{1, 10} {
		b.Run(fmt.Sprintf("%g pieces", beds*p.Count()), func(b *testing.B) {
			for b.Loop() {
				if _, err := (nest.Roll{Width: 2.05, Margin: 0.015, Gap: 0.004}).Lay(p.Times(beds), 10, 1); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

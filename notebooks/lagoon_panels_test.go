package notebooks

import (
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"tautline/runner"
)

// The numbers of the panels, worked again from the givens in SI units: curves by
// their own formulas and fine quadrature, cut lines by the area that a strip of
// given width adds to a polygon.
func TestLagoonPanels(t *testing.T) {
	const (
		R, r, s, H, hollow = 2.60, 0.35, 0.55, 0.75, 0.12
		n                  = 16.0
		warp, weft         = 1.003, 1.008
		seam, hem          = 0.025, 0.040
	)
	res := run(t, "lagoon-panels.md")
	b := math.Pi / n
	near(t, "outer side", number(t, res, "Lout"), 2*(R+r)*math.Tan(b))
	near(t, "middle", number(t, res, "Lmid"), 2*R*math.Tan(b))
	near(t, "inner side", number(t, res, "Lin"), 2*(R-r)*math.Tan(b))
	near(t, "rise", number(t, res, "rise"), r*math.Tan(b))
	near(t, "corner", number(t, res, "corner"), (R+r)/math.Cos(b)-(R+r))
	near(t, "air in a ring", number(t, res, "Vring"), math.Pi*r*r*n*2*R*math.Tan(b))
	// The end is an ellipse: midpoints of a smooth periodic curve give it to rounding.
	end := 0.0
	for i := range 1000 {
		f := 2 * math.Pi * (float64(i) + 0.5) / 1000
		end += math.Hypot(1, math.Tan(b)*math.Sin(f)) * r * 2 * math.Pi / 1000
	}
	near(t, "round the end", number(t, res, "Lend"), end)
	near(t, "round a square end", number(t, res, "around"), 2*math.Pi*r)
	within(t, "longer by", number(t, res, "more"), end-2*math.Pi*r, 1e-10)
	near(t, "air in a smooth ring", number(t, res, "Vsmooth"), math.Pi*r*r*2*math.Pi*R)

	// Half a smooth piece: local and global steps (each triangle's nearest rotation,
	// then one sparse solve) in scipy to 1e-11 m, the triangles' diagonals the other
	// way: 2.855 % on 12 by 24 squares, 2.894 % on 36 by 72. For 40 pieces 0.897 % on
	// 8 by 24 and 0.935 % on 16 by 48. The meshes here are the coarser ones.
	within(t, "strain", number(t, res, "strain"), 0.02855, 0.02)
	within(t, "strain of forty", number(t, res, "strainFiner"), 0.00897, 0.02)

	// Where the D-rings sit: 45° below the middle of the upper tube, 1.05 m high.
	near(t, "height of the D-rings", number(t, res, "eyes"), 1.05-r/math.Sqrt2)
	near(t, "their distance", number(t, res, "out"), R+r/math.Sqrt2)
	near(t, "belt aside", number(t, res, "aside"), (R+r/math.Sqrt2)*math.Tan(math.Pi/24))
	near(t, "off the cloth", number(t, res, "offCloth"), 85*math.Pi/180)
	near(t, "belt", number(t, res, "belt"), 800)
	near(t, "webbing", number(t, res, "webbing"), 2400)
	near(t, "under the belt", number(t, res, "pressed"), 800/(0.35*0.05))

	rho, lobe := R-r, math.Hypot(H/2, s/2)
	within(t, "sewn", number(t, res, "sewn"), seamsOf(R, r, b, rho, s, lobe, end), 2e-5) // drawn by a chord for each degree
	near(t, "bays", number(t, res, "bays"), 9)
	for k := range 8 {
		x := (float64(k) - 3.5) * s
		near(t, "baffle", number(t, res, "Lbaffles", k), 2*math.Sqrt(rho*rho-x*x))
	}
	near(t, "longest baffle", number(t, res, "longest"), 2*math.Sqrt(rho*rho-s*s/4))
	near(t, "pieces", number(t, res, "pieces"), 2*2*16+2*9+8+2)
	near(t, "seams", number(t, res, "seamLines"), 4+4*9+2*8+2)

	// Fabric within the seams. Drawn by a chord for each degree, 2e-5 less.
	ring := 2 * math.Pi * r * n * 2 * R * math.Tan(b)
	within(t, "fabric of a ring", number(t, res, "Aring"), ring, 1e-5)
	var bed float64
	pieces := mattress(rho, H, s, hollow, lobe)
	for _, p := range pieces {
		bed += p.copies * area(p.points)
	}
	within(t, "fabric of the bed", number(t, res, "Abed"), bed, 2e-5)
	near(t, "fabric of all", number(t, res, "Awhole"), 2*number(t, res, "Aring")+number(t, res, "Abed")-0.8*0.012)

	// Each lobe's end: along the roll's width on the lobe, along the warp on the wall.
	reach := func(x float64) float64 { return math.Asin(min(1, max(-1, x/rho))) }
	for k := range 9 {
		c := (float64(k) - 4) * s
		from, to := reach(c-s/2), reach(c+s/2)
		onLobe, onWall := 0.0, 0.0
		const parts = 100_000
		for i := range parts {
			f := from + (to-from)*(float64(i)+0.5)/parts
			u := rho*math.Sin(f) - c
			du, dy := rho*math.Cos(f), -rho*math.Sin(f)
			height := math.Sqrt(lobe*lobe - u*u)
			onLobe += math.Hypot(du*lobe/height/weft, dy/warp) * (to - from) / parts
			onWall += math.Hypot(rho/warp, u*du/height/weft) * (to - from) / parts
		}
		// Drawn by a chord for each degree: 2e-5 of the lengths, of which the
		// differences are 0.04 to 0.4 %.
		longest, shortest := math.Max(onLobe, onWall), math.Min(onLobe, onWall)
		within(t, "end of a lobe", number(t, res, "lengths", 4+k), longest, 2e-5)
		if got, want := number(t, res, "shares", 4+k), longest/shortest-1; math.Abs(got-want) > 2e-5 {
			t.Errorf("lobe %d and wall differ by %g, want %g", k+1, got, want)
		}
		if got, want := number(t, res, "differences", 4+k), longest-shortest; math.Abs(got-want) > 2e-5 {
			t.Errorf("lobe %d and wall differ by %g m, want %g", k+1, got, want)
		}
		if k == 4 {
			within(t, "worst seam", number(t, res, "worst"), longest/shortest-1, 2e-3)
		}
	}
	near(t, "inner side, cut", number(t, res, "lengths", 1), 2*(R-r)*math.Tan(b)/weft)
	near(t, "outer side, cut", number(t, res, "lengths", 3), 2*(R+r)*math.Tan(b)/weft)
	for k := range 8 {
		x := (float64(k) - 3.5) * s
		near(t, "baffle, cut", number(t, res, "lengths", 13+k), 2*math.Sqrt(rho*rho-x*x)/warp)
	}
	within(t, "end of the wall, cut", number(t, res, "lengths", 21), 2*math.Sqrt(lobe*lobe-(rho-4*s)*(rho-4*s))/weft, 1e-9)
	near(t, "other end of the wall, cut", number(t, res, "lengths", 22), number(t, res, "lengths", 21))
	// Half of a ring's end: warp round the tube, weft along it, by a chord for each degree.
	halfEnd := 0.0
	for i := range 1000 {
		f := math.Pi * (float64(i) + 0.5) / 1000
		halfEnd += math.Hypot(1/warp, math.Tan(b)*math.Sin(f)/weft) * r * math.Pi / 1000
	}
	within(t, "upper end of a ring's piece, cut", number(t, res, "lengths", 0), halfEnd, 2e-5)
	within(t, "lower end of a ring's piece, cut", number(t, res, "lengths", 2), halfEnd, 2e-5)
	// What is sewn to its own like, or warp to warp, matches: to a rounding.
	for k := range 23 {
		if got := number(t, res, "shares", k); (k < 4 || k >= 13) && math.Abs(got) > 1e-12 {
			t.Errorf("seam %d: its sides differ by %g, want no more than rounding", k, got)
		}
		if got := number(t, res, "differences", k); (k < 4 || k >= 13) && math.Abs(got) > 1e-12 {
			t.Errorf("seam %d: its sides differ by %g m, want no more than rounding", k, got)
		}
	}
	near(t, "mitre", number(t, res, "mitre"), b)
	works(t, res, 1e-12, map[string]float64{
		"demand of belt beside a seam": (R+r/math.Sqrt2)*math.Tan(math.Pi/24) + 0.025, "most of belt beside a seam": (R-r)*math.Tan(b) - 0.025,
	})

	// Cut fabric: each outline shrunk, then a strip beside it.
	cut := 0.0
	for _, p := range append(pieces, halfRing(R, r, b)...) {
		for i := range p.points {
			along, across := warp, weft
			if p.upright {
				along, across = weft, warp
			}
			p.points[i][0] /= along
			p.points[i][1] /= across
		}
		for i := range p.width {
			p.width[i] = map[bool]float64{true: hem, false: seam}[p.width[i] > 0]
		}
		cut += p.copies * (area(p.points) + strip(p.points, p.width))
	}
	near(t, "mass", number(t, res, "mass"), 0.68*number(t, res, "Awhole"))
	near(t, "waste", number(t, res, "waste"), 2.5*number(t, res, "Lroll")-number(t, res, "fabricCut"))
	within(t, "cut fabric", number(t, res, "fabricCut"), cut, 1e-4)
	lays(t, res)
	panelGivens(t, res)
	near(t, "length of the lay", named(t, res, "lay.Length"), number(t, res, "Lroll"))
	near(t, "fabric of the lay", named(t, res, "lay.Fabric"), number(t, res, "fabricCut"))
	near(t, "yield of the lay", named(t, res, "lay.Yield"), number(t, res, "yield"))
	// A whole piece of the mitred ring unrolls: no strain but rounding, of some thousand
	// triangles.
	for _, field := range []string{"Most", "Least", "Distortion", "EdgeStrain"} {
		if got := named(t, res, "straight."+field); math.Abs(got) > 1e-12 {
			t.Errorf("straight.%s: got %g, want no more than rounding", field, got)
		}
	}
	near(t, "strain is that of the stretched", number(t, res, "strain"), math.Max(named(t, res, "smooth.Most"), -named(t, res, "smooth.Least")))
	near(t, "strain of forty is that of one side", number(t, res, "strainFiner"), math.Max(named(t, res, "finer.Most"), -named(t, res, "finer.Least")))
}

// panelGivens are the numbers that the panels begin with.
func panelGivens(t *testing.T, res *runner.Result) {
	t.Helper()
	for name, want := range map[string]float64{
		"R": 2.60, "r": 0.35, "s": 0.55, "H": 0.75, "layers": 2, "segments": 16, "passage": 0.12, "bears": 0.01, "ease": 0.01,
		"anchors": 12, "low": math.Pi / 4, "wide": 0.05, "warp": 0.003, "weft": 0.008, "allowance": 0.025, "hem": 0.040, "spacing": 0.5,
		"cloth": 0.68, "lay.Tries": 10,
	} {
		near(t, name, named(t, res, name), want)
	}
}

// seamsOf is the length of all seams in metres: two rings of long seams and mitres,
// baffles and wall at top and bottom, the wall's two ends.
func seamsOf(R, r, b, rho, s, lobe, end float64) float64 {
	sum := 2 * 16 * (2*(R+r)*math.Tan(b) + 2*(R-r)*math.Tan(b) + end)
	reach := func(x float64) float64 { return math.Asin(min(1, max(-1, x/rho))) }
	for k := range 9 {
		c := (float64(k) - 4) * s
		if k < 8 {
			x := c + s/2
			sum += 2 * 2 * math.Sqrt(rho*rho-x*x)
		}
		from, to := reach(c-s/2), reach(c+s/2)
		for i := range 10_000 {
			f := from + (to-from)*(float64(i)+0.5)/10_000
			u := rho*math.Sin(f) - c
			slope := u / math.Sqrt(lobe*lobe-u*u) * rho * math.Cos(f)
			sum += 4 * math.Hypot(rho, slope) * (to - from) / 10_000 // front and back, top and bottom
		}
	}
	u := rho - 4*s
	return sum + 2*2*math.Sqrt(lobe*lobe-u*u)
}

// A flat piece: its outline, and for each side of it 1 where it is hemmed.
type flatPiece struct {
	points  [][2]float64
	width   []float64
	copies  float64
	upright bool // its warp runs along y
}

func (p *flatPiece) add(x, y, hem float64) {
	p.points = append(p.points, [2]float64{x, y})
	p.width = append(p.width, hem)
}

const fine = 400 // sides of a curve

// halfRing is one half of a segment, sixteen times two times two rings.
func halfRing(R, r, b float64) []flatPiece {
	p := flatPiece{copies: 64}
	for _, sign := range []float64{-1, 1} {
		for i := range fine + 1 {
			x := -sign * (2*float64(i)/fine - 1) * math.Pi / 2
			p.add(r*x, sign*(R-r*math.Sin(x))*math.Tan(b), 0)
		}
	}
	return []flatPiece{p}
}

// mattress is the pieces of the round bed.
func mattress(rho, H, s, hollow, lobe float64) []flatPiece {
	var pieces []flatPiece
	reach := func(x float64) float64 { return math.Asin(min(1, max(-1, x/rho))) }
	wall := flatPiece{copies: 2}
	for _, sign := range []float64{-1, 1} {
		for k := range 9 {
			c := -sign * (float64(k) - 4) * s
			from, to := reach(c+sign*s/2), reach(c-sign*s/2)
			for i := range fine + 1 {
				f := from + (to-from)*float64(i)/fine
				u := rho*math.Sin(f) - c
				wall.add(rho*f, sign*math.Sqrt(lobe*lobe-u*u), 0)
			}
		}
	}
	pieces = append(pieces, wall)
	for k := range 9 {
		c := (float64(k) - 4) * s
		p := flatPiece{copies: 2, upright: true}
		for _, sign := range []float64{-1, 1} {
			from, to := reach(c+sign*s/2), reach(c-sign*s/2)
			for i := range fine + 1 {
				f := from + (to-from)*float64(i)/fine
				p.add(lobe*math.Asin((rho*math.Sin(f)-c)/lobe), sign*rho*math.Cos(f), 0)
			}
		}
		pieces = append(pieces, p)
	}
	for k := range 8 {
		x := (float64(k) - 3.5) * s
		half := math.Sqrt(rho*rho - x*x)
		// The hollow is an arc over the height H: r = (H²/4 + h²)/2h.
		radius := (H*H/4 + hollow*hollow) / (2 * hollow)
		turn := math.Asin(H / 2 / radius)
		p := flatPiece{copies: 1}
		p.add(-half, -H/2, 0)
		for _, side := range []float64{1, -1} {
			for i := range fine + 1 {
				a := side * turn * (2*float64(i)/fine - 1)
				p.add(side*(half-radius*(math.Cos(a)-math.Cos(turn))), radius*math.Sin(a), map[bool]float64{true: 1}[i < fine])
			}
		}
		pieces = append(pieces, p)
	}
	for i := range pieces {
		pieces[i].distinct()
	}
	return pieces
}

// distinct drops points that come twice.
func (p *flatPiece) distinct() {
	kept := flatPiece{copies: p.copies, upright: p.upright}
	for i, q := range p.points {
		next := p.points[(i+1)%len(p.points)]
		if math.Hypot(next[0]-q[0], next[1]-q[1]) > 1e-9 {
			kept.add(q[0], q[1], p.width[i])
		}
	}
	*p = kept
}

func area(points [][2]float64) float64 {
	sum := 0.0
	for i, p := range points {
		q := points[(i+1)%len(points)]
		sum += p[0]*q[1] - q[0]*p[1]
	}
	return sum / 2
}

// strip is the area between an outline and its sides moved out by the widths:
// rectangles along the sides, and at each corner two right triangles over the
// widths, negative at an inner one.
func strip(points [][2]float64, width []float64) float64 {
	sum, n := 0.0, len(points)
	for i, p := range points {
		q, before := points[(i+1)%n], points[(i+n-1)%n]
		ax, ay, bx, by := p[0]-before[0], p[1]-before[1], q[0]-p[0], q[1]-p[1]
		sum += width[i] * math.Hypot(bx, by)
		turn := math.Atan2(ax*by-ay*bx, ax*bx+ay*by)
		d0, d1 := width[(i+n-1)%n], width[i]
		if math.Abs(turn) > 1e-9 {
			sin, cos := math.Sincos(turn)
			sum += (d0*(d1-d0*cos) + d1*(d0-d1*cos)) / sin / 2
		}
	}
	return sum
}

// lays reads the lay's drawing back: as long as the report says, as much fabric,
// on the roll, and no two cut lines cross. And the map of seams has every seam.
func lays(t *testing.T, res *runner.Result) {
	t.Helper()
	files := map[string]string{}
	for _, e := range res.Outcome.Entries {
		if e.ShopFile != nil {
			files[e.ShopFile.Name] = e.ShopFile.Text
		}
	}
	cuts := readCuts(t, files["lagoon-lay.svg"])
	length, fabric := number(t, res, "Lroll"), number(t, res, "fabricCut")
	near(t, "yield", number(t, res, "yield"), fabric/(2.50*length))
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	sum := 0.0
	for _, c := range cuts {
		if a := math.Abs(area(c)) / 1e6; a > 0.06 { // the sleeves have 0.053 m², the zip 0.01
			sum += a
		}
		for _, p := range c {
			for i := range p {
				low[i], high[i] = min(low[i], p[i]), max(high[i], p[i])
			}
		}
	}
	if want := 92 + 2 + 1; len(cuts) != want {
		t.Errorf("cuts: got %d, want 92 pieces, two sleeves and a zip", len(cuts))
	}
	within(t, "fabric on the drawing", sum, fabric, 1e-5)
	within(t, "length on the drawing", (high[0]-low[0])/1e3+2*0.015, length, 2e-5) // half a gap's play at the beginning
	if high[1]-low[1] > 2500-2*15+1e-3 {
		t.Errorf("pieces over %.1f mm of the roll's width, want 2470 at most", high[1]-low[1])
	}
	for i, a := range cuts {
		for j := range i {
			if crosses(a, cuts[j]) {
				t.Errorf("cuts %d and %d cross", i, j)
			}
		}
	}
	rows, err := csv.NewReader(strings.NewReader(files["lagoon-seams.csv"])).ReadAll()
	if err != nil || len(rows) != 1+58 {
		t.Fatalf("map of seams: got %d rows, %v, want 58 and the heads", len(rows), err)
	}
	for _, c := range []struct {
		name string
		want string
	}{{"first", rows[1][1]}, {"last", rows[58][1]}, {"lastHow", rows[58][8]}} {
		if got := res.Outcome.Values[c.name].Text; got != c.want {
			t.Errorf("%s: got %q, want %q as on the map of seams", c.name, got, c.want)
		}
	}
	inner := 0
	for i, row := range rows[1:] {
		if strings.Contains(row[1], "baffle") {
			inner = i
		} else if strings.Contains(row[1], "wall") && inner == 0 {
			t.Errorf("step %s, %s: before the baffles, which lie inside", row[0], row[1])
		}
	}
	if !strings.Contains(rows[58][8], "bed wall front/zip") {
		t.Errorf("last step: got %q, want the bed turned through its zip", rows[58][8])
	}
}

// readCuts reads the closed paths of the layer cut, in millimetres.
func readCuts(t *testing.T, text string) [][][2]float64 {
	t.Helper()
	var cuts [][][2]float64
	layer := ""
	for d := xml.NewDecoder(strings.NewReader(text)); ; {
		token, err := d.Token()
		if err == io.EOF {
			return cuts
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		for _, a := range e.Attr {
			switch {
			case e.Name.Local == "g" && a.Name.Local == "id":
				layer = a.Value
			case e.Name.Local == "path" && a.Name.Local == "d" && layer == "cut":
				body, closed := strings.CutSuffix(a.Value, " Z")
				if !closed {
					t.Fatalf("an open cut: %.60s", a.Value)
				}
				var cut [][2]float64
				for _, pair := range strings.Split(strings.TrimPrefix(body, "M"), " L") {
					var p [2]float64
					if _, err := fmt.Sscan(pair, &p[0], &p[1]); err != nil {
						t.Fatal(err)
					}
					cut = append(cut, p)
				}
				cuts = append(cuts, cut)
			}
		}
	}
}

// crosses reports whether sides of two outlines cross.
func crosses(a, b [][2]float64) bool {
	side := func(p, q, r [2]float64) float64 { return (q[0]-p[0])*(r[1]-p[1]) - (q[1]-p[1])*(r[0]-p[0]) }
	for i, p := range a {
		q := a[(i+1)%len(a)]
		for j, r := range b {
			s := b[(j+1)%len(b)]
			if max(p[0], q[0]) < min(r[0], s[0]) || max(r[0], s[0]) < min(p[0], q[0]) || max(p[1], q[1]) < min(r[1], s[1]) || max(r[1], s[1]) < min(p[1], q[1]) {
				continue
			}
			if side(p, q, r)*side(p, q, s) < 0 && side(r, s, p)*side(r, s, q) < 0 {
				return true
			}
		}
	}
	return false
}

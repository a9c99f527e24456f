package cutting_test

import (
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tautline/stdlib/fabric/cutting"
	"tautline/stdlib/fabric/nest"
	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/fabric/unroll"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// A seen is what an independent reader finds in a drawing, in millimetres.
type seen struct {
	Version string
	Units   int
	Errors  []string
	Layers  []string
	Lines   []seenLine
	Circles []struct {
		Layer        string
		X, Y, Radius float64
	}
	Texts []struct{ Layer, Text string }
}

type seenLine struct {
	Layer        string
	Closed       bool
	Points       int
	Length, Area float64
	Low, High    [2]float64
}

// readDXF has the file read by ezdxf (Debian: python3-ezdxf). Without it the test
// is skipped, but never where CI is set.
func readDXF(t *testing.T, text string) seen {
	t.Helper()
	python := ""
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(name, "-c", "import ezdxf").Run() == nil {
			python = name
			break
		}
	}
	if python == "" {
		const missing = "NO INDEPENDENT READER OF DXF: install python3-ezdxf (Debian); the DXF files were NOT read back"
		if os.Getenv("CI") != "" {
			t.Fatal(missing)
		}
		t.Skip(missing)
	}
	file := filepath.Join(t.TempDir(), "drawing.dxf")
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(python, "testdata/read.py", file).Output()
	if err != nil {
		if e, ok := err.(*exec.ExitError); ok {
			t.Fatalf("ezdxf: %v\n%s", err, e.Stderr)
		}
		t.Fatal(err)
	}
	var s seen
	if err := json.Unmarshal(out, &s); err != nil {
		t.Fatal(err)
	}
	return s
}

// readSVG reads the drawing with encoding/xml, turned so that y points upward.
func readSVG(t *testing.T, text string) seen {
	t.Helper()
	var s seen
	d := xml.NewDecoder(strings.NewReader(text))
	layer, height := "", 0.0
	for {
		token, err := d.Token()
		if err == io.EOF {
			return s
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if e.Name.Space != "http://www.w3.org/2000/svg" {
			t.Fatalf("element %v is not of SVG", e.Name)
		}
		attr := map[string]string{}
		for _, a := range e.Attr {
			attr[a.Name.Local] = a.Value
		}
		switch e.Name.Local {
		case "svg":
			var w, h float64
			if _, err := fmt.Sscanf(attr["viewBox"], "0 0 %f %f", &w, &h); err != nil {
				t.Fatal(err)
			}
			if attr["width"] != fmt.Sprintf("%.3fmm", w) || attr["height"] != fmt.Sprintf("%.3fmm", h) {
				t.Errorf("size %s × %s with view box %s: want one unit to be 1 mm", attr["width"], attr["height"], attr["viewBox"])
			}
			height = h
		case "g":
			layer = attr["id"]
			s.Layers = append(s.Layers, layer)
		case "circle":
			s.Circles = append(s.Circles, struct {
				Layer        string
				X, Y, Radius float64
			}{layer, number(t, attr["cx"]), height - number(t, attr["cy"]), number(t, attr["r"])})
		case "text":
			var words string
			if err := d.DecodeElement(&words, &e); err != nil {
				t.Fatal(err)
			}
			s.Texts = append(s.Texts, struct{ Layer, Text string }{layer, words})
		case "path":
			s.Lines = append(s.Lines, readPath(t, layer, attr["d"], height))
		}
	}
}

func readPath(t *testing.T, layer, d string, height float64) seenLine {
	body, closed := strings.CutSuffix(d, " Z")
	l := seenLine{Layer: layer, Closed: closed, Low: [2]float64{math.Inf(1), math.Inf(1)}, High: [2]float64{math.Inf(-1), math.Inf(-1)}}
	var points [][2]float64
	for _, pair := range strings.Split(strings.TrimPrefix(body, "M"), " L") {
		x, y, _ := strings.Cut(pair, " ")
		p := [2]float64{number(t, x), height - number(t, y)}
		for i := range p {
			l.Low[i], l.High[i] = min(l.Low[i], p[i]), max(l.High[i], p[i])
		}
		points = append(points, p)
	}
	l.Points = len(points)
	for i, p := range points {
		q := points[(i+1)%len(points)]
		l.Area += (p[0]*q[1] - q[0]*p[1]) / 2
		if closed || i+1 < len(points) {
			l.Length += math.Hypot(q[0]-p[0], q[1]-p[1])
		}
	}
	return l
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	return proof.Must(strconv.ParseFloat(s, 64))(t)
}

// flap is a panel 1.2 × 0.8 m with 20 mm allowance and 30 mm of hem, a zip, a tube
// of 250 mm and a D-ring.
func flap(t *testing.T) pattern.Pattern {
	t.Helper()
	rect := func(name string, width, height float64) pattern.Piece {
		return pattern.Piece{Name: name, Count: 1, Grain: 90 * units.Deg, Edges: []pattern.Edge{
			pattern.Line("bottom", 0, 0, width, 0), pattern.Line("right", width, 0, width, height),
			pattern.Line("top", width, height, 0, height), pattern.Line("left", 0, height, 0, 0)}}
	}
	p := pattern.Pattern{Pieces: []pattern.Piece{rect("flap", 1.2, 0.8), rect("skirt & hem", 1.2, 0.5)}}
	p.Pieces[0].Count = 3
	p = p.WithSeams(pattern.Sew("rim", "flap/bottom", "skirt & hem/top", 0))
	p = proof.Must(p.Open("flap", pattern.Slot("zip", 0.6, 0.6, 0.4, 0.01, 0)))(t)
	p = proof.Must(p.Open("flap", pattern.Circle("tube", 0.3, 0.3, 0.125)))(t)
	p = proof.Must(p.Punch("flap", pattern.Drill{Name: "D-ring", X: 0.9, Y: 0.2, Diameter: 0.012}))(t)
	p = proof.Must(p.Mark("flap", pattern.Line("fold", 0.1, 0.7, 1.1, 0.7)))(t)
	p = proof.Must(p.Allow(20*units.Mm, 30*units.Mm))(t)
	return proof.Must(p.Notch(0.25))(t)
}

// One piece, worked by hand, read from both formats.
func TestPiece(t *testing.T) {
	p := flap(t)
	dxf := readDXF(t, proof.Must(cutting.PieceDXF(p.Pieces[0]))(t))
	if dxf.Version != "AC1009" || dxf.Units != 4 || len(dxf.Errors) > 0 {
		t.Errorf("DXF: got version %s, units %d, errors %q, want AC1009, 4 (millimetres), none", dxf.Version, dxf.Units, dxf.Errors)
	}
	for format, s := range map[string]seen{"DXF": dxf, "SVG": readSVG(t, proof.Must(cutting.PieceSVG(p.Pieces[0]))(t))} {
		for _, layer := range []string{"cut", "mark", "drill", "text"} {
			if !slices.Contains(s.Layers, layer) {
				t.Errorf("%s: layers: got %q, want %s among them", format, s.Layers, layer)
			}
		}
		var cut []seenLine
		squares, marks := 0, 0
		for _, l := range s.Lines {
			switch {
			case l.Layer == "cut":
				cut = append(cut, l)
				if !l.Closed {
					t.Errorf("%s: a cut of %g mm is not closed", format, l.Length)
				}
			case l.Closed && math.Abs(l.High[0]-l.Low[0]-100) < 1e-3 && math.Abs(l.High[1]-l.Low[1]-100) < 1e-3:
				proof.Near(t, format+": round the test square", l.Length, 400, 1e-5)
				squares++
			default:
				marks++
			}
		}
		slices.SortFunc(cut, func(a, b seenLine) int { return int(b.Length - a.Length) })
		if len(cut) != 3 || squares != 1 {
			t.Fatalf("%s: got %d cuts and %d test squares, want outline, zip and tube, and one", format, len(cut), squares)
		}
		// 1200 and 800 with 30 of hem on three sides and 20 below; a slot of 400 ×
		// 10; a circle of 360 chords.
		proof.Near(t, format+": outline", cut[0].Length, 2*(1260+850), 0.1/4220)
		proof.Near(t, format+": outline's area", math.Abs(cut[0].Area), 1260*850, 1e-6)
		proof.Near(t, format+": zip", cut[1].Length, 820, 0.1/820)
		proof.Near(t, format+": tube", cut[2].Length, 250*math.Pi, 0.1/785)
		// Seam line on four edges, the fold, the grain's shaft and head, four notches.
		if want := 4 + 1 + 2 + 4; marks != want {
			t.Errorf("%s: got %d marks, want %d", format, marks, want)
		}
		if len(s.Circles) != 1 || s.Circles[0].Layer != "drill" {
			t.Fatalf("%s: got holes %v, want one on layer drill", format, s.Circles)
		}
		h := s.Circles[0]
		proof.Near(t, format+": hole", h.Radius, 6, 1e-6)
		proof.Near(t, format+": hole from the left", h.X-cut[0].Low[0], 900+30, 0.1/930)
		proof.Near(t, format+": hole from below", h.Y-cut[0].Low[1], 200+20, 0.1/220)
		var words []string
		for _, w := range s.Texts {
			words = append(words, w.Text)
		}
		for _, want := range []string{"flap, cut 3", "zip", "tube", "D-ring", "1", "4", "measure: 100 mm"} {
			if !slices.Contains(words, want) {
				t.Errorf("%s: texts: got %q, want %q among them", format, words, want)
			}
		}
	}
}

// A whole bed on its roll: each piece's cut line has on the file the length and
// the area that it has in the pattern, to 0.1 mm, and lies on the roll.
func TestLay(t *testing.T) {
	p := proof.Must(unroll.RoundMattress{Radius: 1.2, Height: 0.6, Pitch: 0.5, Passage: 0.05}.Pattern("bed", 1e-3))(t)
	p = proof.Must(p.Allow(20*units.Mm, 30*units.Mm))(t)
	p = proof.Must(p.Notch(0.3))(t)
	l := proof.Must(nest.Roll{Width: 1.4, Margin: 0.01, Gap: 0.004}.Lay(p, 3, 1))(t)
	var want []float64
	area := 0.0
	for _, piece := range p.Pieces {
		outline, _, err := piece.CutLine()
		if err != nil {
			t.Fatal(err)
		}
		for range int(piece.Count) {
			want = append(want, outline.Length()*1e3)
			area += outline.Area() * 1e6
		}
	}
	slices.Sort(want)
	for format, s := range map[string]seen{
		"DXF": readDXF(t, proof.Must(cutting.LayDXF(l))(t)), "SVG": readSVG(t, proof.Must(cutting.LaySVG(l))(t)),
	} {
		var got []float64
		sum := 0.0
		low, high := math.Inf(1), math.Inf(-1)
		for _, line := range s.Lines {
			if line.Layer != "cut" {
				continue
			}
			if !line.Closed {
				t.Errorf("%s: a cut of %g mm is not closed", format, line.Length)
			}
			got = append(got, line.Length)
			sum += math.Abs(line.Area)
			low, high = min(low, line.Low[1]), max(high, line.High[1])
		}
		slices.Sort(got)
		if len(got) != len(want) {
			t.Fatalf("%s: got %d cuts, want %d", format, len(got), len(want))
		}
		for i := range got {
			proof.Near(t, format+": cut", got[i], want[i], 0.1/want[i])
		}
		proof.Near(t, format+": fabric", sum, area, 1e-5)
		if high-low > 1400-2*10+1e-3 {
			t.Errorf("%s: got pieces over %g mm of the roll's width, want 1380 at most", format, high-low)
		}
	}
}

// What only some copies have is cut in just those: a blower tube in one piece of
// sixteen, of two rings.
func TestOnlySome(t *testing.T) {
	ring := proof.Must(unroll.Ring{Radius: 1.5, Tube: 0.3, Sweep: 360 * units.Deg, Pieces: 16}.Pattern("ring", 2, 0, 1e-9))(t)
	sleeve := pattern.Circle("blower tube", 0, 0, 0.125)
	sleeve.Only = 1
	ring = proof.Must(ring.Open("ring 1", sleeve))(t)
	ring = proof.Must(ring.Punch("ring 2", pattern.Drill{Name: "D-ring", Diameter: 0.01, Only: 4}))(t)
	two := ring.Times(2)
	proof.Near(t, "pieces", two.Count(), 64, 0)
	proof.Near(t, "fabric", two.Area(), 2*ring.Area(), 1e-14)
	proof.Near(t, "joints", two.Seams[0].Count, 32, 0)
	l := proof.Must(nest.Roll{Width: 1.5}.Lay(two, 1, 0))(t)
	s := readSVG(t, proof.Must(cutting.LaySVG(l))(t))
	cuts := 0
	for _, line := range s.Lines {
		if line.Layer == "cut" {
			cuts++
		}
	}
	if cuts != 64+2 || len(s.Circles) != 8 {
		t.Errorf("got %d cuts and %d holes, want those of 64 pieces, two tubes and eight D-rings", cuts, len(s.Circles))
	}
	proof.Near(t, "the first is as it was", ring.Count(), 32, 0)
	sleeve.Only = 17
	_, err := ring.Open("ring 2", sleeve)
	proof.Fails(t, "more than there are", err, `piece ring 2: edge 5 "blower tube": copies that have it: got 17, want 0 to 16`)
}

// The lists, read back as CSV, hold every piece and every seam once.
func TestLists(t *testing.T) {
	p := flap(t)
	rows := proof.Must(csv.NewReader(strings.NewReader(proof.Must(cutting.ListCSV(p))(t))).ReadAll())(t)
	if len(rows) != 3 || strings.Join(rows[1], "|") != "flap|3|1260.0|850.0|0.9069|1.0710|90.0|zip, 820.0 mm round; tube, 785.4 mm round|D-ring, 12.0 mm|4" {
		t.Errorf("pieces: got %q", rows)
	}
	rows = proof.Must(csv.NewReader(strings.NewReader(proof.Must(cutting.SeamsCSV(p))(t))).ReadAll())(t)
	if len(rows) != 2 || rows[1][2] != "flap/bottom (1200.0) with skirt & hem/top (1200.0)" || rows[1][5] != "0.0" || rows[1][7] != "1 2 3 4" {
		t.Errorf("seams: got %q", rows)
	}
	for what, text := range map[string]string{"pieces": proof.Must(cutting.ListHTML(p))(t), "seams": proof.Must(cutting.SeamsHTML(p))(t)} {
		d := xml.NewDecoder(strings.NewReader(text))
		d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
		cells := 0
		for {
			token, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", what, err)
			}
			if e, ok := token.(xml.StartElement); ok && e.Name.Local == "td" {
				cells++
			}
		}
		if cells == 0 || !strings.Contains(text, "skirt &amp; hem") {
			t.Errorf("%s: got %d cells in\n%s", what, cells, text)
		}
	}
	bad := p
	bad.Pieces = slices.Clone(p.Pieces)
	bad.Pieces[1].Edges = bad.Pieces[1].Edges[:3]
	for what, call := range map[string]func() (string, error){
		"pieces": func() (string, error) { return cutting.ListCSV(bad) }, "seams": func() (string, error) { return cutting.SeamsHTML(bad) },
		"drawing": func() (string, error) { return cutting.PieceDXF(bad.Pieces[1]) },
	} {
		_, err := call()
		proof.Fails(t, what+" of an open piece", err, "piece skirt & hem: edge")
	}
}

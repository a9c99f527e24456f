package page

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"tautline/render/chart"
	"tautline/render/drawing"
	"tautline/render/report"
	"tautline/render/sample"
	"tautline/runner/document"
	"tautline/runner/outcome"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func written(t *testing.T, r *report.Report) string {
	t.Helper()
	var b bytes.Buffer
	if err := HTML(&b, r); err != nil {
		t.Fatalf("HTML: %v", err)
	}
	return b.String()
}

func TestGolden(t *testing.T) {
	reports := map[string]*report.Report{
		"sample.html":  sample.Report(),
		"failing.html": sample.Failing(),
		"signed.html":  sample.Signed(),
		"empty.html":   {File: "empty.md", State: "Draft, not signed", Verdict: report.Verdict{Kind: report.NoChecks}},
	}
	for name, r := range reports {
		got := written(t, r)
		file := filepath.Join("testdata", name)
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatalf("%v (go test -update writes it)", err)
		}
		if got != string(want) {
			t.Errorf("%s: the page differs from the golden file at byte %d; go test -update, then read the difference", file, differ(got, string(want)))
		}
	}
	all, err := filepath.Glob("testdata/*.html")
	if err != nil || len(all) != len(reports) {
		t.Errorf("testdata: got %d golden pages (%v), want %d", len(all), err, len(reports))
	}
}

func differ(a, b string) int {
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return i
		}
	}
	return min(len(a), len(b))
}

func TestSameBytesTwice(t *testing.T) {
	pages := make([]bytes.Buffer, 4)
	var all sync.WaitGroup
	for i := range pages {
		all.Go(func() {
			if err := HTML(&pages[i], sample.Failing()); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	for i := range pages {
		if a, b := pages[0].String(), pages[i].String(); a != b {
			t.Errorf("two pages of one report, written side by side, differ at byte %d", differ(a, b))
		}
	}
}

// wellFormed reads the page as XML, which is stricter than HTML: every element
// closed, every attribute quoted, every id given once, every link to an id met.
func wellFormed(t *testing.T, page string) (elements map[string]int) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(page))
	d.Entity = xml.HTMLEntity
	elements = map[string]int{}
	ids, wanted := map[string]bool{}, map[string]bool{}
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("the page is not well formed: %v", err)
		}
		start, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		elements[start.Name.Local]++
		for _, a := range start.Attr {
			switch a.Name.Local {
			case "id":
				if ids[a.Value] {
					t.Errorf("id %q: given twice", a.Value)
				}
				ids[a.Value] = true
			case "href":
				if id, ok := strings.CutPrefix(a.Value, "#"); ok {
					wanted[id] = true
				}
			case "aria-labelledby":
				for _, id := range strings.Fields(a.Value) {
					wanted[id] = true
				}
			}
		}
	}
	for id := range wanted {
		if !ids[id] {
			t.Errorf("id %q: wanted by a link, not on the page", id)
		}
	}
	return elements
}

func TestWellFormed(t *testing.T) {
	for name, r := range map[string]*report.Report{"sample": sample.Report(), "failing": sample.Failing()} {
		t.Run(name, func(t *testing.T) {
			n := wellFormed(t, written(t, r))
			for element, want := range map[string]int{"h1": 1, "main": 1, "header": 1, "footer": 1, "figure": 5, "script": 0, "link": 0, "img": 0} {
				if n[element] != want {
					t.Errorf("<%s>: got %d, want %d", element, n[element], want)
				}
			}
		})
	}
}

func TestHeadingsSkipNoLevel(t *testing.T) {
	r := sample.Report()
	r.Blocks = append([]document.Block{sample.Heading(3, "deep", "Deep first")}, r.Blocks...)
	last := 0
	for _, m := range regexp.MustCompile(`<h([1-6])`).FindAllStringSubmatch(written(t, r), -1) {
		level := int(m[1][0] - '0')
		if level > last+1 {
			t.Errorf("heading level %d after %d, want no step over one", level, last)
		}
		last = level
	}
}

const attack = `"><script>alert(1)</script><b onload='x'>&amp;</style>`

// hostile is a report in which every text that a notebook can set attacks.
func hostile() *report.Report {
	a := attack
	in := sample.Text(a)
	check := &report.Check{ID: "c" + a, What: a, Rule: a, Demand: report.Quantity{Number: a, Unit: a}, Capacity: []report.Quantity{{Number: a, Unit: a}}, Utilisation: 0.5, Governing: true, Source: report.Citation{By: a, Text: a}}
	figure := &chart.Figure{Title: a, X: chart.Axis{Label: a, Unit: a}, Y: chart.Axis{Label: a, Unit: a}, Curves: []chart.Curve{{Name: a, X: []float64{0, 1}, Y: []float64{0, 1}}},
		Marks: []chart.Mark{{Name: a, X: 0.5, Y: 0.5}}, Limits: []chart.Limit{{Name: a, At: 0.7, Upright: false}, {Name: a, At: 0.2, Upright: true}}}
	plan := new(sheet.Sheet).NewDrawing(a)
	xs, ys := sample.Metres(0, 1, 0), sample.Metres(0, 0, 1)
	plan.Area(a, xs, ys)
	plan.Line(a, xs, ys)
	plan.Arrow(a, 0, 0, 1, 1)
	plan.Dimension(0, 0, 1, 1, 0.1)
	plan.Text(a, 0, 0)
	plan.Mark(a, 0, 0)
	plan.Shade(xs, ys, 1)
	plan.Scale(a, 0, 1)
	motion := new(sheet.Sheet).NewMotion(a, 0.1)
	for range 2 {
		d := motion.Frame()
		d.Area(a, xs, ys)
		d.Text(a, 0, 0)
		d.Mark(a, 0, 0)
	}
	rose := &drawing.Rose{Title: a, Unit: a, Curves: []drawing.RoseCurve{{Name: a, Angles: []float64{0, 1}, Values: []float64{1, 2}}}, Limits: []drawing.RoseLimit{{Name: a, At: 1}}}
	file := &report.ShopFile{ID: "p" + a, Name: a, Size: a, Digest: a}
	diagnostic := document.Diagnostic{File: a, Message: a, Hint: a, Notes: []document.Note{{Message: a}},
		Range: document.Range{Start: document.Position{Line: 1, Column: 2}}}
	return &report.Report{
		Title: document.TitleBlock{Title: a, Number: a, Revision: a, Project: a, Prepared: a, Checked: a, Approved: a, Standards: []string{a}},
		File:  a, State: a, Verdict: report.Verdict{Kind: report.SomeFail, Fail: 1, Governing: check},
		Cautions: []report.Caution{{ID: "x" + a, Place: a, Text: a}}, Checks: []*report.Check{check},
		Givens: []*report.Given{{ID: "g" + a, Name: a, Low: &report.Quantity{Number: a, Unit: a}, High: &report.Quantity{Number: a, Unit: a}, Reason: a}},
		Blocks: []document.Block{
			&document.Heading{Level: 1, ID: "h" + a, Text: in},
			sample.Paragraph(document.Text(a), document.Emphasis(in), document.Strong(in), document.Strike(in), document.CodeSpan(a),
				document.Link{To: "https://example.org/" + a, Text: in}, document.Link{To: "javascript:alert(1)", Text: in},
				document.Link{To: "JavaScript:alert(1)", Text: in}, document.Link{To: " javascript:alert(1)", Text: in},
				document.Link{To: "data:text/html,x", Text: in}, document.Link{To: "//example.org", Text: in},
				document.Image{File: a, Alt: a}, document.InlineMath(a), document.Break{}),
			&document.Code{Language: a, Text: a}, &document.Math{TeX: a},
			&document.Table{Header: [][]document.Inline{in}, Rows: [][][]document.Inline{{in}}},
			&document.List{Ordered: true, Start: 3, Items: [][]document.Block{{sample.Paragraph(in...)}}},
			&document.Quote{Blocks: []document.Block{sample.Paragraph(in...), &document.Cell{Index: 0}}}, &document.Cell{Index: 7, Text: a},
		},
		Cells: []*report.Cell{{State: a, Parts: []report.Part{
			&report.Line{ID: "l" + a, Result: sample.Math(sample.Identifier("x")), Reason: a, Source: report.Citation{By: a, Text: a}, Caveat: a}, &report.CheckPart{Check: &report.Check{ID: "k" + a, What: a, Rule: a}},
			&report.Code{Text: a}, &report.TablePart{ID: "t" + a, Title: a, Columns: []report.Column{{Head: a, Unit: a, Cells: []string{a}}}},
			&report.FigurePart{ID: "f" + a, Picture: figure},
			&report.FigurePart{ID: "d" + a, Picture: &drawing.Drawing{Drawing: plan, Unit: quantity.Unit{Symbol: a, Factor: 1}}}, &report.FigurePart{ID: "o" + a, Picture: rose}, &report.FigurePart{ID: "m" + a, Picture: &drawing.Motion{Motion: motion, Unit: quantity.Unit{Symbol: a, Factor: 1}}}, &report.ShopFilePart{ShopFile: file}, &report.Remark{ID: "r" + a, Text: a}, &report.Remark{ID: "s" + a, Caution: true, Text: a}, &report.FaultPart{Diagnostic: diagnostic}}}},
		Files: []*report.ShopFile{file}, Sources: []report.Source{{Number: 1, Text: a, Used: []string{a}}}, Findings: []document.Diagnostic{diagnostic}, Text: []byte(a),
		Identity: report.Identity{Tool: a, Library: a, Go: a, Digest: a, Guards: []outcome.Guard{{Name: a}, {Name: a, Off: a}}},
	}
}

func TestEscapes(t *testing.T) {
	page := written(t, hostile())
	for _, bad := range []string{"<script", "<b onload", "alert(1)</style", "ZgotmplZ"} {
		if strings.Contains(page, bad) {
			i := strings.Index(page, bad)
			t.Errorf("the page has %q unescaped: …%s…", bad, page[max(0, i-120):min(len(page), i+60)])
		}
	}
	if n := strings.Count(strings.ToLower(page), `href="javascript:`) + strings.Count(page, `href="data:`) + strings.Count(page, `href=" `) + strings.Count(page, `href="//`); n > 0 {
		t.Errorf("the page has %d links that lead where no report may lead", n)
	}
	if n := strings.Count(page, "</style>"); n != 2 {
		t.Errorf("</style>: got %d, want the page's own 2", n)
	}
	d := xml.NewDecoder(strings.NewReader(page))
	d.Entity = xml.HTMLEntity
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("the page is not well formed: %v", err)
		}
		if e, ok := tok.(xml.StartElement); ok {
			for _, a := range e.Attr {
				if strings.HasPrefix(a.Name.Local, "on") {
					t.Errorf("<%s %s>: an attribute got through", e.Name.Local, a.Name.Local)
				}
			}
		}
	}
}

func TestUnknownNodesAreErrors(t *testing.T) {
	type strangeBlock struct{ document.Block }
	type strangeInline struct{ document.Inline }
	type strangePart struct{ report.Part }
	for name, r := range map[string]*report.Report{
		"block":  {Blocks: []document.Block{strangeBlock{}}},
		"inline": {Blocks: []document.Block{sample.Paragraph(strangeInline{})}},
		"part":   {Blocks: []document.Block{&document.Cell{}}, Cells: []*report.Cell{{Parts: []report.Part{strangePart{}}}}},
	} {
		var b bytes.Buffer
		err := HTML(&b, r)
		if err == nil || !strings.Contains(err.Error(), "strange") {
			t.Errorf("HTML of a strange %s: got error %v, want one that names it", name, err)
		}
		if b.Len() > 0 {
			t.Errorf("HTML of a strange %s: wrote %d bytes, want none", name, b.Len())
		}
	}
}

func TestUnreadableFormulaShows(t *testing.T) {
	page := written(t, &report.Report{Blocks: []document.Block{sample.Paragraph(document.InlineMath(`\broken`))}})
	if !strings.Contains(page, `<code class="unread">\broken</code>`) {
		t.Error(`\broken: want its source, marked as not read`)
	}
}

// TestContrast holds the page's colours to WCAG 2.2, 1.4.3: text has a contrast
// of at least 4.5 to its ground, by the formula of "relative luminance" there.
func TestContrast(t *testing.T) {
	schemes := strings.Split(style, "prefers-color-scheme: dark")
	if len(schemes) != 2 {
		t.Fatalf("report.css: got %d schemes, want light and dark", len(schemes))
	}
	for i, css := range schemes {
		colour := map[string]float64{}
		for _, m := range regexp.MustCompile(`--([a-z0-9]+): #([0-9a-f]{6});`).FindAllStringSubmatch(css, -1) {
			colour[m[1]] = luminance(t, m[2])
		}
		for _, name := range []string{"ink", "soft", "accent", "bad", "limit", "c1", "c2", "c3", "c4", "c5", "c6"} {
			a, b := colour[name], colour["paper"]
			if got := (max(a, b) + 0.05) / (min(a, b) + 0.05); got < 4.5 || colour["paper"] == 0 {
				t.Errorf("%s scheme, --%s on paper: got contrast %.2f, want at least 4.5", []string{"light", "dark"}[i], name, got)
			}
		}
		tonesContrast(t, []string{"light", "dark"}[i], colour)
	}
}

// tonesContrast holds the tones of patches to what can be read without colour:
// each is a step darker or lighter than the one before, by a ninth at least, and
// lines drawn over any have the contrast of 3 that WCAG 2.2, 1.4.11 asks of
// graphics.
func tonesContrast(t *testing.T, scheme string, colour map[string]float64) {
	for i := 1; i <= drawing.Tones; i++ {
		v, ok := colour[fmt.Sprintf("tone%d", i)]
		if got := (max(v, colour["ink"]) + 0.05) / (min(v, colour["ink"]) + 0.05); !ok || got < 3 {
			t.Errorf("%s scheme, --ink on --tone%d: got contrast %.2f, want at least 3", scheme, i, got)
		}
		if i == 1 {
			continue
		}
		before := colour[fmt.Sprintf("tone%d", i-1)]
		step := (before + 0.05) / (v + 0.05)
		if scheme == "dark" {
			step = 1 / step
		}
		if step < 10.0/9 {
			t.Errorf("%s scheme, --tone%d after --tone%d: got a step of %.3f in luminance, want at least %.3f", scheme, i, i-1, step, 10.0/9)
		}
	}
}

func luminance(t *testing.T, hex string) float64 {
	v, err := strconv.ParseUint(hex, 16, 32)
	if err != nil {
		t.Fatal(err)
	}
	channel := func(shift int) float64 {
		c := float64(v>>shift&0xff) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*channel(16) + 0.7152*channel(8) + 0.0722*channel(0)
}

func TestFoldSaysHowMuch(t *testing.T) {
	r := sample.Report()
	r.Cells[0].Parts = []report.Part{&report.Code{Text: strings.Repeat("x := 1\n", 1000), Line: 3}}
	if page := written(t, r); !strings.Contains(page, "1000 lines of code, notebook lines 3 to 1002") {
		t.Error("a long code is not summed up in its fold")
	}
}

func BenchmarkHTML(b *testing.B) {
	r := sample.Report()
	for b.Loop() {
		if err := HTML(io.Discard, r); err != nil {
			b.Fatal(err)
		}
	}
}

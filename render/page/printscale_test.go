package page

import (
	"bytes"
	"compress/zlib"
	"go/parser"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"tautline/render/browsertest"
	"tautline/render/mathml"
	"tautline/render/report"
	"tautline/render/sample"
	"tautline/render/working"
	"tautline/runner/document"
)

// stream and matrix are as ISO 32000-1 writes them: 7.3.8 and the operator cm of 8.4.4.
var (
	stream = regexp.MustCompile(`(?s)stream\r?\n(.*?)\r?\nendstream`)
	matrix = regexp.MustCompile(`[-\d. ]+ cm\b`)
)

// printScale is the first matrices of a print's first page. The third holds the
// scale of the contents.
func printScale(t *testing.T, pdf []byte) string {
	t.Helper()
	for _, found := range stream.FindAllSubmatch(pdf, -1) {
		z, err := zlib.NewReader(bytes.NewReader(found[1]))
		if err != nil {
			continue
		}
		content, _ := io.ReadAll(z)                    // what can be read: the end may have been taken for the mark of another
		if bytes.Contains(content, []byte("\nBT\n")) { // of the paper, of its margins, and of what stands on it
			return strings.Join(matrix.FindAllString(string(content), 3), ", ")
		}
	}
	t.Fatal("print: found no page with text")
	return ""
}

// A browser prints every page smaller when one row is wider than the paper; no
// formula does that, however long.
func TestWideFormulaKeepsPrintScale(t *testing.T) {
	if testing.Short() {
		t.Skip("short: no browser")
	}
	b := browsertest.Open(t)
	b.View(654, "light") // 173 mm of A4 at 96 px to an inch
	printed := func(formula string, names int) (scale string, beyond float64) {
		e, err := parser.ParseExpr(formula)
		if err != nil {
			t.Fatal(err)
		}
		set := mathml.Set(e, mathml.Options{MaxWidth: working.MaxFormula})
		symbol := strings.Repeat("area", names)[:names]
		l := &report.Line{ID: "line.a", Line: 1, Symbol: working.Whole(mathml.Formula{MathML: mathml.Symbol(symbol), Text: symbol}), Name: names,
			Wide: set.Row > working.MaxFormula, Result: "1 m", Reason: "a reason of some length beside a formula"}
		l.Formula, l.Row = working.Legible(set)
		r := &report.Report{Blocks: []document.Block{sample.Heading(2, "a", "Rows"), &document.Cell{}},
			Cells: []*report.Cell{{Line: 1, Parts: []report.Part{l}}}}
		file := filepath.Join(t.TempDir(), "wide.html")
		if err := os.WriteFile(file, []byte(written(t, r)), 0o644); err != nil {
			t.Fatal(err)
		}
		b.Go("file://" + file)
		scale = printScale(t, b.PDF(chromedp.PaperA4))
		b.Print(true)
		beyond = b.Number(`Math.max(...[...document.querySelectorAll(".step")].map(s => s.getBoundingClientRect().right - s.closest(".chain").getBoundingClientRect().right))`)
		b.Print(false)
		return scale, beyond
	}
	want, _ := printed("a + b", 4)
	if strings.Count(want, "cm") != 3 {
		t.Fatalf("print of a short formula: got the matrices %q, want three", want)
	}
	call := func(letters int) string { // a name with letters as English has them
		const words = "theLoadThatTheFrontAxleOfTheVanBearsWithAllPiecesOfTheRideInTheirPlaces"
		return "f(" + strings.Repeat(words, 12)[:letters-3] + ")"
	}
	for what, c := range map[string]struct {
		formula string
		names   int
	}{
		"beside the reason":    {call(60), 4},
		"beside a long symbol": {call(60), 24},
		"over the margin":      {call(78), 4},
		"a row":                {call(120), 4},
		"two pages wide":       {call(185), 8},
		"in words":             {call(600), 4},
		"a fraction":           {"(" + call(150) + ")/(" + call(140) + ")", 4},
		"one root":             {"math.Sqrt(" + call(150) + ")", 4},
	} {
		got, beyond := printed(c.formula, c.names)
		if got != want {
			t.Errorf("%s: the page is set by %q, want %q, as with a short formula", what, got, want)
		}
		if beyond > 0.5 { // of a pixel, to which browsers round
			t.Errorf("%s: ends %.0f px beyond its column, want within it", what, beyond)
		}
	}
}

// What is folded away on a screen is read on paper.
func TestFoldedValuesArePrinted(t *testing.T) {
	if testing.Short() {
		t.Skip("short: no browser")
	}
	values := &report.Fold{Name: "deep"}
	for range 10 {
		values.Lines = append(values.Lines, &report.Line{Symbol: "deep", Result: "1 m", Line: 1})
	}
	r := &report.Report{Blocks: []document.Block{&document.Cell{}}, Cells: []*report.Cell{{Line: 1, Parts: []report.Part{values}}}}
	file := filepath.Join(t.TempDir(), "folded.html")
	if err := os.WriteFile(file, []byte(written(t, r)), 0o644); err != nil {
		t.Fatal(err)
	}
	b := browsertest.Open(t)
	b.View(654, "light")
	b.Go("file://" + file)
	const seen = `[...document.querySelectorAll(".values .result")].filter(r => r.checkVisibility({contentVisibilityAuto: true})).length`
	if got := b.Number(seen); got != 0 {
		t.Errorf("on a screen: got %g values, want them folded away", got)
	}
	b.Print(true)
	b.Number(`getComputedStyle(document.querySelector(".values"), "::details-content").blockSize.length`) // lays it out
	if got := b.Number(seen); got != 10 {
		t.Errorf("on paper: got %g values, want all 10", got)
	}
}

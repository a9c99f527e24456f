package render

import (
	"bytes"
	"flag"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/chromedp/chromedp"

	"tautline/render/browsertest"
)

var shots = flag.String("shots", "", "directory for pictures and prints of the sample pages")

// A tab is a browser's tab that shows one of the sample pages.
type tab struct{ *browsertest.Tab }

func (b tab) keep(name string, picture []byte) {
	if *shots == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(*shots, name), picture, 0o644); err != nil {
		b.T.Fatal(err)
	}
}

func (b tab) shoot(name string) {
	if *shots != "" {
		b.keep(name, b.Picture(true))
	}
}

const background = `(c => { const m = getComputedStyle(document.querySelector(c)).backgroundColor.match(/\d+/g); return +m[0] + +m[1] + +m[2] })(".paper")`

// TestInBrowser opens the sample pages as a reader does: from a file, on a
// desktop, on a phone, in the dark and on paper.
func TestInBrowser(t *testing.T) {
	if testing.Short() {
		t.Skip("short: no browser")
	}
	b := tab{browsertest.Open(t)}
	for name, r := range map[string]*Report{"sample": sample(), "failing": failing()} {
		t.Run(name, func(t *testing.T) {
			b.T = t
			file := filepath.Join(t.TempDir(), name+".html")
			if err := os.WriteFile(file, []byte(written(t, r)), 0o644); err != nil {
				t.Fatal(err)
			}
			b.View(1280, "light")
			b.Go("file://" + file)
			b.onDesktop(name, len(r.Checks))
			b.onPhone(name)
			b.inTheDark(name)
			b.onPaper(name)
			b.Quiet()
		})
	}
}

// TestSignedInBrowser looks at a title block with signatures and the table of
// revisions on a desktop, a phone and paper.
func TestSignedInBrowser(t *testing.T) {
	if testing.Short() {
		t.Skip("short: no browser")
	}
	b := tab{browsertest.Open(t)}
	file := filepath.Join(t.TempDir(), "signed.html")
	if err := os.WriteFile(file, []byte(written(t, signed())), 0o644); err != nil {
		t.Fatal(err)
	}
	b.View(1280, "light")
	b.Go("file://" + file)
	b.shoot("signed-desktop.png")
	b.onPhone("signed")
	b.inTheDark("signed")
	const mark = `getComputedStyle(document.querySelector(".draft"), "::after").position == "fixed" ? 1 : 0`
	if b.Number(mark) != 0 {
		t.Error("the mark over the page stands on the screen too, want it on paper alone")
	}
	b.Print(true)
	if b.Number(mark) != 1 {
		t.Error("a draft has no mark over each page on paper")
	}
	b.Print(false)
	b.keep("signed-a4.pdf", b.PDF(chromedp.PaperA4))
	b.Quiet()
}

func (b tab) onDesktop(name string, checks int) {
	for what, c := range map[string]struct {
		script string
		want   float64
	}{
		"rows of the table of checks": {`document.querySelectorAll(".checks tbody tr").length`, float64(checks)},
		"formulas that show nothing":  {`[...document.querySelectorAll("math")].filter(m => { const r = m.getBoundingClientRect(); return r.width < 2 || r.height < 4 }).length`, 0},
		"figures that show":           {`[...document.querySelectorAll("figure svg")].filter(s => s.getBoundingClientRect().height > 100).length`, 4},
		"curves with no colour":       {`[...document.querySelectorAll("figure svg path")].filter(p => !/rgb/.test(getComputedStyle(p).stroke + getComputedStyle(p).fill)).length`, 0},
		"width beyond the window":     {`Math.max(0, document.documentElement.scrollWidth - innerWidth)`, 0},
		"workings that scroll":        {`[...document.querySelectorAll(".working")].filter(w => w.scrollWidth > w.clientWidth + 1).length`, 0},
	} {
		if got := b.Number(c.script); got != c.want {
			b.T.Errorf("on a desktop, %s: got %g, want %g", what, got, c.want)
		}
	}
	if got := b.Number(`document.querySelectorAll("math").length`); got < 20 {
		b.T.Errorf("formulas: got %g, want at least 20", got)
	}
	b.shoot(name + "-desktop.png")
}

func (b tab) onPhone(name string) {
	b.View(390, "light")
	if got := b.Number(`document.documentElement.scrollWidth - innerWidth`); got > 0 {
		b.T.Errorf("on a phone of 390 px the page is %g px too wide", got)
	}
	b.shoot(name + "-phone.png")
}

func (b tab) inTheDark(name string) {
	b.View(1280, "light")
	light := b.Number(background)
	b.View(1280, "dark")
	if dark := b.Number(background); light < 700 || dark > 150 {
		b.T.Errorf("paper: got brightness %g by day and %g in the dark, want over 700 and under 150 of 765", light, dark)
	}
	b.shoot(name + "-dark.png")
}

func (b tab) onPaper(name string) {
	// 120 mm, at 96 px to an inch of 25.4 mm.
	b.Print(true)
	if got := b.Number(`document.querySelector("svg.drawing.wide").getBoundingClientRect().width`); math.Abs(got-120/25.4*96) > 0.1 {
		b.T.Errorf("width of a drawing on paper: got %g px, want the 120 mm that its scale is for", got)
	}
	b.Print(false)
	for paper, size := range map[string]chromedp.PaperSize{"a4": chromedp.PaperA4, "letter": chromedp.PaperLetter} {
		pdf := b.PDF(size)
		if n := len(regexp.MustCompile(`/Type\s*/Page\b`).FindAll(pdf, -1)); !bytes.HasPrefix(pdf, []byte("%PDF")) || n == 0 {
			b.T.Errorf("print on %s: got %d bytes with %d pages, want a PDF with pages", paper, len(pdf), n)
		}
		b.keep(name+"-"+paper+".pdf", pdf)
	}
}

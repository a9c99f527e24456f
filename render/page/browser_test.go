package page

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
	"tautline/render/report"
	"tautline/render/sample"
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
	for name, r := range map[string]*report.Report{"sample": sample.Report(), "failing": sample.Failing()} {
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
			b.moves()
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
	if err := os.WriteFile(file, []byte(written(t, sample.Signed())), 0o644); err != nil {
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
		"figures that show":           {`[...document.querySelectorAll("figure svg")].filter(s => s.getBoundingClientRect().height > 100).length`, 5},
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

// reel is how many frames the motion of the sample page has moved on.
const reel = `(() => { const w = document.querySelector(".film").viewBox.baseVal.width; return (0 - new DOMMatrix(getComputedStyle(document.querySelector(".reel")).transform).e) / w })()`

// moves stops a motion with the keyboard and lets it go on; for one who asked for
// less motion it stands until told to move.
func (b tab) moves() {
	for _, c := range []struct{ motion, box, running, other string }{
		{"no-preference", ".halt", "running", "paused"},
		{"reduce", ".move", "paused", "running"},
	} {
		b.Media("prefers-reduced-motion", c.motion)
		state := func() string { return b.Text(`getComputedStyle(document.querySelector(".reel")).animationPlayState`) }
		if got := state(); got != c.running {
			b.T.Errorf("motion, %s: got %q, want %q", c.motion, got, c.running)
		}
		if got := b.Number(`[...document.querySelectorAll(".motion input")].filter(i => i.getBoundingClientRect().width > 0).length`); got != 1 {
			b.T.Errorf("motion, %s: got %g boxes, want 1", c.motion, got)
		}
		b.Number(`document.querySelector("` + c.box + `").focus(), 0`)
		b.Press(" ")
		if got := state(); got != c.other {
			b.T.Errorf("motion, %s, after the key: got %q, want %q", c.motion, got, c.other)
		}
		for _, running := range []bool{state() == "running", state() != "running"} {
			if before := b.Text(reel + ".toString()"); running {
				b.Until("the next frame", reel+` != `+before)
			}
			if got := b.Number(reel); got != math.Round(got) || got < 0 || got > 19 {
				b.T.Errorf("motion: got %g frames on, want a whole number from 0 to 19", got)
			}
			b.Press(" ")
		}
		b.Press(" ")
	}
	b.Media("prefers-reduced-motion", "no-preference")
}

func (b tab) onPaper(name string) {
	// 120 mm, at 96 px to an inch of 25.4 mm.
	b.Print(true)
	if film, stills := b.Number(`document.querySelector(".film").getBoundingClientRect().width`), b.Number(`document.querySelectorAll(".stills svg.wide path.heavy").length`); film != 0 || stills != 4 {
		b.T.Errorf("motion on paper: got a film %g px wide and %g stills, want none and 4", film, stills)
	}
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

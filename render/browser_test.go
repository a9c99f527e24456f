package render

import (
	"bytes"
	"context"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

var shots = flag.String("shots", "", "directory for pictures and prints of the sample pages")

// browser finds a Chromium. Without one the test is skipped, unless
// TAUTLINE_BROWSER=required.
func browser(t *testing.T) string {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	if os.Getenv("TAUTLINE_BROWSER") == "required" {
		t.Fatal("no chromium, chromium-browser or google-chrome on the path, and TAUTLINE_BROWSER=required")
	}
	t.Skip("no chromium, chromium-browser or google-chrome on the path")
	return ""
}

// A tab is a page open in a browser, with what the browser said about it.
type tab struct {
	t   *testing.T
	ctx context.Context

	mu       sync.Mutex
	requests []string
	errors   []string
}

func openTab(t *testing.T) *tab {
	path := browser(t)
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Minute)
	t.Cleanup(cancel)
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU)
	ctx, cancel = chromedp.NewExecAllocator(ctx, options...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	b := &tab{t: t, ctx: ctx}
	b.must(chromedp.Listen(ctx, b.hear))
	_, err := chromedp.Call(ctx, network.Enable, network.EnableParams{})
	b.must(err)
	return b
}

func (b *tab) hear(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		b.requests = append(b.requests, e.Request.URL)
	case *runtime.EventExceptionThrown:
		b.errors = append(b.errors, e.ExceptionDetails.Text)
	case *runtime.EventConsoleAPICalled:
		b.errors = append(b.errors, "console."+string(e.Type))
	case *cdplog.EventEntryAdded:
		b.errors = append(b.errors, e.Entry.Text)
	}
}

func (b *tab) must(err error) {
	b.t.Helper()
	if err != nil {
		b.t.Fatal(err)
	}
}

func (b *tab) number(script string) float64 {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[float64](script))
	b.must(err)
	return v
}

func (b *tab) view(width int64, scheme string) {
	b.t.Helper()
	b.must(chromedp.Do(b.ctx, chromedp.EmulateViewport(width, 900)))
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
	b.must(err)
}

func (b *tab) keep(name string, picture []byte) {
	if *shots != "" {
		b.must(os.WriteFile(filepath.Join(*shots, name), picture, 0o644))
	}
}

func (b *tab) shoot(name string) {
	if *shots != "" {
		picture, err := chromedp.Run(b.ctx, chromedp.FullScreenshot(100))
		b.must(err)
		b.keep(name, picture)
	}
}

const background = `(c => { const m = getComputedStyle(document.querySelector(c)).backgroundColor.match(/\d+/g); return +m[0] + +m[1] + +m[2] })(".paper")`

// TestInBrowser opens the sample pages as a reader does: from a file, on a
// desktop, on a phone, in the dark and on paper.
func TestInBrowser(t *testing.T) {
	if testing.Short() {
		t.Skip("short: no browser")
	}
	b := openTab(t)
	for name, r := range map[string]*Report{"sample": sample(), "failing": failing()} {
		t.Run(name, func(t *testing.T) {
			b.t = t
			file := filepath.Join(t.TempDir(), name+".html")
			b.must(os.WriteFile(file, []byte(written(t, r)), 0o644))
			b.requests, b.errors = nil, nil
			b.view(1280, "light")
			b.must(chromedp.Do(b.ctx, chromedp.Navigate("file://"+file)))
			b.onDesktop(name, len(r.Checks))
			b.onPhone(name)
			b.inTheDark(name)
			b.onPaper(name)
			b.mu.Lock()
			defer b.mu.Unlock()
			if len(b.errors) > 0 {
				t.Errorf("the browser complained: %q", b.errors)
			}
			if len(b.requests) != 1 || !strings.HasPrefix(b.requests[0], "file://") {
				t.Errorf("requests: got %q, want the file alone", b.requests)
			}
		})
	}
}

func (b *tab) onDesktop(name string, checks int) {
	for what, c := range map[string]struct {
		script string
		want   float64
	}{
		"rows of the table of checks": {`document.querySelectorAll(".checks tbody tr").length`, float64(checks)},
		"formulas that show nothing":  {`[...document.querySelectorAll("math")].filter(m => { const r = m.getBoundingClientRect(); return r.width < 2 || r.height < 4 }).length`, 0},
		"figures that show":           {`[...document.querySelectorAll("figure svg")].filter(s => s.getBoundingClientRect().height > 100).length`, 1},
		"curves with no colour":       {`[...document.querySelectorAll("figure svg path")].filter(p => !/rgb/.test(getComputedStyle(p).stroke + getComputedStyle(p).fill)).length`, 0},
		"width beyond the window":     {`Math.max(0, document.documentElement.scrollWidth - innerWidth)`, 0},
		"workings that scroll":        {`[...document.querySelectorAll(".working")].filter(w => w.scrollWidth > w.clientWidth + 1).length`, 0},
	} {
		if got := b.number(c.script); got != c.want {
			b.t.Errorf("on a desktop, %s: got %g, want %g", what, got, c.want)
		}
	}
	if got := b.number(`document.querySelectorAll("math").length`); got < 20 {
		b.t.Errorf("formulas: got %g, want at least 20", got)
	}
	b.shoot(name + "-desktop.png")
}

func (b *tab) onPhone(name string) {
	b.view(390, "light")
	if got := b.number(`document.documentElement.scrollWidth - innerWidth`); got > 0 {
		b.t.Errorf("on a phone of 390 px the page is %g px too wide", got)
	}
	b.shoot(name + "-phone.png")
}

func (b *tab) inTheDark(name string) {
	b.view(1280, "light")
	light := b.number(background)
	b.view(1280, "dark")
	if dark := b.number(background); light < 700 || dark > 150 {
		b.t.Errorf("paper: got brightness %g by day and %g in the dark, want over 700 and under 150 of 765", light, dark)
	}
	b.shoot(name + "-dark.png")
}

func (b *tab) onPaper(name string) {
	for paper, size := range map[string]chromedp.PaperSize{"a4": chromedp.PaperA4, "letter": chromedp.PaperLetter} {
		pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(size), chromedp.PDFPreferCSSPageSize()))
		b.must(err)
		if n := len(regexp.MustCompile(`/Type\s*/Page\b`).FindAll(pdf, -1)); !bytes.HasPrefix(pdf, []byte("%PDF")) || n == 0 {
			b.t.Errorf("print on %s: got %d bytes with %d pages, want a PDF with pages", paper, len(pdf), n)
		}
		b.keep(name+"-"+paper+".pdf", pdf)
	}
}

// Package browsertest opens pages in a real Chromium for tests.
//
//	tab := browsertest.Open(t)
//	tab.View(390, "light")
//	tab.Go("file:///tmp/report.html")
//	wide := tab.Number(`document.documentElement.scrollWidth`)
//	tab.Quiet() // no complaint, nothing fetched but the page
//
// Where no Chromium is found the test is skipped in one line, unless
// TAUTLINE_BROWSER=required.
package browsertest

import (
	"context"
	"os"
	"os/exec"
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

// find is the path of a Chromium.
func find(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	const missing = "no chromium, chromium-browser or google-chrome on the path"
	if os.Getenv("TAUTLINE_BROWSER") == "required" {
		t.Fatal(missing + ", and TAUTLINE_BROWSER=required")
	}
	t.Skip(missing)
	return ""
}

// A Tab is a page open in a browser, with what the browser said about it. A
// method that fails ends the test.
type Tab struct {
	T   *testing.T // of the test or subtest that uses the tab now
	ctx context.Context

	mu       sync.Mutex
	requests []string
	errors   []string
}

// Open starts a browser for the length of the test.
func Open(t *testing.T) *Tab {
	t.Helper()
	path := find(t)
	ctx, cancel := context.WithTimeout(t.Context(), 5*time.Minute)
	t.Cleanup(cancel)
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true))
	ctx, cancel = chromedp.NewExecAllocator(ctx, options...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	b := &Tab{T: t, ctx: ctx}
	b.must(chromedp.Listen(ctx, b.hear))
	_, err := chromedp.Call(ctx, network.Enable, network.EnableParams{})
	b.must(err)
	return b
}

func (b *Tab) hear(event any) {
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

func (b *Tab) must(err error) {
	b.T.Helper()
	if err != nil {
		b.T.Fatal(err)
	}
}

// Go opens a page and forgets what was said about the one before.
func (b *Tab) Go(url string) {
	b.T.Helper()
	b.mu.Lock()
	b.requests, b.errors = nil, nil
	b.mu.Unlock()
	b.must(chromedp.Do(b.ctx, chromedp.Navigate(url)))
}

// Number is what a script gives.
func (b *Tab) Number(script string) float64 {
	b.T.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[float64](script))
	b.must(err)
	return v
}

// Text is the text that a script gives.
func (b *Tab) Text(script string) string {
	b.T.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](script))
	b.must(err)
	return v
}

// Until waits until a script gives true, on the page that is open or on the
// one that it leads to.
func (b *Tab) Until(what, script string) {
	b.T.Helper()
	for end := time.Now().Add(20 * time.Second); ; time.Sleep(10 * time.Millisecond) {
		v, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool]("Boolean("+script+")"))
		if !underway(err) {
			b.must(err)
		}
		if v {
			return
		}
		if time.Now().After(end) {
			b.T.Fatalf("%s: did not come about: %s", what, script)
		}
	}
}

// underway tells whether a script could not be asked because the page was
// giving way to another.
func underway(err error) bool {
	return err != nil && (strings.Contains(err.Error(), "navigated or closed") ||
		strings.Contains(err.Error(), "context was destroyed") || strings.Contains(err.Error(), "Cannot find context"))
}

// Press presses keys, such as "\t" or kb.ArrowRight.
func (b *Tab) Press(keys string) {
	b.T.Helper()
	b.must(chromedp.Do(b.ctx, chromedp.KeyEvent(keys)))
}

// View sets the window's width in px and the colour scheme, light or dark.
func (b *Tab) View(width int64, scheme string) {
	b.T.Helper()
	b.must(chromedp.Do(b.ctx, chromedp.EmulateViewport(width, 900)))
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
	b.must(err)
}

// Media sets one thing that the reader's system asks of pages, such as
// prefers-reduced-motion.
func (b *Tab) Media(feature, value string) {
	b.T.Helper()
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: feature, Value: value}}})
	b.must(err)
}

// Print shows the page in the window as it would be printed, or as on a screen
// again.
func (b *Tab) Print(on bool) {
	b.T.Helper()
	media := "" // as the page is used: a PDF is print
	if on {
		media = "print"
	}
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: media})
	b.must(err)
}

// Picture is the window as a PNG, the whole page when full.
func (b *Tab) Picture(full bool) []byte {
	b.T.Helper()
	action := chromedp.CaptureScreenshot()
	if full {
		action = chromedp.FullScreenshot(100)
	}
	png, err := chromedp.Run(b.ctx, action)
	b.must(err)
	return png
}

// PDF is the page as printed on paper of a size, such as chromedp.PaperA4.
func (b *Tab) PDF(size chromedp.PaperSize) []byte {
	b.T.Helper()
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(size), chromedp.PDFPreferCSSPageSize()))
	b.must(err)
	return pdf
}

// Calm fails the test when the browser complained about the page, or fetched
// anything from elsewhere.
func (b *Tab) Calm(from string) {
	b.T.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	if len(b.errors) > 0 {
		b.T.Errorf("the browser complained %d times, first: %.500q", len(b.errors), b.errors[0])
	}
	for _, url := range b.requests {
		if !strings.HasPrefix(url, from) && !strings.HasPrefix(url, "data:") {
			b.T.Errorf("request: got %q, want all from %s", url, from)
		}
	}
}

// Quiet fails the test when the browser complained about the page, or fetched
// anything but one file.
func (b *Tab) Quiet() {
	b.T.Helper()
	b.Calm("file://")
	b.mu.Lock()
	defer b.mu.Unlock()
	if len(b.requests) != 1 {
		b.T.Errorf("requests: got %q, want the file alone", b.requests)
	}
}

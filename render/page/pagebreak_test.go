package page

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/chromedp/chromedp"

	"tautline/render/browsertest"
	"tautline/render/report"
	"tautline/render/sample"
	"tautline/runner/document"
)

// A rule before a heading starts a printed page; a rule elsewhere does not.
func TestRuleStartsPage(t *testing.T) {
	if testing.Short() {
		t.Skip("short: no browser")
	}
	b := browsertest.Open(t)
	pages := func(blocks ...document.Block) int {
		file := filepath.Join(t.TempDir(), "rule.html")
		if err := os.WriteFile(file, []byte(written(t, &report.Report{Blocks: blocks})), 0o644); err != nil {
			t.Fatal(err)
		}
		b.Go("file://" + file)
		return len(regexp.MustCompile(`/Type\s*/Page\b`).FindAll(b.PDF(chromedp.PaperA4), -1))
	}
	rule, first, second := &document.Rule{}, sample.Heading(2, "a", "Anchors"), sample.Heading(2, "b", "Notes")
	alone := pages(first, second)
	if got := pages(rule, first, rule, second); got != alone+2 {
		t.Errorf("a rule before each of two headings: got %d pages, want %d and two more", got, alone)
	}
	if got := pages(first, rule, sample.Paragraph(sample.Text("prose")...), second); got != alone {
		t.Errorf("a rule before a paragraph: got %d pages, want %d", got, alone)
	}
}

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tautline/render/browsertest"
)

// writeReport writes the report of the landing bed and returns its address.
func writeReport(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	if code, _, stderr := command(t, "run", "-o", folder, "../../notebooks/lagoon-bed.md"); code != 0 {
		t.Fatal(stderr)
	}
	return "file://" + filepath.Join(folder, "lagoon-bed.html")
}

// The report of the landing bed, in a real browser: formulas, figures and the
// table of checks are there, nothing is fetched and nothing is amiss.
func TestReportInBrowser(t *testing.T) {
	tab := browsertest.Open(t)
	tab.View(1280, "light")
	tab.Go(writeReport(t))
	for what, c := range map[string]struct {
		script string
		least  float64
		most   float64
	}{
		"formulas":              {`document.querySelectorAll("math").length`, 80, 1000},
		"formulas without size": {`[...document.querySelectorAll("math")].filter(m => m.getBoundingClientRect().width < 2).length`, 0, 0},
		"rows of checks":        {`document.querySelectorAll("table.checks:not(.trials) tbody tr").length`, 16, 16},
		"rows of trials":        {`document.querySelectorAll("table.trials tbody tr").length`, 3, 3},
		"figures":               {`[...document.querySelectorAll("figure svg")].filter(s => s.getBoundingClientRect().height > 100).length`, 4, 4},
	} {
		if got := tab.Number(c.script); got < c.least || got > c.most {
			t.Errorf("%s: got %g, want %g to %g", what, got, c.least, c.most)
		}
	}
	tab.View(390, "light")
	if got := tab.Number(`document.documentElement.scrollWidth`); got > 390 {
		t.Errorf("at 390 px the page is %g px wide: it scrolls sideways", got)
	}
	tab.Quiet()
}

// No report of the demo set is wider than a phone, light or dark, and the browser
// has nothing to complain of.
func TestEveryReportInBrowser(t *testing.T) {
	notebooks, err := filepath.Glob("../../notebooks/*.md")
	if err != nil || len(notebooks) < 10 {
		t.Fatalf("notebooks: got %d, want 10 or more: %v", len(notebooks), err)
	}
	tab := browsertest.Open(t)
	folder := t.TempDir()
	if code, _, stderr := command(t, append([]string{"run", "-o", folder}, notebooks...)...); code != 0 {
		t.Fatal(stderr)
	}
	for i, notebook := range notebooks {
		name := strings.TrimSuffix(filepath.Base(notebook), ".md")
		tab.View(390, []string{"light", "dark"}[i%2])
		tab.Go("file://" + filepath.Join(folder, name+".html"))
		if got := tab.Number(`document.documentElement.scrollWidth`); got > 390 {
			t.Errorf("%s: at 390 px the page is %g px wide: it scrolls sideways", name, got)
		}
		picture(t, tab, name+"-phone")
	}
	tab.Quiet()
}

// The pages of studies, and a report with one, in a real browser: figures are
// there, nothing scrolls sideways on a phone and nothing is amiss.
func TestStudiesInBrowser(t *testing.T) {
	folder := t.TempDir()
	const notebook = "../../notebooks/lagoon-bed.md"
	for page, args := range map[string][]string{
		"sweep.html":      {"sweep", notebook, "--given", "s", "--html", filepath.Join(folder, "sweep.html")},
		"tolerances.html": {"sweep", notebook, "--tolerances", "--html", filepath.Join(folder, "tolerances.html")},
		"lagoon-bed.html": {"run", "--study", "-o", folder, notebook},
	} {
		t.Run(page, func(t *testing.T) {
			if code, _, stderr := command(t, args...); code != 0 {
				t.Fatal(stderr)
			}
			tab := browsertest.Open(t)
			tab.View(1280, "light")
			tab.Go("file://" + filepath.Join(folder, page))
			if got := tab.Number(`[...document.querySelectorAll("figure svg.wide")].filter(s => s.getBoundingClientRect().height > 60).length`); got < 1 {
				t.Errorf("figures: got %g, want at least 1", got)
			}
			if got := tab.Number(`document.querySelectorAll("table.study tbody tr").length`); got != 16 {
				t.Errorf("rows of checks: got %g, want 16", got)
			}
			tab.View(390, "light")
			if got := tab.Number(`document.documentElement.scrollWidth`); got > 390 {
				t.Errorf("at 390 px the page is %g px wide: it scrolls sideways", got)
			}
			tab.Quiet()
		})
	}
}

// The picture in the README, drawn anew with -update.
func TestPicture(t *testing.T) {
	const picture = "testdata/report.png"
	if *update {
		tab := browsertest.Open(t)
		tab.View(1200, "light")
		tab.Go(writeReport(t))
		if err := os.WriteFile(picture, tab.Picture(false), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := os.Stat(picture); err != nil {
		t.Fatal(err)
	}
}

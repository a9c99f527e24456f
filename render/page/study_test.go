package page

import (
	"bytes"
	"encoding/xml"
	"strings"
	"testing"

	"tautline/render/chart"
	"tautline/render/report"
	"tautline/render/sample"
	"tautline/runner/document"
)

func studyPage(t *testing.T, p *StudyPage) string {
	t.Helper()
	var b bytes.Buffer
	if err := StudyHTML(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Pages of studies are well formed, need nothing else and are the same twice.
func TestStudyPages(t *testing.T) {
	for name, c := range map[string]struct {
		page    StudyPage
		figures int
		has     []string
	}{
		"sweep":      {StudyPage{File: "t.md", Sweep: sample.Sweep()}, 1, []string{"above 333 mm", "at 300\u00a0mm (notebook)", "120.0\u202f%", "does not move"}},
		"tolerances": {StudyPage{File: "t.md", Study: unlinked()}, 2, []string{"400 samples", "seed 1", "12 of 397", "r at 305 mm", "3 of 400 samples could not be computed", "Not varied, because computed: q"}},
	} {
		page := studyPage(t, &c.page)
		n := wellFormed(t, page)
		for element, want := range map[string]int{"h1": 1, "main": 1, "header": 1, "footer": 1, "figure": c.figures, "table": 1, "script": 0, "link": 0, "img": 0} {
			if n[element] != want {
				t.Errorf("%s, <%s>: got %d, want %d", name, element, n[element], want)
			}
		}
		for _, want := range c.has {
			if !strings.Contains(page, want) {
				t.Errorf("%s: the page has no %q", name, want)
			}
		}
		if studyPage(t, &c.page) != page {
			t.Errorf("%s: the page differs from itself", name)
		}
	}
}

// unlinked is the sample study on a page without a report.
func unlinked() *report.Study {
	s := sample.Study()
	s.Checks[0].ID = ""
	return s
}

// A report with a study has it after the working, with the governing tornado
// alone, and is otherwise the same.
func TestReportWithStudy(t *testing.T) {
	r := sample.Report()
	plain := written(t, r)
	r.Study = sample.Study()
	page := written(t, r)
	wellFormed(t, page)
	at := func(s string) int { return strings.Index(page, s) }
	if !(at(`id="report.working"`) < at(`id="report.study"`) && at(`id="report.study"`) < at(`id="report.sources"`)) {
		t.Error("the study does not stand between the working and the sources")
	}
	if n := strings.Count(page, `class="plot tornado wide"`); n != 1 {
		t.Errorf("tornadoes: got %d, want the governing one", n)
	}
	start := at(`<section aria-labelledby="report.study">`)
	end := start + strings.Index(page[start:], "</section>") + len("</section>\n")
	if rest := strings.Replace(page[:start]+page[end:], strings.TrimPrefix(StudyStyle(), Style()), "", 1); rest != plain {
		t.Errorf("without its section the report differs from one without a study at byte %d", differ(rest, plain))
	}
}

func TestStudyEscapes(t *testing.T) {
	a := attack
	study := &report.Study{Fault: a, Givens: []*report.ToleranceGiven{{ID: "x" + a, Text: a, Value: report.Quantity{Number: a, Unit: a}, PlusMinus: report.Quantity{Number: a, Unit: a}}}, Unvaried: []string{a},
		Checks:    []*report.StudyCheck{{ID: "c" + a, What: a, By: a, Worst: report.Share{Known: true, Utilisation: 2, Holds: false}, Fails: 1}},
		Tornadoes: []*chart.Tornado{{What: a, Nominal: 0.5, Bars: []chart.Bar{{Given: a, At: [2]string{a, a}, Low: 0.4, High: 0.6}}}}}
	sweep := &report.Sweep{Text: a, From: report.Quantity{Number: a, Unit: a}, Summary: a, Notes: []string{a}, Rows: []*report.SweepRow{{What: a, Where: a, Fails: a}},
		Figures: []*chart.Figure{{Title: a, X: chart.Axis{Label: a, Unit: a}, Curves: []chart.Curve{{Name: a, X: []float64{0, 1}, Y: []float64{0, 1}}}}}}
	title := document.TitleBlock{Title: a, Number: a, Revision: a}
	for _, p := range []*StudyPage{{Title: title, File: a, Study: study}, {Title: title, File: a, Sweep: sweep}} {
		page := studyPage(t, p)
		for _, bad := range []string{"<script", "<b onload", "alert(1)</style", "ZgotmplZ"} {
			if i := strings.Index(page, bad); i >= 0 {
				t.Errorf("the page has %q unescaped: …%s…", bad, page[max(0, i-120):min(len(page), i+60)])
			}
		}
		d := xml.NewDecoder(strings.NewReader(page))
		d.Entity = xml.HTMLEntity
		for {
			if tok, err := d.Token(); tok == nil {
				if err.Error() != "EOF" {
					t.Errorf("the page is not well formed: %v", err)
				}
				break
			}
		}
	}
}

package render

import (
	"bytes"
	"encoding/xml"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tautline/runner/check"
	"tautline/runner/document"
	"tautline/runner/outcome"
	"tautline/stdlib/sheet"
)

// tubePlan is a plan of a tube under pressure, and what a run of it gives.
func tubePlan(t *testing.T) (*check.Plan, *outcome.Outcome) {
	t.Helper()
	nb, _ := document.Parse("t.md", []byte("---\ntitle: Tube\n---\n\n```go\nr := sheet.Given(sheet.PlusMinus(300*units.Mm, 5*units.Mm), 200*units.Mm, 400*units.Mm)\nt := units.ZeroCelsius + 20*units.K\nN := 1800 * units.Pa * r\nsheet.AtMost(\"seam\", N, 600*units.NPerM, fmt.Sprint(t))\n```\n"))
	plan, diags := check.Check(nb)
	for _, d := range diags {
		t.Fatal(d.Message)
	}
	number := func(v float64) sheet.Value { return sheet.Value{Kind: sheet.KindNumber, Number: sheet.Float(v)} }
	return plan, &outcome.Outcome{Cells: []outcome.State{outcome.Done},
		Values: map[string]sheet.Value{"r": number(0.3), "t": number(293.15), "N": number(540)}}
}

func judged(u float64) outcome.Judged {
	return outcome.Judged{Known: true, Utilisation: u, Holds: !(u > 1)}
}

// Values of a sweep read in the unit that the given was written in.
func TestAssembleSweep(t *testing.T) {
	plan, out := tubePlan(t)
	swept := &outcome.Swept{Given: "r", Nominal: 0.3, Values: []float64{0.2, 0.3, 0.4}, Faults: []string{"", "", ""},
		Courses: []*outcome.Course{
			{Check: outcome.CheckID{What: "seam"}, Nominal: judged(0.9), Points: []outcome.Judged{judged(0.6), judged(0.9), judged(1.2)},
				Turns: []outcome.Turn{{At: 1.0 / 3, Fails: true}}},
			{Check: outcome.CheckID{What: "still"}, Nominal: judged(0.5), Points: []outcome.Judged{judged(0.5), judged(0.5), judged(0.5)}},
			{Check: outcome.CheckID{What: "window"}, Nominal: judged(0.5), Points: []outcome.Judged{judged(1.5), judged(0.5), judged(4)},
				Turns: []outcome.Turn{{At: 0.25}, {At: 0.35, Fails: true}}},
			{Check: outcome.CheckID{What: "band", Nth: 1}, Nominal: judged(0.5), Points: []outcome.Judged{judged(0.5), judged(0.5), {}},
				Turns: []outcome.Turn{{At: 0.21, Fails: true}, {At: 0.22}}},
		}}
	s := AssembleSweep(plan, out, swept)
	if s.From.String() != "200\u00a0mm" || s.To.String() != "400\u00a0mm" || s.Nominal.String() != "300\u00a0mm" {
		t.Errorf("got %v to %v about %v", s.From, s.To, s.Nominal)
	}
	if want := "Going up, the first to fail is seam, above 333.3\u00a0mm. Going down, the first to fail is window, below 250\u00a0mm."; s.Summary != want {
		t.Errorf("summary: got %q, want %q", s.Summary, want)
	}
	for i, want := range []struct{ what, greatest, where, fails string }{
		{"seam", "120.0\u202f%", "at 400\u00a0mm", "above 333.3\u00a0mm"},
		{"still", "50.0\u202f%", "throughout", "never"},
		{"window", "400.0\u202f%", "at 400\u00a0mm", "below 250\u00a0mm, above 350\u00a0mm"},
		{"band (2)", "50.0\u202f%", "throughout", "210\u00a0mm to 220\u00a0mm"},
	} {
		r := s.Rows[i]
		if r.What != want.what || r.Greatest.String() != want.greatest || r.Where != want.where || r.Fails != want.fails {
			t.Errorf("row %d: got %+v, want %+v", i, r, want)
		}
	}
	if len(s.Figures) != 1 || len(s.Figures[0].Curves) != 2 {
		t.Fatalf("got %d figures, want one of the two checks that move", len(s.Figures))
	}
	if c := s.Figures[0].Curves[0]; c.Name != "window" || c.X[0] != 200 || c.Y[0] != 150 || !math.IsNaN(c.Y[2]) {
		t.Errorf("first curve: got %+v, want the window's, the highest, cut at 300 %%", c)
	}
}

// A tolerance reads in the unit of its given; one of a temperature is a
// difference.
func TestAssembleStudy(t *testing.T) {
	plan, out := tubePlan(t)
	tol := &outcome.Toleranced{Samples: 10, Seed: 3, Faulted: 1, Fault: "line 8: too thin",
		Givens: []outcome.Tolerance{{Given: "r", Value: 0.3, PlusMinus: 0.005}, {Given: "t", Value: 293.15, PlusMinus: 5}},
		Checks: []*outcome.Sensitivity{
			{Check: outcome.CheckID{What: "near"}, Nominal: judged(0.8), Least: 0.7, Greatest: 0.85,
				Effects: []outcome.Effect{{Low: judged(0.8), High: judged(0.8)}, {Low: judged(0.79), High: judged(0.82)}}},
			{Check: outcome.CheckID{What: "seam"}, Nominal: judged(0.99), Least: 0.9, Greatest: 1.1, Fails: 4, Missing: 1,
				Effects: []outcome.Effect{{Low: judged(0.9), High: judged(1.08)}, {Low: judged(0.985), High: judged(0.99)}}},
		}}
	s := AssembleStudy(plan, out, tol, []*Check{{ID: "check.1", What: "near"}, {ID: "check.2", What: "seam"}})
	if g := s.Givens[1]; g.PlusMinus.String() != "5\u00a0K" || s.Givens[0].PlusMinus.String() != "5\u00a0mm" {
		t.Errorf("tolerances: got %v and %v", s.Givens[0].PlusMinus, g.PlusMinus)
	}
	if want := "Within the tolerances 1 of 2 checks can fail: seam in 4 of 9 samples."; s.Sentence() != want {
		t.Errorf("sentence: got %q, want %q", s.Sentence(), want)
	}
	seam := s.Checks[1]
	if seam.ID != "check.2" || seam.By != "r at 305\u00a0mm" || seam.Worst.String() != "108.0\u202f%" || !seam.Greatest.Fails() || seam.Failing() != "4 of 9" {
		t.Errorf("seam: got %+v", seam)
	}
	if len(s.Tornadoes) != 2 || s.Tornadoes[0].What != "seam" || len(s.Tornadoes[0].Bars) != 2 || !strings.HasPrefix(s.Tornadoes[0].Bars[0].Given, "r ") {
		t.Errorf("tornadoes: got %+v, want the governing first, its widest bar first", s.Tornadoes)
	}
}

// A check that fails at an end of a tolerance is said to, though no sample comes
// so far.
func TestStudySentence(t *testing.T) {
	at := func(fails int, worst Share, by string) *StudyCheck {
		return &StudyCheck{What: "seam", Worst: worst, By: by, Fails: fails, Of: 10}
	}
	good, bad := Share{true, 0.9, true}, Share{true, 1.1, false}
	for _, c := range []struct {
		s    Study
		want string
	}{
		{Study{Samples: 10, Checks: []*StudyCheck{at(0, good, "r at 1 mm")}}, "Within the tolerances every check holds."},
		{Study{Samples: 10, Checks: []*StudyCheck{at(0, bad, "r at 1 mm"), at(0, good, "")}}, "Within the tolerances 1 of 2 checks can fail: seam with r at 1 mm."},
		{Study{Samples: 10, Checks: []*StudyCheck{at(3, bad, "r at 1 mm")}}, "Within the tolerances 1 of 1 checks can fail: seam in 3 of 10 samples."},
		{Study{Samples: 10, Faulted: 2, Checks: []*StudyCheck{at(0, good, "")}}, "In the samples that could be computed every check holds."},
		{Study{Samples: 10, Faulted: 10, Checks: []*StudyCheck{at(0, good, "")}}, "No sample could be computed."},
	} {
		if got := c.s.Sentence(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestShare(t *testing.T) {
	for _, c := range []struct {
		s    Share
		want string
	}{
		{Share{true, 0.8731, true}, "87.3\u202f%"}, {Share{true, 1, true}, "100.0\u202f%"}, {Share{true, 1.0001, false}, "over 100\u202f%"},
		{Share{true, 1.2, false}, "120.0\u202f%"}, {Share{true, math.Inf(1), false}, "no capacity"},
		{Share{true, math.NaN(), true}, "holds"}, {Share{true, math.NaN(), false}, "FAILS"}, {Share{}, "no result"},
	} {
		if got := c.s.String(); got != c.want {
			t.Errorf("%+v: got %q, want %q", c.s, got, c.want)
		}
	}
}

func sampleTornado() *Tornado {
	return &Tornado{What: "long seam", Nominal: 0.9, Bars: []Bar{
		{Given: "r 300 mm ± 5 mm", At: [2]string{"295 mm", "305 mm"}, Low: 0.8, High: 1.02},
		{Given: "H 1 m ± 0.1 m", At: [2]string{"0.9 m", "1.1 m"}, Low: 0.94, High: 0.88},
		{Given: "both up", At: [2]string{"1", "3"}, Low: 0.91, High: 0.93},
		{Given: "one lost", At: [2]string{"1", "3"}, Low: math.NaN(), High: 0.95},
	}}
}

var barOf = regexp.MustCompile(`<rect class="(least|most)" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"`)

// The bars of a tornado start at the check as computed and are as long as the
// effects are wide, to the tenth of a unit that the drawing is written to.
func TestTornadoLengths(t *testing.T) {
	tornado := sampleTornado()
	for _, part := range strings.SplitAfter(string(tornado.svg("t")), "</svg>")[:2] {
		bars := barOf.FindAllStringSubmatch(part, -1)
		if len(bars) != 7 {
			t.Fatalf("got %d bars, want two for each given but one lost", len(bars))
		}
		number := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
		perUnit := number(bars[0][3]) / 0.12 // the first is the longer one of r
		middle := number(bars[0][2])
		want := []struct {
			class    string
			from, to float64
		}{{"most", 0, 0.12}, {"least", -0.1, 0}, {"least", 0, 0.04}, {"most", -0.02, 0}, {"most", 0, 0.03}, {"least", 0, 0.01}, {"most", 0, 0.05}}
		for i, w := range want {
			b := bars[i]
			if b[1] != w.class || math.Abs(number(b[2])-(middle+w.from*perUnit)) > 0.15 || math.Abs(number(b[3])-(w.to-w.from)*perUnit) > 0.15 {
				t.Errorf("bar %d: got %v, want %s from %g to %g", i, b[1:], w.class, middle+w.from*perUnit, middle+w.to*perUnit)
			}
		}
	}
	words := tornado.words()
	for _, want := range []string{"Utilisation of long seam, as computed 90.0\u202f%.", "295 mm: 80.0\u202f%; 305 mm: 102.0\u202f%.", "1: no result"} {
		if !strings.Contains(words, want) {
			t.Errorf("words: got %q, want %q in them", words, want)
		}
	}
}

func sampleStudy() *Study {
	return &Study{Samples: 400, Seed: 1, Faulted: 3, Fault: "line 9: too thin",
		Givens:    []*ToleranceGiven{{Symbol: ml(mi("r")), Text: "r", Value: Quantity{"300", "mm"}, PlusMinus: Quantity{"5", "mm"}}},
		Unvaried:  []string{"q"},
		Checks:    []*StudyCheck{{ID: "seam", What: "long seam", Nominal: Share{true, 0.871, true}, Worst: Share{true, 1.02, false}, By: "r at 305 mm", Greatest: Share{true, 1.01, false}, Fails: 12, Of: 397}},
		Tornadoes: []*Tornado{sampleTornado(), {What: "other", Nominal: 0.5, Bars: []Bar{{Given: "r", Low: 0.4, High: 0.6}}}}}
}

func sampleSweep() *Sweep {
	return &Sweep{Symbol: ml(mi("r")), Text: "r", From: Quantity{"200", "mm"}, Nominal: Quantity{"300", "mm"}, To: Quantity{"400", "mm"}, Steps: 3,
		Summary: "Going up, the first to fail is long seam, above 333 mm.", Notes: []string{"r does not move: angle."},
		Rows: []*SweepRow{{What: "long seam", From: Share{true, 0.6, true}, Nominal: Share{true, 0.9, true}, To: Share{true, 1.2, false},
			Greatest: Share{true, 1.2, false}, Where: "at 400 mm", Fails: "above 333 mm"}},
		Figures: []*Figure{{Title: "Utilisation over r", X: Axis{Label: "r", Unit: "mm"}, Y: Axis{Label: "utilisation", Unit: "%"}, Curves: []Curve{{"long seam", []float64{200, 300, 400}, []float64{60, 90, 120}}}}}}
}

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
		"sweep":      {StudyPage{File: "t.md", Sweep: sampleSweep()}, 1, []string{"above 333 mm", "at 300\u00a0mm (notebook)", "120.0\u202f%", "does not move"}},
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
func unlinked() *Study {
	s := sampleStudy()
	s.Checks[0].ID = ""
	return s
}

// A report with a study has it after the working, with the governing tornado
// alone, and is otherwise the same.
func TestReportWithStudy(t *testing.T) {
	r := sample()
	plain := written(t, r)
	r.Study = sampleStudy()
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
	if rest := strings.Replace(page[:start]+page[end:], studyStyle, "", 1); rest != plain {
		t.Errorf("without its section the report differs from one without a study at byte %d", differ(rest, plain))
	}
}

func TestStudyEscapes(t *testing.T) {
	a := attack
	study := &Study{Fault: a, Givens: []*ToleranceGiven{{ID: "x" + a, Text: a, Value: Quantity{a, a}, PlusMinus: Quantity{a, a}}}, Unvaried: []string{a},
		Checks:    []*StudyCheck{{ID: "c" + a, What: a, By: a, Worst: Share{true, 2, false}, Fails: 1}},
		Tornadoes: []*Tornado{{What: a, Nominal: 0.5, Bars: []Bar{{Given: a, At: [2]string{a, a}, Low: 0.4, High: 0.6}}}}}
	sweep := &Sweep{Text: a, From: Quantity{a, a}, Summary: a, Notes: []string{a}, Rows: []*SweepRow{{What: a, Where: a, Fails: a}},
		Figures: []*Figure{{Title: a, X: Axis{Label: a, Unit: a}, Curves: []Curve{{a, []float64{0, 1}, []float64{0, 1}}}}}}
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

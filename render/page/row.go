package page

import (
	"html"
	"html/template"
	"strconv"
	"strings"

	"tautline/render/report"
)

// Rows are most of a report: hundreds of short ones, of workings, checks and
// givens. They are written without a template, which took half the time of a
// page. Whatever is not template.HTML goes through text.

// A rowWriter writes elements of a page.
type rowWriter struct{ strings.Builder }

// text writes plain text between tags or inside an attribute's quotes.
func (w *rowWriter) text(s string) { w.WriteString(html.EscapeString(s)) }

// put writes elements of ours as they stand.
func (w *rowWriter) put(elements ...string) {
	for _, s := range elements {
		w.WriteString(s)
	}
}

const (
	spoken   = `<span class="vh">` // for those who hear the page
	triangle = `<svg class="sign" viewBox="0 0 16 16" aria-hidden="true" focusable="false"><path d="M8 1.2 15.4 14.6H.6Z"/><path class="cut" d="M8 5.6V10M8 11.6V13"/></svg>`
)

// working writes a run of calculation lines and checks: one grid whose columns
// line up.
func (w *rowWriter) working(parts []report.Part) {
	w.put(`<div class="working" role="group" tabindex="0" aria-label="`)
	w.text(strings.TrimSpace("Working " + lines(line(parts[0]), line(parts[len(parts)-1]))))
	w.put("\">\n")
	names := symbolColumn(parts)
	for _, part := range parts {
		switch part := part.(type) {
		case *report.Line:
			w.line(part, onPaper(part.Row, names))
		case *report.CheckPart:
			w.check(part.Check)
		case *report.PlatePart:
			w.plate(part.PlateLine)
		case *report.TrialPart:
			w.trial(part.Trial)
		}
	}
	w.put("</div>\n")
}

// Widths on paper, in letters of 7 px: at the size that report.css prints, the
// formulas of the notebooks take 6.9 px for each or less. A4 is the narrower paper.
const (
	pageLetters   = 93 // 173 mm, between the margins of the page
	reasonLetters = 22 // 13.5rem, for the reasons
	symbolLetters = 8  // 4.5rem, the least for the symbols
	equalsLetters = 2
)

// symbolColumn is how many letters wide the longest symbol of a working is.
func symbolColumn(parts []report.Part) int {
	letters := symbolLetters
	for _, part := range parts {
		if l, ok := part.(*report.Line); ok {
			letters = max(letters, l.Name)
		}
	}
	return letters
}

// onPaper is how the style prints a line whose widest row has so many letters,
// beside symbols of so many: as others, over the margin, or in smaller type, in
// tenths of the size. A row wider than the page would make the browser print
// every page smaller.
func onPaper(row, names int) string {
	room := pageLetters - names - equalsLetters
	switch {
	case row <= room-reasonLetters:
		return ""
	case row <= room:
		return " over"
	}
	return " over fit" + strconv.Itoa(max(10*room/row, 2))
}

// open begins a row.
func (w *rowWriter) open(class, id string, line int) {
	w.put(`<div class="line`, class, `"`)
	if id != "" {
		w.put(` id="`)
		w.text(id)
		w.put(`"`)
	}
	w.put(` data-line="`, strconv.Itoa(line), "\">\n")
}

// line writes symbol = formula = numbers put in = result, and why, in a row of
// a class more.
func (w *rowWriter) line(l *report.Line, class string) {
	if l.Given {
		class += " given"
	}
	if l.Formula == "" && l.Numbers == "" {
		class += " short"
	}
	if l.Wide {
		class += " wide"
	}
	w.open(class, l.ID, l.Line)
	w.put(`<span class="symbol">`, string(l.Symbol), `</span><span class="chain">`)
	w.step("step", l.Formula)
	w.step("step", l.Numbers)
	w.step("result", l.Result)
	w.put(`</span>`)
	if l.Reason != "" || l.Caveat != "" || l.Source.Text != "" {
		w.put(`<span class="margin">`)
		if l.Reason != "" {
			w.put(`<span class="reason">`, spoken, `Reason: </span>`)
			w.text(l.Reason)
			w.put(`</span>`)
		}
		if l.Caveat != "" {
			w.put(`<span class="caveat">`, triangle, spoken, `Caution: </span>`)
			w.text(l.Caveat)
			w.put(`</span>`)
		}
		w.source("Source", l.Source)
		w.put(`</span>`)
	}
	w.put("</div>\n")
}

func (w *rowWriter) step(class string, formula template.HTML) {
	if formula != "" {
		w.put(`<span class="`, class, `"><span class="eq">=</span>`, string(formula), `</span>`)
	}
}

// check writes a check at its place.
func (w *rowWriter) check(c *report.Check) {
	class := " check fails"
	if c.Holds {
		class = " check holds"
	}
	w.open(class, c.ID, c.Line)
	w.put(`<span class="symbol label">Check</span><span class="chain"><span class="what">`)
	w.text(c.What)
	w.put(`</span> `)
	if len(c.Capacity) > 0 {
		w.put(`<span class="compare">`)
		w.text(c.Demand.String() + ", " + c.Allowed())
		w.put(`</span> `)
	}
	w.put(`<span class="result">`)
	w.word(c)
	if percent := c.Percent(); percent != "" {
		w.put(` <span class="percent">`)
		w.text(percent)
		w.put(`</span>`)
	}
	w.put(`</span></span>`)
	if c.Source.Text != "" {
		w.put(`<span class="margin">`)
		w.source("Basis", c.Source)
		w.put(`</span>`)
	}
	w.put("</div>\n")
}

// plate writes a line of the data plate at its place.
func (w *rowWriter) plate(p *report.PlateLine) {
	w.open(" check plate", p.ID, p.Line)
	w.put(`<span class="symbol label">Plate</span><span class="chain"><span class="what">`)
	w.text(p.What)
	w.put(`</span> <span class="result">`)
	w.text(p.Says)
	w.put("</span></span></div>\n")
}

// source writes what a row rests on, if it says so, after a word.
func (w *rowWriter) source(word string, c report.Citation) {
	if c.Text == "" {
		return
	}
	w.put(`<span class="source">`)
	if c.By != "" {
		w.put(`<span class="by">`)
		w.text(c.By)
		w.put(`</span>`)
	}
	w.put(word, `: `)
	w.cite(c)
	w.put(`</span>`)
}

// cite writes a citation, or its start and where the whole is.
func (w *rowWriter) cite(c report.Citation) {
	w.text(c.Short())
	if c.Shortened() {
		ref := strconv.Itoa(c.Ref)
		w.put(` <a href="#source.`, ref, `">[`, ref, `]</a>`)
	}
}

// word writes how a check ends.
func (w *rowWriter) word(c *report.Check) {
	w.put(`<span class="word">`)
	if !c.Holds {
		w.put(triangle)
	}
	w.text(c.Word())
	w.put(`</span>`)
}

// cell begins a cell of a table after its first.
func (w *rowWriter) cell(class string) {
	w.put(`</td><td role="cell" class="`, class, `">`)
}

// checkRow is a check in the table of checks.
func checkRow(c *report.Check) template.HTML {
	var w rowWriter
	class := "fails"
	if c.Holds {
		class = "holds"
	}
	if c.Governing {
		class += " governs"
	}
	w.put(`<tr role="row" class="`, class, `"><th role="rowheader" scope="row"><a href="#`)
	w.text(c.ID)
	w.put(`">`)
	w.text(c.What)
	w.put(`</a>`)
	if c.Governing {
		w.put(` <span class="tag">governing</span>`)
	}
	w.put(`</th><td role="cell" class="num demand">`)
	if len(c.Capacity) > 0 {
		w.text(c.Demand.String())
	}
	w.cell("allowed")
	w.text(c.Allowed())
	w.cell("use")
	w.put(string(bar(c)), `<span class="percent">`)
	w.text(c.Percent())
	w.put(`</span> `)
	w.word(c)
	w.cell("source")
	w.cite(c.Source)
	w.put("</td></tr>\n")
	return template.HTML(w.String())
}

// givenRow is a given in the table of givens.
func givenRow(g *report.Given) template.HTML {
	var w rowWriter
	w.put(`<tr role="row"><th role="rowheader" scope="row"><a href="#`)
	w.text(g.ID)
	w.put(`" aria-label="`)
	w.text(g.Name)
	w.put(`">`)
	if g.Symbol != "" {
		w.put(string(g.Symbol))
	} else {
		w.text(g.Name)
	}
	w.put(`</a></th><td role="cell" class="num">`, string(g.Value))
	w.cell("range")
	w.bounds(g)
	w.cell("reason")
	w.text(g.Reason)
	w.put("</td></tr>\n")
	return template.HTML(w.String())
}

// bounds writes the range of a given and its tolerance.
func (w *rowWriter) bounds(g *report.Given) {
	switch {
	case g.Low != nil && g.High != nil:
		w.text(g.Low.String() + " to " + g.High.String())
	case g.Low != nil:
		w.text(g.Low.String() + " or more")
	case g.High != nil:
		w.text("up to " + g.High.String())
	}
	ranged := g.Low != nil || g.High != nil
	if ranged && !g.InRange {
		w.put(` <span class="word bad">`, triangle, `outside</span>`)
	}
	if g.Tolerance != nil {
		if ranged {
			w.put(", ")
		}
		w.put(`<span class="plusminus">± `)
		w.text(g.Tolerance.String())
		w.put(`</span>`)
	}
}

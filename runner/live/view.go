package live

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"html/template"
	"maps"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"tautline/runner/document"
	"tautline/runner/edit"
)

// A view is what one page shows at one time. It does not change.
type view struct {
	title  string
	pieces []shown
	was    map[string]string // by anchor, what stood there before
	bar    bar
	foot   string
	times  Times
	givens []given
	trials []measurable
	record string            // the newest
	signed map[string]string // by anchor, what it has there, where that is something else
}

// shown is a piece with the digest by which a page knows whether it has it.
type shown struct{ slot, digest, html string }

// Slot is where on the page it stands.
func (p shown) Slot() string { return p.slot }

func newShown(slot, html string) shown {
	sum := sha256.Sum256([]byte(slot + "\x00" + html))
	return shown{slot, hex.EncodeToString(sum[:8]), html}
}

// bar is the line that says how things stand.
type bar struct {
	Class string `json:"class"` // "holds", "fails", "open", "trouble" or "whatif"
	Text  string `json:"text"`
	Href  string `json:"href,omitempty"` // where it is on the page
}

// given is a given that can be tried with another number.
type given struct {
	Name   string `json:"name"`
	Symbol string `json:"symbol"` // HTML
	Value  string `json:"value"`  // in the notebook
	Trial  string `json:"trial"`  // that is tried; empty when none is
	Low    string `json:"low"`
	High   string `json:"high"`
	Step   string `json:"step"`
	Unit   string `json:"unit"`
	Fixed  string `json:"fixed,omitempty"` // why it cannot be kept
}

// makeView makes the page of a notebook.
func (b *book) makeView(s *state) *view {
	v := b.reportView(s.run)
	v.was = differences(s.before, s.run)
	if s.run.page != nil {
		v.bar = bar{Class: s.run.page.Class, Text: s.run.page.standing() + " Run at " + s.run.at.Format(time.TimeOnly) + "."}
	}
	if len(s.trouble) == 0 {
		return v
	}
	v.bar = bar{Class: "trouble", Text: sayTrouble(s.trouble[0]), Href: "#report.findings"}
	if s.gone {
		v.bar.Text = "The file is gone."
	}
	if s.run.good {
		v.bar.Text += " What stands below is of " + s.run.at.Format(time.TimeOnly) + "."
	}
	if s.run.good || s.run.page == nil { // else its report has them already
		v.bar.Href = "#" + troubleID(0)
		b.insertTrouble(v, s, s.run)
	}
	return v
}

// standing is the verdict and what governs it.
func (p *Page) standing() string {
	if p.Governing == "" {
		return p.Verdict
	}
	return p.Verdict + " " + p.Governing + "."
}

// reportView shows a run as its report.
func (b *book) reportView(r *run) *view {
	v := &view{title: filepath.Base(b.file)}
	if r.page == nil {
		v.pieces = []shown{newShown("top", "<h1>"+template.HTMLEscapeString(v.title)+"</h1>\n")}
		return v
	}
	v.title, v.times, v.trials = r.page.Title, r.times, measurables(r.page.Trials)
	v.record, v.signed = r.page.Record, r.page.Signed
	for _, p := range r.page.Pieces {
		v.pieces = append(v.pieces, newShown(p.Slot, p.HTML))
	}
	v.foot = fmt.Sprintf("Run at %s: checked in %s, run in %s, printed in %s.", r.at.Format(time.TimeOnly),
		milliseconds(r.times.Check), milliseconds(r.times.Run), milliseconds(r.times.Render))
	for _, c := range r.page.Choices {
		v.givens = append(v.givens, newGiven(r, c))
	}
	return v
}

func milliseconds(d time.Duration) string {
	return strconv.FormatFloat(float64(d.Microseconds())/1000, 'f', 1, 64) + " ms"
}

// differences lists what a run shows otherwise than it was.
func differences(before map[string]string, r *run) map[string]string {
	was := map[string]string{}
	if r.page == nil {
		return was
	}
	for id, now := range r.page.Shown {
		if old, ok := before[id]; ok && old != now {
			was[id] = old
		}
	}
	return was
}

func troubleID(i int) string { return fmt.Sprintf("trouble:%d", i+1) }

// insertTrouble puts each error at its cell in the view of a run, those of none
// at the head.
func (b *book) insertTrouble(v *view, s *state, of *run) {
	var old []*document.Cell
	if s.run.result.Notebook != nil {
		old = s.run.result.Notebook.Cells()
	}
	const head = -1
	after := map[int][]shown{} // by cell
	for i, d := range s.trouble {
		html, err := b.desk.options.Printer.Finding(d, s.text)
		if err != nil {
			html = "<p>" + template.HTMLEscapeString(d.Message) + "</p>\n"
		}
		cell, slot := cellOf(old, s.cells, d.Range.Start.Line), "body"
		if cell == head || of.page == nil {
			cell, slot = head, "lead"
		}
		after[cell] = append(after[cell], newShown(slot, fmt.Sprintf("<div class=\"trouble\" id=\"%s\" tabindex=\"-1\">\n%s</div>\n", troubleID(i), html)))
	}
	pieces := v.pieces
	v.pieces = nil
	for i, p := range pieces {
		if p.slot == "body" && len(after[head]) > 0 {
			v.pieces = append(v.pieces, after[head]...)
			delete(after, head)
		}
		v.pieces = append(v.pieces, p)
		if cell := of.cell(i); cell >= 0 {
			v.pieces = append(v.pieces, after[cell]...)
			delete(after, cell)
		}
	}
	for _, cell := range slices.Sorted(maps.Keys(after)) { // of cells that show nothing
		v.pieces = append(v.pieces, after[cell]...)
	}
}

// cell is the cell whose place piece i of the page is; -1 when it is none's.
func (r *run) cell(i int) int {
	if r.page == nil {
		return -1
	}
	return r.page.Pieces[i].Cell
}

func sayTrouble(d document.Diagnostic) string {
	if line := d.Range.Start.Line; line > 0 {
		return fmt.Sprintf("Line %d: %s.", line, strings.TrimSuffix(d.Message, "."))
	}
	return strings.TrimSuffix(d.Message, ".") + "."
}

// cellOf finds the cell of the old text at whose place an error in a line of the
// new text belongs; -1 when it is in no cell. Cells before and after the part
// that was edited are the same in both.
func cellOf(old, now []*document.Cell, line int) int {
	at := slices.IndexFunc(now, func(c *document.Cell) bool {
		span := c.Span()
		return span.Start.Line <= line && line <= span.End.Line
	})
	if at < 0 || len(old) == 0 {
		return -1
	}
	before := 0
	for before < min(len(old), len(now)) && old[before].Text == now[before].Text {
		before++
	}
	if at < before {
		return at
	}
	for back := 1; back <= min(len(old), len(now))-before && old[len(old)-back].Text == now[len(now)-back].Text; back++ {
		if len(now)-back == at {
			return len(old) - back
		}
	}
	return min(at, len(old)-1)
}

// newGiven says in which numbers a given can be tried.
func newGiven(r *run, c Choice) given {
	g := given{Name: c.Name, Symbol: c.Symbol, Unit: c.Unit.Symbol,
		Value: decimal(c.Value), Low: decimal(c.Low), High: decimal(c.High)}
	digits := 0
	for _, s := range []string{g.Value, g.Low, g.High} {
		if _, after, ok := strings.Cut(s, "."); ok {
			digits = max(digits, len(after))
		}
	}
	const fewest = 40 // steps of the slider
	for digits < 12 && (c.High-c.Low)*math.Pow10(digits) < fewest {
		digits++
	}
	g.Step = decimal(math.Pow10(-digits))
	if _, err := edit.Find(r.result.Plan, c.Name); err != nil {
		g.Fixed = err.Error()
	}
	return g
}

// decimal writes a number as it may be typed, without the last digits that a
// change of unit leaves.
func decimal(v float64) string {
	short, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	return strconv.FormatFloat(short, 'f', -1, 64)
}

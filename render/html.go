package render

import (
	"bytes"
	_ "embed" // the page's layout and style
	"fmt"
	"html/template"
	"io"
	"strings"
	"sync"

	"tautline/runner/library"
)

// style is the page's stylesheet.
//
//go:embed report.css
var style string

//go:embed report.html.tmpl
var layout string

// templates are parsed when the first page is written, not when the program
// starts: most of its processes write none.
var templates = sync.OnceValue(func() *template.Template {
	t := template.New("")
	for _, text := range []string{layout, studyLayout, fileLayout, comparisonLayout, `{{define "triangle"}}` + triangle + `{{end}}`} {
		template.Must(t.Parse(text))
	}
	return t
})

// Prepare does what the first report of a process needs beside its numbers:
// the page's templates and the library's documentation. Called while a notebook
// runs, it takes that off the time a reader waits. It need not be called.
func Prepare() {
	templates()
	for _, p := range library.Packages() {
		library.Symbols(p.Path)
	}
}

// HTML writes r as one file that needs nothing else: no network, no script. The
// same report gives the same bytes. Nothing is written when it fails.
func HTML(w io.Writer, r *Report) error {
	p, err := newPage(r)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	if err := templates().ExecuteTemplate(&out, "report", p); err != nil {
		return fmt.Errorf("render: %s: %w", r.File, err)
	}
	_, err = w.Write(out.Bytes())
	return err
}

// A page is a report being written, piece by piece.
type page struct {
	*Report
	pieces          []Piece
	body            rowWriter // the piece that is being written
	headings        outline
	figures, tables int             // so far, for their numbers
	shown           map[string]bool // images that stand on the page
}

// drawAhead begins to draw all figures of a report, as many at a time as there
// are processors: they take longer than the rest of the page.
func drawAhead(r *Report) {
	for _, c := range r.Cells {
		if c == nil {
			continue
		}
		for _, part := range c.Parts {
			if f, ok := part.(*FigurePart); ok {
				go f.picture()
			}
		}
	}
}

// Style is the stylesheet.
func (p *page) Style() template.CSS {
	if p.Study != nil {
		return template.CSS(style + studyStyle)
	}
	return template.CSS(style)
}

// WindowTitle names the page for the browser.
func (p *page) WindowTitle() string {
	return tame(strings.TrimSpace(p.Title.Number + " " + p.Name()))
}

// PageStyle is the running head and foot of the printed pages.
func (p *page) PageStyle() template.CSS {
	number := p.Title.Number
	if p.Title.Revision != "" {
		number = strings.TrimSpace(number + "  revision " + p.Title.Revision)
	}
	return template.CSS(fmt.Sprintf("@page{@top-left{content:%s}@top-right{content:%s}@bottom-left{content:%s}}",
		cssString(p.Name()), cssString(number), cssString(p.State)))
}

// Name is the report's title, or its file's name when it has none.
func (p *page) Name() string {
	if p.Title.Title != "" {
		return p.Title.Title
	}
	return p.File
}

// cssString quotes s for a stylesheet inside HTML: all but letters, digits and
// spaces becomes an escape.
func cssString(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range oneLine(s) {
		if r == ' ' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, `\%06x `, r) // the space ends the escape
		}
	}
	b.WriteByte('"')
	return b.String()
}

// lines names lines of the notebook, such as "line 12".
func lines(first, last int) string {
	switch {
	case first <= 0:
		return ""
	case last <= first:
		return fmt.Sprintf("line %d", first)
	}
	return fmt.Sprintf("lines %d to %d", first, last)
}

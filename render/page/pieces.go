package page

import (
	"fmt"
	"html/template"
	"strings"

	"tautline/render/report"
	"tautline/runner/document"
)

// A Piece is a part of a report's page that stands by itself: some whole HTML
// elements. The page is its pieces in order, each slot in an element of its own.
type Piece struct {
	Slot string // "top", "lead", "body", "rest" or "foot"
	Cell int    // whose place it is; -1 when it is no cell's
	HTML string
}

// A Page is a report in pieces, for who shows it in a frame of his own and
// replaces only what changed.
type Page struct {
	Title  string // of the window
	Pieces []Piece
}

// Style is the stylesheet of every report.
func Style() string { return style }

// StudyStyle is the stylesheet of reports and of studies.
func StudyStyle() string { return style + studyStyle }

// Pieces writes r as HTML does, but in pieces.
func Pieces(r *report.Report) (*Page, error) {
	p, err := newPage(r)
	if err != nil {
		return nil, err
	}
	return &Page{Title: p.WindowTitle(), Pieces: p.pieces}, nil
}

// Finding is one diagnostic as it stands in the report of a notebook with this
// text.
func Finding(d document.Diagnostic, text []byte) (string, error) {
	var b strings.Builder
	err := templates().ExecuteTemplate(&b, "fault", finding{d, text})
	return Tame(b.String()), err
}

// newPage writes the pieces of a report.
func newPage(r *report.Report) (*page, error) {
	p := &page{Report: r}
	p.headings.base = shallowest(r.Blocks)
	drawAhead(r)
	if err := p.write(); err != nil {
		return nil, fmt.Errorf("render: %s: %w", r.File, err)
	}
	return p, nil
}

func (p *page) write() error {
	sections := []struct {
		slot, template string
		shown          bool
		data           func() any
	}{
		{"top", "titleblock", true, func() any { return p }},
		{"lead", "verdict", true, func() any { return p.Verdict }},
		{"lead", "findings", len(p.Report.Findings) > 0, func() any { return p.Findings() }},
		{"lead", "checks", len(p.Checks) > 0, func() any { return p.Checks }},
		{"lead", "givens", len(p.Givens) > 0, func() any { return p.Givens }},
		{"lead", "cautions", true, func() any { return p.Cautions }},
		{"body", "", true, nil},
		{"rest", "studysection", p.Study != nil, func() any { return p.StudySection() }},
		{"rest", "trials", len(p.Trials) > 0, func() any { return p.Trials }},
		{"rest", "revisions", p.Standing != nil && len(p.Standing.Revisions) > 0, func() any { return p.Standing.Revisions }},
		{"rest", "files", len(p.Files) > 0, func() any { return p.Files }},
		{"rest", "sources", len(p.Sources) > 0, func() any { return p.Sources }},
		{"foot", "identity", true, func() any { return p.Identity }},
	}
	for _, s := range sections {
		switch {
		case s.slot == "body":
			for _, b := range p.Blocks {
				cell := -1
				if c, ok := b.(*document.Cell); ok {
					cell = c.Index
				}
				if err := p.block(b); err != nil {
					return err
				}
				p.end(s.slot, cell)
			}
		case s.shown:
			if err := p.template(s.template, s.data()); err != nil {
				return err
			}
			p.end(s.slot, -1)
		}
	}
	return nil
}

// end ends the piece that is being written, unless it is empty.
func (p *page) end(slot string, cell int) {
	if p.body.Len() > 0 {
		p.pieces = append(p.pieces, Piece{slot, cell, Tame(p.body.String())})
		p.body.Reset()
	}
}

// In is all pieces of a slot.
func (p *page) In(slot string) template.HTML {
	var b strings.Builder
	for _, piece := range p.pieces {
		if piece.Slot == slot {
			b.WriteString(piece.HTML)
		}
	}
	return template.HTML(b.String())
}

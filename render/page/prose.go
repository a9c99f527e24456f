package page

import (
	"fmt"
	"html"
	"strings"

	"tautline/render/tex"
	"tautline/runner/document"
)

// blocks writes a run of blocks to the body.
func (p *page) blocks(blocks []document.Block) error {
	for _, b := range blocks {
		if err := p.block(b); err != nil {
			return err
		}
	}
	return nil
}

func (p *page) block(b document.Block) error {
	switch b := b.(type) {
	case *document.Heading:
		level := p.headings.level(b.Level)
		return p.put(fmt.Sprintf(`<h%d id="%s">`, level, html.EscapeString(b.ID)), b.Text, fmt.Sprintf("</h%d>\n", level))
	case *document.Paragraph:
		return p.put("<p>", b.Text, "</p>\n")
	case *document.List:
		return p.list(b)
	case *document.Quote:
		p.body.WriteString("<blockquote>\n")
		if err := p.blocks(b.Blocks); err != nil {
			return err
		}
		p.body.WriteString("</blockquote>\n")
	case *document.Code:
		p.body.WriteString(`<pre class="listing" tabindex="0"><code>` + html.EscapeString(b.Text) + "</code></pre>\n")
	case *document.Cell:
		return p.cell(b)
	case *document.Table:
		return p.proseTable(b)
	case *document.Math:
		p.body.WriteString(`<div class="display" tabindex="0" role="group" aria-label="Formula">` + formula(b.TeX, true) + "</div>\n")
	case *document.Rule:
		p.body.WriteString("<hr/>\n")
	default:
		return fmt.Errorf("block: got %T, want one of the document's blocks", b)
	}
	return nil
}

// put writes running text between two tags.
func (p *page) put(open string, text []document.Inline, end string) error {
	s, err := p.inlines(text)
	if err != nil {
		return err
	}
	p.body.WriteString(open + s + end)
	return nil
}

func (p *page) list(l *document.List) error {
	open, end := "<ul>\n", "</ul>\n"
	if l.Ordered {
		open, end = "<ol>\n", "</ol>\n"
		if l.Start != 1 {
			open = fmt.Sprintf("<ol start=\"%d\">\n", l.Start)
		}
	}
	p.body.WriteString(open)
	for _, item := range l.Items {
		p.body.WriteString("<li>")
		for _, b := range item {
			var err error
			if text, ok := b.(*document.Paragraph); ok && l.Tight {
				err = p.put(`<p class="tight">`, text.Text, "</p>\n")
			} else {
				err = p.block(b)
			}
			if err != nil {
				return err
			}
		}
		p.body.WriteString("</li>\n")
	}
	p.body.WriteString(end)
	return nil
}

func (p *page) proseTable(t *document.Table) error {
	p.body.WriteString(`<div class="scroll" tabindex="0" role="group" aria-label="Table"><table class="plain"><thead><tr>`)
	for i, head := range t.Header {
		if err := p.put(`<th scope="col"`+align(t, i)+">", head, "</th>"); err != nil {
			return err
		}
	}
	p.body.WriteString("</tr></thead>\n<tbody>\n")
	for _, row := range t.Rows {
		p.body.WriteString("<tr>")
		for i, cell := range row {
			if err := p.put("<td"+align(t, i)+">", cell, "</td>"); err != nil {
				return err
			}
		}
		p.body.WriteString("</tr>\n")
	}
	p.body.WriteString("</tbody></table></div>\n")
	return nil
}

func align(t *document.Table, column int) string {
	if column < len(t.Align) {
		switch t.Align[column] {
		case document.AlignCenter:
			return ` class="center"`
		case document.AlignRight:
			return ` class="right"`
		}
	}
	return ""
}

// inlines returns running text as HTML.
func (p *page) inlines(text []document.Inline) (string, error) {
	var b strings.Builder
	for _, t := range text {
		s, err := p.inline(t)
		if err != nil {
			return "", err
		}
		b.WriteString(s)
	}
	return b.String(), nil
}

func (p *page) inline(t document.Inline) (string, error) {
	switch t := t.(type) {
	case document.Text:
		return html.EscapeString(string(t)), nil
	case document.Emphasis:
		return p.around("<em>", t, "</em>")
	case document.Strong:
		return p.around("<strong>", t, "</strong>")
	case document.Strike:
		return p.around("<s>", t, "</s>")
	case document.CodeSpan:
		return "<code>" + html.EscapeString(string(t)) + "</code>", nil
	case document.Link:
		if !linkable(t.To) {
			return p.around("", t.Text, "")
		}
		return p.around(`<a href="`+html.EscapeString(t.To)+`" rel="noreferrer">`, t.Text, "</a>")
	case document.Image:
		return p.image(t), nil
	case document.InlineMath:
		return formula(string(t), false), nil
	case document.Break:
		return "<br/>\n", nil
	}
	return "", fmt.Errorf("inline: got %T, want one of the document's inlines", t)
}

func (p *page) around(open string, text []document.Inline, end string) (string, error) {
	s, err := p.inlines(text)
	return open + s + end, err
}

// linkable reports whether an address leads where a report may lead.
func linkable(to string) bool {
	if strings.HasPrefix(to, "#") {
		return true
	}
	scheme, _, ok := strings.Cut(to, ":")
	switch strings.ToLower(scheme) {
	case "http", "https", "mailto":
		return ok
	}
	return false
}

// formula returns TeX as MathML, or as it stands when it cannot be read.
func formula(source string, display bool) string {
	s, err := tex.MathML(source, display)
	if err != nil {
		return `<code class="unread">` + html.EscapeString(source) + `</code> <span class="caveat">(formula not read: ` +
			html.EscapeString(err.Error()) + ")</span>"
	}
	return s
}

// An outline turns the levels of a notebook's headings into those of the page,
// where they stand under the title: the shallowest is level 2, and none is
// skipped on the way down.
type outline struct{ base, last int }

func (o *outline) level(level int) int {
	if o.last == 0 {
		o.last = 1
	}
	o.last = min(max(level-o.base+2, 2), o.last+1, 6)
	return o.last
}

// shallowest is the lowest level of the headings among blocks.
func shallowest(blocks []document.Block) int {
	level := 6
	document.Walk(blocks, func(b document.Block) {
		if h, ok := b.(*document.Heading); ok {
			level = min(level, h.Level)
		}
	})
	return level
}

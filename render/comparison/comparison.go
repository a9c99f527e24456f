// Package comparison writes in what two states of a notebook differ.
package comparison

import (
	"bytes"
	_ "embed" // the page's layout
	"fmt"
	"html/template"
	"io"
	"sync"

	"tautline/render/page"
)

//go:embed comparison.html.tmpl
var layoutOfComparison string

var pages = sync.OnceValue(func() *template.Template { return page.Parse(layoutOfComparison) })

// A Comparison says in what two states of a notebook differ.
type Comparison struct {
	Title    string
	Was, Now string // which states
	Causes   []string
	Lines    []Line // of the notebook, the first that differ
	Groups   []Group
	Tool     string
}

type (
	// Line is a line of the notebook.
	Line struct {
		Number   int
		Was, Now string
	}
	// Group is things of one kind that came out otherwise.
	Group struct {
		Name string
		Rows []Row
	}
	// Row is one thing that came out otherwise.
	Row struct {
		What     string
		Line     int // in the later notebook
		Was, Now string
		Share    string // by how much of itself a number moved
		Crossed  bool   // a check that holds now and did not, or the reverse
		Why      string
	}
)

// Crossed counts the checks that crossed their limits.
func (c *Comparison) Crossed() (n int) {
	for _, g := range c.Groups {
		for _, r := range g.Rows {
			if r.Crossed {
				n++
			}
		}
	}
	return n
}

// Sentence is the comparison in words.
func (c *Comparison) Sentence() string {
	n := 0
	for _, g := range c.Groups {
		n += len(g.Rows)
	}
	if n == 0 {
		return "Nothing came out otherwise."
	}
	text := fmt.Sprintf("%d %s came out otherwise", n, map[bool]string{true: "thing", false: "things"}[n == 1])
	if k := c.Crossed(); k > 0 {
		return fmt.Sprintf("%s, %d %s its limit or came back.", text, k, map[bool]string{true: "check or trial crossed", false: "checks or trials crossed"}[k == 1])
	}
	return text + "; no check crossed its limit."
}

// HTML writes c as one file that needs nothing else. The same
// comparison gives the same bytes. Nothing is written when it fails.
func HTML(w io.Writer, c *Comparison) error {
	var out bytes.Buffer
	if err := pages().ExecuteTemplate(&out, "comparison", c); err != nil {
		return fmt.Errorf("render: comparison of %s: %w", c.Title, err)
	}
	_, err := io.WriteString(w, page.Tame(out.String()))
	return err
}

// Style is the stylesheet of reports and of studies.
func (*Comparison) Style() template.CSS { return template.CSS(page.StudyStyle()) }

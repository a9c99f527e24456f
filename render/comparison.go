package render

import (
	"bytes"
	_ "embed" // the page's layout
	"fmt"
	"html/template"
	"io"
)

//go:embed comparison.html.tmpl
var comparisonLayout string

// A Comparison says in what two states of a notebook differ.
type Comparison struct {
	Title    string
	Was, Now string // which states
	Causes   []string
	Lines    []ComparedLine // of the notebook, the first that differ
	Groups   []ComparedGroup
	Tool     string
}

type (
	// ComparedLine is a line of the notebook.
	ComparedLine struct {
		Number   int
		Was, Now string
	}
	// ComparedGroup is things of one kind that came out otherwise.
	ComparedGroup struct {
		Name string
		Rows []ComparedRow
	}
	// ComparedRow is one thing that came out otherwise.
	ComparedRow struct {
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

// ComparisonHTML writes c as one file that needs nothing else. The same
// comparison gives the same bytes. Nothing is written when it fails.
func ComparisonHTML(w io.Writer, c *Comparison) error {
	var out bytes.Buffer
	if err := templates().ExecuteTemplate(&out, "comparison", c); err != nil {
		return fmt.Errorf("render: comparison of %s: %w", c.Title, err)
	}
	_, err := io.WriteString(w, tame(out.String()))
	return err
}

// Style is the stylesheet of reports and of studies.
func (*Comparison) Style() template.CSS { return template.CSS(style + studyStyle) }

package cutting

import (
	"encoding/csv"
	"fmt"
	"html"
	"strings"

	"tautline/stdlib/fabric/pattern"
)

// A list is a table for the shop.
type list struct {
	title  string
	before []string // what must be known before work begins
	heads  []string
	rows   [][]string
}

// csv is the list by RFC 4180.
func (l list) csv() string {
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	w.Write(l.heads)
	w.WriteAll(l.rows) // a strings.Builder takes every byte
	return b.String()
}

// html is the list as a page that prints.
func (l list) html() string {
	var b strings.Builder
	title := html.EscapeString(l.title)
	fmt.Fprintf(&b, `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>%s</title>
<style>
body { font: 1rem/1.4 sans-serif; margin: 2rem; }
table { border-collapse: collapse; }
th, td { border: 1px solid #767676; padding: 0.25rem 0.5rem; text-align: left; vertical-align: top; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
</style>
</head>
<body>
<h1>%s</h1>
`, title, title)
	for _, words := range l.before {
		fmt.Fprintf(&b, "<p>%s</p>\n", html.EscapeString(words))
	}
	b.WriteString("<table>\n<thead><tr>")
	for _, h := range l.heads {
		fmt.Fprintf(&b, `<th scope="col">%s</th>`, html.EscapeString(h))
	}
	b.WriteString("</tr></thead>\n<tbody>\n")
	for _, row := range l.rows {
		b.WriteString("<tr>")
		for _, cell := range row {
			fmt.Fprintf(&b, "<td>%s</td>", html.EscapeString(cell))
		}
		b.WriteString("</tr>\n")
	}
	b.WriteString("</tbody>\n</table>\n</body>\n</html>\n")
	return b.String()
}

// pieces lists what is cut.
func pieces(p pattern.Pattern) (list, error) {
	l := list{
		title:  "Pieces to cut",
		before: []string{"Measure the 100 mm square of the drawing before cutting, and cut and sew a trial piece before the roll. Sizes are those of the cut line, with its allowances."},
		heads:  []string{"piece", "copies", "width mm", "height mm", "within the seams m2", "cut m2", "warp from x, degrees", "openings", "holes", "notches"},
	}
	if err := p.Check(); err != nil {
		return l, err
	}
	for _, piece := range p.Pieces {
		outline, _, err := piece.CutLine()
		if err != nil {
			return l, err
		}
		low, high := outline.Bounds()
		var openings, holes []string
		for _, o := range piece.Openings {
			openings = append(openings, fmt.Sprintf("%s, %.1f mm round", some(o.Name, o.Only, 0), o.Length()*1e3))
		}
		for _, d := range piece.Drills {
			holes = append(holes, fmt.Sprintf("%s, %.1f mm", some(d.Name, d.Only, 0), d.Diameter*1e3))
		}
		l.rows = append(l.rows, []string{
			piece.Name, fmt.Sprintf("%g", piece.Count), millimetres(high.X - low.X), millimetres(high.Y - low.Y),
			fmt.Sprintf("%.4f", piece.Area()), fmt.Sprintf("%.4f", outline.Area()), fmt.Sprintf("%.1f", degrees(piece.Grain)),
			strings.Join(openings, "; "), strings.Join(holes, "; "), fmt.Sprintf("%d", len(piece.Notches)),
		})
	}
	return l, nil
}

// ListCSV is the list of pieces, one a row, comma separated (RFC 4180).
//
// A pattern that cannot be cut is an error.
func ListCSV(p pattern.Pattern) (string, error) {
	l, err := pieces(p)
	if err != nil {
		return "", err
	}
	return l.csv(), nil
}

// ListHTML is the list of pieces as a page that prints.
//
// A pattern that cannot be cut is an error.
func ListHTML(p pattern.Pattern) (string, error) {
	l, err := pieces(p)
	if err != nil {
		return "", err
	}
	return l.html(), nil
}

// Package graph draws what the names and checks of a notebook rest on.
package graph

import (
	"cmp"
	"fmt"
	"html"
	"slices"
	"strings"
	"unicode/utf8"

	"tautline/runner/check/graph"
)

// A graph is drawn in columns: what rests on nothing at the left, a name right
// of all that it reads. Within a column each node stands near the mean of what
// it reads, so that few lines cross.

// Sizes of the drawing, in px.
const (
	graphLetter = 7.2 // width of a letter, about
	graphRow    = 26
	graphBox    = 19
	graphGap    = 64 // between columns, for the lines
	graphMargin = 16
)

type graphNode struct {
	*graph.Node
	column     int
	x, y       float64 // of the middle of the left side
	width      float64
	barycentre float64
}

// SVG draws what the names and checks of a notebook rest on, as an SVG file
// of its own. The same graph gives the same bytes.
func SVG(g *graph.Graph) []byte {
	nodes, columns := layers(g)
	order(columns, nodes)
	width, height := place(columns)
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %.0f %.0f" width="%[1]g" height="%[2]g" role="img" aria-label="What each value and check rests on">`+"\n", width, height)
	b.WriteString(graphStyle)
	for _, n := range g.Nodes {
		to := nodes[n]
		for _, u := range n.Uses {
			from := nodes[u]
			x1, x2 := from.x+from.width, to.x
			bend := max((x2-x1)/2, 12)
			fmt.Fprintf(&b, `<path d="M%.1f %.1fC%.1f %.1f %.1f %.1f %.1f %.1f"/>`+"\n", x1, from.y, x1+bend, from.y, x2-bend, to.y, x2, to.y)
		}
	}
	for _, n := range g.Nodes {
		p := nodes[n]
		fmt.Fprintf(&b, `<g class="%s"><rect x="%.1f" y="%.1f" width="%.1f" height="%d" rx="2"/><text x="%.1f" y="%.1f">%s</text></g>`+"\n",
			graphClass[n.Kind], p.x, p.y-graphBox/2, p.width, graphBox, p.x+6, p.y+4, html.EscapeString(n.Label))
	}
	b.WriteString("</svg>\n")
	return []byte(b.String())
}

var graphClass = map[graph.Kind]string{graph.Given: "given", graph.Value: "value", graph.Check: "check"}

const graphStyle = `<style>
svg { font: 12px system-ui, sans-serif; background: #fffffb; }
path { fill: none; stroke: #b9b5a8; }
rect { fill: #fffffb; stroke: #8a877c; }
text { fill: #1b1d20; }
.given rect { stroke-dasharray: 3 2; }
.check rect { stroke: #0b5475; stroke-width: 2; }
.check text { font-weight: 600; }
@media (prefers-color-scheme: dark) {
svg, rect { background: #15181c; fill: #15181c; }
path { stroke: #4c5157; }
text { fill: #eceae4; }
.check rect { stroke: #8cc8e6; }
}
</style>
`

// layers puts each node in the column after the last of what it reads.
func layers(g *graph.Graph) (map[*graph.Node]*graphNode, [][]*graphNode) {
	nodes := map[*graph.Node]*graphNode{}
	var columns [][]*graphNode
	for _, n := range g.Nodes { // in the order of the source, so what it reads stands before
		p := &graphNode{Node: n, width: graphLetter*float64(utf8.RuneCountInString(n.Label)) + 12}
		for _, u := range n.Uses {
			if from := nodes[u]; from != nil {
				p.column = max(p.column, from.column+1)
			}
		}
		nodes[n] = p
		for len(columns) <= p.column {
			columns = append(columns, nil)
		}
		columns[p.column] = append(columns[p.column], p)
	}
	return nodes, columns
}

// order sorts each column by the mean row of what its nodes read, a few times
// over.
func order(columns [][]*graphNode, nodes map[*graph.Node]*graphNode) {
	row := map[*graph.Node]float64{}
	for _, column := range columns {
		for i, p := range column {
			row[p.Node] = float64(i)
		}
	}
	for range 4 {
		for _, column := range columns[min(1, len(columns)):] {
			for _, p := range column {
				p.barycentre = 0
				for _, u := range p.Uses {
					p.barycentre += row[u] / float64(len(p.Uses))
				}
			}
			slices.SortStableFunc(column, func(a, b *graphNode) int { return cmp.Compare(a.barycentre, b.barycentre) })
			for i, p := range column {
				row[p.Node] = float64(i)
			}
		}
	}
}

// place gives each node its position and returns the size of the drawing.
func place(columns [][]*graphNode) (width, height float64) {
	tallest := 0
	for _, column := range columns {
		tallest = max(tallest, len(column))
	}
	height = float64(tallest*graphRow) + 2*graphMargin
	x := float64(graphMargin)
	for _, column := range columns {
		widest := 0.0
		top := (height - float64(len(column)*graphRow)) / 2
		for i, p := range column {
			p.x, p.y = x, top+(float64(i)+0.5)*graphRow
			widest = max(widest, p.width)
		}
		x += widest + graphGap
	}
	return x - graphGap + graphMargin, height
}

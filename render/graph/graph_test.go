package graph

import (
	"bytes"
	"encoding/xml"
	"io"
	"regexp"
	"strconv"
	"testing"

	"tautline/runner/check/graph"
)

// A drawn graph is well-formed, escapes its labels and has each name right of
// what it reads.
func TestGraphSVG(t *testing.T) {
	a := &graph.Node{Label: "a", Kind: graph.Given}
	b := &graph.Node{Label: "b<&>", Uses: []*graph.Node{a}}
	c := &graph.Node{Label: "holds", Kind: graph.Check, Uses: []*graph.Node{a, b}}
	svg := SVG(&graph.Graph{Nodes: []*graph.Node{a, b, c}})
	if !bytes.Equal(svg, SVG(&graph.Graph{Nodes: []*graph.Node{a, b, c}})) {
		t.Error("the same graph gave other bytes")
	}
	for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	last := -1.0
	boxes := regexp.MustCompile(`<rect x="([0-9.]+)"`).FindAllSubmatch(svg, -1)
	for _, box := range boxes {
		x, _ := strconv.ParseFloat(string(box[1]), 64)
		if x <= last {
			t.Errorf("box at %g: want it right of %g", x, last)
		}
		last = x
	}
	if lines := bytes.Count(svg, []byte("<path")); len(boxes) != 3 || lines != 3 {
		t.Errorf("got %d boxes and %d lines, want 3 and 3", len(boxes), lines)
	}
	if empty := SVG(&graph.Graph{}); !bytes.Contains(empty, []byte("</svg>")) {
		t.Errorf("an empty graph: got %s", empty)
	}
}

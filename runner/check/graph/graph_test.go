package graph_test

import (
	"testing"

	"tautline/runner/check"
	"tautline/runner/document"
)

// What each name and check rests on, read off the source by hand.
func TestGraph(t *testing.T) {
	const source = "---\ntitle: T\n---\n\n```go\n" + `
a := 2 * units.M
b := 3 * units.M
c := 1.5
area := a * b
func scaled(x units.Area) units.Area { return c * x }
big := scaled(area)
list := make([]units.Length, 0)
other := make([]units.Length, 0)
for k := range 3 {
	step := a * float64(k)
	if b > 0 {
		list = append(list, step)
	}
	other = append(other, b)
}
` + "```\n\n```go\n" + `
sheet.AtMost("area", big, 10*a*a)
sheet.Holds("always", list[0] == 0)
` + "```\n"
	nb, diags := document.Parse("t.md", []byte(source))
	plan, more := check.Check(nb)
	for _, d := range append(diags, more...) {
		t.Fatal(d.Format(nb.Source, false))
	}
	const want = `given  a
given  b
given  c
value  area  from a, b
value  big  from c, area  rests on a, b, c
value  list  from a, b
value  other  from b
check  area  from a, big  rests on a, b, c
check  always  from list  rests on a, b
`
	if got := plan.Graph().Text(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

package content

import (
	"math"
	"os"
	"strings"
	"testing"

	"tautline/runner"
	"tautline/runner/engine"
	"tautline/runner/library"
)

func TestMain(m *testing.M) {
	engine.Main()
	os.Exit(m.Run())
}

// contentOf runs cells and gathers what came of them.
func contentOf(t *testing.T, cells string) *Content {
	t.Helper()
	res := runner.CheckText("n.md", []byte("---\ntitle: T\n---\n\n```go\n"+cells+"\n```\n"))
	worker := engine.Start(engine.Limits{})
	defer worker.Close()
	res.Run(t.Context(), worker)
	for _, d := range res.Diagnostics() {
		t.Logf("%s", d.Message)
	}
	c, err := Of(res, Tool{Program: "tautline test", Go: "Go", Platform: "here", Library: "library"})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

const cells = `p := 1.5 * units.KPa
rs := []units.Length{300 * units.Mm, 350 * units.Mm}
N := fabric.HoopTension(p, rs[1])
T := 2 * N
type part struct {
	Name string
	Size units.Length
}
parts := []part{{"a", rs[0]}, {"b", rs[1]}}
by := map[string]units.Length{"x": rs[0]}
n := 3
none := math.NaN() * p
zero := math.Copysign(0, -1) * p
far := math.Inf(1) * p
word := "seam"
yes := N > 1*units.N/units.M
sheet.AtMost("seam", N, 0.6*units.KN/units.M, "invented")
tab := sheet.NewTable("Radii")
tab.Column("radius", rs)`

// What a notebook gave is written exactly: every number reads back to the last
// bit, with its dimension and what it comes from.
func TestOf(t *testing.T) {
	c := contentOf(t, cells)
	got := map[string]Value{}
	calls := map[string]string{}
	for _, n := range c.Names {
		calls[n.Name] = strings.Join(n.Calls, " ") + " < " + strings.Join(n.Uses, " ")
		for _, v := range n.Values {
			got[v.Path] = v
		}
	}
	// 350*units.Mm is the product of 350 and the float64 nearest to 0.001.
	const pressure, length, line = "kg·m⁻¹·s⁻²", "m", "kg·s⁻²"
	for path, want := range map[string]Value{
		"p":            {Dimension: pressure, Alias: "Pressure", Number: "1500"},
		"rs":           {Dimension: length, Alias: "Length", List: "0.3 0.35000000000000003"},
		"N":            {Dimension: line, Alias: "ForcePerLength", Number: "525"},
		"parts[].Name": {Text: `"a" "b"`},
		"parts[].Size": {Dimension: length, Alias: "Length", List: "0.3 0.35000000000000003"},
		"n":            {Dimension: "1", Number: "3"},
		"none":         {Dimension: pressure, Number: "NaN"},
		"zero":         {Dimension: pressure, Number: "-0"},
		"far":          {Dimension: pressure, Number: "+Inf"},
		"word":         {Text: `"seam"`},
		"yes":          {Text: "true"},
	} {
		want.Path = path
		v := got[path]
		if want.Alias == "" {
			v.Alias = ""
		}
		if v != want {
			t.Errorf("%s: got %+v, want %+v", path, v, want)
		}
	}
	if v := got[`by["x"]`]; v.Number != "0.3" {
		t.Errorf(`by["x"]: got %+v in %+v`, v, got)
	}
	if calls["N"] != "fabric.HoopTension < p rs" || calls["T"] != " < N" {
		t.Errorf("N and T come from %q and %q", calls["N"], calls["T"])
	}
	if k := c.Checks[0]; k.Demand != "525" || k.High != "600" || k.Utilisation != "0.875" || !k.Holds || k.Dimension != line || k.Source != "invented" {
		t.Errorf("check: got %+v", k)
	}
	if len(c.Shown) != 1 || c.Shown[0].Kind != "table" || c.Tool.Functions["fabric.HoopTension"] == "" || c.Tool.Functions["units.KPa"] == "" {
		t.Errorf("got %+v, %+v", c.Shown, c.Tool.Functions)
	}
	for path, v := range got {
		if v.Dimension == Unknown {
			t.Errorf("%s: got an unknown dimension", path)
		}
	}
}

// Two runs of one notebook have the same content. One of another notebook says
// what moved and why, a name that rests on another being no cause of its own.
func TestCompare(t *testing.T) {
	was := contentOf(t, cells)
	if d := Compare(was, contentOf(t, cells)); d.Moved() || !d.Exact || d.Close != 0 {
		t.Errorf("the same again: got %+v", d)
	}
	d := Compare(was, contentOf(t, strings.Replace(cells, "350 *", "450 *", 1)))
	var said []string
	for _, m := range d.Moves {
		said = append(said, m.Say())
	}
	got := strings.Join(said, "\n")
	want := `rs[1]: 450 mm, was 350 mm, +28.6 % (the notebook was changed)
N: 675 N/m, was 525 N/m, +28.6 % (it rests on rs)
T: 1.35 kN/m, was 1.05 kN/m, +28.6 % (it rests on N)
parts[1].Size: 450 mm, was 350 mm, +28.6 % (it rests on rs)
CROSSED: seam: fails, 112.5 %, 675 N/m at most 600 N/m; was: holds, 87.5 %, 525 N/m at most 600 N/m
table: Radii looks otherwise`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if len(d.Lines) != 1 || d.Lines[0].Number != 7 {
		t.Errorf("lines: got %+v, want line 7", d.Lines)
	}
	d = Compare(was, contentOf(t, strings.Replace(cells, "n := 3", "m := 4.0", 1)))
	if len(d.Moves) != 2 || d.Moves[0].Say() != "m is new (the notebook was changed)" || d.Moves[1].Say() != "n is gone (the notebook was changed)" {
		t.Errorf("a name for another: got %+v", d.Moves)
	}
}

// The same program on the same platform must give every bit again; another may
// differ by the tolerance. What the library changed is the cause.
func TestTolerance(t *testing.T) {
	was := contentOf(t, cells)
	for _, c := range []struct {
		factor   float64
		platform string
		moved    bool
	}{
		{1, "here", false},
		{1 + 2e-16, "here", true},
		{1 + 2e-16, "there", false},
		{1 + 0.9e-9, "there", false},
		{1 + 1.1e-9, "there", true},
		{1 - 1.1e-9, "there", true},
		{math.NaN(), "there", true},
		{-1, "there", true},
	} {
		now := contentOf(t, cells)
		now.Tool.Platform = c.platform
		for i := range now.Names {
			if n := &now.Names[i]; n.Name == "N" {
				n.Values[0].Number = exact(525 * c.factor)
			}
		}
		d := Compare(was, now)
		if d.Moved() != c.moved {
			t.Errorf("525 N/m times %v, %s: got %+v, want moved %v", c.factor, c.platform, d.Moves, c.moved)
		}
		if c.moved && c.platform == "there" && !strings.Contains(d.Moves[0].Why, "platform: there, was here") {
			t.Errorf("why: got %q", d.Moves[0].Why)
		}
	}
	now := contentOf(t, cells)
	now.Tool.Functions["fabric.HoopTension"] = "another"
	now.Names[2].Values[0].Number = "600"
	now.Names[3].Values[0].Number = "1200"
	d := Compare(was, now)
	if len(d.Moves) != 2 || !strings.HasPrefix(d.Moves[0].Why, "fabric.HoopTension or what it rests on was changed") || d.Moves[1].Why != "it rests on N" {
		t.Errorf("a library that changed: got %+v", d.Moves)
	}
	// What is left of a sum, and only that little, that comes to zero is nothing, elsewhere.
	residual := contentOf(t, cells+"\nrest := (0.1 + 0.2 - 0.3) * p")
	other := contentOf(t, cells+"\nrest := (0.1 + 0.2 - 0.3) * p")
	other.Tool.Platform = "there"
	last := &other.Names[len(other.Names)-1]
	for i := range other.Names {
		if other.Names[i].Name == "rest" {
			last = &other.Names[i]
		}
	}
	last.Values[0].Number = "-7e-14"
	if d := Compare(residual, other); d.Moved() || d.Close != 1 {
		t.Errorf("a residual: got %+v, %d close", d.Moves, d.Close)
	}
	last.Values[0].Number = "2e-9"
	if d := Compare(residual, other); !d.Moved() {
		t.Error("what is no residual: got nothing, want a move")
	}
}

// The list of changes tells what came after a record was signed, of the functions
// that it uses and no others.
func TestFunctionChanges(t *testing.T) {
	was := &Tool{Changes: 1, Functions: map[string]string{"a.Same": "1", "a.Told": "1", "a.Untold": "1", "a.Gone": "1"}}
	now := map[string]string{"a.Same": "1", "a.Told": "2", "a.Untold": "2"}
	list := []library.Change{{Number: 1, Functions: []string{"a.Told"}, What: "before"}, {Number: 2, Functions: []string{"a.Other", "a.Told"}, What: "forces fall"},
		{Number: 3, Functions: []string{"a.Other"}, What: "no matter"}, {Number: 4, Functions: []string{"a.Told"}, What: "and rise again"}}
	var said []string
	for _, f := range functionChanges(was, func(name string) (string, bool) { d, ok := now[name]; return d, ok }, list, false) {
		said = append(said, f.Say())
	}
	want := "a.Gone is no more\na.Told gives other results: forces fall; and rise again\na.Untold or what it rests on was changed; the list of changes names no other results"
	if got := strings.Join(said, "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

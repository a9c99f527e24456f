package sheet

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Utilisation is at most 1 exactly when a check holds, or there is none. The
// table is worked by hand from the definitions in the comments.
func TestChecks(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name  string
		put   func(*Sheet)
		holds bool
		share float64
	}{
		{"at most, half", func(s *Sheet) { s.AtMost("x", 2, 4) }, true, 0.5},
		{"at most, just", func(s *Sheet) { s.AtMost("x", 4, 4) }, true, 1},
		{"at most, over", func(s *Sheet) { s.AtMost("x", 5, 4) }, false, 1.25},
		{"at most, nothing used", func(s *Sheet) { s.AtMost("x", 0, 4) }, true, 0},
		{"at most, no capacity", func(s *Sheet) { s.AtMost("x", 1, 0) }, false, inf},
		{"at most, below zero", func(s *Sheet) { s.AtMost("x", -1, 4) }, true, nan},
		{"at most, not a number", func(s *Sheet) { s.AtMost("x", nan, 4) }, false, nan},
		{"at least, enough", func(s *Sheet) { s.AtLeast("x", 8, 6) }, true, 0.75},
		{"at least, short", func(s *Sheet) { s.AtLeast("x", 4, 6) }, false, 1.5},
		{"at least, nothing asked", func(s *Sheet) { s.AtLeast("x", 4, 0) }, true, 0},
		{"within, middle", func(s *Sheet) { s.Within("x", 5, 0, 10) }, true, 0},
		{"within, edge", func(s *Sheet) { s.Within("x", 10, 0, 10) }, true, 1},
		{"within, outside", func(s *Sheet) { s.Within("x", 15, 0, 10) }, false, 2},
		{"holds", func(s *Sheet) { s.Holds("x", true) }, true, nan},
		{"does not hold", func(s *Sheet) { s.Holds("x", false) }, false, nan},
	} {
		var s Sheet
		c.put(&s)
		got := s.Entries[0].Check
		u := float64(got.Utilisation)
		if got.Holds != c.holds || u != c.share && !(math.IsNaN(u) && math.IsNaN(c.share)) {
			t.Errorf("%s: got holds %v, utilisation %v, want %v, %v", c.name, got.Holds, u, c.holds, c.share)
		}
	}
}

// A check says that it holds just when its utilisation, if it has one, is at
// most 1.
func TestHoldsIsUtilisation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(0, 1e6).Draw(t, "a"), rapid.Float64Range(1e-6, 1e6).Draw(t, "b")
		var s Sheet
		s.AtMost("x", a, b)
		s.AtLeast("x", b, a)
		for _, e := range s.Entries {
			if e.Check.Holds != (e.Check.Utilisation <= 1) {
				t.Errorf("%s of %g and %g: holds %v at %v", e.Check.Rule, a, b, e.Check.Holds, e.Check.Utilisation)
			}
		}
	})
}

// What JSON carries between the processes is the same number, bit for bit.
func TestFloatJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64().Draw(t, "v")
		in := Value{Kind: KindNumber, Number: Float(v)}
		text, err := json.Marshal(in)
		if err != nil {
			t.Fatal(err)
		}
		var out Value
		if err := json.Unmarshal(text, &out); err != nil {
			t.Fatal(err)
		}
		if math.Float64bits(float64(out.Number)) != math.Float64bits(v) {
			t.Errorf("got %v by way of %s, want %v", out.Number, text, v)
		}
	})
	for _, v := range []float64{math.Inf(1), math.Inf(-1), math.Copysign(0, -1)} {
		text, _ := json.Marshal(Float(v))
		var out Float
		if err := json.Unmarshal(text, &out); err != nil || math.Float64bits(float64(out)) != math.Float64bits(v) {
			t.Errorf("got %v by way of %s, want %v", out, text, v)
		}
	}
}

func TestReadData(t *testing.T) {
	s := &Sheet{Files: map[string]string{
		"good.csv":   "\ufeffpressure Pa, flow\n1000, 0.02\n2e3,0.03\n",
		"word.csv":   "p\nhigh\n",
		"inf.csv":    "p\nInf\n",
		"ragged.csv": "a,b\n1\n",
		"empty.csv":  "",
		"mesh.stl":   "\ufeff\x00\xff raw",
	}}
	if got := s.ReadText("mesh.stl"); got != "\ufeff\x00\xff raw" {
		t.Errorf("text: got %q, want every byte as it is", got)
	}
	d := s.ReadData("good.csv")
	if got := d.Column("flow", 10); !reflect.DeepEqual(got, []float64{0.2, 0.3}) {
		t.Errorf("column: got %v", got)
	}
	if got := d.Texts("pressure Pa"); !reflect.DeepEqual(got, []string{"1000", "2e3"}) {
		t.Errorf("texts: got %q", got)
	}
	for name, c := range map[string]struct {
		read func()
		want string
	}{
		"no such head": {func() { d.Column("p", 1) }, `no column "p"`},
		"not a number": {func() { s.ReadData("word.csv").Column("p", 1) }, `word.csv, row 2, column "p": got "high"`},
		"not finite":   {func() { s.ReadData("inf.csv").Column("p", 1) }, `got "Inf"`},
		"ragged":       {func() { s.ReadData("ragged.csv") }, "wrong number of fields"},
		"empty":        {func() { s.ReadData("empty.csv") }, "the file is empty"},
		"not named":    {func() { s.ReadData("other.csv") }, "not among the files"},
		"no such text": {func() { s.ReadText("other.stl") }, `ReadText: "other.stl" is not among the files`},
	} {
		if got := panics(c.read); !strings.Contains(got, c.want) {
			t.Errorf("%s: got %q, want %q in it", name, got, c.want)
		}
	}
}

// Tables and figures refuse what does not fit together, and a loop gone wrong.
func TestRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		do   func(s *Sheet)
		want string
	}{
		"rows": {func(s *Sheet) {
			table := s.NewTable("t")
			table.Column("a", []float64{1, 2})
			table.Texts("b", []string{"one"})
		}, "got 1 rows, want 2"},
		"points":  {func(s *Sheet) { s.NewFigure("f", "x", "y").Curve("c", []float64{1}, nil) }, "got 1 x and 0 y"},
		"outline": {func(s *Sheet) { s.NewDrawing("d").Outline([]float64{0, 1}, []float64{0, 1}) }, "Drawing.Outline: got 2 points, want at least 3"},
		"ragged":  {func(s *Sheet) { s.NewDrawing("d").Line("l", []float64{0, 1}, []float64{0}) }, "Drawing.Line: got 2 x and 1 y"},
		"nan":     {func(s *Sheet) { s.NewDrawing("d").Thin([]float64{0, math.NaN()}, []float64{0, 1}) }, "Drawing.Thin: point 2: got (NaN, 1) m, want finite"},
		"inf":     {func(s *Sheet) { s.NewDrawing("d").Mark("m", math.Inf(1), 0) }, "Drawing.Mark: point 1: got (+Inf, 0) m"},
		"far":     {func(s *Sheet) { s.NewDrawing("d").Arrow("a", 0, 0, 1e10, 0) }, "Drawing.Arrow: point 2"},
		"radius":  {func(s *Sheet) { s.NewDrawing("d").Circle(0, 0, -1) }, "Drawing.Circle: radius: got -1 m, want 0"},
		"offset":  {func(s *Sheet) { s.NewDrawing("d").Dimension(0, 0, 1, 0, math.Inf(1)) }, "Drawing.Dimension: offset: got +Inf m"},
		"no name": {func(s *Sheet) { s.NewDrawing("d").Area("", []float64{0, 1, 1}, []float64{0, 0, 1}) }, "Drawing.Area: got no name"},
		"tone":    {func(s *Sheet) { s.NewDrawing("d").Shade([]float64{0, 1, 1}, []float64{0, 0, 1}, math.NaN()) }, "Drawing.Shade: value: got NaN"},
		"scale":   {func(s *Sheet) { s.NewDrawing("d").Scale("u", 1, 1) }, "Drawing.Scale \"u\": got low 1 and high 1"},
		"angles":  {func(s *Sheet) { s.NewRose("r").Curve("c", []float64{1}, nil) }, "Rose.Curve \"c\": got 1 angles and 0 values"},
		"angle":   {func(s *Sheet) { s.NewRose("r").Curve("c", []float64{math.NaN()}, []float64{1}) }, "angle 1: got NaN"},
		"below":   {func(s *Sheet) { s.NewRose("r").Curve("c", []float64{0}, []float64{-1}) }, "value 1: got -1, want a finite value, at least 0"},
		"limit":   {func(s *Sheet) { s.NewRose("r").Limit("l", math.NaN()) }, "Rose.Limit \"l\": got NaN"},
		"step":    {func(s *Sheet) { s.NewMotion("m", 0.03) }, "NewMotion \"m\": step: got 30 ms, want 20 ms, 50 ms"},
		"frames": {func(s *Sheet) {
			for m := s.NewMotion("m", 0.1); ; {
				m.Frame()
			}
		}, "Motion.Frame: more than 60 frames"},
		"shop twice": {func(s *Sheet) { s.ShopFile("a.csv", ""); s.ShopFile("A.csv", "") }, `got "A.csv" again (there is "a.csv")`},
		"shop bytes": {func(s *Sheet) { s.ShopFile("a.csv", "\xff") }, "not UTF-8"},
		"patches": {func(s *Sheet) {
			for d := s.NewDrawing("d"); ; {
				d.Shade(make([]float64, 1000), make([]float64, 1000), 0)
			}
		}, "MiB put on the sheet"},
		"entries": {func(s *Sheet) {
			for {
				s.Note("again")
			}
		}, "more than 10000 entries"},
		"bytes": {func(s *Sheet) {
			long := make([]float64, 1<<23)
			s.NewFigure("f", "x", "y").Curve("c", long, long)
		}, "MiB put on the sheet"},
	} {
		if got := panics(func() { c.do(&Sheet{}) }); !strings.Contains(got, c.want) {
			t.Errorf("%s: got %q, want %q in it", name, got, c.want)
		}
	}
}

// Names of shop files that are one name, and harmless, on every system.
func TestPlainName(t *testing.T) {
	for _, name := range []string{"a", "panel-3.csv", "cut_list.v2.txt", "3.dxf", "console.txt", strings.Repeat("a", 100)} {
		if got := PlainName(name); got != "" {
			t.Errorf("%q: got %q, want it to be one", name, got)
		}
	}
	for _, name := range []string{"", ".", "..", "../a", "a/b", `a\b`, "/a", "c:a", ".hidden", "a.", "a ", " a", "-a", "a\n", "a\x00b", "ä.txt", "a*", "a<b",
		"con", "NUL.txt", "com1", "Lpt9.x.y", "sha256sums", strings.Repeat("a", 101)} {
		if PlainName(name) == "" {
			t.Errorf("%q: got a plain name, want none", name)
		}
	}
	var s Sheet
	s.ShopFile("a.csv", "x")
	s.Clear()
	s.ShopFile("a.csv", "x") // another run
}

// What the sheet holds of a drawing and a rose, as a record of the run would
// have it.
func TestPicturesJSON(t *testing.T) {
	var s Sheet
	d := s.NewDrawing("plan")
	d.Outline([]float64{0, 2, 2}, []float64{0, 0, 1})
	d.Circle(1, 0.5, 0.25)
	d.Dimension(0, 0, 2, 0, -0.5)
	d.Shade([]float64{0, 1, 1}, []float64{0, 0, 1}, 0)
	d.Scale("share", 0, 1)
	d.Compass()
	r := s.NewRose("wind")
	r.Curve("all", []float64{0, 1}, []float64{3, 4})
	r.Limit("most", 5)
	m := s.NewMotion("swell", 0.1)
	m.Frame().Circle(0, 0, 1)
	got, err := json.Marshal(s.Entries)
	if err != nil {
		t.Fatal(err)
	}
	want := `[{"Site":0,"Drawing":{"Title":"plan","Shapes":[{"Kind":"outline","X":[0,2,2],"Y":[0,0,1]},{"Kind":"circle","X":[1],"Y":[0.5],"Value":0.25},` +
		`{"Kind":"dimension","X":[0,2],"Y":[0,0],"Value":-0.5},{"Kind":"patch","X":[0,1,1],"Y":[0,0,1]},{"Kind":"compass"}],"Tones":{"Name":"share","Low":0,"High":1}}},` +
		`{"Site":0,"Rose":{"Title":"wind","Curves":[{"Site":0,"Name":"all","Angles":[0,1],"Values":[3,4]}],"Limits":[{"Site":0,"Name":"most","At":5}]}},` +
		`{"Site":0,"Motion":{"Title":"swell","Step":0.1,"Frames":[{"Title":"","Shapes":[{"Kind":"circle","X":[0],"Y":[0],"Value":1}]}]}}]`
	if string(got) != want {
		t.Errorf("entries:\n got %s\nwant %s", got, want)
	}
}

// TakeChanged gives what is new, and what changed since: a curve added to an
// older figure.
func TestTakeChanged(t *testing.T) {
	var s Sheet
	f := s.NewFigure("f", "x", "y")
	s.Note("one")
	if from, entries := s.TakeChanged(); from != 0 || len(entries) != 2 {
		t.Errorf("first: got %d from %d", len(entries), from)
	}
	if _, entries := s.TakeChanged(); len(entries) != 0 {
		t.Errorf("nothing new: got %d", len(entries))
	}
	s.Note("two")
	f.Mark("m", 1, 2)
	if from, entries := s.TakeChanged(); from != 0 || len(entries) != 3 {
		t.Errorf("after a mark: got %d from %d", len(entries), from)
	}
}

func TestCapture(t *testing.T) {
	type inner = struct{ A, B float64 } // of no package: those of this one stand for themselves
	cycle := map[string]any{}
	cycle["self"] = cycle
	for _, c := range []struct {
		v    any
		want string
	}{
		{1.5, "1.5"}, {3, "3"}, {"a b", `"a b"`}, {true, "true"},
		{[]float64{1, 0.1}, "[1 0.1]"}, {inner{1, 2}, "{1 2}"}, {&inner{1, 2}, "{1 2}"},
		{map[int]string{2: "b", 1: "a"}, `[{1 "a"} {2 "b"}]`}, {(*inner)(nil), "nil"},
		{&Figure{}, "figure"}, {&Drawing{}, "drawing"}, {&Rose{}, "rose"}, {&Motion{}, "motion"}, {func() {}, "func"},
	} {
		if got := Capture(reflect.ValueOf(c.v)).String(); got != c.want {
			t.Errorf("%v: got %s, want %s", c.v, got, c.want)
		}
	}
	if got := Capture(reflect.ValueOf(cycle)).String(); len(got) > 1000 {
		t.Errorf("a cycle: got %d letters", len(got))
	}
	if v := Capture(reflect.ValueOf(make([]float64, 20_000))); v.Len != 20_000 || len(v.Items) != maxItems {
		t.Errorf("a long list: got %d of %d", len(v.Items), v.Len)
	}
}

// panics is the text of the panic of f.
func panics(f func()) (text string) {
	defer func() {
		if err, ok := recover().(error); ok {
			text = err.Error()
		}
	}()
	f()
	return ""
}

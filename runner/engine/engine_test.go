package engine

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"tautline/runner/document"
	"tautline/runner/lower"
	"tautline/runner/outcome"
)

func TestMain(m *testing.M) {
	Main()
	code := m.Run()
	if left := children(); len(left) > 0 {
		fmt.Fprintf(os.Stderr, "processes left behind: %v\n", left)
		code = 1
	}
	os.Exit(code)
}

// children lists the processes that this one started and did not reap, where
// the system tells.
func children() []string {
	var all []string
	lists, _ := filepath.Glob("/proc/self/task/*/children")
	for _, list := range lists {
		text, _ := os.ReadFile(list)
		all = append(all, strings.Fields(string(text))...)
	}
	return all
}

// A cell of a test program: its variables, such as "x float64; n int", and its
// statements.
type cell struct{ vars, body string }

// program writes a lowered program. Statement n stands at line n of the
// notebook.
func program(decls string, cells ...cell) *lower.Program {
	p := &lower.Program{File: "test.md", Sites: make([]document.Range, 100)}
	for i := range p.Sites {
		p.Sites[i] = document.Range{Start: document.Position{Line: i, Column: 1}, End: document.Position{Line: i, Column: 9}}
	}
	var b strings.Builder
	b.WriteString("package main\n\nimport (\n\"errors\"\n\"fmt\"\n\"math\"\n\"sort\"\n\"strings\"\n\"tautline/stdlib/sheet\"\n)\n\nvar __at int\n")
	for i, c := range cells {
		var names []string
		for decl := range strings.SplitSeq(c.vars, ";") {
			if decl = strings.TrimSpace(decl); decl != "" {
				fmt.Fprintf(&b, "var %s\n", decl)
				names = append(names, strings.Fields(decl)[0])
			}
		}
		name := fmt.Sprintf("__cell%d", i)
		fmt.Fprintf(&b, "func %s() {\n%s\n}\n", name, c.body)
		p.Cells = append(p.Cells, lower.Cell{Func: name, Names: names, Range: p.Sites[60+i]})
	}
	p.Source = b.String() + decls
	return p
}

func run(t *testing.T, p *lower.Program, limits Limits) *outcome.Outcome {
	t.Helper()
	out, err := Run(t.Context(), p, limits)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// values writes the values of an outcome for comparing.
func values(out *outcome.Outcome, names ...string) string {
	var parts []string
	for _, name := range names {
		v, ok := out.Values[name]
		if !ok {
			parts = append(parts, name+" unset")
			continue
		}
		parts = append(parts, name+"="+v.String())
	}
	return strings.Join(parts, ", ")
}

func TestValues(t *testing.T) {
	out := run(t, program(`
type leg struct {
	n string
	l float64
}
func twice(x float64) float64 { return 2 * x }
`,
		cell{"x float64; n int; s string; ok bool; f func(float64) float64", `
			__at = 1
			x = (twice(0.1) + 0.2) * 3
			n = 7
			s = fmt.Sprintf("%d·%g", n, x)
			ok = !(x > 2) || (n < 3)
			f = func(x float64) float64 { return x }`},
		cell{"xs []float64; m map[string]int; l leg; p *leg; none *leg; fig *sheet.Figure; e error; inf float64", `
			xs = []float64{f(x), math.Sqrt(x)}
			for i := 0; i < 3; i++ { xs = append(xs, float64(i)) }
			m = map[string]int{"b": 2, "a": 1}
			l = leg{"left", x}
			p = &l
			fig = sheet.NewFigure("t", "x", "y")
			e = errors.New("no wind")
			inf = math.Inf(-1)`},
	), Limits{})
	if len(out.Faults) > 0 {
		t.Fatalf("got faults %+v", out.Faults)
	}
	// 2·0.1+0.2 = 0.4; 0.4·3 in binary is 1.2000000000000002 (IEEE 754 by hand,
	// and as go run prints it).
	want := `x=1.2000000000000002, n=7, s="7·1.2000000000000002", ok=true, f=func, ` +
		`xs=[1.2000000000000002 1.0954451150103324 0 1 2], m=[{"a" 1} {"b" 2}], l={"left" 1.2000000000000002}, ` +
		`p={"left" 1.2000000000000002}, none=nil, fig=figure, e="no wind", inf=-Inf`
	if got := values(out, "x", "n", "s", "ok", "f", "xs", "m", "l", "p", "none", "fig", "e", "inf"); got != want {
		t.Errorf("values:\n got %s\nwant %s", got, want)
	}
	if !reflect.DeepEqual(out.Cells, []outcome.State{outcome.Done, outcome.Done}) {
		t.Errorf("cells: got %v, want both done", out.Cells)
	}
	if len(out.Guards) < 9 {
		t.Errorf("guards: got %q", out.Guards)
	}
	for _, g := range out.Guards {
		if g.Name == "" || g.Holds == "" && g.Off == "" {
			t.Errorf("guard %+v: want a name, and what it holds back or why it is off", g)
		}
	}
}

func TestEntries(t *testing.T) {
	p := program("",
		cell{"fig *sheet.Figure; tab *sheet.Table", `
			__at = 3
			sheet.Note("first")
			__at = 4
			fig = sheet.NewFigure("force", "pressure", "line force")
			__at = 5
			fig.Curve("a", []float64{1, 2}, []float64{3, math.NaN()})
			__at = 6
			tab = sheet.NewTable("rows")`},
		cell{"", `
			__at = 8
			sheet.AtMost("seam", 1, 2, "clause 4", "derived")`},
		cell{"d *sheet.Data; q []float64", `
			__at = 10
			fig.LimitY("limit", 9)
			__at = 11
			d = sheet.ReadData("fan.csv")
			__at = 12
			q = d.Column("flow", 2)
			__at = 13
			tab.Column("q", q)`},
	)
	p.Data = map[string]string{"fan.csv": "flow,p\n1,5\n2,6\n"}
	out := run(t, p, Limits{})
	if len(out.Faults) > 0 {
		t.Fatalf("got faults %+v", out.Faults)
	}
	got, err := json.Marshal(out.Entries)
	if err != nil {
		t.Fatal(err)
	}
	want := `[{"Site":3,"Remark":{"Caution":false,"Text":"first"}},` +
		`{"Site":4,"Figure":{"Title":"force","XLabel":"pressure","YLabel":"line force",` +
		`"Curves":[{"Site":5,"Name":"a","X":[1,2],"Y":[3,"NaN"]}],"Marks":null,"Limits":[{"Site":10,"Name":"limit","At":9,"Upright":false}]}},` +
		`{"Site":6,"Table":{"Title":"rows","Columns":[{"Site":13,"Head":"q","Numbers":[2,4]}]}},` +
		`{"Site":8,"Check":{"What":"seam","Rule":"at most","Demand":1,"Low":0,"High":2,"Holds":true,"Utilisation":0.5,"Source":"clause 4; derived"}}]`
	if string(got) != want {
		t.Errorf("entries:\n got %s\nwant %s", got, want)
	}
	if got := values(out, "q"); got != "q=[2 4]" {
		t.Errorf("values: got %s", got)
	}
}

func TestFaults(t *testing.T) {
	const (
		short = 500 * time.Millisecond
		small = 256 << 20
	)
	// A process that dies at once may not have told of a statement: line 61 is
	// that of the whole cell.
	for _, c := range []struct {
		name   string
		vars   string
		body   string
		limits Limits
		line   int
		want   string // in the message
		values string // of the faulted cell's variables
	}{
		{"panic", "x float64; y float64; z float64", "x = 1\ny = 0\n__at = 7\npanic(\"two is wrong\")", Limits{}, 7, "two is wrong", "x=1, y unset, z unset"},
		{"panic with a value", "", "__at = 7\npanic(42)", Limits{}, 7, "panic: 42", ""},
		{"error panic", "", "__at = 7\npanic(fmt.Errorf(\"fan: got %d points,\\nwant 2\", 1))", Limits{}, 7, "fan: got 1 points, want 2", ""},
		{"library panic", "", "__at = 7\nsheet.ReadData(\"none.csv\")", Limits{}, 7, `sheet: ReadData: "none.csv" is not among the files`, ""},
		{"in a function", "", "__at = 7\ninner(0)", Limits{}, 90, "integer division by zero", ""},
		{"in a callback", "", "xs := []float64{2, 1}\n__at = 7\nsort.Slice(xs, func(i, j int) bool { __at = 8; return xs[i+5] < xs[j] })", Limits{}, 8, "index out of range", ""},
		{"index", "xs []float64; i int", "xs = []float64{1}\ni = 3\n__at = 7\nxs[i] = 1", Limits{}, 7, "index out of range", "xs=[1], i=3"},
		{"slice", "xs []float64; i int", "xs = []float64{1}\ni = 3\n__at = 7\nxs = xs[i:]", Limits{}, 7, "slice bounds out of range", ""},
		{"array", "xs [2]float64; i int", "i = 3\n__at = 7\nxs[i] = 1", Limits{}, 7, "index out of range", ""},
		{"text", "s string; i int; b byte", "i = 3\ns = \"ab\"\n__at = 7\nb = s[i]", Limits{}, 7, "index out of range", ""},
		{"make", "xs []float64; i int", "i = -3\n__at = 7\nxs = make([]float64, i)", Limits{}, 7, "make: got a negative length", ""},
		{"nil map", "m map[string]float64", "__at = 7\nm[\"a\"] = 1", Limits{}, 7, "assignment to an entry of a nil map", ""},
		{"nil pointer", "p *part; x float64", "__at = 7\nx = p.l", Limits{}, 7, "nil pointer", ""},
		{"nil library pointer", "p *sheet.Table", "__at = 7\np.Texts(\"a\", nil)", Limits{}, 7, "nil pointer", ""},
		{"nil function", "f func()", "__at = 7\nf()", Limits{}, 7, "nil function", ""},
		{"endless loop", "n int", "n = 3\n__at = 7\nfor { }", Limits{Time: short}, 7, "did not end within 500ms", "n=3"},
		{"endless counting", "n int", "__at = 7\nfor { n++ }", Limits{Time: short}, 7, "did not end within", ""},
		{"endless callback", "", "xs := []float64{2, 1, 3}\n__at = 7\nsort.Slice(xs, func(i, j int) bool { for { } })", Limits{Time: short}, 7, "did not end within", ""},
		{"long compiled call", "", "__at = 7\nstrings.Trim(strings.Repeat(\"é\", 1<<24), strings.Repeat(\"x\", 1<<14)+\"é\")\nfor { }", Limits{Time: short}, 7, "did not end within", ""},
		{"memory in steps", "xs [][]float64; n int", "n = 1\n__at = 7\nfor { xs = append(xs, make([]float64, 1<<17)) }", Limits{Memory: small}, 7, "memory: the cells need more than 256 MiB", ""},
		{"memory at once", "xs []float64; n int", "n = 1 << 33\n__at = 7\nxs = make([]float64, n)", Limits{}, 61, "memory: the cells need more than 2 GiB", ""},
		{"recursion", "", "__at = 7\ndeep(0)", Limits{}, 91, "recursion: a function calls itself without end", ""},
		{"huge list", "xs []float64", "__at = 7\nxs = make([]float64, 9000)", Limits{Output: 4 << 10}, 61, "output: the cells give more than", ""},
		{"too many entries", "", "__at = 7\nfor i := 0; i < 10001; i++ { sheet.Note(\"a\") }", Limits{}, 7, "sheet: more than 10000 entries", ""},
		{"refused by the interpreter", "x float64", "__at = 7\nx = math.Undefined(x)", Limits{}, 0, "interpreter: it refused", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := program(`
type part struct { l float64 }
func inner(n int) int { __at = 90; return 1 / n }
func deep(n int) int { __at = 91; return deep(n+1) + 1 }
`, cell{"before float64", "__at = 2\nbefore = 5\nsheet.Note(\"kept\")"}, cell{c.vars, c.body}, cell{"after float64", "after = 1"})
			out := run(t, p, c.limits)
			if len(out.Faults) != 1 {
				t.Fatalf("got %d faults, want 1: %+v", len(out.Faults), out)
			}
			d := out.Faults[0]
			if !strings.Contains(d.Message, c.want) || d.Range.Start.Line != c.line && !(c.line == 61 && d.Range.Start.Line == 7) || d.Hint == "" || d.File != "test.md" {
				t.Errorf("got %+v,\nwant %q at line %d, with a hint", d, c.want, c.line)
			}
			if strings.Contains(c.want, "refused") {
				return
			}
			if want := []outcome.State{outcome.Done, outcome.Faulted, outcome.NotRun}; !reflect.DeepEqual(out.Cells, want) {
				t.Errorf("cells: got %v, want %v", out.Cells, want)
			}
			if got := values(out, "before", "after"); got != "before=5, after unset" || len(out.Entries) == 0 {
				t.Errorf("results before the fault: got %s and %d entries", got, len(out.Entries))
			}
			if c.values != "" {
				var names []string
				for _, decl := range strings.Split(c.vars, ";") {
					names = append(names, strings.Fields(decl)[0])
				}
				if got := values(out, names...); got != c.values {
					t.Errorf("values of the faulted cell: got %s, want %s", got, c.values)
				}
			}
		})
	}
}

// A worker that dies is a fault of the program, told apart from the cells'.
func TestKilledWorker(t *testing.T) {
	w := Start(Limits{})
	defer w.Close()
	<-w.ready
	w.out = &trap{ReadCloser: w.out, word: `{"At":7}`, spring: func() { w.cmd.Process.Kill() }}
	out, err := w.Run(t.Context(), program("", cell{"", "__at = 7\nfor { }"}))
	if err != nil {
		t.Fatal(err)
	}
	if len(out.Faults) != 1 || out.Faults[0].Range.Start.Line != 7 || !strings.Contains(out.Faults[0].Message, "ended unexpectedly") {
		t.Errorf("got %+v, want one fault of the worker at line 7", out.Faults)
	}
}

// A trap calls spring once when it has read word.
type trap struct {
	io.ReadCloser
	word   string
	spring func()
	read   []byte
}

func (r *trap) Read(b []byte) (int, error) {
	n, err := r.ReadCloser.Read(b)
	r.read = append(r.read, b[:n]...)
	if r.spring != nil && strings.Contains(string(r.read), r.word) {
		r.spring()
		r.spring = nil
	}
	return n, err
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	time.AfterFunc(50*time.Millisecond, cancel)
	out, err := Run(ctx, program("", cell{"", "for { }"}), Limits{})
	if out != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, %v, want context.Canceled", out, err)
	}
}

func TestUsedOnce(t *testing.T) {
	w := Start(Limits{})
	if _, err := w.Run(t.Context(), program("", cell{"x float64", "x = 1"})); err != nil {
		t.Fatal(err)
	}
	if _, err := w.Run(t.Context(), program("", cell{"x float64", "x = 1"})); err == nil {
		t.Error("second run: got no error, want one")
	}
	w.Close()
	Start(Limits{}).Close()
}

func TestDeterministic(t *testing.T) {
	p := big(20)
	first, err := json.Marshal(run(t, p, Limits{}))
	if err != nil {
		t.Fatal(err)
	}
	second, err := json.Marshal(run(t, p, Limits{}))
	if err != nil {
		t.Fatal(err)
	}
	if string(first) != string(second) {
		t.Errorf("two runs differ:\n%s\n%s", first, second)
	}
}

func TestParallel(t *testing.T) {
	var group sync.WaitGroup
	for i := range 4 {
		group.Go(func() {
			out, err := Run(t.Context(), program("", cell{"x int", fmt.Sprintf("x = %d", i)}), Limits{})
			if err != nil {
				t.Error(err)
				return
			}
			if got, want := values(out, "x"), fmt.Sprintf("x=%d", i); got != want {
				t.Errorf("got %s, want %s", got, want)
			}
		})
	}
	group.Wait()
}

// big is a program of n cells like those of a notebook.
func big(n int) *lower.Program {
	var cells []cell
	for i := range n {
		cells = append(cells, cell{fmt.Sprintf("p%d float64; r%d float64; T%d float64; xs%d []float64", i, i, i, i), fmt.Sprintf(`
			__at = 1
			p%[1]d = sheet.Given(1800, 1000, 3000)
			r%[1]d = 0.3 + %[1]d
			T%[1]d = p%[1]d * r%[1]d * math.Sqrt(2)
			__at = 2
			sheet.AtMost("seam %[1]d", T%[1]d, 100000, "clause")
			for i := 0; i < 10; i++ {
				__at = 3
				xs%[1]d = append(xs%[1]d, T%[1]d*float64(i))
			}`, i)})
	}
	return program("", cells...)
}

func BenchmarkRun(b *testing.B) {
	p := big(40)
	for b.Loop() {
		if _, err := Run(b.Context(), p, Limits{}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/1000, "ms/run")
}

// The part of a run that is left when the worker was started before.
func BenchmarkStarted(b *testing.B) {
	p := big(40)
	var total time.Duration
	for range b.N {
		w := Start(Limits{})
		time.Sleep(20 * time.Millisecond)
		begin := time.Now()
		if _, err := w.Run(b.Context(), p); err != nil {
			b.Fatal(err)
		}
		total += time.Since(begin)
	}
	b.ReportMetric(float64(total.Microseconds())/float64(b.N)/1000, "ms/run")
}

// The program that warms a worker up must itself run.
func TestWarmUp(t *testing.T) {
	if out := run(t, &warm, Limits{}); len(out.Faults) > 0 {
		t.Errorf("got %+v", out.Faults)
	}
}

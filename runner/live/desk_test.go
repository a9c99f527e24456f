package live

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"html"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"tautline/runner"
	"tautline/runner/document"
	"tautline/runner/engine"
	"tautline/stdlib/quantity"
	"tautline/stdlib/sheet"
)

func TestMain(m *testing.M) {
	engine.Main()
	os.Exit(m.Run())
}

// plainPrinter prints each value of a run as a piece.
type plainPrinter struct{}

func (p plainPrinter) Begin(*runner.Result) Print { return p.Page }

func (plainPrinter) Page(res *runner.Result) (*Page, error) {
	p := &Page{Title: res.Notebook.Title.Title, Name: res.Notebook.Title.Title, Verdict: "Checked.", Class: "holds", Shown: map[string]string{}}
	for i := range res.Notebook.Cells() {
		var b strings.Builder
		if res.Outcome != nil {
			for _, n := range res.Plan.Cells[i].Names {
				v := res.Outcome.Values[n.Ident]
				text := fmt.Sprint(float64(v.Number))
				if v.Kind == sheet.KindText {
					text = v.Text
				}
				p.Shown[n.Ident] = text
				fmt.Fprintf(&b, "<p id=%q>%s = %s</p>", n.Ident, n.Ident, html.EscapeString(text))
			}
		}
		p.Pieces = append(p.Pieces, Piece{"body", i, b.String() + "<hr>"})
	}
	if res.Outcome != nil {
		metre, _ := quantity.Lookup("m")
		for _, e := range res.Outcome.Entries {
			if g := e.Given; g != nil {
				p.Choices = append(p.Choices, Choice{Name: "r", Symbol: "<b>r</b>", Value: float64(g.Value), Low: float64(g.Low), High: float64(g.High), Unit: metre})
			}
		}
	}
	return p, nil
}

func (plainPrinter) Finding(d document.Diagnostic, _ []byte) (string, error) {
	return "<p>" + html.EscapeString(d.Message) + "</p>", nil
}

func (plainPrinter) Report(w io.Writer, res *runner.Result) error {
	_, err := w.Write(res.Source)
	return err
}

func (plainPrinter) Style() string { return "p { color: black }" }

// notebook is a notebook of one cell.
func notebook(cell string) string {
	return "---\ntitle: T\n---\n\n```go\n" + cell + "\n```\n"
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// opened is a desk under test with its server.
type opened struct {
	t      *testing.T
	folder string
	url    string
	token  string
}

// open opens a desk with notebooks, by name.
func open(t *testing.T, o Options, notebooks map[string]string) *opened {
	t.Helper()
	folder := t.TempDir()
	for name, text := range notebooks {
		write(t, filepath.Join(folder, name), text)
	}
	ctx, cancel := context.WithCancel(t.Context())
	if o.Printer = (plainPrinter{}); o.Paths == nil {
		o.Paths = []string{""}
	}
	for i, path := range o.Paths { // in the new folder
		o.Paths[i] = filepath.Join(folder, path)
	}
	desk, err := Open(ctx, o)
	if err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ended := make(chan struct{})
	go func() { desk.Serve(ctx, l); close(ended) }()
	t.Cleanup(func() { cancel(); <-ended })
	d := &opened{t: t, folder: folder, url: "http://" + l.Addr().String()}
	_, page := d.get("/")
	d.token = between(page, `name="token" content="`, `"`)
	return d
}

func between(s, before, after string) string {
	_, s, _ = strings.Cut(s, before)
	s, _, _ = strings.Cut(s, after)
	return s
}

func (d *opened) get(path string) (int, string) {
	d.t.Helper()
	r, err := http.Get(d.url + path)
	if err != nil {
		d.t.Fatal(err)
	}
	defer r.Body.Close()
	b, _ := io.ReadAll(r.Body)
	return r.StatusCode, string(b)
}

// follower is a page that listens.
type follower struct {
	d     *opened
	views chan message
	id    string
}

func (d *opened) follow(slug string, id string) *follower {
	d.t.Helper()
	ctx, cancel := context.WithCancel(d.t.Context())
	d.t.Cleanup(cancel)
	q, _ := http.NewRequestWithContext(ctx, "GET", d.url+"/notebook/"+slug+"/events?page="+id, nil)
	r, err := http.DefaultClient.Do(q)
	if err != nil || r.StatusCode != http.StatusOK {
		d.t.Fatal(r, err)
	}
	f := &follower{d, make(chan message, 1000), id}
	go func() {
		defer r.Body.Close()
		lines := bufio.NewScanner(r.Body)
		lines.Buffer(nil, 16<<20)
		name := ""
		for lines.Scan() {
			if e, ok := strings.CutPrefix(lines.Text(), "event: "); ok {
				name = e
			} else if data, ok := strings.CutPrefix(lines.Text(), "data: "); ok && name == "view" {
				var m message
				json.Unmarshal([]byte(data), &m)
				f.views <- m
			}
		}
	}()
	return f
}

// until waits for a view.
func (f *follower) until(what string, is func(message) bool) message {
	f.d.t.Helper()
	var last message
	for {
		select {
		case last = <-f.views:
			if is(last) {
				return last
			}
		case <-time.After(20 * time.Second):
			f.d.t.Fatalf("%s: did not come; last was %+v", what, last)
		}
	}
}

func has(text string) func(message) bool {
	return func(m message) bool {
		for _, html := range m.HTML {
			if strings.Contains(html, text) {
				return true
			}
		}
		return strings.Contains(m.Bar.Text, text)
	}
}

// order posts an order as the page does.
func (f *follower) order(what, name, number string) (int, string) {
	f.d.t.Helper()
	body, _ := json.Marshal(order{Page: f.id, Name: name, Number: number})
	q, _ := http.NewRequest("POST", f.d.url+"/notebook/t/"+what, bytes.NewReader(body))
	q.Header.Set("Content-Type", "application/json")
	q.Header.Set("X-Token", f.d.token)
	r, err := http.DefaultClient.Do(q)
	if err != nil {
		f.d.t.Fatal(err)
	}
	defer r.Body.Close()
	text, _ := io.ReadAll(r.Body)
	return r.StatusCode, string(text)
}

const pageA, pageB = "aaaaaaaaaaaaaaaaaaaa", "bbbbbbbbbbbbbbbbbbbb"

func TestFollow(t *testing.T) {
	d := open(t, Options{}, map[string]string{"t.md": notebook("x := 2.0\ny := 3 * x")})
	file := filepath.Join(d.folder, "t.md")
	f := d.follow("t", pageA)
	f.until("the first run", has("y = 6"))
	write(t, file, notebook("x := 3.0\ny := 3 * x"))
	if m := f.until("the second", has("y = 9")); m.Was["y"] != "6" || m.Was["x"] != "2" {
		t.Errorf("was: got %v, want x 2 and y 6", m.Was)
	}
	write(t, file, notebook("x := 3.0\ny := 3 * z"))
	if m := f.until("the error", has("undefined: z")); m.Bar.Class != "trouble" || !strings.Contains(m.Bar.Text, "Line 7") || len(m.Order["body"]) != 2 {
		t.Errorf("an error: got %+v, want the last report and the error after its cell", m)
	}
	write(t, file, notebook("x := 3.0\ny := 3 * x\nfor x > 0 {\n}\n"))
	time.Sleep(200 * time.Millisecond) // it runs
	write(t, file, notebook("x := 4.0\ny := 3 * x"))
	began := time.Now()
	f.until("mended", has("y = 12"))
	if took := time.Since(began); took > 10*time.Second {
		t.Errorf("a save waited %v for an endless loop that it overtook", took)
	}
}

func TestDataFile(t *testing.T) {
	d := open(t, Options{}, map[string]string{"t.md": notebook("d := sheet.ReadData(\"fan.csv\")\nx := d.Column(\"a\", 1)[0]")})
	f := d.follow("t", pageA)
	f.until("the file is missing", has("fan.csv"))
	write(t, filepath.Join(d.folder, "fan.csv"), "a\n5\n")
	f.until("the file is there", has("x = 5"))
	write(t, filepath.Join(d.folder, "fan.csv"), "a\n6\n")
	f.until("the file changed", has("x = 6"))
}

func TestNewNotebook(t *testing.T) {
	d := open(t, Options{}, map[string]string{"readme.md": "# no title block\n"})
	if _, page := d.get("/"); !strings.Contains(page, "There is no notebook here yet") {
		t.Errorf("an empty desk: got %s", page)
	}
	write(t, filepath.Join(d.folder, "t.md"), notebook("x := 2.0"))
	for end := time.Now().Add(10 * time.Second); ; time.Sleep(10 * time.Millisecond) {
		if _, page := d.get("/"); strings.Contains(page, "/notebook/t") {
			break
		}
		if time.Now().After(end) {
			t.Fatal("the new notebook is not on the desk")
		}
	}
	d.follow("t", pageA).until("it was run", has("x = 2"))
}

const chosen = "r := sheet.Given(2.0*units.M, 1*units.M, 3*units.M) // reason\ny := 3 * r\nsheet.AtMost(\"y\", y, 8*units.M, \"s\")"

// A trial is seen on its own page alone, and what it shows is what a run of the
// kept notebook gives.
func TestWhatIf(t *testing.T) {
	d := open(t, Options{}, map[string]string{"t.md": notebook(chosen)})
	file := filepath.Join(d.folder, "t.md")
	a, b := d.follow("t", pageA), d.follow("t", pageB)
	a.until("the first run", has("y = 6"))
	b.until("the first run", has("y = 6"))
	if code, text := a.order("try", "r", "2.1"); code != http.StatusNoContent {
		t.Fatal(code, text)
	}
	tried := a.until("the trial", func(m message) bool { return m.Trial })
	three := 3.0 // a variable, so that Go rounds as the notebook does
	want := fmt.Sprintf("y = %v", three*2.1)
	if !has(want)(tried) || !strings.Contains(tried.Bar.Text, "What if r = 2.1 m instead of 2 m? Not saved.") || tried.Was["y"] != "6" {
		t.Errorf("trial: got %+v", tried)
	}
	for number, part := range map[string]string{"": "", "NaN": "want a number", "1e400": "want a number", "2;": "want a number"} {
		code, text := a.order("try", "r", number)
		if part != "" && (code != http.StatusConflict || !strings.Contains(text, part)) {
			t.Errorf("try %q: got %d %s, want a refusal with %q", number, code, text, part)
		}
	}
	if code, text := a.order("try", "y", "1"); code != http.StatusConflict {
		t.Errorf("try y: got %d %s, want a refusal", code, text)
	}
	a.order("try", "r", "2.3")
	a.until("another trial", func(m message) bool { return m.Trial && has("r = 2.3")(m) })
	if code, text := a.order("keep", "", ""); code != http.StatusNoContent {
		t.Fatal(code, text)
	}
	kept := fmt.Sprintf("y = %v", three*2.3)
	a.until("it is kept", func(m message) bool { return !m.Trial })
	b.until("the other page has it", has(kept))
	got, _ := os.ReadFile(file)
	if want := strings.Replace(notebook(chosen), "2.0*units.M", "2.3*units.M", 1); string(got) != want {
		t.Errorf("kept: got %q, want %q", got, want)
	}

	a.order("try", "r", "1.5")
	a.until("a trial", func(m message) bool { return m.Trial })
	write(t, file, notebook("// another hand\n"+chosen))
	a.until("the trial goes on with the new text", func(m message) bool { return m.Trial && strings.Contains(m.Bar.Text, "instead of 2 m") })
	a.order("drop", "", "")
	a.until("dropped", func(m message) bool { return !m.Trial })
	if got, _ := os.ReadFile(file); string(got) != notebook("// another hand\n"+chosen) {
		t.Errorf("dropped: got %q", got)
	}
}

// Keep does not write over what another hand wrote meanwhile.
func TestKeepRefuses(t *testing.T) {
	d := open(t, Options{}, map[string]string{"t.md": notebook(chosen)})
	file := filepath.Join(d.folder, "t.md")
	f := d.follow("t", pageA)
	f.until("the first run", has("y = 6"))
	f.order("try", "r", "2.5")
	f.until("the trial", func(m message) bool { return m.Trial })
	text := notebook(chosen + "\nbroken(")
	write(t, file, text)
	f.until("the error", has("never closed"))
	if code, why := f.order("keep", "", ""); code != http.StatusConflict || !strings.Contains(why, "changed") {
		t.Errorf("keep: got %d %s, want a refusal that says that the file changed", code, why)
	}
	if got, _ := os.ReadFile(file); string(got) != text {
		t.Errorf("the file was changed: %q", got)
	}
}

// Notebooks that never end, more than there are processors, do not keep another
// from running.
func TestEndlessNeighbours(t *testing.T) {
	books := map[string]string{"t.md": notebook("x := 1.0")}
	for i := range 2*runtime.GOMAXPROCS(0) + 1 {
		books[fmt.Sprintf("a%d.md", i)] = notebook("x := 1.0\nfor x > 0 {\n}")
	}
	d := open(t, Options{Limits: engine.Limits{Time: time.Minute}}, books)
	f := d.follow("t", pageA)
	f.until("the first run", has("x = 1"))
	write(t, filepath.Join(d.folder, "t.md"), notebook("x := 2.0"))
	f.until("a save", has("x = 2"))
}

// A notebook that becomes something that is no file is told as such, and the
// desk goes on.
func TestSpecialFile(t *testing.T) {
	d := open(t, Options{}, map[string]string{"t.md": notebook("x := 1.0")})
	file := filepath.Join(d.folder, "t.md")
	f := d.follow("t", pageA)
	f.until("the first run", has("x = 1"))
	os.Remove(file)
	if err := os.Mkdir(file, 0o755); err != nil {
		t.Fatal(err)
	}
	f.until("it is a folder", func(m message) bool { return m.Bar.Class == "trouble" })
	os.Remove(file)
	write(t, file, notebook("x := 2.0"))
	f.until("it is a file again", has("x = 2"))
}

// A notebook is run again when a file changes that its page shows, though it does
// not read it.
func TestShows(t *testing.T) {
	t.Run("of a folder", func(t *testing.T) { shows(t, false) })
	t.Run("of one file", func(t *testing.T) { shows(t, true) })
}

func shows(t *testing.T, one bool) {
	logs := make(chan string, 100)
	var paths []string
	if one {
		paths = []string{"n.md"}
	}
	d := open(t, Options{Paths: paths, Log: func(line string) { logs <- line },
		Shows: func(notebook, file string) bool {
			return filepath.Base(notebook) == "n.md" && filepath.Base(file) == "0001.record"
		},
		Beside: func(notebook string) string { return filepath.Join(filepath.Dir(notebook), "records") },
	}, map[string]string{"n.md": notebook("x := 1.0"), "other.md": notebook("x := 1.0")})
	wait := func(what string) {
		t.Helper()
		for {
			select {
			case line := <-logs:
				if strings.Contains(line, what) {
					return
				}
			case <-time.After(20 * time.Second):
				t.Fatalf("no run of %s", what)
			}
		}
	}
	wait("n.md")
	folder := filepath.Join(d.folder, "records", "n")
	if err := os.MkdirAll(folder, 0o777); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(folder, "0001.record"), "signed")
	wait("n.md")
}

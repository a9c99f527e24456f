package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"
)

// chosen is the first number of a notebook that may be chosen in a range.
var chosen = regexp.MustCompile(`(\w+) := sheet\.Given\(([0-9.]+)\*`)

// benchLive drives the real server: it saves the notebook with another number
// and waits for the event with the changed page, then tries numbers as a slider
// does.
func benchLive(notebook string, runs int) error {
	folder, err := os.MkdirTemp("", "tautline-bench")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	program := filepath.Join(folder, "tautline")
	if _, err := run("go", "build", "-o", program, "./cmd/tautline"); err != nil {
		return err
	}
	text, err := os.ReadFile(notebook)
	if err != nil {
		return err
	}
	at := chosen.FindSubmatchIndex(text)
	if at == nil {
		return fmt.Errorf("%s: it has no line such as R := sheet.Given(2.60*units.M, …)", notebook)
	}
	name, number := string(text[at[2]:at[3]]), string(text[at[4]:at[5]])
	desk := filepath.Join(folder, "desk")
	file := filepath.Join(desk, filepath.Base(notebook))
	save := func(i int, more string) error { // by rename, as careful editors do
		other := bytes.Join([][]byte{text[:at[4]], fmt.Appendf(nil, "%s%d", number, i%10), text[at[5]:], []byte(more)}, nil)
		if err := os.WriteFile(file+"~", other, 0o666); err != nil {
			return err
		}
		return os.Rename(file+"~", file)
	}
	if err := errors.Join(os.Mkdir(desk, 0o777), save(0, "")); err != nil {
		return err
	}
	p, err := openPage(program, desk, strings.TrimSuffix(filepath.Base(file), ".md"))
	if err != nil {
		return err
	}
	defer p.close()

	rows := []struct {
		name string
		do   func(i int) error
		all  []update
	}{
		{name: "save with another number", do: func(i int) error { return save(i, "") }},
		{name: "save with another formula", do: func(i int) error {
			return save(i, fmt.Sprintf("\n```go\nmore := %d * %s // another program\n```\n", i, name))
		}},
		{name: "number tried", do: func(i int) error { return p.try(name, fmt.Sprintf("%s%d", number, i%10+11)) }},
	}
	const warm = 5
	for k := range rows {
		for i := range runs + warm {
			u, err := p.time(func() error { return rows[k].do(i + 1) })
			if err != nil {
				return fmt.Errorf("%s: %w", rows[k].name, err)
			}
			if i >= warm {
				rows[k].all = append(rows[k].all, u)
			}
			if k < 2 {
				time.Sleep(50 * time.Millisecond) // a person does not save without pause
			}
		}
	}
	fmt.Printf("%-34s %8s %8s %8s %8s %8s %8s\n", fmt.Sprintf("%d of each, ms", runs), "median", "p95", "check", "run", "render", "KiB")
	for _, row := range rows {
		fmt.Printf("%-34s %8.1f %8.1f %8.1f %8.1f %8.1f %8.1f\n", row.name,
			quantile(row.all, 0.5, func(u update) float64 { return ms(u.took) }), quantile(row.all, 0.95, func(u update) float64 { return ms(u.took) }),
			quantile(row.all, 0.5, func(u update) float64 { return ms(u.Times.Check) }), quantile(row.all, 0.5, func(u update) float64 { return ms(u.Times.Run) }),
			quantile(row.all, 0.5, func(u update) float64 { return ms(u.Times.Render) }), quantile(row.all, 0.5, func(u update) float64 { return float64(u.size) / 1024 }))
	}
	fmt.Printf("numbers tried a second, one after the other: %.0f\n", 1000/quantile(rows[2].all, 0.5, func(u update) float64 { return ms(u.took) }))
	return nil
}

func ms(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }

func quantile(us []update, q float64, of func(update) float64) float64 {
	vs := make([]float64, len(us))
	for i, u := range us {
		vs[i] = of(u)
	}
	slices.Sort(vs)
	return vs[min(len(vs)-1, int(q*float64(len(vs))))]
}

// An update is an event that carries a changed page.
type update struct {
	came  time.Time // whole, not yet read as JSON
	took  time.Duration
	size  int
	Title string
	Foot  string
	Trial bool
	Times struct{ Check, Run, Render time.Duration }
}

// A page is what a browser would be: a stream of events and a way to try numbers.
type page struct {
	server  *exec.Cmd
	address string
	slug    string
	token   string
	events  chan update
}

const pageID = "0123456789abcdef"

func openPage(program, desk, slug string) (*page, error) {
	p := &page{server: exec.Command(program, "live", "--listen", "127.0.0.1:0", desk), slug: slug, events: make(chan update, 100)}
	out, err := p.server.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := p.server.Start(); err != nil {
		return nil, err
	}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if address, ok := strings.CutPrefix(lines.Text(), "page: "); ok {
			p.address = strings.TrimSpace(address)
			break
		}
	}
	go func() {
		for lines.Scan() { // the server must not wait for its log to be read
		}
	}()
	first, err := http.Get(p.address + "notebook/" + slug)
	if err != nil {
		return nil, err
	}
	html, err := io.ReadAll(first.Body)
	if err != nil {
		return nil, err
	}
	token := regexp.MustCompile(`name="token" content="(\w+)"`).FindSubmatch(html)
	if token == nil {
		return nil, errors.New("the page has no token")
	}
	p.token = string(token[1])
	stream, err := http.Get(p.address + "notebook/" + slug + "/events?page=" + pageID)
	if err != nil {
		return nil, err
	}
	go p.read(stream.Body)
	select {
	case <-p.events:
	case <-time.After(10 * time.Second):
		return nil, errors.New("the page got no first event")
	}
	return p, nil
}

func (p *page) close() {
	p.server.Process.Kill()
	p.server.Wait()
}

// read takes the events that carry a page.
func (p *page) read(r io.Reader) {
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, 64<<20)
	name := ""
	for lines.Scan() {
		line := lines.Bytes()
		if event, ok := bytes.CutPrefix(line, []byte("event: ")); ok {
			name = string(event)
		}
		if data, ok := bytes.CutPrefix(line, []byte("data: ")); ok && name == "view" {
			u := update{came: time.Now(), size: len(data)}
			if json.Unmarshal(data, &u) == nil {
				p.events <- u
			}
		}
	}
}

// time is how long it takes from a deed to the event that follows it.
func (p *page) time(do func() error) (update, error) {
	start := time.Now()
	if err := do(); err != nil {
		return update{}, err
	}
	select {
	case u := <-p.events:
		u.took = u.came.Sub(start)
		return u, nil
	case <-time.After(10 * time.Second):
		return update{}, errors.New("no event followed within 10 s")
	}
}

// try tries a number for a given.
func (p *page) try(name, number string) error {
	body, _ := json.Marshal(map[string]string{"page": pageID, "name": name, "number": number})
	r, err := http.NewRequest("POST", p.address+"notebook/"+p.slug+"/try", bytes.NewReader(body))
	if err != nil {
		return err
	}
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("X-Token", p.token)
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		return err
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusNoContent {
		text, _ := io.ReadAll(answer.Body)
		return fmt.Errorf("try: %s", text)
	}
	return nil
}

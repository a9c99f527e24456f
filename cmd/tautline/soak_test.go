package main

import (
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"tautline/runner/engine"
	"tautline/runner/live"
)

var edits = flag.Int("edits", 60, "random edits of the soak test; a day has some 2000")

// spoils are edits that break a notebook or mean harm.
var spoils = []string{
	"\n```go\nzz := undefined\n```\n",
	"\n```go\nzz := 1 * units.M + 1 * units.KPa\n```\n",
	"\n```go\nfor {\n}\n```\n",
	"\n```go\nzz := make([]float64, 0)\nfor {\n\tzz = append(zz, make([]float64, 1000000)...)\n}\n```\n",
	"\n```go\nfunc zz(n float64) float64 { return zz(n+1) + 1 }\nzy := zz(1)\n```\n",
	"\n```go\npanic(\"on purpose\")\n```\n",
	"\n```go\nzz := []float64{1}[3]\n```\n",
	"\n```go\nimport \"os\"\n```\n",
	"\n```go\nzz := sheet.ReadData(\"../../etc/passwd\")\n```\n",
	"\n```go\nzz := (((((\n```\n",
	"\n<script>alert(1)</script>\n\n![x](javascript:alert(1))\n",
	"\n```go\n",
	"\x00\xff\xfe",
	"\n---\n---\n",
}

// A day of use: random edits, sound, broken and harmful, by all the ways that
// editors save. The server answers throughout; no process, descriptor, goroutine
// or memory is left behind; in the end each page is what a cold run writes.
func TestSoak(t *testing.T) {
	sources, err := filepath.Glob("../../notebooks/*.md")
	if err != nil || len(sources) == 0 {
		t.Fatal("no notebooks", err)
	}
	address, file := atDesk(t, live.Options{Limits: engine.Limits{Time: 20 * time.Second}})
	folder := filepath.Dir(file)
	data, _ := filepath.Glob("../../notebooks/*.csv")
	for _, d := range data {
		text, _ := os.ReadFile(d)
		save(t, filepath.Join(folder, filepath.Base(d)), string(text))
	}
	files, sound := map[int]string{}, map[int]string{}
	for i := range 5 {
		text, err := os.ReadFile(sources[i%len(sources)])
		if err != nil {
			t.Fatal(err)
		}
		files[i], sound[i] = filepath.Join(folder, fmt.Sprintf("book%d.md", i)), string(text)
		save(t, files[i], sound[i])
	}
	page := func(path string) (int, string) {
		t.Helper()
		client := http.Client{Timeout: 10 * time.Second}
		r, err := client.Get(address + path)
		if err != nil {
			t.Fatalf("the server does not answer: %v", err)
		}
		defer r.Body.Close()
		text, err := io.ReadAll(r.Body)
		if err != nil {
			t.Fatal(err)
		}
		return r.StatusCode, string(text)
	}
	r := rand.New(rand.NewPCG(1, 2))
	var early residue
	for n := range *edits {
		i := r.IntN(len(files))
		text := sound[i]
		switch r.IntN(3) {
		case 0:
			text += spoils[r.IntN(len(spoils))]
		case 1:
			cut := r.IntN(len(text))
			text = text[:cut] + text[min(len(text), cut+r.IntN(40)):]
		case 2:
			sound[i] += fmt.Sprintf("\nAnother line, number %d.\n", n)
			text = sound[i]
		}
		switch r.IntN(4) {
		case 0: // by rename
			save(t, files[i]+"~", text)
			os.Rename(files[i]+"~", files[i])
		case 1: // gone and made again
			os.Remove(files[i])
			save(t, files[i], text)
		case 2: // in two halves
			save(t, files[i], text[:len(text)/2])
			save(t, files[i], text)
		default:
			save(t, files[i], text)
		}
		time.Sleep(time.Duration(r.IntN(60)) * time.Millisecond)
		if code, _ := page(""); code != http.StatusOK {
			t.Fatalf("after edit %d: got status %d", n, code)
		}
		if n == *edits/3 {
			early = measure()
		}
	}
	for i, file := range files {
		save(t, file, sound[i])
	}
	for i, file := range files {
		slug := fmt.Sprintf("book%d", i)
		out := t.TempDir()
		command(t, "run", "--time", "20s", "-o", out, file)
		want, err := os.ReadFile(filepath.Join(out, slug+".html"))
		if err != nil {
			t.Fatal(err)
		}
		for end := time.Now().Add(time.Minute); ; time.Sleep(50 * time.Millisecond) {
			code, got := page("notebook/" + slug + "/report.html")
			if code == http.StatusOK && got == string(want) {
				break
			}
			if time.Now().After(end) {
				t.Fatalf("%s: the page is not what a cold run writes: got %d bytes, want %d, from byte %d: %.200q", slug, len(got), len(want), differs(got, string(want)), got[min(len(got), differs(got, string(want))):])
			}
		}
	}
	late := measure()
	t.Logf("after a third of the edits %+v, at the end %+v", early, late)
	if late.processes > early.processes+6 || late.descriptors > early.descriptors+40 || late.goroutines > early.goroutines+60 {
		t.Errorf("left behind: after a third of the edits %+v, at the end %+v", early, late)
	}
	if late.heap > early.heap+64<<20 {
		t.Errorf("memory grew from %d to %d MiB", early.heap>>20, late.heap>>20)
	}
}

func differs(a, b string) int {
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return i
		}
	}
	return min(len(a), len(b))
}

// residue is what a program holds.
type residue struct {
	processes, descriptors, goroutines int
	heap                               uint64
}

func measure() residue {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	r := residue{goroutines: runtime.NumGoroutine(), heap: m.HeapAlloc}
	if fds, err := os.ReadDir("/proc/self/fd"); err == nil {
		r.descriptors = len(fds)
	}
	tasks, _ := filepath.Glob("/proc/self/task/*/children")
	for _, t := range tasks {
		children, _ := os.ReadFile(t)
		r.processes += len(strings.Fields(string(children)))
	}
	return r
}

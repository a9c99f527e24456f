package main

import (
	"bytes"
	"context"
	"flag"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"tautline/runner/document"
	"tautline/runner/engine"
)

var update = flag.Bool("update", false, "write what the command prints into the scripts")

func TestMain(m *testing.M) {
	engine.Main()
	testscript.Main(m, map[string]func(){"tautline": main})
}

// The scripts are the command as its user meets it.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(env *testscript.Env) error {
			var dot bytes.Buffer
			if err := png.Encode(&dot, image.NewGray(image.Rect(0, 0, 1, 1))); err != nil {
				return err
			}
			if err := os.WriteFile(filepath.Join(env.WorkDir, "dot.png"), dot.Bytes(), 0o666); err != nil {
				return err
			}
			for _, file := range []string{"lagoon-bed.md"} {
				text, err := os.ReadFile(filepath.Join("../../notebooks", file))
				if err != nil {
					return err
				}
				if err := os.WriteFile(filepath.Join(env.WorkDir, file), text, 0o666); err != nil {
					return err
				}
			}
			return nil
		},
	})
}

// command runs tautline in this process, in a folder of its own.
func command(t *testing.T, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, err bytes.Buffer
	code = exitCode(run(context.Background(), strings.NewReader(""), &out, &err, args), &err)
	return code, out.String(), err.String()
}

const good = "---\ntitle: T\n---\n\n```go\np := 1.5 * units.KPa\nsheet.AtMost(\"pressure\", p, 2*units.KPa, \"the test\")\n```\n"

// The exit code says whether the notebook fails or could not be read.
func TestExitCodes(t *testing.T) {
	folder := t.TempDir()
	file := func(name, text string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		return path
	}
	out := filepath.Join(folder, "out")
	for _, c := range []struct {
		name string
		args []string
		code int
		want string // in standard error
	}{
		{"holds", []string{"check", file("good.md", good)}, 0, ""},
		{"fails", []string{"check", file("fails.md", strings.Replace(good, "2*units", "1*units", 1))}, 1, ""},
		{"no cells", []string{"check", file("none.md", "---\ntitle: T\n---\n\ntext\n")}, 1, "no cells"},
		{"fault", []string{"run", "-o", out, file("fault.md", strings.Replace(good, "sheet", "xs := []float64{}\n_ = xs[len(xs)+3]\nsheet", 1))}, 1, "fault.md:8"},
		{"missing", []string{"run", "-o", out, filepath.Join(folder, "missing.md")}, 2, "no such file"},
		{"folder", []string{"run", "-o", out, folder}, 2, "this is a folder"},
		{"binary", []string{"run", "-o", out, file("binary.md", "\x00\x01\x02")}, 2, "binary"},
		{"too large", []string{"run", "-o", out, file("large.md", strings.Repeat("x", 50<<20))}, 2, "file size: got 52428800 bytes"},
		{"no file", []string{"run"}, 2, "name a notebook"},
		{"unknown flag", []string{"run", "--fast", "x.md"}, 2, "unknown flag"},
		{"swept, though it fails on the way", []string{"sweep", file("swept.md", good), "--given", "p", "--from", "1kPa", "--to", "3kPa"}, 0, ""},
		{"swept, cannot be run", []string{"sweep", file("stops.md", strings.Replace(good, "sheet", "xs := []float64{}\n_ = xs[len(xs)+3]\nsheet", 1)), "--given", "p"}, 1, "stops.md:8"},
		{"swept, missing", []string{"sweep", filepath.Join(folder, "missing.md"), "--given", "p"}, 2, "no such file"},
		{"swept, nothing to vary", []string{"sweep", file("still.md", good)}, 2, "say what to vary"},
		{"unknown command", []string{"hover"}, 2, `no command "hover": tautline --help lists the commands`},
		{"near command", []string{"rum"}, 2, "did you mean run?"},
		{"notebook alone", []string{"bed.md"}, 2, "tautline run bed.md"},
		{"help on no command", []string{"help", "hover"}, 2, `no command "hover"`},
		{"one good, one missing", []string{"check", file("good2.md", good), filepath.Join(folder, "missing.md")}, 2, "no such file"},
	} {
		code, _, stderr := command(t, c.args...)
		if code != c.code || !strings.Contains(stderr, c.want) {
			t.Errorf("%s: got exit code %d and %q, want %d and %q", c.name, code, stderr, c.code, c.want)
		}
	}
	if document.MaxSize > 50<<20 {
		t.Error("the large file is no longer too large")
	}
}

// Nothing in a notebook becomes markup of its report.
func TestNoMarkup(t *testing.T) {
	folder := t.TempDir()
	const bad = `<script>alert(1)</script><img src=x onerror=alert(1)>`
	text := "---\ntitle: '" + bad + "'\nnumber: '" + bad + "'\nstandards: ['" + bad + "']\n---\n\n# " + bad + "\n\n" + bad + "\n\n" +
		"[go](javascript:alert(1)) ![" + bad + "](x.png) $" + bad + "$\n\n| " + bad + " |\n|---|\n| " + bad + " |\n\n" +
		"```go\np := 1 * units.KPa // " + bad + "\nbad := `" + bad + "`\nsheet.AtMost(bad, p, 2*units.KPa, bad)\nsheet.Note(bad)\nsheet.Caution(bad)\n" +
		"t := sheet.NewTable(bad)\nt.Texts(bad, []string{bad})\nf := sheet.NewFigure(bad, bad, bad)\nf.Curve(bad, []units.Pressure{0, p}, []units.Pressure{0, p})\nf.LimitY(bad, p)\n" +
		"d := sheet.NewDrawing(bad)\nxs, ys := []units.Length{0, 1 * units.M, 0}, []units.Length{0, 0, 1 * units.M}\nd.Area(bad, xs, ys)\nd.Line(bad, xs, ys)\nd.Arrow(bad, 0, 0, xs[1], 0)\n" +
		"d.Text(bad, 0, 0)\nd.Mark(bad, 0, 0)\nd.Scale(bad, 0, 1)\nd.Shade(xs, ys, 0.5)\nr := sheet.NewRose(bad)\nr.Curve(bad, []units.Angle{0, 1 * units.Rad}, []units.Pressure{p, p})\nr.Limit(bad, p)\nm := sheet.NewMotion(bad, 100*units.Ms)\nfor range 2 {\nk := m.Frame()\nk.Area(bad, xs, ys)\nk.Text(bad, 0, 0)\n}\n" +
		"sheet.ShopFile(\"bad.html\", bad)\n```\n"
	notebook := filepath.Join(folder, "n.md")
	if err := os.WriteFile(notebook, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	code, _, stderr := command(t, "run", "-o", folder, notebook)
	if code != 0 {
		t.Fatal(stderr)
	}
	page, err := os.ReadFile(filepath.Join(folder, "n.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, mark := range []string{"<script", "<img", `href="javascript:`} {
		if strings.Contains(strings.ToLower(string(page)), mark) {
			t.Errorf("the report contains %q", mark)
		}
	}
}

// A run that fails leaves the last good report as it was.
func TestGoodReportStays(t *testing.T) {
	folder := t.TempDir()
	notebook, report := filepath.Join(folder, "n.md"), filepath.Join(folder, "n.html")
	write := func(text string) {
		if err := os.WriteFile(notebook, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	read := func() string {
		text, err := os.ReadFile(report)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	write(good)
	if code, _, stderr := command(t, "run", "-o", folder, notebook); code != 0 {
		t.Fatal(stderr)
	}
	first := read()
	for name, bad := range map[string]string{
		"syntax":  strings.Replace(good, "p :=", "p := (", 1),
		"unit":    strings.Replace(good, "2*units.KPa", "2*units.Mm", 1),
		"fault":   strings.Replace(good, "sheet", "panic(\"no\")\nsheet", 1),
		"not one": "\x00",
	} {
		write(bad)
		if code, _, _ := command(t, "run", "-o", folder, notebook); code == 0 {
			t.Errorf("%s: got exit code 0", name)
		}
		if read() != first {
			t.Errorf("%s: the good report was changed", name)
		}
	}
	write(good)
	command(t, "run", "-o", folder, notebook)
	if read() != first {
		t.Error("the same notebook gave another report")
	}
}

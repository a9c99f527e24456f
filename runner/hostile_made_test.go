package runner_test

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"unicode/utf16"

	"tautline/runner"
	"tautline/runner/engine"
)

const (
	head = "---\ntitle: Hostile\n---\n\n"
	cell = "\n\n```go\nbefore := 1.5 * units.KPa\n```\n"
)

// prose is a notebook with a text in it, code one with a cell.
func prose(text string) string { return head + text + cell }
func code(text string) string {
	return head + cell + "\n```go\n" + text + "\n```\n\n```go\nafter := 2 * before\n```\n"
}

// list repeats a text with a number in it.
func list(format string, n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.ReplaceAll(format, "#", fmt.Sprint(i)))
	}
	return b.String()
}

func inUTF16(s string) string {
	var b strings.Builder
	for _, u := range utf16.Encode([]rune("\ufeff" + s)) {
		b.Write([]byte{byte(u), byte(u >> 8)})
	}
	return b.String()
}

const (
	deep = "nesting: got more than 100 levels"
	much = "bytes of Go"
)

// Notebooks that are too large or too odd to keep as files are survived like
// those that are: each ends as the error that it wants, or harmlessly.
func TestHostileMade(t *testing.T) {
	many := strings.Repeat
	const n = 10_000
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "title block: got none"},
		{"no cells", "---\ntitle: T\n---\n", "no cells"},
		{"too large", many("x", 2<<20+1), "file size: got 2097153 bytes"},
		{"one paragraph", prose(many("All work and no play. ", 80_000)), ""},
		{"short lines", prose(many("a line\n", 100_000)), ""},
		{"long line", prose(many("x", 1_500_000)), ""},
		{"empty lines", prose(many("\n", 1_500_000)), ""},
		{"paragraphs", prose(many("a\n\n", n)), ""},
		{"headings of one name", prose(many("# a\n\n", n)), ""},
		{"brackets", prose(many("[", n)), "opening brackets"},
		{"paired brackets", prose(many("[", n) + "a" + many("]", n)), "opening brackets"},
		{"open links", prose(many("[a](", n)), "opening brackets"},
		{"links", prose(many("[a](http://localhost/)\n\n", n)), ""},
		{"references", prose(list("[r#]: http://localhost/#\n", n) + "\n" + list("[r#]\n\n", n)), ""},
		{"one long reference", prose(many("[a][x]\n\n", n) + "[x]: http://localhost/" + many("y", n)), ""},
		{"footnotes of footnotes", prose("[^0]\n\n" + list("[^#]: [^1#]\n", n)), ""},
		{"emphasis", prose(many("*a **b _c ", n)), ""},
		{"stars", prose(many("*", n) + "a" + many("*", n)), ""},
		{"backticks", prose(many("`a `` ", n)), ""},
		{"angles", prose(many("<a ", n)), ""},
		{"comments", prose(many("<!-- ", n)), "no cells"},
		{"entities", prose(many("&amp;&#x202e;&#27;&", n)), ""},
		{"dollars", prose(many("$a $$ ", n)), ""},
		{"braces of a formula", prose("$" + many("{", n) + "x" + many("}", n) + "$"), ""},
		{"fractions", prose("$" + many("\\frac{", n) + "x" + many("}{y}", n) + "$"), ""},
		{"quotes", prose(many(">", n) + " a"), "more than 32 levels of lists and quotes"},
		{"lists", prose(many("- ", n) + "a"), "more than 32 levels of lists and quotes"},
		{"wide table", prose(many("|a", n) + "\n" + many("|-", n) + "\n" + many("|b", n)), ""},
		{"open fence", prose("```go\nx := 1\n" + many("y\n", n)), "raw string literal not terminated"},
		{"carriage returns", strings.ReplaceAll(prose("text"), "\n", "\r"), ""},
		{"Windows lines", strings.ReplaceAll(prose("text"), "\n", "\r\n"), ""},
		{"byte order mark", "\ufeff" + prose("text"), ""},
		{"UTF-16", inUTF16(prose("text")), "want UTF-8 text"},
		{"NUL", prose("a\x00b"), "got byte 0x00"},
		{"escape", prose("\x1b[2J"), "got byte 0x1b"},
		{"broken UTF-8", prose("\xff\xfe\xc0\x80\xed\xa0\x80"), "got byte 0xff"},
		{"broken UTF-8 in a cell", code("s := \"\xc0\x80\""), "got byte 0xc0"},
		{"turned text", prose("9.81\u202e"), "got the invisible U+202E"},
		{"turned comment", code("x := 1.0 /* \u2066 } \u2069 */"), "got the invisible U+2066"},
		{"turned result", code("sheet.Note(\"9.81\\u202e \\x1b[2J \\x00 \\u2066\")"), ""},
		{"long title", "---\ntitle: " + many("x", 500_000) + "\n---\n" + cell, ""},
		{"deep title block", "---\ntitle: T\nstandards: " + many("[", n) + "\n---\n" + cell, "title block: got broken YAML"},
		{"many keys", "---\ntitle: T\n" + list("k#: v\n", n) + "---\n" + cell, "findings: got more than 200"},
		{"aliases of aliases", "---\ntitle: T\nk: &a0 [x]\n" + list("k#: &b# [*a0, *a0]\n", 50) + "---\n" + cell, ""},
		{"much code", code(list("x# := 1.0\n", 3*n)), much},
		{"much advice", code(list("x# := 1.0\n", 1000)), ""},
		{"long comment", code("x := 1.0 // " + many("c", 300_000)), much},
		{"many elements", code("xs := []float64{" + many("1,", 200_000) + "}"), much},
		{"many cells", head + cell + list("```go\nx# := before\n```\n\n", 2001), "cells: got 2002, want at most 2000"},
		{"parentheses", code("x := " + many("(", n) + "1" + many(")", n)), deep},
		{"sum", code("x := 1.0" + many(" + 1.0", n)), deep},
		{"negations", code("x := " + many("!", n) + "true"), deep},
		{"blocks", code(many("{", n) + many("}", n)), deep},
		{"conditions", code(many("if before > 0 {", 5000) + many("}", 5000)), deep},
		{"loops", code(many("for range 2 {", 5000) + many("}", 5000)), deep},
		{"functions", code("x := " + many("func() float64 { return ", 5000) + "1.0" + many(" }()", 5000)), deep},
		{"calls", code("x := " + many("math.Sqrt(", n/4) + "2" + many(")", n/4)), deep},
		{"slices", code("xs := []float64{1}\nys := xs" + many("[0:]", n)), deep},
		{"types", code("type t struct {" + many("\na struct {", 5000) + many("\n}", 5000) + "\n}"), deep},
		{"pointers", code("var p " + many("*", n) + "float64"), deep},
		{"selectors", code("x := before" + many(".a", n)), deep},
		{"literals", code("x := " + many("[]", 5000) + "float64" + many("{", 5000) + many("}", 5000)), deep},
		{"arrays of arrays", code("var x " + many("[2]", 60) + "float64"), "an array: got one of more than"},
		{"long name", code(many("x", 1000) + " := 1.0"), "name: got 1000 bytes"},
		{"long number", code("x := 0." + many("1", 100_000)), "excessively long constant"},
		{"many errors", code(list("x# := undefined#\n", 5000)), "findings: got more than 200"},
		{"doubling calls", code("func f0(x float64) float64 { return x }\n" + list("func g#(x float64) float64 { return f0(x) + f0(x) }\n", 1000)), ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			file := filepath.Join(t.TempDir(), "hostile.md")
			if err := os.WriteFile(file, []byte(c.text), 0o666); err != nil {
				t.Fatal(err)
			}
			if c.want == "" {
				survive(t, file, nil)
				return
			}
			res := runner.File(t.Context(), file, engine.Limits{})
			found := false
			for _, d := range res.Diagnostics() {
				found = found || strings.Contains(d.Message, c.want)
			}
			if !found || res.Ran() {
				t.Errorf("no error with %q, but:", c.want)
				for _, d := range res.Diagnostics()[:min(5, len(res.Diagnostics()))] {
					t.Errorf("%.200s", d.Message)
				}
			}
			next(t)
		})
	}
}

// Data files that are none, or another's, are errors at the line that names
// them; what is in one can only be a fault of the cell.
func TestHostileData(t *testing.T) {
	outside := filepath.Join(t.TempDir(), "secret.csv")
	if err := os.WriteFile(outside, []byte("key\n42\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	write := func(text string) func(string) error {
		return func(file string) error { return os.WriteFile(file, []byte(text), 0o666) }
	}
	link := func(to string) func(string) error { return func(file string) error { return os.Symlink(to, file) } }
	for _, c := range []struct {
		name string
		make func(file string) error
		want string
	}{
		{"missing", func(string) error { return nil }, "there is no such file"},
		{"folder", func(file string) error { return os.Mkdir(file, 0o777) }, "this is a folder"},
		{"link to another's file", link(outside), "escapes"},
		{"link up and down", link("../" + filepath.Base(filepath.Dir(outside)) + "/secret.csv"), "escapes"},
		{"link to a device", link("/dev/zero"), "escapes"},
		{"link to itself", link("data.csv"), "too many levels of symbolic links"},
		{"link to nothing", link("nothing.csv"), "there is no such file"},
		{"pipe", makePipe, "this is not a regular file"},
		{"three gibibytes", func(file string) error {
			if err := write("")(file); err != nil {
				return err
			}
			return os.Truncate(file, 3<<30)
		}, "file size: got 3221225472 bytes"},
		{"zeros", func(file string) error {
			if err := write("")(file); err != nil {
				return err
			}
			return os.Truncate(file, 1<<20)
		}, `no column "key"`},
		{"empty", write(""), "sheet: ReadData data.csv"},
		{"open quote", write("key\n\"" + strings.Repeat("x\n", 100_000)), "sheet: ReadData data.csv"},
		{"many columns", write(strings.Repeat("a,", 1_000_000) + "\n"), `no column "key"`},
		{"many rows", write("key\n" + strings.Repeat("1\n", 1_000_000)), ""},
		{"no number", write("key\n<script>alert(1)</script>\n"), "<script>"},
		{"infinite", write("key\n1e999\n"), "1e999"},
		{"broken UTF-8", write("key\n\xff\xfe\n"), "sheet: "},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			folder := t.TempDir()
			if err := c.make(filepath.Join(folder, "data.csv")); err != nil {
				t.Skip(err)
			}
			file := filepath.Join(folder, "hostile.md")
			if err := os.WriteFile(file, []byte(code("d := sheet.ReadData(\"data.csv\")\nx := d.Column(\"key\", 1)")), 0o666); err != nil {
				t.Fatal(err)
			}
			var wants []want
			if c.want != "" {
				wants = []want{{0, c.want}}
			}
			if runtime.GOOS == "windows" && strings.HasPrefix(c.name, "link") {
				t.Skip("links are another thing there")
			}
			survive(t, file, wants)
		})
	}
}

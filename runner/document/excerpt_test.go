package document

import (
	"strings"
	"testing"
)

func at(line, from, to int) Range {
	return Range{Position{line, from}, Position{line, to}}
}

func TestFormat(t *testing.T) {
	const src = "p := 1\n\tT := p*r\t// Länge 本\nq\u0301 := 3\nx := \x1b[31m\u202e1\nlast"
	for _, c := range []struct {
		name string
		d    Diagnostic
		want string
	}{
		{"whole file", Diagnostic{Message: "a"}, "b.md: error: a\n"},
		{"warning and hint", Diagnostic{Severity: Warning, Range: at(1, 1, 2), Message: "a", Hint: "h\ni"},
			"b.md:1:1: warning: a\n    1  p := 1\n       ^\nhint: h\n     i\n"},
		{"tab before", Diagnostic{Range: at(2, 7, 10), Message: "a"},
			"b.md:2:7: error: a\n    2      T := p*r    // Länge 本\n                ^^^\n"},
		{"tab in", Diagnostic{Range: at(2, 9, 11), Message: "a"},
			"b.md:2:9: error: a\n    2      T := p*r    // Länge 本\n                  ^^^^^\n"},
		{"after wide letters", Diagnostic{Range: at(2, 21, 24), Message: "a"},
			"b.md:2:21: error: a\n    2      T := p*r    // Länge 本\n                                ^\n"},
		{"accent of its own", Diagnostic{Range: at(3, 5, 7), Message: "a"},
			"b.md:3:5: error: a\n    3  q\u0301 := 3\n         ^^\n"},
		{"steering characters", Diagnostic{Range: at(4, 6, 14), Message: "a\x1b[1m\u202e"},
			"b.md:4:6: error: a\ufffd[1m\ufffd\n    4  x := \ufffd[31m\ufffd1\n            ^^^^^^\n"},
		{"more than one line", Diagnostic{Range: Range{Position{1, 3}, Position{3, 2}}, Message: "a"},
			"b.md:1:3: error: a\n    1  p := 1\n         ^^^^\n"},
		{"end of line", Diagnostic{Range: at(5, 5, 5), Message: "a"},
			"b.md:5:5: error: a\n    5  last\n           ^\n"},
		{"after the file", Diagnostic{Range: at(9, 1, 1), Message: "a"}, "b.md:9:1: error: a\n"},
		{"after the line", Diagnostic{Range: at(5, 99, 120), Message: "a"},
			"b.md:5:99: error: a\n    5  last\n           ^\n"},
		{"notes", Diagnostic{Range: at(5, 1, 5), Message: "a", Notes: []Note{{at(1, 1, 2), "b"}, {Range{}, "c"}}, Hint: "h"},
			"b.md:5:1: error: a\n    5  last\n       ^^^^\nb.md:1:1: note: b\n    1  p := 1\n       ^\nb.md: note: c\nhint: h\n"},
	} {
		c.d.File = "b.md"
		if got := c.d.Format([]byte(src), false); got != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, c.want)
		}
		colored := c.d.Format([]byte(src), true)
		for _, tone := range []string{red, yellow, dim, plain} {
			colored = strings.ReplaceAll(colored, tone, "")
		}
		if colored != c.want {
			t.Errorf("%s: in color: got %q, want the same text", c.name, colored)
		}
	}
}

// TestFormatGutter: the numbers of an excerpt and its notes stand in one column.
func TestFormatGutter(t *testing.T) {
	d := Diagnostic{File: "b.md", Range: at(3, 1, 2), Message: "a", Notes: []Note{{at(12, 1, 2), "b"}}}
	got := d.Format([]byte(strings.Repeat("x\n", 12)), false)
	want := "b.md:3:1: error: a\n     3  x\n        ^\nb.md:12:1: note: b\n    12  x\n        ^\n"
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestFormatLongLine: wherever the range lies in a long line, it is shown, with
// the marks under it and no more than a screen's width.
func TestFormatLongLine(t *testing.T) {
	const size = 5000
	for from := 1; from+3 <= size; from += 7 {
		line := []rune(strings.Repeat("ä", size))
		copy(line[from:], []rune("xyz"))
		d := Diagnostic{Range: at(1, 2*from+1, 2*from+4), Message: "a"}
		out := strings.Split(d.Format([]byte(string(line)), false), "\n")
		text, marks := []rune(out[1]), []rune(out[2])
		if len(text) > excerptWidth+8 {
			t.Fatalf("column %d: got %d columns, want at most %d", from, len(text), excerptWidth+8)
		}
		if got := string(text[len(marks)-3 : len(marks)]); got != "xyz" || string(marks[len(marks)-4:]) != " ^^^" {
			t.Fatalf("column %d: got %q marked in\n%s\n%s", from, got, out[1], out[2])
		}
	}
}

func TestSort(t *testing.T) {
	ds := []Diagnostic{
		{File: "b", Message: "6"},
		{File: "a", Range: at(2, 1, 1), Message: "5"},
		{File: "a", Range: at(1, 9, 9), Severity: Warning, Message: "3"},
		{File: "a", Range: at(1, 10, 10), Message: "4"},
		{File: "a", Range: at(1, 9, 9), Message: "2"},
		{File: "a", Message: "1"},
	}
	Sort(ds)
	var got string
	for _, d := range ds {
		got += d.Message
	}
	if got != "123456" {
		t.Errorf("got order %s, want 123456", got)
	}
}

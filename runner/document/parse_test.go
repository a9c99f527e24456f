package document

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/gomarkdown/markdown/ast"
	"github.com/gomarkdown/markdown/parser"
	"golang.org/x/tools/txtar"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// TestGolden reads notebooks in testdata and compares each of their views:
//
//	tree         the blocks with their places
//	cells        every line of every cell with its place
//	diagnostics  the findings as they are printed
func TestGolden(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("golden files: got %d, %v, want some", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) { golden(t, file) })
	}
}

func golden(t *testing.T, file string) {
	a, err := txtar.ParseFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Files) == 0 || a.Files[0].Name != "notebook.md" {
		t.Fatalf("%s: want notebook.md as the first file", file)
	}
	nb, diags := Parse("notebook.md", a.Files[0].Data)
	if err := consistent(nb, diags); err != nil {
		t.Error(err)
	}
	views := []txtar.File{
		{Name: "tree", Data: []byte(tree(nb))},
		{Name: "cells", Data: []byte(cellLines(nb))},
		{Name: "diagnostics", Data: []byte(printed(nb, diags))},
	}
	if *update {
		a.Files = a.Files[:1]
		for _, v := range views {
			if len(v.Data) > 0 {
				a.Files = append(a.Files, v)
			}
		}
		if err := os.WriteFile(file, txtar.Format(a), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want := map[string]string{}
	for _, f := range a.Files[1:] {
		want[f.Name] = string(f.Data)
	}
	for _, v := range views {
		if got := string(v.Data); got != want[v.Name] {
			t.Errorf("%s: %s: got\n%s\nwant\n%s", file, v.Name, got, want[v.Name])
		}
		delete(want, v.Name)
	}
	for name := range want {
		t.Errorf("%s: golden file %s belongs to no view", file, name)
	}
}

func printed(nb *Notebook, diags []Diagnostic) string {
	var b strings.Builder
	for _, d := range diags {
		b.WriteString(d.Format(nb.Source, false))
	}
	return b.String()
}

func (r Range) String() string {
	return fmt.Sprintf("%d:%d-%d:%d", r.Start.Line, r.Start.Column, r.End.Line, r.End.Column)
}

// tree shows a notebook as an indented list of its parts.
func tree(nb *Notebook) string {
	var b strings.Builder
	if t := nb.Title; t.Range != (Range{}) {
		fmt.Fprintf(&b, "%v title block\n", t.Range)
		for _, f := range [][2]string{{"title", t.Title}, {"number", t.Number}, {"revision", t.Revision},
			{"project", t.Project}, {"prepared", t.Prepared}, {"checked", t.Checked}, {"approved", t.Approved}} {
			if f[1] != "" {
				fmt.Fprintf(&b, "  %s %q\n", f[0], f[1])
			}
		}
		for _, s := range t.Standards {
			fmt.Fprintf(&b, "  standard %q\n", s)
		}
		fmt.Fprintf(&b, "  system %s\n", t.System)
		if t.Units != nil {
			fmt.Fprintf(&b, "  units %v\n", t.Units)
		}
	}
	writeBlocks(&b, nb.Blocks, "")
	return b.String()
}

func writeBlocks(b *strings.Builder, blocks []Block, in string) {
	for _, n := range blocks {
		fmt.Fprintf(b, "%s%v ", in, n.Span())
		switch n := n.(type) {
		case *Heading:
			fmt.Fprintf(b, "heading %d #%s %s\n", n.Level, n.ID, inlineText(n.Text))
		case *Paragraph:
			fmt.Fprintf(b, "paragraph %s\n", inlineText(n.Text))
		case *List:
			fmt.Fprintf(b, "list ordered=%v start=%d tight=%v\n", n.Ordered, n.Start, n.Tight)
			for _, item := range n.Items {
				fmt.Fprintf(b, "%s  item\n", in)
				writeBlocks(b, item, in+"    ")
			}
		case *Quote:
			fmt.Fprintf(b, "quote\n")
			writeBlocks(b, n.Blocks, in+"  ")
		case *Code:
			fmt.Fprintf(b, "code %q %q\n", n.Language, n.Text)
		case *Cell:
			fmt.Fprintf(b, "cell %d %q\n", n.Index, n.Text)
		case *Table:
			fmt.Fprintf(b, "table %v\n", n.Align)
			for i, row := range append([][][]Inline{n.Header}, n.Rows...) {
				fmt.Fprintf(b, "%s  row %d", in, i)
				for _, c := range row {
					fmt.Fprintf(b, " |%s|", inlineText(c))
				}
				b.WriteByte('\n')
			}
		case *Math:
			fmt.Fprintf(b, "math %q\n", n.TeX)
		case *Rule:
			fmt.Fprintf(b, "rule\n")
		default:
			panic(fmt.Sprintf("no view of %T", n))
		}
	}
}

func inlineText(text []Inline) string {
	var b strings.Builder
	for _, n := range text {
		switch n := n.(type) {
		case Text:
			fmt.Fprintf(&b, "%q", string(n))
		case Emphasis:
			fmt.Fprintf(&b, "em(%s)", inlineText(n))
		case Strong:
			fmt.Fprintf(&b, "strong(%s)", inlineText(n))
		case Strike:
			fmt.Fprintf(&b, "strike(%s)", inlineText(n))
		case CodeSpan:
			fmt.Fprintf(&b, "code(%q)", string(n))
		case Link:
			fmt.Fprintf(&b, "link(%s %s)", n.To, inlineText(n.Text))
		case Image:
			fmt.Fprintf(&b, "image(%q %q)", n.File, n.Alt)
		case InlineMath:
			fmt.Fprintf(&b, "math(%q)", string(n))
		case Break:
			b.WriteString("break()")
		default:
			panic(fmt.Sprintf("no view of %T", n))
		}
	}
	return b.String()
}

// cellLines shows each line of each cell where At says that it stands.
func cellLines(nb *Notebook) string {
	var b strings.Builder
	for _, c := range nb.Cells() {
		fmt.Fprintf(&b, "cell %d at %v\n", c.Index, c.Range)
		for i, line := range textLines(c.Text) {
			at := c.At(i+1, 1)
			fmt.Fprintf(&b, "  %d:%d %q\n", at.Line, at.Column, line)
		}
	}
	return b.String()
}

func textLines(text string) []string {
	if text == "" {
		return nil
	}
	return strings.Split(strings.TrimSuffix(text, "\n"), "\n")
}

// consistent checks what holds for every notebook: places lie in the file and
// in their container, in order; each line of a cell is the source at its place;
// diagnostics have a message and a place in the file.
func consistent(nb *Notebook, diags []Diagnostic) error {
	lines := splitLines(nb.Source)
	inside := func(p Position) bool {
		return p == Position{1, 1} || p.Line >= 1 && p.Line <= len(lines) &&
			p.Column >= 1 && p.Column <= len(lines[p.Line-1])+1
	}
	for _, d := range diags {
		if strings.Contains(d.Message, "could not be read as Markdown") {
			return fmt.Errorf("defect: %s", d.Message)
		}
		if d.Message == "" || strings.ContainsAny(d.Message, "\n") {
			return fmt.Errorf("diagnostic: got message %q, want one line", d.Message)
		}
		if d.Range != (Range{}) && (!inside(d.Range.Start) || !inside(d.Range.End) || d.Range.End.Compare(d.Range.Start) < 0) {
			return fmt.Errorf("diagnostic %q: got range %v outside the file", d.Message, d.Range)
		}
		d.Format(nb.Source, true)
	}
	var within func(blocks []Block, from, to Position) error
	within = func(blocks []Block, from, to Position) error {
		for _, b := range blocks {
			at := b.Span()
			if !inside(at.Start) || !inside(at.End) || at.Start.Compare(from) < 0 || at.End.Compare(to) > 0 || at.End.Compare(at.Start) < 0 {
				return fmt.Errorf("%T: got range %v, want it in %v", b, at, Range{from, to})
			}
			from = at.End
			for _, text := range running(b) {
				if err := harmless(text); err != nil {
					return fmt.Errorf("%T at %v: %w", b, at, err)
				}
			}
			switch b := b.(type) {
			case *Quote:
				if err := within(b.Blocks, at.Start, at.End); err != nil {
					return err
				}
			case *List:
				inner := at.Start
				for _, item := range b.Items {
					if err := within(item, inner, at.End); err != nil {
						return err
					}
					if len(item) > 0 {
						inner = item[len(item)-1].Span().End
					}
				}
			}
		}
		return nil
	}
	if err := within(nb.Blocks, Position{1, 1}, Position{len(lines) + 1, 1}); err != nil {
		return err
	}
	for i, c := range nb.Cells() {
		text := textLines(c.Text)
		if c.Index != i || len(text) != len(c.Origins) {
			return fmt.Errorf("cell %d: got index %d, %d lines, %d origins", i, c.Index, len(text), len(c.Origins))
		}
		for k, line := range text {
			at := c.At(k+1, 1)
			if want := string(lines[at.Line-1][at.Column-1:]); line != want {
				return fmt.Errorf("cell %d line %d: got %q, want the source %q at %v", i, k+1, line, want, at)
			}
			if at.Line != c.Start.Line+k+1 || at.Line > c.End.Line {
				return fmt.Errorf("cell %d line %d: got source line %d, cell at %v", i, k+1, at.Line, c.Range)
			}
		}
	}
	return nil
}

// running returns the running text of a block.
func running(b Block) [][]Inline {
	switch b := b.(type) {
	case *Heading:
		return [][]Inline{b.Text}
	case *Paragraph:
		return [][]Inline{b.Text}
	case *Table:
		text := b.Header
		for _, row := range b.Rows {
			text = append(text, row...)
		}
		return text
	}
	return nil
}

var address = regexp.MustCompile(`^(?i:https?://|mailto:|#).`)

// harmless checks that links lead to addresses and pictures lie beside the
// notebook, and that text is in one piece and on one line.
func harmless(text []Inline) error {
	for i, n := range text {
		var inner []Inline
		switch n := n.(type) {
		case Text:
			if n == "" || strings.Contains(string(n), "\n") {
				return fmt.Errorf("text: got %q, want one line", n)
			}
			if i > 0 {
				if before, ok := text[i-1].(Text); ok {
					return fmt.Errorf("text: got %q beside %q, want one piece", n, before)
				}
			}
		case Link:
			if !address.MatchString(n.To) {
				return fmt.Errorf("link: got %q", n.To)
			}
			inner = n.Text
		case Image:
			if n.File == "" || n.File != filepath.Base(n.File) || strings.ContainsAny(n.File, `:/\`) {
				return fmt.Errorf("picture: got %q", n.File)
			}
		case Emphasis:
			inner = n
		case Strong:
			inner = n
		case Strike:
			inner = n
		}
		if err := harmless(inner); err != nil {
			return err
		}
	}
	return nil
}

const minimal = "---\ntitle: Bed\n---\n"

// TestLineEnds: the same notebook in every form of line end has the same
// places, and its cells the same text.
func TestLineEnds(t *testing.T) {
	const text = minimal + "# Länge\n\n> ```go\n> x := 1 // µ\n> ```\n\n[a](ftp://x.y)\n\n$$\na\n$$\n"
	want, wantDiags := Parse("a.md", []byte(text))
	if len(wantDiags) != 1 || len(want.Cells()) != 1 {
		t.Fatalf("LF: got %d cells, diagnostics %v", len(want.Cells()), wantDiags)
	}
	for name, src := range map[string]string{
		"CRLF":      strings.ReplaceAll(text, "\n", "\r\n"),
		"CR":        strings.ReplaceAll(text, "\n", "\r"),
		"mixed":     strings.Replace(strings.Replace(text, "\n", "\r\n", 3), "µ\n", "µ\r", 1),
		"mark":      "\ufeff" + text,
		"mark CRLF": "\ufeff" + strings.ReplaceAll(text, "\n", "\r\n"),
	} {
		nb, diags := Parse("a.md", []byte(src))
		if got := tree(nb) + cellLines(nb); got != tree(want)+cellLines(want) {
			t.Errorf("%s: got\n%s\nwant\n%s", name, got, tree(want)+cellLines(want))
		}
		if got, want := printed(nb, diags), printed(want, wantDiags); got != want {
			t.Errorf("%s: got diagnostics\n%s\nwant\n%s", name, got, want)
		}
		if bytes.ContainsAny(nb.Source, "\r\ufeff") {
			t.Errorf("%s: got Source %q, want LF line ends and no mark", name, nb.Source)
		}
	}
}

func TestNotText(t *testing.T) {
	for _, c := range []struct {
		name, src, want string
	}{
		{"NUL", "# a\nb\x00c\n", "a.md:2:2: error: file: got byte 0x00 at offset 5, want UTF-8 text\n"},
		{"Latin-1", "# a\r\rL\xe4nge\n", "a.md:3:2: error: file: got byte 0xe4 at offset 6, want UTF-8 text\n"},
		{"cut rune", "# µ\n\xc2", "a.md:2:1: error: file: got byte 0xc2 at offset 5, want UTF-8 text\n"},
		{"UTF-16", "\xff\xfe#\x00", "a.md:1:1: error: file: got byte 0xff at offset 0, want UTF-8 text\n"},
		{"escape", "# a\nb \x1b[2J\n", "a.md:2:3: error: file: got byte 0x1b at offset 6, want UTF-8 text\n"},
		{"override", "# a\n9.8\u202e1\n", "a.md:2:4: error: file: got the invisible U+202E, which turns the direction of what follows, at offset 7, want UTF-8 text\n"},
		{"isolate", "\u2067x", "a.md:1:1: error: file: got the invisible U+2067, which turns the direction of what follows, at offset 0, want UTF-8 text\n"},
		{"too large", strings.Repeat("a\n", MaxSize/2+1), "a.md: error: file size: got 2097154 bytes, want at most 2097152\n"},
	} {
		nb, diags := Parse("a.md", []byte(c.src))
		if nb != nil || len(diags) != 1 {
			t.Errorf("%s: got notebook %v, %d diagnostics, want none and 1", c.name, nb != nil, len(diags))
			continue
		}
		if got := diags[0].Format(nil, false); !strings.HasPrefix(got, c.want) || !strings.Contains(got, "hint: ") {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

// TestHostile: files made to exhaust time, memory or the stack are read like
// any other, and what is lost of them is said.
func TestHostile(t *testing.T) {
	const n = 1 << 18
	many := func(s string) string { return strings.Repeat(s, n/len(s)) }
	for name, src := range map[string]string{
		"quotes":          many(">") + "a",
		"spaced quotes":   many("> ") + "a",
		"tabbed quotes":   many(">\t") + "a",
		"lists":           many("- ") + "a",
		"numbered lists":  many("1. ") + "a",
		"tabbed lists":    many("-\t") + "a",
		"mixed":           many("> - ") + "a",
		"emphasis":        many("*a **b "),
		"nested emphasis": many("*a ") + many("b* "),
		"brackets":        many("["),
		"links":           many("[a](b "),
		"images":          many("![a"),
		"bad links":       many("[a](x:y) "),
		"odd links":       many("[a](x:ä&amp;) "),
		"backticks":       many("` `` ``` "),
		"dollars":         many("$a "),
		"double dollars":  many("$$a "),
		"open formulas":   many("$$ a\n"),
		"formulas":        many("$a$ "),
		"angles":          many("<a "),
		"comments":        many("<!-- "),
		"entities":        many("&amp;"),
		"fences":          many("```\n"),
		"cells":           many("```go\na\n```\n"),
		"bars":            many("|") + "\n" + many("|-") + "\n" + many("|a\n"),
		"rows":            "|a|b|\n|-|-|\n" + many("|\n"),
		"definitions":     "[a]: /" + many("b") + "\n\n" + many("[a] "),
		"one line":        many("word "),
		"headings":        many("# a\n"),
		"empty items":     many("-\n"),
		"setext":          many("a\n=\n"),
		"title":           "---\n" + many("a: &b [*b, ") + "\n---\n",
		"title keys":      "---\n" + many("a: 1\n") + "---\n",
		"flow":            "---\n" + many("[") + "\n---\n",
		"tabs":            many("\t"),
		"stands":          many("\uffff$"),
	} {
		t.Run(name, func(t *testing.T) {
			nb, diags := Parse("a.md", []byte(src))
			if err := consistent(nb, diags); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestDepth(t *testing.T) {
	for _, c := range []struct {
		prefix string
		depth  int
		want   bool
	}{
		{"> ", maxDepth, true}, {"> ", maxDepth + 1, false},
		{"- ", maxDepth, true}, {"- ", maxDepth + 1, false},
		{"> ", 5000, false}, {"- ", 5000, false},
	} {
		nb, diags := Parse("a.md", []byte(minimal+strings.Repeat(c.prefix, c.depth)+"words\n"))
		if got := strings.Contains(tree(nb), `"words"`); got != c.want || (len(diags) == 0) != c.want {
			t.Errorf("%d × %q: got the words %v, diagnostics %v", c.depth, c.prefix, got, diags)
		}
	}
}

// TestFindings: a file full of mistakes does not print them all.
func TestFindings(t *testing.T) {
	_, diags := Parse("a.md", []byte(minimal+strings.Repeat("[a](x:y) ", 1000)))
	if len(diags) != maxFindings+1 || !strings.Contains(diags[len(diags)-1].Message, "findings: got more") {
		t.Errorf("got %d diagnostics, last %v", len(diags), diags[len(diags)-1])
	}
}

// TestGuard: a panic of the Markdown parser costs the paragraph that it stands
// at, no more.
func TestGuard(t *testing.T) {
	r := &reader{file: "a.md", md: newMarkdown()}
	r.md.ReferenceOverride = func(string) (*parser.Reference, bool) { panic("broken") }
	text := r.inlines(at(3, 1, 9), []byte("words\n[link]"))
	if got := inlineText(text); got != `"words [link]"` {
		t.Errorf("text: got %s, want it as written", got)
	}
	if len(r.diags) != 1 || r.diags[0].Range != at(3, 1, 9) || !strings.Contains(r.diags[0].Message, "could not be read as Markdown: broken") {
		t.Errorf("diagnostics: got %v, want one at the text", r.diags)
	}
}

// TestLost: marks that do not fit the lines are never taken for places.
func TestLost(t *testing.T) {
	g := region{first: 1, lines: [][]byte{[]byte("ab"), []byte("c")}}
	for _, rest := range []int{0, 1, 4, 6} {
		func() {
			defer func() {
				if p := recover(); p != errLost {
					t.Errorf("%d bytes left: got %v, want %v", rest, p, errLost)
				}
			}()
			g.spans([]ast.Node{&mark{rest: rest}})
		}()
	}
	if got := g.spans([]ast.Node{&mark{rest: 2}}); got[0].start != 1 {
		t.Errorf("2 bytes left: got line %d, want 1", got[0].start)
	}
}

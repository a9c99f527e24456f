package document

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/gomarkdown/markdown/ast"
	"github.com/gomarkdown/markdown/parser"
	"golang.org/x/tools/txtar"
	"pgregory.net/rapid"

	"tautline/runner/document/margin"
)

// A container puts a prefix before the lines it holds, another one before the
// first.
type container struct{ first, other string }

var containers = []container{
	{"> ", "> "}, {">", ">"}, {" > ", " > "}, {"- ", "  "}, {"* ", "  "}, {"10. ", "    "}, {"1)   ", "     "},
	{"-\t", "\t"}, // outermost only: elsewhere the two tabs may differ in width
}

func (c container) isList() bool { return strings.Trim(c.other, margin.White) == "" }

// wrap puts lines into a container as an author would: a list item does not
// start with a line that is itself indented, for that would set its width, and
// a space after a bare > is the quote's.
func (c container) wrap(lines []string) []string {
	if c.isList() && strings.HasPrefix(lines[0], " ") {
		lines = append([]string{"item", ""}, lines...)
	}
	out := make([]string, len(lines))
	for i, line := range lines {
		prefix := c.other
		switch {
		case i == 0:
			prefix = c.first
		case c.isList() && line == "":
			prefix = ""
		}
		if prefix == ">" && strings.TrimLeft(line, margin.White) != line {
			prefix = "> "
		}
		out[i] = prefix + line
	}
	return out
}

// A written cell is what a generated notebook holds.
type written struct{ lines []string }

const maxDrawn = 4 // levels of containers

func drawBlock(t *rapid.T, number *int, cells *[]written) []string {
	switch rapid.IntRange(0, 7).Draw(t, "block") {
	case 0:
		return []string{"# head " + rapid.StringOfN(rapid.RuneFrom([]rune("aäµ本 ")), 0, 8, -1).Draw(t, "head") + "."}
	case 1:
		return []string{"words über", "two lines, $x$ and $5."}
	case 2:
		return []string{"| a | b |", "|---|--:|", "| 1 | `x|y` |"}
	case 3:
		return []string{"$$", "a = b", "- c", "$$"}
	case 4:
		return []string{"````md", "```go", "not a cell", "```", "````"}
	}
	fence := rapid.SampledFrom([]string{"```", "~~~", "`````"}).Draw(t, "fence")
	indent := rapid.SampledFrom([]string{"", " ", "   "}).Draw(t, "indent")
	code := rapid.SampledFrom([]string{"", "\t", "  ", "ä := `", "// µ本\t", "> ", "- ", "#", "    ", "$$", "|", "---"})
	var c written
	out := []string{indent + fence + "go"}
	for range rapid.IntRange(0, 4).Draw(t, "lines") {
		*number++
		line := fmt.Sprintf("%sx%d", code.Draw(t, "code"), *number)
		if rapid.IntRange(0, 5).Draw(t, "empty") == 0 {
			line = ""
		}
		c.lines = append(c.lines, line)
		if line != "" {
			line = indent + line
		}
		out = append(out, line)
	}
	*cells = append(*cells, c)
	return append(out, indent+fence)
}

func drawBlocks(t *rapid.T, depth int, number *int, cells *[]written) []string {
	var out []string
	for i := range rapid.IntRange(1, 4).Draw(t, "blocks") {
		if i > 0 {
			out = append(out, "")
		}
		if depth > 0 && rapid.Bool().Draw(t, "nest") {
			c := rapid.SampledFrom(containers[:len(containers)-min(1, maxDrawn-depth)]).Draw(t, "container")
			out = append(out, c.wrap(drawBlocks(t, depth-1, number, cells))...)
			out = append(out, "", "<!-- -->") // or two lists become one
			continue
		}
		out = append(out, drawBlock(t, number, cells)...)
	}
	return out
}

// TestCellsInContainers: in a notebook made of random blocks in random
// containers every cell is found, its lines are those that were written, and
// they stand in the source where At says.
func TestCellsInContainers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := 0
		var want []written
		lines := drawBlocks(t, maxDrawn, &number, &want)
		end := rapid.SampledFrom([]string{"\n", "\r\n", "\r"}).Draw(t, "line end")
		src := strings.Join(append([]string{"---", "title: Bed", "---"}, lines...), end)
		nb, diags := Parse("a.md", []byte(src))
		if err := consistent(nb, diags); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(src, "$$") {
			if err := agree(nb); err != nil {
				t.Fatal(err)
			}
		}
		cells := nb.Cells()
		if len(cells) != len(want) {
			t.Fatalf("cells: got %d, want %d\n%s", len(cells), len(want), src)
		}
		for i, c := range cells {
			got := textLines(c.Text)
			if strings.Join(trimAll(got), "\n") != strings.Join(trimAll(want[i].lines), "\n") {
				t.Fatalf("cell %d: got %q, want %q\n%s", i, got, want[i].lines, nb.Source)
			}
		}
	})
}

// trimAll takes the indentation off lines: how much of a tab is the container's
// is a matter of taste, TestGolden/tabs shows ours.
func trimAll(lines []string) []string {
	out := make([]string, len(lines))
	for i, line := range lines {
		out[i] = strings.TrimLeft(line, margin.White)
	}
	return out
}

// TestIndentation: without tabs the text of a cell is to the byte what was
// written, whatever it stands in.
func TestIndentation(t *testing.T) {
	want := []string{"if x {", "    y := `", "", "  z`", "}"}
	for _, a := range containers {
		for _, b := range containers {
			if strings.Contains(a.first+b.first, "\t") {
				continue
			}
			lines := a.wrap(b.wrap(append(append([]string{"```go"}, want...), "```")))
			nb, diags := Parse("a.md", []byte(minimal+strings.Join(lines, "\n")))
			if err := consistent(nb, diags); err != nil {
				t.Error(err)
			}
			cells := nb.Cells()
			if len(cells) != 1 || cells[0].Text != strings.Join(want, "\n")+"\n" {
				t.Errorf("%q in %q: got %d cells, %s", b.first, a.first, len(cells), cellLines(nb))
			}
		}
	}
}

// agree compares the blocks of code, white space aside, with those that the
// Markdown parser finds when it reads the file alone, without hook and marks.
func agree(nb *Notebook) error {
	var body []byte
	for i, line := range splitLines(nb.Source) {
		if i >= nb.Title.Range.End.Line {
			body = append(body, margin.Widen(line)...)
		}
		body = append(body, '\n')
	}
	p := parser.NewCommonMarkWithExtensions(parser.Tables | parser.Strikethrough | parser.Autolink)
	var want, got []string
	add := func(list *[]string, text string) {
		*list = append(*list, strings.Join(strings.Fields(text), " "))
	}
	ast.WalkFunc(p.Parse(body), func(n ast.Node, entering bool) ast.WalkStatus {
		if c, ok := n.(*ast.CodeBlock); ok && entering {
			add(&want, string(c.Literal))
		}
		return ast.GoToNext
	})
	Walk(nb.Blocks, func(b Block) {
		switch b := b.(type) {
		case *Cell:
			add(&got, b.Text)
		case *Code:
			add(&got, b.Text)
		}
	})
	if fmt.Sprintf("%q", got) != fmt.Sprintf("%q", want) {
		return fmt.Errorf("blocks of code: got %q, want %q", got, want)
	}
	return nil
}

// FuzzParse: no file breaks the parser, every place lies in the file, each line
// of a cell is the source where it says it is, and all code is found that the
// Markdown parser finds by itself.
func FuzzParse(f *testing.F) {
	files, err := filepath.Glob("testdata/*.txtar")
	if err != nil || len(files) == 0 {
		f.Fatalf("golden files: got %d, %v, want some", len(files), err)
	}
	for _, file := range files {
		a, err := txtar.ParseFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(a.Files[0].Data)
	}
	f.Add([]byte("\ufeff---\r\ntitle: a\r\n---\r# b\r\n"))
	f.Add([]byte(minimal + "1) >\t-\n\n  +\t~~~go\n\t\t~~~\nlazy\n===\n[a]: b\n[c]:\nd\n\"e\"\nf [a]"))
	f.Fuzz(func(t *testing.T, src []byte) {
		if len(src) > 1<<14 {
			return
		}
		nb, diags := Parse("a.md", src)
		if nb == nil {
			if len(diags) != 1 {
				t.Fatalf("no notebook: got %d diagnostics, want 1", len(diags))
			}
			return
		}
		if err := consistent(nb, diags); err != nil {
			t.Fatal(err)
		}
		for _, d := range diags {
			if strings.HasPrefix(d.Message, "nesting:") {
				return
			}
		}
		if !strings.Contains(string(nb.Source), "$$") { // the grammar alone knows no formulas
			if err := agree(nb); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// BenchmarkParse reads a notebook of about 500 lines, cells and prose mixed.
func BenchmarkParse(b *testing.B) {
	a, err := txtar.ParseFile("testdata/bed.txtar")
	if err != nil {
		b.Fatal(err)
	}
	title, body, _ := strings.Cut(string(a.Files[0].Data), "\n# ")
	src := title
	for strings.Count(src, "\n") < 500 {
		src += "\n# " + body
	}
	b.SetBytes(int64(len(src)))
	for b.Loop() {
		Parse("bed.md", []byte(src))
	}
}

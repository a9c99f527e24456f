package lower_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"
)

// TestAgree runs notebooks interpreted and compiled by Go: every value and
// every entry on the sheet must be the same, bit for bit.
func TestAgree(t *testing.T) {
	var books []*book
	for _, p := range corpus(t, "agree") {
		books = append(books, mustRead(t, p.name, p.source))
	}
	agree(t, books)
}

// agree compares what each notebook gives interpreted and compiled.
func agree(t *testing.T, books []*book) {
	t.Helper()
	for i, compiled := range compile(t, books) {
		b := books[i]
		if interpreted := b.interpreted(t); interpreted != compiled {
			t.Errorf("%s\n%s\nprogram:\n%s", b.name, difference(interpreted, compiled), b.program.Source)
		}
	}
}

// difference shows the first line that is not the same.
func difference(interpreted, compiled string) string {
	a, b := strings.Split(interpreted, "\n"), strings.Split(compiled, "\n")
	for i := range max(len(a), len(b)) {
		x, y := "no more", "no more"
		if i < len(a) {
			x = a[i]
		}
		if i < len(b) {
			y = b[i]
		}
		if x != y {
			return "interpreted: " + x + "\ncompiled:    " + y
		}
	}
	return "no difference"
}

// corpus reads the test programs of testdata/folder, each as a notebook.
func corpus(t *testing.T, folder string) (all []struct{ name, source string }) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("testdata", folder, "*.txtar"))
	if err != nil || len(files) == 0 {
		t.Fatalf("testdata/%s: no programs found (%v)", folder, err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		theme := strings.TrimSuffix(filepath.Base(file), ".txtar")
		for _, f := range txtar.Parse(src).Files {
			all = append(all, struct{ name, source string }{theme + ": " + f.Name, notebook(string(f.Data))})
		}
	}
	return all
}

package lower_test

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"tautline/runner/export"
)

// compile exports the notebooks, builds them all into one program and returns
// what each prints when it runs alone. The sources stand in an overlay over a
// folder of this module, so that the build cache knows them again.
func compile(t *testing.T, books []*book) []string {
	t.Helper()
	const root = "tautline/runner/lower/testdata/compiled"
	work := t.TempDir()
	overlay := map[string]string{}
	add := func(file, text string) {
		onDisk := filepath.Join(work, strings.ReplaceAll(file, "/", "-"))
		if err := os.WriteFile(onDisk, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		at, err := filepath.Abs(filepath.Join("testdata", "compiled", file))
		if err != nil {
			t.Fatal(err)
		}
		overlay[at] = onDisk
	}
	var imports, calls strings.Builder
	for i, b := range books {
		src, err := export.Program(b.plan)
		if err != nil {
			t.Fatalf("%s: %v", b.name, err)
		}
		_, text, _ := strings.Cut(string(src), "\npackage main\n")
		text = fmt.Sprintf("package p%d\n", i) + strings.Replace(text, "\nfunc main() {", "\nfunc Main() {", 1)
		add(fmt.Sprintf("p%d/p.go", i), text)
		fmt.Fprintf(&imports, "import %q\n", fmt.Sprintf("%s/p%d", root, i))
		fmt.Fprintf(&calls, "\tcase \"%d\":\n\t\tp%d.Main()\n", i, i)
	}
	add("main.go", fmt.Sprintf("package main\n\nimport \"os\"\n%s\nfunc main() {\n\tswitch os.Args[1] {\n%s\t}\n}\n", imports.String(), calls.String()))
	list, err := json.Marshal(map[string]any{"Replace": overlay})
	if err != nil {
		t.Fatal(err)
	}
	overlayFile, binary := filepath.Join(work, "overlay.json"), filepath.Join(work, "all")
	if err := os.WriteFile(overlayFile, list, 0o600); err != nil {
		t.Fatal(err)
	}
	build := exec.Command("go", "build", "-overlay", overlayFile, "-o", binary, root)
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("building the exported programs: %v\n%s", err, out)
	}
	texts := make([]string, len(books))
	for i, b := range books {
		out, err := exec.Command(binary, fmt.Sprint(i)).CombinedOutput()
		if texts[i] = string(out); err != nil {
			t.Errorf("%s: compiled: %v\n%s", b.name, err, out)
		}
	}
	return texts
}

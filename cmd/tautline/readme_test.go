package main

import (
	"os"
	"strings"
	"testing"
)

// What the README says that the command prints is what it prints.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir("../..")
	_, block, ok := strings.Cut(string(text), "$ tautline check notebooks/lagoon-bed.md\n")
	if !ok {
		t.Fatal("the README has no transcript of tautline check")
	}
	block, _, _ = strings.Cut(block, "```")
	code, stdout, stderr := command(t, "check", "notebooks/lagoon-bed.md")
	if code != 0 {
		t.Fatal(stderr)
	}
	for line := range strings.Lines(block) {
		if line != "…\n" && !strings.Contains(stdout, line) {
			t.Errorf("the command does not print %q, but:\n%s", line, stdout)
		}
	}
	for _, c := range root().Commands() {
		if name := c.Name(); !c.Hidden && !strings.Contains(string(text), "`tautline "+name) {
			t.Errorf("the README does not tell of tautline %s", name)
		}
	}
}

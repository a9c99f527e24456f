package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// Every module that is built into the command stands in DEVELOPERS.md with its
// licence.
func TestLicences(t *testing.T) {
	page, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{.Path}}{{end}}", ".").Output()
	if err != nil {
		t.Fatal(err)
	}
	modules := 0
	for m := range strings.FieldsSeq(string(out)) {
		if m == "tautline" {
			continue
		}
		modules++
		if !strings.Contains(string(page), "`"+m+"`") {
			t.Errorf("DEVELOPERS.md does not list %s with its licence", m)
		}
	}
	if modules == 0 {
		t.Fatal("go list named no module")
	}
}

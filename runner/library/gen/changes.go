package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
)

// changeLine is a line of the list of changes: its number, the functions, what
// changed.
var changeLine = regexp.MustCompile("^([0-9]+)\\. ((?:`[a-z]+(?:\\.[A-Z][A-Za-z0-9]*){1,2}`(?:, )?)+): (.+)$")

// changes is the library's list of changes of results, a line each: the functions
// and what changed. Lines that go on are joined.
func changes() ([]byte, error) {
	file := filepath.Join(filepath.Dir(goMod()), "stdlib", "CHANGES.md")
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	_, list, ok := strings.Cut(string(text), "\n## The list\n")
	if !ok {
		return nil, fmt.Errorf("%s: got no heading \"## The list\"", file)
	}
	return changeList(file, list)
}

func changeList(file, list string) ([]byte, error) {
	var items []string
	for line := range strings.Lines(list) {
		switch text := strings.TrimSpace(line); {
		case text == "":
		case line[0] == ' ' && len(items) > 0:
			items[len(items)-1] += " " + text
		default:
			items = append(items, text)
		}
	}
	var out strings.Builder
	for i, item := range items {
		m := changeLine.FindStringSubmatch(item)
		if m == nil {
			return nil, fmt.Errorf("%s: got %.60q, want a line such as 1. `package.Function`: what changed", file, item)
		}
		if m[1] != strconv.Itoa(i+1) {
			return nil, fmt.Errorf("%s: got the number %s, want %d: the newest line comes last", file, m[1], i+1)
		}
		fmt.Fprintf(&out, "%s: %s\n", strings.ReplaceAll(m[2], "`", ""), m[3])
	}
	return []byte(out.String()), nil
}

// Package manual prints the library's documentation on a terminal, by name or by
// search.
package manual

import (
	"fmt"
	"io"
	"strings"

	"tautline/runner/document"
	"tautline/runner/library"
)

// Show prints the packages when args is empty, else what a package or a name is,
// else what is found for the words.
func Show(w io.Writer, args []string) error {
	if len(args) == 0 {
		listPackages(w, true)
		fmt.Fprintln(w, "\nand of Go's own library:")
		listPackages(w, false)
		fmt.Fprint(w, "\ntautline doc PACKAGE lists one of them; tautline doc WORDS searches them all.\n")
		return nil
	}
	query := strings.Join(args, " ")
	name, member, _ := strings.Cut(query, ".")
	if path, ok := library.Path(name); ok {
		if member == "" {
			listPackage(w, name, path)
			return nil
		}
		for _, e := range library.Symbols(path) {
			if e.Name == member {
				showEntry(w, e, path)
				return nil
			}
		}
		var names []string
		for _, e := range library.Symbols(path) {
			names = append(names, e.Name)
		}
		if near, ok := document.Nearest(member, names); ok {
			return fmt.Errorf("doc: package %s has no %s; did you mean %s.%s?", name, member, name, near)
		}
		return fmt.Errorf("doc: package %s has no %s: tautline doc %s lists what it has", name, member, name)
	}
	found := library.Search(query)
	if len(found) == 0 {
		return fmt.Errorf("doc: nothing found for %q: %s", query, lessThan(args))
	}
	const most = 30
	for i, e := range found {
		if i == most {
			fmt.Fprintf(w, "and %d more: add a word to narrow the search\n", len(found)-most)
			break
		}
		listEntry(w, e.Package+"."+e.Name, e)
	}
	return nil
}

// lessThan says what to ask instead of words that no name has all of: those that
// some name has.
func lessThan(args []string) string {
	words := strings.Fields(strings.Join(args, " "))
	var some []string
	for _, word := range words {
		if n := len(library.Search(word)); n > 0 && len(words) > 1 && len(word) > 2 {
			some = append(some, fmt.Sprintf("%q alone finds %d", word, n))
		}
	}
	if len(some) == 0 {
		return "tautline doc lists the packages"
	}
	return "nothing has all these words; " + strings.Join(some, ", ")
}

// listPackages lists the packages of tautline, or those of Go.
func listPackages(w io.Writer, ours bool) {
	for _, p := range library.Packages() {
		if strings.HasPrefix(p.Path, "tautline/") == ours {
			fmt.Fprintf(w, "  %-10s %s\n", p.Name, strings.TrimPrefix(p.Synopsis, "Package "+p.Name+" "))
		}
	}
}

func listPackage(w io.Writer, name, path string) {
	for _, p := range library.Packages() {
		if p.Path == path {
			fmt.Fprintf(w, "package %s: %s\n\n", name, p.Synopsis)
		}
	}
	for _, e := range library.Symbols(path) {
		listEntry(w, e.Name, e)
	}
}

// listEntry prints a name with what it takes and gives, and below it what it is.
func listEntry(w io.Writer, name string, e library.Entry) {
	fmt.Fprintf(w, "  %s\n      %s\n", name+e.Takes(), e.Summary)
}

func showEntry(w io.Writer, e library.Entry, path string) {
	fmt.Fprintf(w, "%s\n\n%s\n", e.Signature, strings.TrimRight(e.Doc, "\n"))
	if dimensions := e.Dimensions(); len(dimensions) > 0 {
		fmt.Fprintln(w, "\nUnits:")
		for _, d := range dimensions {
			fmt.Fprintf(w, "  %-20s %s\n", d.Name, strings.Join(d.Units, ", "))
		}
	}
	if e.Kind != library.Type {
		return
	}
	listAll(w, "Methods", library.Methods(path, e.Name))
	listAll(w, "Given by", library.Makers(path, e.Name))
}

// listAll lists entries under a heading, if there are any.
func listAll(w io.Writer, heading string, list []library.Entry) {
	if len(list) > 0 {
		fmt.Fprintf(w, "\n%s:\n", heading)
	}
	for _, e := range list {
		listEntry(w, e.Name, e)
	}
}

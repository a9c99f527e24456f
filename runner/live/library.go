package live

import (
	"encoding/json"
	"net/http"
	"strings"

	"tautline/runner/library"
)

// found is what a search of the library gave.
type found struct {
	Entries []entry `json:"entries"`
	More    int     `json:"more"`
}

type entry struct {
	Name      string `json:"name"`
	Summary   string `json:"summary"`
	Signature string `json:"signature"`
	Doc       string `json:"doc"`
}

const mostFound = 25

// library answers what the library has by some words, a unit or a name.
func (s *server) library(w http.ResponseWriter, r *http.Request) {
	query := strings.TrimSpace(r.URL.Query().Get("q"))
	if len(query) > 200 {
		http.Error(w, "the question is too long", http.StatusBadRequest)
		return
	}
	f := found{Entries: []entry{}}
	for _, e := range named(query) {
		if len(f.Entries) == mostFound {
			f.More++
			continue
		}
		f.Entries = append(f.Entries, entry{e.Package + "." + e.Name, e.Summary, e.Signature, whole(e)})
	}
	w.Header().Set("Content-Type", "application/json")
	json.NewEncoder(w).Encode(f)
}

// whole is the comment of an entry, with the units of what it takes and gives, and
// the methods of a type.
func whole(e library.Entry) string {
	text := strings.TrimSpace(e.Doc)
	if dimensions := e.Dimensions(); len(dimensions) > 0 {
		text += "\n\nUnits:"
		for _, d := range dimensions {
			text += "\n  " + d.Name + ": " + strings.Join(d.Units, ", ")
		}
	}
	path, _ := library.Path(e.Package)
	if e.Kind != library.Type {
		return text
	}
	if methods := library.Methods(path, e.Name); len(methods) > 0 {
		text += "\n\nMethods:"
		for _, m := range methods {
			text += "\n  " + m.Name + m.Takes() + "\n      " + m.Summary
		}
	}
	return text
}

// named lists what answers a query: a package whole, what one name of it begins,
// or what the words find.
func named(query string) []library.Entry {
	pkg, member, _ := strings.Cut(query, ".")
	path, ok := library.Path(pkg)
	if !ok {
		return library.Search(query)
	}
	var all []library.Entry
	for _, e := range library.Symbols(path) {
		if strings.HasPrefix(strings.ToLower(e.Name), strings.ToLower(member)) {
			all = append(all, e)
		}
	}
	return all
}

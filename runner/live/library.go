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
		f.Entries = append(f.Entries, entry{e.Package + "." + e.Name, e.Summary, e.Signature, strings.TrimSpace(e.Doc)})
	}
	w.Header().Set("Content-Type", "application/json")
	json.NewEncoder(w).Encode(f)
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

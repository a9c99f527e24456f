package library

import (
	"sort"
	"strings"
)

// Search finds names for a query, best first: by words in a name or its
// documentation, by a dimension (pressure) that a signature takes or gives, or
// by a unit (kPa) of that dimension. Every word of the query must match; where no
// name has them all, words without their endings do (padding: pad).
func Search(query string) []Entry {
	words := strings.Fields(strings.ToLower(query))
	found := search(words)
	if len(found) == 0 {
		for i, word := range words {
			words[i] = stem(word)
		}
		found = search(words)
	}
	return found
}

// stem returns a word without one ending and without a doubled letter before it,
// if three letters are left.
func stem(word string) string {
	for _, ending := range []string{"ing", "ment", "ed", "al", "es", "s"} {
		short, ok := strings.CutSuffix(word, ending)
		if n := len(short); ok && n >= 3 {
			if n > 3 && short[n-1] == short[n-2] {
				short = short[:n-1]
			}
			return short
		}
	}
	return word
}

func search(words []string) []Entry {
	if len(words) == 0 {
		return nil
	}
	dimensions := make([]string, len(words)) // of the unit that a word names
	for i, word := range words {
		dimensions[i] = dimensionOf(word)
	}
	type hit struct {
		Entry
		score int
	}
	var hits []hit
	for _, p := range Packages() {
		for _, e := range Symbols(p.Path) {
			total := 0
			for i, word := range words {
				score := match(e, word, dimensions[i])
				if score == 0 {
					total = 0
					break
				}
				total += score
			}
			if total > 0 {
				hits = append(hits, hit{e, total})
			}
		}
	}
	sort.SliceStable(hits, func(i, j int) bool { return hits[i].score > hits[j].score })
	entries := make([]Entry, len(hits))
	for i, h := range hits {
		entries[i] = h.Entry
	}
	return entries
}

// match scores how well an entry answers one lower-case word; 0 is not at all.
func match(e Entry, word, dimension string) int {
	name := strings.ToLower(e.Name)
	switch {
	case name == word, strings.HasSuffix(name, "."+word), e.Kind == Constant && strings.EqualFold(symbol(e), word):
		return 100
	case dimension != "" && strings.Contains(e.Signature, "units."+dimension):
		return 50
	case strings.Contains(name, word):
		return 40
	case strings.Contains(strings.ToLower(e.Signature), "units."+word):
		return 30
	case strings.Contains(strings.ToLower(e.Summary), word):
		return 20
	case strings.Contains(strings.ToLower(e.Doc), word):
		return 10
	}
	return 0
}

// dimensionOf returns the dimension of the unit that word names, by its Go name
// or its symbol, or "".
func dimensionOf(word string) string {
	for _, e := range Symbols("tautline/stdlib/units") {
		if e.Kind == Constant && (strings.EqualFold(e.Name, word) || strings.EqualFold(symbol(e), word)) {
			return strings.Fields(e.Signature)[2] // const KPa Pressure = 1000
		}
	}
	return ""
}

// symbol returns how the unit of a constant is written: kN/m.
func symbol(e Entry) string {
	text, _, _ := strings.Cut(e.Doc, ":")
	return text
}

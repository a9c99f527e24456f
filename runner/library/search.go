package library

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"sync"
	"unicode"
)

// Search finds names for a query, best first: by words of a name, of what it takes
// and gives and of its documentation, by a dimension (pressure) that a signature
// takes or gives, or by a unit (kPa) of that dimension. Endings of words do not
// count, nor do small words. The trade's words find what they mean, and its usual
// questions what answers them (trade/words.txt).
//
// Only names that have every word are found, and what trade/words.txt says to the
// question; where there is nothing of either, the names that have most of the words.
// A word that nothing has finds nothing.
func Search(query string) []Entry {
	words := queryWords(query)
	if len(words) == 0 {
		return nil
	}
	x := theIndex()
	type hit struct {
		*indexed
		score float64
		words int // that it has
	}
	scores := make([][]float64, len(words)) // of each word, by entry
	for i, word := range words {
		if scores[i] = x.scores(word); scores[i] == nil {
			return nil
		}
	}
	answers := x.answers(words)
	var hits []hit
	most := 0
	for k := range x.entries {
		h := hit{indexed: &x.entries[k]}
		for i := range words {
			if scores[i][k] > 0 {
				h.words++
				h.score += scores[i][k]
			}
		}
		if place, answers := answers[h.Package+"."+h.Name]; answers {
			h.words, h.score = len(words), 1e6-float64(place)
		}
		if h.words > 0 {
			hits = append(hits, h)
			most = max(most, h.words)
		}
	}
	hits = slices.DeleteFunc(hits, func(h hit) bool { return h.words < most })
	slices.SortStableFunc(hits, func(a, b hit) int { return cmp.Compare(b.score, a.score) })
	entries := make([]Entry, len(hits))
	for i, h := range hits {
		entries[i] = h.Entry
	}
	return entries
}

// small are the words of a question that say nothing of what is asked for.
var small = strings.Fields("a an the of on in at to for from by with and or is are do does i my we how many much what which where need needed it its per when")

// A queryWord is one word of a query.
type queryWord struct {
	text      string // lower case
	stem      string
	others    []string // stems of words that mean the same
	dimension string   // of the unit that it names
}

// queryWords reads the words of a query; small words count only when nothing else is
// there.
func queryWords(query string) []queryWord {
	fields := strings.FieldsFunc(strings.ToLower(query), func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("?!,;:\"'()", r) })
	kept := slices.DeleteFunc(slices.Clone(fields), func(s string) bool { return slices.Contains(small, s) })
	if len(kept) == 0 {
		kept = fields
	}
	var words []queryWord
	for _, text := range kept {
		w := queryWord{text: text, stem: stem(text), dimension: dimensionOf(text)}
		for _, group := range tradeWords().alike {
			if slices.Contains(group, w.stem) {
				w.others = append(w.others, group...)
			}
		}
		words = append(words, w)
	}
	return words
}

// stem returns a word without its ending and without a doubled letter before it,
// if three letters are left.
func stem(word string) string {
	for _, ending := range []string{"ing", "ment", "ed", "al", "es", "s", "e"} {
		short, ok := strings.CutSuffix(word, ending)
		if n := len(short); ok && n >= 3 {
			if ending != "s" && ending != "e" && n > 3 && short[n-1] == short[n-2] {
				short = short[:n-1]
			}
			return strings.TrimSuffix(short, "e")
		}
	}
	return word
}

// An indexed entry has its words by where they stand.
type indexed struct {
	Entry
	lower     string // name in lower case
	symbol    string // of a unit
	name      map[string]bool
	summary   map[string]bool
	signature map[string]bool
	doc       map[string]bool
}

type index struct{ entries []indexed }

// theIndex has every entry of every package, read once.
var theIndex = sync.OnceValue(func() *index {
	x := &index{}
	for _, p := range Packages() {
		for _, e := range Symbols(p.Path) {
			// The source names documents, not what is computed.
			text, _, _ := strings.Cut(e.Doc, "Source:")
			in := indexed{Entry: e, lower: strings.ToLower(e.Name), name: stems(e.Name), summary: stems(e.Summary), signature: stems(e.Signature), doc: stems(text)}
			in.name[stem(e.Package)] = true
			if e.Kind == Constant {
				in.symbol = strings.ToLower(symbol(e))
			}
			x.entries = append(x.entries, in)
		}
	}
	return x
})

// stems are the stems of the words of a text; HoopTension has two.
func stems(text string) map[string]bool {
	set := map[string]bool{}
	word := func(from []rune) {
		if len(from) > 1 {
			set[stem(strings.ToLower(string(from)))] = true
		}
	}
	var run []rune
	for _, r := range text + " " {
		letter := unicode.IsLetter(r) || unicode.IsDigit(r)
		begins := unicode.IsUpper(r) && len(run) > 0 && !unicode.IsUpper(run[len(run)-1])
		if !letter || begins {
			word(run)
			run = run[:0]
		}
		if letter {
			run = append(run, r)
		}
	}
	return set
}

// scores says how well every entry answers a word: what few names have counts more
// than what many have. It is nil when none does.
func (x *index) scores(w queryWord) []float64 {
	out := make([]float64, len(x.entries))
	found := 0
	for k := range x.entries {
		if out[k] = x.entries[k].match(w); out[k] > 0 {
			found++
		}
	}
	if found == 0 {
		return nil
	}
	rare := 1 + math.Log(float64(len(out))/float64(found))
	for k := range out {
		out[k] *= rare
	}
	return out
}

// match scores how well an entry answers one word; 0 is not at all.
func (e *indexed) match(w queryWord) float64 {
	switch {
	case e.lower == w.text, strings.HasSuffix(e.lower, "."+w.text), e.symbol == w.text:
		return 100
	case w.dimension != "" && strings.Contains(e.Signature, "units."+w.dimension):
		return 50
	}
	score := e.holds(w.stem)
	if len(w.text) > 2 && strings.Contains(e.lower, w.text) {
		score = max(score, 30)
	}
	for _, other := range w.others {
		score = max(score, 0.7*e.holds(other))
	}
	if e.Kind == Constant {
		score /= 2 // one value of something
	}
	return score
}

// holds scores where an entry has a word.
func (e *indexed) holds(stem string) float64 {
	switch {
	case e.name[stem]:
		return 40
	case e.summary[stem]:
		return 20
	case e.signature[stem]:
		return 12
	case e.doc[stem]:
		return 8
	}
	return 0
}

// answers are the names that answer the questions of which the words have all, with
// their place: questions in the asker's own words before those in words like them.
func (x *index) answers(words []queryWord) map[string]int {
	found := map[string]int{}
	has := func(stem string) bool {
		return slices.ContainsFunc(words, func(w queryWord) bool { return w.stem == stem || slices.Contains(w.others, stem) })
	}
	own := func(stem string) bool { // in its own word
		return slices.ContainsFunc(words, func(w queryWord) bool { return w.stem == stem })
	}
	for _, test := range []func(string) bool{own, has} {
		for _, q := range tradeWords().questions {
			missing := slices.ContainsFunc(q.stems, func(s string) bool { return !test(s) })
			if missing || len(q.stems) == 1 && len(words) > 1 {
				continue // one word of many says too little of what is asked
			}
			for _, name := range q.names {
				if _, ok := found[name]; !ok {
					found[name] = len(found)
				}
			}
		}
	}
	return found
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

package library

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
)

//go:embed trade/words.txt
var wordsText string

// A vocabulary is what trade/words.txt says.
type vocabulary struct {
	alike     [][]string // stems of words that mean the same
	questions []question
}

// A question is one that is often asked, with the names that answer it.
type question struct {
	text  string
	stems []string // of its words, the small ones left out
	names []string // package.Name
}

var tradeWords = sync.OnceValue(func() vocabulary {
	var v vocabulary
	for line := range strings.Lines(wordsText) {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if text, names, ok := strings.Cut(line, ": "); ok {
			q := question{text: text, names: strings.Fields(names)}
			for _, word := range strings.Fields(text) {
				if !slices.Contains(small, word) {
					q.stems = append(q.stems, stem(word))
				}
			}
			v.questions = append(v.questions, q)
			continue
		}
		var group []string
		for word := range strings.SplitSeq(line, " = ") {
			group = append(group, stem(strings.TrimSpace(word)))
		}
		v.alike = append(v.alike, group)
	}
	return v
})

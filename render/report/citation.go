package report

import "strings"

// longCitation is how many letters of a source a table row or a margin holds.
const longCitation = 64

// Short is the citation's text, or of a long one that stands in the list of
// sources the start.
func (c Citation) Short() string {
	if !c.Shortened() {
		return c.Text
	}
	end := strings.IndexAny(c.Text, ";(")
	if end <= 0 || end > longCitation {
		end = longCitation
		if space := strings.LastIndex(c.Text[:end], " "); space > 0 {
			end = space
		}
	}
	return strings.TrimRight(c.Text[:end], " ,:") + " …"
}

// Shortened reports whether Short leaves something to the list of sources.
func (c Citation) Shortened() bool { return c.Ref > 0 && len(c.Text) > longCitation }

package document

import (
	"net/url"
	"strings"

	"github.com/gomarkdown/markdown/ast"

	"tautline/runner/document/formula"
)

// A fragment is a link to a heading, looked up when all headings are known.
type fragment struct {
	id string
	at Range
}

// link adds a link to an address that a reader of the report may safely follow;
// of any other it keeps the text.
func (c *inliner) link(n *ast.Link, depth int) {
	to := formula.Lower(string(n.Destination), c.lifted)
	if id, ok := strings.CutPrefix(to, "#"); ok && id != "" {
		if plain, err := url.PathUnescape(id); err == nil {
			id = plain
		}
		c.toFollow = append(c.toFollow, fragment{id, c.find("#" + id)})
		to = "#" + id
	} else if !isAddress(to) {
		c.warn(c.find(readable(to)), "link to an http, https or mailto address, or to #heading; the text is kept without a link",
			"link: got %q, want an address", shorten(readable(to)))
		c.all(n.GetChildren(), depth+1)
		return
	}
	c.add(Link{To: to, Text: c.inside(n, depth)})
}

// isAddress lets through the few schemes that run nothing and read no file.
func isAddress(to string) bool {
	u, err := url.Parse(to)
	if err != nil {
		return false
	}
	switch u.Scheme {
	case "http", "https":
		return u.Host != ""
	case "mailto":
		return u.Opaque != ""
	}
	return false
}

// image adds a picture that lies beside the notebook; of any other it keeps the
// words for it.
func (c *inliner) image(n *ast.Image) {
	file := readable(formula.Lower(string(n.Destination), c.lifted))
	var alt strings.Builder
	for _, child := range n.GetChildren() {
		alt.WriteString(c.plain(child))
	}
	if !isFileName(file) {
		c.warn(c.find(file), "put the picture beside the notebook and give its name without a folder",
			"picture: got %q, want a file name", shorten(file))
		c.text(alt.String())
		return
	}
	c.nb.Pictures = append(c.nb.Pictures, Picture{c.find(file), file})
	c.add(Image{File: file, Alt: alt.String()})
}

func isFileName(name string) bool {
	return name != "" && name[0] != '.' && !strings.ContainsFunc(name, func(c rune) bool {
		return c < ' ' || c == 0x7f || strings.ContainsRune(`/\:*?"<>|`, c)
	})
}

// readable undoes the percent signs that the Markdown parser puts into a
// destination.
func readable(to string) string {
	if plain, err := url.PathUnescape(to); err == nil && strings.ToValidUTF8(plain, "") == plain {
		return plain
	}
	return to
}

// shorten keeps a message to one line of a screen.
func shorten(s string) string {
	const limit = 60
	if n := 0; len(s) > limit {
		for i := range s {
			if n++; n > limit {
				return s[:i] + "…"
			}
		}
	}
	return s
}

// fragments warns about links to headings that are not there.
func (r *reader) fragments() {
	var names []string
	Walk(r.nb.Blocks, func(b Block) {
		if h, ok := b.(*Heading); ok {
			names = append(names, h.ID)
		}
	})
	for _, f := range r.toFollow {
		if r.full() || r.ids[f.id] {
			continue
		}
		hint := "link to the words of a heading, small letters joined by -"
		if near, ok := Nearest(f.id, names); ok {
			hint = "did you mean #" + near + "?"
		}
		r.warn(f.at, hint, "link: got %q, want a heading of this notebook", "#"+shorten(f.id))
	}
}

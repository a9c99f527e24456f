package page

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"html"
	"image"
	_ "image/jpeg" // the two kinds that a report holds
	_ "image/png"
	"strings"

	"tautline/runner/document"
)

// image writes a picture of the prose into the page, the first time that it
// stands there; after that, and when the report does not hold it, the words for
// it.
func (p *page) image(i document.Image) string {
	raw := p.Images[i.File]
	c, kind, err := image.DecodeConfig(bytes.NewReader(raw))
	if err != nil || kind != "png" && kind != "jpeg" || p.shown[i.File] {
		return `<span class="picture">` + html.EscapeString(strings.TrimSpace(i.Alt+" (picture: "+i.File+")")) + "</span>"
	}
	if p.shown == nil {
		p.shown = map[string]bool{}
	}
	p.shown[i.File] = true
	return fmt.Sprintf(`<img class="photo" src="data:image/%s;base64,%s" alt="%s" width="%d" height="%d"/>`,
		kind, base64.StdEncoding.EncodeToString(raw), html.EscapeString(i.Alt), c.Width, c.Height)
}

package cutting

import (
	"fmt"
	"html"
	"strconv"
	"strings"

	"tautline/stdlib/internal/polygon"
)

// layerColours are those that cutters tell layers by.
var layerColours = [layers]string{"#d00000", "#0000d0", "#007000", "#000000"}

// svg is the drawing by W3C SVG 1.1: one user unit is 1 mm, the size is given in
// mm. SVG counts y downward.
func (d *drawing) svg() string {
	low, high := d.bounds()
	const edge = 10 // mm round everything
	width, height := high.X-low.X+2*edge, high.Y-low.Y+2*edge
	at := func(p polygon.Point) []byte {
		x := strconv.AppendFloat(make([]byte, 0, 32), p.X-low.X+edge, 'f', 3, 64)
		return strconv.AppendFloat(append(x, ' '), high.Y+edge-p.Y, 'f', 3, 64)
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="%.3fmm" height="%.3fmm" viewBox="0 0 %.3f %.3f">
<title>%s</title>
`, width, height, width, height, html.EscapeString(d.title))
	for layer := range layers {
		fmt.Fprintf(&b, `<g id="%s" fill="none" stroke="%s" stroke-width="0.25">`+"\n", layerNames[layer], layerColours[layer])
		for _, l := range d.lines {
			if l.layer != layer {
				continue
			}
			b.WriteString(`<path d="M`)
			for i, p := range l.points {
				if i > 0 {
					b.WriteString(" L")
				}
				b.Write(at(p))
			}
			if l.closed {
				b.WriteString(" Z")
			}
			b.WriteString("\"/>\n")
		}
		for _, r := range d.rounds {
			if r.layer == layer {
				fmt.Fprintf(&b, `<circle cx="%.3f" cy="%.3f" r="%.3f"/>`+"\n", r.centre.X-low.X+edge, high.Y+edge-r.centre.Y, r.diameter/2)
			}
		}
		if layer == text {
			for _, t := range d.labels {
				fmt.Fprintf(&b, `<text x="%.3f" y="%.3f" font-family="sans-serif" font-size="%g" text-anchor="middle" fill="#000000" stroke="none">%s</text>`+"\n",
					t.at.X-low.X+edge, high.Y+edge-t.at.Y+t.height/3, t.height, html.EscapeString(t.words))
			}
		}
		b.WriteString("</g>\n")
	}
	b.WriteString("</svg>\n")
	return b.String()
}

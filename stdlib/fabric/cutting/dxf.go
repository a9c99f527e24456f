package cutting

import (
	"fmt"
	"strconv"
	"strings"
)

// layerIndices are AutoCAD colour numbers: red, blue, green, and black on white.
var layerIndices = [layers]int{1, 5, 3, 7}

// A dxfWriter writes group codes and values on lines of their own.
type dxfWriter struct{ strings.Builder }

func (w *dxfWriter) put(code int, value any) {
	if f, ok := value.(float64); ok {
		w.number(code, f)
		return
	}
	fmt.Fprintf(w, "%3d\n%v\n", code, value)
}

// number is put for the many coordinates.
func (w *dxfWriter) number(code int, f float64) {
	line := make([]byte, 0, 32)
	if code < 100 {
		line = append(line, ' ')
	}
	line = strconv.AppendInt(line, int64(code), 10)
	line = strconv.AppendFloat(append(line, '\n'), f, 'f', 4, 64)
	w.Write(append(line, '\n'))
}

func (w *dxfWriter) point(code int, x, y float64) {
	w.number(code, x)
	w.number(code+10, y)
	w.number(code+20, 0)
}

func (w *dxfWriter) header(name string, code int, value any) {
	w.put(9, "$"+name)
	w.put(code, value)
}

// dxf is the drawing as DXF R12, which every cutter reads: AutoCAD Release 12
// DXF reference, from memory: verify against the document. R12 itself has no
// units; $INSUNITS (4: millimetres) and $MEASUREMENT (1: metric) are understood
// by later programs and passed over by older ones.
func (d *drawing) dxf() string {
	low, high := d.bounds()
	var w dxfWriter
	w.put(999, plain(d.title))
	w.put(999, "1 drawing unit is 1 mm: measure the 100 mm square first")
	w.put(0, "SECTION")
	w.put(2, "HEADER")
	w.header("ACADVER", 1, "AC1009")
	w.header("INSUNITS", 70, 4)
	w.header("MEASUREMENT", 70, 1)
	w.put(9, "$EXTMIN")
	w.point(10, low.X, low.Y)
	w.put(9, "$EXTMAX")
	w.point(10, high.X, high.Y)
	w.put(0, "ENDSEC")
	w.tables()
	w.put(0, "SECTION")
	w.put(2, "ENTITIES")
	for _, l := range d.lines {
		w.line(l)
	}
	for _, r := range d.rounds {
		w.put(0, "CIRCLE")
		w.put(8, layerNames[r.layer])
		w.point(10, r.centre.X, r.centre.Y)
		w.put(40, r.diameter/2)
	}
	for _, t := range d.labels {
		w.put(0, "TEXT")
		w.put(8, layerNames[text])
		w.point(10, t.at.X, t.at.Y)
		w.put(40, t.height)
		w.put(1, plain(t.words))
		w.put(72, 1) // centred on the second point
		w.point(11, t.at.X, t.at.Y)
		w.put(73, 2)
	}
	w.put(0, "ENDSEC")
	w.put(0, "EOF")
	return w.String()
}

func (w *dxfWriter) tables() {
	w.put(0, "SECTION")
	w.put(2, "TABLES")
	w.put(0, "TABLE")
	w.put(2, "LTYPE")
	w.put(70, 1)
	w.put(0, "LTYPE")
	w.put(2, "CONTINUOUS")
	w.put(70, 0)
	w.put(3, "Solid line")
	w.put(72, 65)
	w.put(73, 0)
	w.put(40, 0.0)
	w.put(0, "ENDTAB")
	w.put(0, "TABLE")
	w.put(2, "LAYER")
	w.put(70, int(layers))
	for i, name := range layerNames {
		w.put(0, "LAYER")
		w.put(2, name)
		w.put(70, 0)
		w.put(62, layerIndices[i])
		w.put(6, "CONTINUOUS")
	}
	w.put(0, "ENDTAB")
	w.put(0, "ENDSEC")
}

func (w *dxfWriter) line(l line) {
	closed := 0
	if l.closed {
		closed = 1
	}
	w.put(0, "POLYLINE")
	w.put(8, layerNames[l.layer])
	w.put(66, 1)
	w.point(10, 0, 0)
	w.put(70, closed)
	for _, p := range l.points {
		w.put(0, "VERTEX")
		w.put(8, layerNames[l.layer])
		w.point(10, p.X, p.Y)
	}
	w.put(0, "SEQEND")
	w.put(8, layerNames[l.layer])
}

// plain writes what is not ASCII by its code, as DXF does, and keeps a text on
// one line.
func plain(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < ' ':
			b.WriteByte(' ')
		case r < 127:
			b.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&b, `\U+%04X`, r)
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}

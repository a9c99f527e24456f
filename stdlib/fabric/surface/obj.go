package surface

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"tautline/stdlib/units"
)

// FromOBJ reads a mesh from the lines "v x y z", "f 1 2 3" and "o name" or "g name"
// of a Wavefront OBJ text. unit is the length of its number 1. Each o or g begins
// a part; faces of more corners are cut into triangles from their first one, and
// whatever stands after a slash is left out. Points that no triangle uses are
// kept.
//
// A line that cannot be read is an error, as is what Check finds.
func FromOBJ(text string, unit units.Length) (Mesh, error) {
	if !(unit > 0 && !math.IsInf(unit, 1)) {
		return Mesh{}, fmt.Errorf("OBJ: unit: got %g m, want more than 0", unit)
	}
	w := &weave{}
	part := "surface"
	number := 0
	for line := range strings.Lines(text) {
		number++
		line, _, _ = strings.Cut(line, "#")
		f := strings.Fields(line)
		if len(f) == 0 {
			continue
		}
		var err error
		switch f[0] {
		case "v":
			err = w.readPoint(f[1:], unit)
		case "f":
			err = w.readFace(f[1:], part)
		case "o", "g":
			part = strings.Join(f[1:], " ")
		}
		if err != nil {
			return Mesh{}, fmt.Errorf("OBJ: line %d: %w", number, err)
		}
	}
	if err := w.Check(); err != nil {
		return Mesh{}, fmt.Errorf("OBJ: %w", err)
	}
	return w.Mesh, nil
}

func (w *weave) readPoint(fields []string, unit float64) error {
	if len(fields) < 3 {
		return fmt.Errorf("point: got %d numbers, want 3", len(fields))
	}
	var v vec
	for i := range v {
		x, err := strconv.ParseFloat(fields[i], 64)
		if err != nil {
			return fmt.Errorf("point: got %q, want a number", fields[i])
		}
		v[i] = x * unit
	}
	w.lay(v)
	return nil
}

func (w *weave) readFace(fields []string, part string) error {
	var corners []int
	for _, f := range fields {
		place, _, _ := strings.Cut(f, "/")
		n, err := strconv.Atoi(place)
		if n < 0 {
			n += len(w.Points) + 1 // counted back from the last point
		}
		if err != nil || n < 1 || n > len(w.Points) {
			return fmt.Errorf("face: got corner %q, want a point from 1 to %d", f, len(w.Points))
		}
		corners = append(corners, n-1)
	}
	if len(corners) < 3 {
		return fmt.Errorf("face: got %d corners, want 3 or more", len(corners))
	}
	p := w.part(part)
	for i := 2; i < len(corners); i++ {
		w.Triangles = append(w.Triangles, Triangle{corners[0], corners[i-1], corners[i], p})
	}
	return nil
}

// OBJ is the mesh as Wavefront OBJ text, in lengths of unit, each part an object:
// for sheet.ShopFile, or to look at elsewhere. Seams are its lines.
//
// unit is more than 0; outside it panics.
func (m Mesh) OBJ(unit units.Length) string {
	if !(unit > 0 && !math.IsInf(unit, 1)) {
		panic(fmt.Sprintf("surface: Mesh.OBJ: unit: got %g m, want more than 0", unit))
	}
	var b strings.Builder
	for _, p := range m.Points {
		fmt.Fprintf(&b, "v %.9g %.9g %.9g\n", p.X/unit, p.Y/unit, p.Z/unit)
	}
	for p, name := range m.Parts {
		fmt.Fprintf(&b, "o %s\n", name)
		for _, t := range m.Triangles {
			if t.Part == p {
				fmt.Fprintf(&b, "f %d %d %d\n", t.A+1, t.B+1, t.C+1)
			}
		}
	}
	for _, s := range m.Seams {
		fmt.Fprintf(&b, "o seam %s\nl", s.Name)
		for _, p := range s.Points {
			fmt.Fprintf(&b, " %d", p+1)
		}
		b.WriteString("\n")
	}
	return b.String()
}

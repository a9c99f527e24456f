package meshfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/units"
)

// ReadOBJ reads a mesh from the lines "v x y z", "f 1 2 3" and "o name" or "g name"
// of a Wavefront OBJ text. unit is the length of its number 1. Each o or g begins
// a part; faces of more corners are cut into triangles from their first one, and
// whatever stands after a slash is left out. Points that no triangle uses are
// kept.
//
// A line that cannot be read is an error, as is what surface.Mesh.Check finds.
func ReadOBJ(text string, unit units.Length) (surface.Mesh, error) {
	if err := checkUnit("OBJ", unit); err != nil {
		return surface.Mesh{}, err
	}
	o := &object{unit: unit}
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
			err = o.readPoint(f[1:])
		case "f":
			err = o.readFace(f[1:], part)
		case "o", "g":
			part = strings.Join(f[1:], " ")
		}
		if err != nil {
			return surface.Mesh{}, fmt.Errorf("OBJ: line %d: %w", number, err)
		}
	}
	if err := o.Check(); err != nil {
		return surface.Mesh{}, fmt.Errorf("OBJ: %w", err)
	}
	return o.Mesh, nil
}

type object struct {
	surface.Mesh
	unit float64
}

func (o *object) readPoint(fields []string) error {
	if len(fields) < 3 {
		return fmt.Errorf("point: got %d numbers, want 3", len(fields))
	}
	var v vector.Vector
	if err := numbers(&v, fields[:3], "point"); err != nil {
		return err
	}
	v = v.Times(o.unit)
	if err := near(v); err != nil {
		return fmt.Errorf("point: %w", err)
	}
	o.Points = append(o.Points, surface.Point{X: v[0], Y: v[1], Z: v[2]})
	return nil
}

func (o *object) readFace(fields []string, part string) error {
	var corners []int
	for _, f := range fields {
		place, _, _ := strings.Cut(f, "/")
		n, err := strconv.Atoi(place)
		if n < 0 {
			n += len(o.Points) + 1 // counted back from the last point
		}
		if err != nil || n < 1 || n > len(o.Points) {
			return fmt.Errorf("face: got corner %q, want a point from 1 to %d", f, len(o.Points))
		}
		corners = append(corners, n-1)
	}
	if len(corners) < 3 {
		return fmt.Errorf("face: got %d corners, want 3 or more", len(corners))
	}
	p := slices.Index(o.Parts, part)
	if p < 0 {
		p = len(o.Parts)
		o.Parts = append(o.Parts, part)
	}
	for i := 2; i < len(corners); i++ {
		o.Triangles = append(o.Triangles, surface.Triangle{A: corners[0], B: corners[i-1], C: corners[i], Part: p})
	}
	return nil
}

// OBJ is a mesh as Wavefront OBJ text, in lengths of unit, each part an object:
// for sheet.ShopFile, or to look at elsewhere. Seams are its lines.
//
// unit is more than 0; outside it panics.
func OBJ(m surface.Mesh, unit units.Length) string {
	if err := checkUnit("OBJ", unit); err != nil {
		panic("meshfile: " + err.Error())
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

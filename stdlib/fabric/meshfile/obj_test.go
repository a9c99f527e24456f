package meshfile_test

import (
	"testing"

	"tautline/stdlib/fabric/meshfile"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// What a text says is what it was written from.
func TestOBJ(t *testing.T) {
	ring := proof.Must(surface.Ring{Radius: 2.6, Tube: 0.35}.Mesh())(t)
	back := proof.Must(meshfile.ReadOBJ(meshfile.OBJ(ring, units.Mm), units.Mm))(t)
	proof.Near(t, "volume", proof.Must(back.Volume())(t), proof.Must(ring.Volume())(t), 1e-7)
	for text, words := range map[string]string{
		"v 0 0 0\nv 1 0 x\n":                            `OBJ: line 2: point: got "x", want a number`,
		"v 0 0 0\n\nf 1 2 3\n":                          `OBJ: line 3: face: got corner "2", want a point from 1 to 1`,
		"v 0 0 0\nv 1 0 0\nf 1 2\n":                     `OBJ: line 3: face: got 2 corners, want 3 or more`,
		"v 0 1e9 0\n":                                   `OBJ: line 1: point: got (0, 1e+09, 0) m, want at most 100000 m`,
		"o sail\nv 0 0 0\nv 1 0 0\nv 2 0 0\nf 1 2 -1\n": `OBJ: triangle 0 of part "sail": its corners 0, 1 and 2 lie on a line`,
	} {
		_, err := meshfile.ReadOBJ(text, units.M)
		proof.Fails(t, text, err, words)
	}
	_, err := meshfile.ReadOBJ("v 0 0 0\n", 0)
	proof.Fails(t, "no unit", err, "OBJ: unit: got 0 m")
	proof.Panics(t, "meshfile: OBJ: unit", func() { meshfile.OBJ(ring, 0) })
}

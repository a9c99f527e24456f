package runner_test

import (
	"bytes"
	"encoding/binary"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tautline/runner"
	"tautline/runner/engine"
)

// tetrahedron is a binary STL file of the corner of a cube of 100 mm.
func tetrahedron() []byte {
	var b bytes.Buffer
	b.Write(make([]byte, 80))
	o, x, y, z := [3]float32{}, [3]float32{100}, [3]float32{0, 100}, [3]float32{0, 0, 100}
	_ = binary.Write(&b, binary.LittleEndian, uint32(4)) // to memory
	for _, f := range [][3][3]float32{{o, y, x}, {o, x, z}, {o, z, y}, {x, y, z}} {
		_ = binary.Write(&b, binary.LittleEndian, [3]float32{}) // no normal
		_ = binary.Write(&b, binary.LittleEndian, f)
		_ = binary.Write(&b, binary.LittleEndian, uint16(0))
	}
	return b.Bytes()
}

// A file beside a notebook reaches a cell byte for byte, also one that is no
// text, and one that is cut off is a fault at its line.
func TestBinaryDataFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "hull.md")
	text := code(`m := sheet.Must(meshfile.ReadSTL(sheet.ReadText("hull.stl"), units.Mm, 0))
V := sheet.Must(m.Volume())`)
	stl := tetrahedron()
	for name, content := range map[string][]byte{"hull.md": []byte(text), "hull.stl": stl} {
		if err := os.WriteFile(filepath.Join(filepath.Dir(file), name), content, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	res := runner.File(t.Context(), file, engine.Limits{})
	if !res.Ran() {
		t.Fatalf("got %v, %v", res.Diagnostics(), res.Err)
	}
	if got, want := float64(res.Outcome.Values["V"].Number), 1e-3/6; math.Abs(got-want) > 1e-15 {
		t.Errorf("volume: got %g m³, want %g", got, want)
	}
	if err := os.WriteFile(filepath.Join(filepath.Dir(file), "hull.stl"), stl[:200], 0o666); err != nil {
		t.Fatal(err)
	}
	res = runner.File(t.Context(), file, engine.Limits{})
	if found := res.Diagnostics(); len(found) != 1 || !strings.Contains(found[0].Message, "STL: got 200 bytes") {
		t.Errorf("cut off: got %v, want one fault that says so", found)
	}
}

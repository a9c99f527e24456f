package meshfile_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/meshfile"
	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

type corner = [3]float64

// cubeFacets are the twelve facets of a cube of side 1, each counter-clockwise
// from outside.
func cubeFacets() [][3]corner {
	p := func(i int) corner { return corner{float64(i & 1), float64(i >> 1 & 1), float64(i >> 2)} }
	var all [][3]corner
	for _, q := range [][4]int{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		all = append(all, [3]corner{p(q[0]), p(q[1]), p(q[2])}, [3]corner{p(q[0]), p(q[2]), p(q[3])})
	}
	return all
}

func normal(f [3]corner) corner {
	var u, v, n corner
	for i := range u {
		u[i], v[i] = f[1][i]-f[0][i], f[2][i]-f[0][i]
	}
	for i := range n {
		j, k := (i+1)%3, (i+2)%3
		n[i] = u[j]*v[k] - u[k]*v[j]
	}
	return n
}

// inWords writes facets as an STL text.
func inWords(name string, facets [][3]corner) string {
	var b strings.Builder
	fmt.Fprintf(&b, "solid %s\n", name)
	for _, f := range facets {
		n := normal(f)
		fmt.Fprintf(&b, "  facet normal %g %g %g\n    outer loop\n", n[0], n[1], n[2])
		for _, c := range f {
			fmt.Fprintf(&b, "      vertex %v %v %v\n", c[0], c[1], c[2])
		}
		b.WriteString("    endloop\n  endfacet\n")
	}
	fmt.Fprintf(&b, "endsolid %s\n", name)
	return b.String()
}

// inBytes writes facets as a binary STL file.
func inBytes(head string, facets [][3]corner) string {
	var b bytes.Buffer
	b.WriteString(head + strings.Repeat("\x00", 80-len(head)))
	put := func(v any) {
		if err := binary.Write(&b, binary.LittleEndian, v); err != nil {
			panic(err)
		}
	}
	put(uint32(len(facets)))
	for _, f := range facets {
		for _, c := range append([]corner{normal(f)}, f[:]...) {
			put([3]float32{float32(c[0]), float32(c[1]), float32(c[2])})
		}
		put(uint16(0))
	}
	return b.String()
}

// A cube by hand, in words and in bytes, in millimetres: 1 mm³ within 6 mm², its
// corners shared.
func TestCube(t *testing.T) {
	for what, text := range map[string]string{
		"in words": inWords("crate", cubeFacets()), "in bytes": inBytes("made elsewhere", cubeFacets()),
		"in bytes that begin as words":         inBytes("solid crate", cubeFacets()),
		"in shouted words":                     strings.ToUpper(inWords("crate", cubeFacets())),
		"with the line ends of another system": strings.ReplaceAll(inWords("crate", cubeFacets()), "\n", "\r\n"),
	} {
		m := proof.Must(meshfile.ReadSTL(text, units.Mm, 0))(t)
		if len(m.Points) != 8 || len(m.Triangles) != 12 || len(m.Parts) != 1 {
			t.Fatalf("%s: got %d points, %d triangles and parts %q, want 8, 12 and one", what, len(m.Points), len(m.Triangles), m.Parts)
		}
		proof.Near(t, "volume "+what, proof.Must(m.Volume())(t), 1e-9, 1e-15)
		proof.Near(t, "area "+what, m.Area(), 6e-6, 1e-15)
	}
}

// Two solids are two parts, one without a name is "surface".
func TestSolids(t *testing.T) {
	facets := cubeFacets()
	m := proof.Must(meshfile.ReadSTL(inWords("the lid", facets[2:4])+inWords("", append(facets[:2:2], facets[4:]...)), units.M, 0))(t)
	proof.Near(t, "lid", proof.Must(m.PartArea("the lid"))(t), 1, 1e-15)
	proof.Near(t, "rest", proof.Must(m.PartArea("surface"))(t), 5, 1e-15)
	proof.Near(t, "volume", proof.Must(m.Volume())(t), 1, 1e-15)
}

// Corners that another program wrote a little apart become one within the stated
// distance, and stay apart beyond it; a facet that shrinks to a line is left out.
func TestWithin(t *testing.T) {
	facets := cubeFacets()
	for i := range facets {
		for k := range facets[i] {
			facets[i][k][0] += 0.004 * float64((i+k)%3-1) // at most 8 µm from its fellows, in mm
		}
	}
	facets = append(facets, [3]corner{{0, 0, 0}, {0.002, 0, 0}, {0, 1, 0}}) // a sliver 2 µm wide
	text := inWords("crate", facets)
	m := proof.Must(meshfile.ReadSTL(text, units.Mm, 0.01*units.Mm))(t)
	if len(m.Points) != 8 || len(m.Triangles) != 12 {
		t.Errorf("within 10 µm: got %d points and %d triangles, want 8 and 12", len(m.Points), len(m.Triangles))
	}
	proof.Near(t, "volume", proof.Must(m.Volume())(t), 1e-9, 0.01) // 8 µm of 1 mm
	m = proof.Must(meshfile.ReadSTL(inWords("crate", facets[:12]), units.Mm, 0.0001*units.Mm))(t)
	if len(m.Points) <= 8 {
		t.Errorf("within 0.1 µm: got %d points, want them apart", len(m.Points))
	}
	proof.Fails(t, "corners apart", m.Closed(), "open loop of")
}

// Each fault is found and named, with the part and the number where there is one.
func TestSTLRefuses(t *testing.T) {
	cube := cubeFacets()
	turned := cubeFacets()
	turned[2][1], turned[2][2] = turned[2][2], turned[2][1]
	words := inWords("crate", cube)
	for _, c := range []struct{ what, text, words string }{
		{"nothing", "", "STL: got 0 bytes that neither begin"},
		{"something else", "PK\x03\x04" + strings.Repeat("x", 200), `STL: got 204 bytes that neither begin with "solid"`},
		{"binary, cut off", inBytes("", cube)[:500], "STL: got 500 bytes that neither begin with \"solid\" nor have the length of a binary file, 84 and 50 for each facet, of which it would have 12"},
		{"words, cut off", words[:len(words)-15], `STL: line 85: the text ends inside solid "crate": got 12 facets and no endsolid: is the file cut off?`},
		{"words, cut off in a facet", strings.Join(strings.SplitAfter(words, "\n")[:6], ""), `STL: line 6: the text ends inside solid "crate": got 0 facets`},
		{"no facets", "solid air\nendsolid\n", "STL: mesh: got no triangles"},
		{"a word", strings.Replace(words, "vertex 0 0 0", "vertex 0 zero 0", 1), `STL: line 4: vertex: got "zero", want a number`},
		{"two numbers", strings.Replace(words, "vertex 0 0 0", "vertex 0 0", 1), "STL: line 4: vertex: got 2 numbers, want 3"},
		{"no normal", strings.Replace(words, "facet normal", "facet", 1), `STL: line 2: got "facet 0 0 -1", want "facet normal" and three numbers`},
		{"two corners", strings.Replace(words, "      vertex 0 0 0\n", "", 1), `STL: line 6: got "endloop", want vertex`},
		{"four corners", strings.Replace(words, "    endloop", "vertex 1 1 1\n    endloop", 1), `STL: line 7: got "vertex", want endloop`},
		{"two loops", strings.Replace(words, "  endfacet", "outer loop", 1), `STL: line 8: got "outer", want endfacet`},
		{"a solid in a solid", strings.Replace(words, "  facet", "solid lid\n  facet", 1), `STL: line 2: got "solid", want facet, endsolid`},
		{"not a number", strings.Replace(words, "vertex 0 0 0", "vertex 0 NaN 0", 1), "STL: line 8: facet 1: corner 1: got (0, NaN, 0) m"},
		{"far away", strings.Replace(words, "vertex 0 0 0", "vertex 1e30 0 0", 1), "want at most 100000 m from the origin: is the unit right?"},
		{"far away in bytes", inBytes("", append(cube[:12:12], [3]corner{{1e30}, {0, 1}, {1}})), "STL: facet 13: corner 1: got (1.00000001"},
		{"on a line", inWords("crate", append(cube[:12:12], [3]corner{{0, 0, 0}, {1, 0, 0}, {3, 0, 0}})),
			"STL: line 92: facet 13: its corners (0, 0, 0), (1, 0, 0) and (3, 0, 0) m lie on a line"},
		{"there twice", inWords("crate", append(cube[:12:12], cube[0])), `triangle 0 of part "crate" and triangle 12 of part "crate" have the same corners`},
		{"against its normal", strings.Replace(inWords("crate", turned), "facet normal 0 0 -1\n    outer loop\n      vertex 0 0 1", "facet normal 0 0 1\n    outer loop\n      vertex 0 0 1", 1),
			"STL: line 22: facet 3: its normal (0, 0, 1) points against the order of its corners"},
	} {
		_, err := meshfile.ReadSTL(c.text, units.M, 0)
		proof.Fails(t, c.what, err, c.words)
	}
	for what, c := range map[string]struct {
		unit, within float64
		words        string
	}{"no unit": {0, 0, "STL: unit: got 0 m"}, "endless unit": {math.Inf(1), 0, "STL: unit"}, "less than nothing": {1, -1, "within: got -1"}} {
		_, err := meshfile.ReadSTL(words, c.unit, c.within)
		proof.Fails(t, what, err, c.words)
	}
}

// What can be read but does not hold air is said by the mesh, with the part and
// the number: open, one skin too many, a facet turned over, all turned over.
func TestWhatHoldsNoAir(t *testing.T) {
	cube := cubeFacets()
	turned, inside := cubeFacets(), cubeFacets()
	turned[2][1], turned[2][2] = turned[2][2], turned[2][1]
	for i := range inside {
		inside[i][1], inside[i][2] = inside[i][2], inside[i][1]
	}
	fin := append(cube[:12:12], [3]corner{{0, 0, 0}, {1, 0, 0}, {0.5, -1, -1}})
	for _, c := range []struct {
		what   string
		facets [][3]corner
		words  string
	}{
		{"open", cube[1:], `open loop of 3 edges, 3.414 m round, through point`},
		{"a fin", fin, `of part "crate": got 3 triangles, want one or two`},
		{"one turned over", turned, `triangle 2 of part "crate" and triangle 3 of part "crate" face opposite ways`},
		{"all turned over", inside, "got -1 m³: the triangles face inward"},
	} {
		m := proof.Must(meshfile.ReadSTL(inWords("crate", c.facets), units.M, 0))(t)
		_, err := m.Volume()
		proof.Fails(t, c.what, err, c.words)
	}
}

// Any mesh of the library, written as facets in words or in bytes by this test, is
// read back with its volume: in bytes to the 6e-8 of a 32-bit number.
func TestReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tube := rapid.Float64Range(0.1, 0.5).Draw(t, "tube")
		m, err := surface.Ring{Radius: rapid.Float64Range(0.6, 3).Draw(t, "radius"), Tube: tube, Around: 12, Along: 30}.Mesh()
		if err != nil {
			t.Fatal(err)
		}
		var facets [][3]corner
		for _, tr := range m.Triangles {
			var f [3]corner
			for k, p := range []int{tr.A, tr.B, tr.C} {
				f[k] = corner{m.Points[p].X / units.Mm, m.Points[p].Y / units.Mm, m.Points[p].Z / units.Mm}
			}
			facets = append(facets, f)
		}
		want, err := m.Volume()
		if err != nil {
			t.Fatal(err)
		}
		for text, tol := range map[string]float64{inWords("ring", facets): 1e-9, inBytes("ring", facets): 1e-6} {
			back, err := meshfile.ReadSTL(text, units.Mm, 0.01*units.Mm)
			if err != nil {
				t.Fatal(err)
			}
			got, err := back.Volume()
			if err != nil || math.Abs(got-want) > tol*want || len(back.Points) != len(m.Points) {
				t.Fatalf("got %g m³ and %d points, %v; want %g and %d", got, len(back.Points), err, want, len(m.Points))
			}
		}
	})
}

// No text makes the reader panic or give a mesh that Check finds wrong.
func FuzzReadSTL(f *testing.F) {
	cube := cubeFacets()
	words := inWords("crate", cube)
	for _, text := range []string{
		"", "solid", words, inBytes("solid", cube), inBytes("", cube[:3])[:200], strings.Replace(words, "0", "1e308", 3),
		strings.Replace(words, "1", "-Inf", 2), strings.Replace(words, "1", "0x1p-1074", 5), "solid\n" + strings.Repeat("facet normal 0 0 0\n", 3),
		inBytes("", [][3]corner{{{math.MaxFloat32}, {math.NaN()}, {-math.MaxFloat32}}}), "\xff\xfe" + words,
	} {
		f.Add(text, 1e-3, 1e-5)
	}
	f.Add(words, 1e308, 0.0)
	f.Add(words, 1e-300, 1e-308)
	f.Add(words, 1.0, 1e300)
	f.Fuzz(func(t *testing.T, text string, unit, within float64) {
		if len(text) > 1<<16 {
			t.Skip("long")
		}
		m, err := meshfile.ReadSTL(text, unit, within)
		if err != nil {
			return
		}
		if err := m.Check(); err != nil {
			t.Errorf("read, but %v", err)
		}
		if v, err := m.Volume(); err == nil && !(v >= 0 && !math.IsInf(v, 1)) {
			t.Errorf("volume: got %g", v)
		}
	})
}

// How reading grows from 20,000 facets to 200,000.
func BenchmarkReadSTL(b *testing.B) {
	for _, around := range []int{100, 316} {
		m, err := surface.Ring{Radius: 2, Tube: 0.5, Around: around, Along: around}.Mesh()
		if err != nil {
			b.Fatal(err)
		}
		var facets [][3]corner
		for _, tr := range m.Triangles {
			var f [3]corner
			for k, p := range []int{tr.A, tr.B, tr.C} {
				f[k] = corner{m.Points[p].X, m.Points[p].Y, m.Points[p].Z}
			}
			facets = append(facets, f)
		}
		text := inBytes("ring", facets)
		b.Run(fmt.Sprint(len(facets)), func(b *testing.B) {
			for b.Loop() {
				if _, err := meshfile.ReadSTL(text, units.M, 1e-5); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(facets)), "ns/facet")
		})
	}
}

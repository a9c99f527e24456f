package girder_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/girder"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// A beam of 4 m with E·I = 210 GPa · 300 cm⁴ = 630 kN·m² under 2 kN or 0.5 kN/m. By
// hand, in kN and m: w = F·L³/(48·E·I) = 2·64/(48·630) and so on.
const (
	length = 4 * units.M
	e      = 210 * units.GPa
	i      = 300 * units.Cm4
	force  = 2 * units.KN
	load   = 0.5 * units.KNPerM
)

var (
	simple     = girder.Simple{Length: length, E: e, I: i}
	cantilever = girder.Cantilever{Length: length, E: e, I: i}
	fixed      = girder.Fixed{Length: length, E: e, I: i}
	propped    = girder.Propped{Length: length, E: e, I: i}
)

func TestByHand(t *testing.T) {
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"simple, M of F", simple.MiddleMoment(force), 2e3},
		{"simple, w of F", simple.MiddleDeflection(force), 2 * 64 / (48 * 630.0)},
		{"simple, M of q", simple.EvenMoment(load), 1e3},
		{"simple, V of q", simple.EvenShear(load), 1e3},
		{"simple, w of q", simple.EvenDeflection(load), 5 * 0.5 * 256 / (384 * 630.0)},
		{"simple, M at 1 m", simple.PointMoment(force, 1), 1.5e3},
		{"simple, V at 1 m", simple.PointShear(force, 1), 1.5e3},
		// At √((16-1)/3) = √5 m from the far support: F·b·x·(L²-b²-x²)/(6·L·E·I), b = 1 m.
		{"simple, w at 1 m", simple.PointDeflection(force, 1), 2 * math.Sqrt(5) * (16 - 1 - 5) / (6 * 4 * 630.0)},
		{"simple, w at 3 m", simple.PointDeflection(force, 3), 2 * math.Sqrt(5) * (16 - 1 - 5) / (6 * 4 * 630.0)},
		{"simple, w at 2 m", simple.PointDeflection(force, 2), 2 * 64 / (48 * 630.0)},
		{"cantilever, M of F", cantilever.TipMoment(force), 8e3},
		{"cantilever, w of F", cantilever.TipDeflection(force), 2 * 64 / (3 * 630.0)},
		{"cantilever, turn of F", cantilever.TipTurn(force), 2 * 16 / (2 * 630.0)},
		{"cantilever, M of q", cantilever.EvenMoment(load), 4e3},
		{"cantilever, w of q", cantilever.EvenDeflection(load), 0.5 * 256 / (8 * 630.0)},
		{"cantilever, turn of q", cantilever.EvenTurn(load), 0.5 * 64 / (6 * 630.0)},
		{"fixed, M of F", fixed.MiddleMoment(force), 1e3},
		{"fixed, w of F", fixed.MiddleDeflection(force), 2 * 64 / (192 * 630.0)},
		{"fixed, M of q", fixed.EvenEndMoment(load), 2e3 / 3},
		{"fixed, M of q in the middle", fixed.EvenMiddleMoment(load), 1e3 / 3},
		{"fixed, w of q", fixed.EvenDeflection(load), 0.5 * 256 / (384 * 630.0)},
		{"propped, M of F", propped.MiddleEndMoment(force), 1.5e3},
		{"propped, M of F in the middle", propped.MiddleMoment(force), 1.25e3},
		{"propped, V of F", propped.MiddleShear(force), 1.375e3},
		{"propped, M of q", propped.EvenEndMoment(load), 1e3},
		{"propped, M of q in the span", propped.EvenSpanMoment(load), 0.5625e3},
		{"propped, V of q", propped.EvenShear(load), 1.25e3},
		{"put on suddenly", girder.DropFactor(0, 3*units.Mm), 2},
		{"dropped by four deflections", girder.DropFactor(12*units.Mm, 3*units.Mm), 4},
	} {
		proof.Near(t, c.what, c.got, c.want, 1e-12) // rounding
	}
}

// The stiffness method finds the same: its nodes are exact, and 480 of them miss the
// lowest point by no more than 1/960 of the length, its deflection by a millionth.
func TestAgainstTheFrame(t *testing.T) {
	const n = 480
	held, free := frame.Support{X: true, Y: true, Z: true, RX: true, RY: true, RZ: true}, frame.Support{}
	hinge := frame.Support{X: true, Y: true, Z: true, RX: true, RZ: true}
	tube := section.Section{Name: "any", A: 1e-3, Iy: i, Iz: i, It: i}
	steel := section.Material{E: e, G: 81e9, Density: 7850}
	// lowest is the greatest deflection, end the moment and shear at the first end.
	solve := func(first, last frame.Support, at int) (lowest, moment, shear float64) {
		f := frame.New()
		c := frame.NewCase("load")
		var nodes []frame.Node
		var members []frame.Member
		for k := range n + 1 {
			nodes = append(nodes, f.Node(length*float64(k)/n, 0, 0))
			if k > 0 {
				members = append(members, f.Member(nodes[k-1], nodes[k], tube, steel))
				if at < 0 {
					c.Line(members[k-1], frame.LineLoad{Z: -load})
				}
			}
		}
		if first != free {
			f.Support(nodes[0], first)
		}
		if last != free {
			f.Support(nodes[n], last)
		}
		if at >= 0 {
			c.Node(nodes[at], frame.Load{FZ: -force})
		}
		r := proof.Must(f.Solve(c.Alone()))(t)
		for _, node := range nodes {
			lowest = max(lowest, -r.Displacement(node).Z)
		}
		forces := r.Member(members[0])
		return lowest, math.Abs(forces.Stations[0].MY), math.Abs(forces.Stations[0].VZ)
	}
	for _, c := range []struct {
		what                       string
		first, last                frame.Support
		at                         int
		deflection, moment, atWall float64
	}{
		{"simple, middle", hinge, hinge, n / 2, simple.MiddleDeflection(force), 0, simple.MiddleShear(force)},
		{"simple, quarter", hinge, hinge, n / 4, simple.PointDeflection(force, length/4), 0, simple.PointShear(force, length/4)},
		{"simple, even", hinge, hinge, -1, simple.EvenDeflection(load), 0, simple.EvenShear(load)},
		{"cantilever, tip", held, free, n, cantilever.TipDeflection(force), cantilever.TipMoment(force), force},
		{"cantilever, even", held, free, -1, cantilever.EvenDeflection(load), cantilever.EvenMoment(load), cantilever.EvenShear(load)},
		{"fixed, middle", held, held, n / 2, fixed.MiddleDeflection(force), fixed.MiddleMoment(force), fixed.MiddleShear(force)},
		{"fixed, even", held, held, -1, fixed.EvenDeflection(load), fixed.EvenEndMoment(load), fixed.EvenShear(load)},
		{"propped, middle", held, hinge, n / 2, propped.MiddleDeflection(force), propped.MiddleEndMoment(force), propped.MiddleShear(force)},
		{"propped, even", held, hinge, -1, propped.EvenDeflection(load), propped.EvenEndMoment(load), propped.EvenShear(load)},
	} {
		lowest, moment, shear := solve(c.first, c.last, c.at)
		proof.Near(t, c.what+": deflection", c.deflection, lowest, 1e-5)
		proof.Near(t, c.what+": shear", c.atWall, shear, 1e-6)
		if c.moment > 0 {
			proof.Near(t, c.what+": moment", c.moment, moment, 1e-6)
		}
	}
}

func TestFormulas(t *testing.T) {
	f := func(b any) [][]any { return [][]any{{b, 1700.0}, {b, 0.0}} }
	at := [][]any{{simple, 1700.0, 0.3}, {simple, 1700.0, 3.1}}
	proof.Formulas(t, []proof.Call{
		proof.Of("DropFactor", girder.DropFactor, [][]any{{0.3, 0.01}, {0.0, 2.0}}),
		proof.Of("Simple.MiddleMoment", girder.Simple.MiddleMoment, f(simple)),
		proof.Of("Simple.MiddleShear", girder.Simple.MiddleShear, f(simple)),
		proof.Of("Simple.MiddleDeflection", girder.Simple.MiddleDeflection, f(simple)),
		proof.Of("Simple.PointMoment", girder.Simple.PointMoment, at),
		proof.Of("Simple.PointShear", girder.Simple.PointShear, at),
		proof.Of("Simple.PointDeflection", girder.Simple.PointDeflection, at),
		proof.Of("Simple.EvenMoment", girder.Simple.EvenMoment, f(simple)),
		proof.Of("Simple.EvenShear", girder.Simple.EvenShear, f(simple)),
		proof.Of("Simple.EvenDeflection", girder.Simple.EvenDeflection, f(simple)),
		proof.Of("Cantilever.TipMoment", girder.Cantilever.TipMoment, f(cantilever)),
		proof.Of("Cantilever.TipDeflection", girder.Cantilever.TipDeflection, f(cantilever)),
		proof.Of("Cantilever.TipTurn", girder.Cantilever.TipTurn, f(cantilever)),
		proof.Of("Cantilever.EvenMoment", girder.Cantilever.EvenMoment, f(cantilever)),
		proof.Of("Cantilever.EvenShear", girder.Cantilever.EvenShear, f(cantilever)),
		proof.Of("Cantilever.EvenDeflection", girder.Cantilever.EvenDeflection, f(cantilever)),
		proof.Of("Cantilever.EvenTurn", girder.Cantilever.EvenTurn, f(cantilever)),
		proof.Of("Fixed.MiddleMoment", girder.Fixed.MiddleMoment, f(fixed)),
		proof.Of("Fixed.MiddleShear", girder.Fixed.MiddleShear, f(fixed)),
		proof.Of("Fixed.MiddleDeflection", girder.Fixed.MiddleDeflection, f(fixed)),
		proof.Of("Fixed.EvenEndMoment", girder.Fixed.EvenEndMoment, f(fixed)),
		proof.Of("Fixed.EvenMiddleMoment", girder.Fixed.EvenMiddleMoment, f(fixed)),
		proof.Of("Fixed.EvenShear", girder.Fixed.EvenShear, f(fixed)),
		proof.Of("Fixed.EvenDeflection", girder.Fixed.EvenDeflection, f(fixed)),
		proof.Of("Propped.MiddleEndMoment", girder.Propped.MiddleEndMoment, f(propped)),
		proof.Of("Propped.MiddleMoment", girder.Propped.MiddleMoment, f(propped)),
		proof.Of("Propped.MiddleShear", girder.Propped.MiddleShear, f(propped)),
		proof.Of("Propped.MiddleDeflection", girder.Propped.MiddleDeflection, f(propped)),
		proof.Of("Propped.EvenEndMoment", girder.Propped.EvenEndMoment, f(propped)),
		proof.Of("Propped.EvenSpanMoment", girder.Propped.EvenSpanMoment, f(propped)),
		proof.Of("Propped.EvenShear", girder.Propped.EvenShear, f(propped)),
		proof.Of("Propped.EvenDeflection", girder.Propped.EvenDeflection, f(propped)),
	})
}

func TestRanges(t *testing.T) {
	proof.Panics(t, "girder: Simple.MiddleMoment: length: got 0, want more than 0", func() { girder.Simple{E: e, I: i}.MiddleMoment(force) })
	proof.Panics(t, "girder: Fixed.EvenDeflection: I: got 0, want more than 0", func() { girder.Fixed{Length: length, E: e}.EvenDeflection(load) })
	proof.Panics(t, "girder: Cantilever.TipTurn: force: got -1, want 0 or more", func() { cantilever.TipTurn(-1) })
	proof.Panics(t, "girder: Simple.PointMoment: at: got 4.1, want 0 to 4", func() { simple.PointMoment(force, 4.1) })
	proof.Panics(t, "girder: DropFactor: deflection: got 0, want more than 0", func() { girder.DropFactor(0.1, 0) })
}

package shaft_test

import (
	"math"
	"slices"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/shaft"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

func even(d, length float64) shaft.Stepped {
	return shaft.Stepped{Steps: []shaft.Step{{Length: length, Diameter: d}}, Right: length, E: 210e9}
}

// Closed forms of beam tables (Roark's Formulas for Stress and Strain, Table 8.1).
func TestBendClosedForms(t *testing.T) {
	const d, l, f = 0.03, 0.8, 1000.0
	rigidity := 210e9 * shaft.Round{Diameter: d}.SecondMoment()
	// A load in the middle: F·l³/48EI, slopes F·l²/16EI.
	b := proof.Must(even(d, l).Bend([]shaft.Load{{At: l / 2, Fz: -f}}, []float64{0, l / 2, l}))(t)
	proof.Near(t, "middle", -b.Stations[1].Z, f*l*l*l/48/rigidity, 1e-10)
	proof.Near(t, "slope", -b.Stations[0].SlopeZ, f*l*l/16/rigidity, 1e-10)
	proof.Near(t, "other slope", b.Stations[2].SlopeZ, f*l*l/16/rigidity, 1e-10)
	proof.Near(t, "moment", b.Greatest, f*l/4, 1e-12)
	proof.Near(t, "bearing", b.LeftZ, f/2, 1e-12)
	// Off the middle, at a from the left: F·a²·b²/3EIl under the load.
	b = proof.Must(even(d, l).Bend([]shaft.Load{{At: 0.3, Fy: f}}, []float64{0.3}))(t)
	proof.Near(t, "off the middle", b.Stations[0].Y, f*0.3*0.3*0.5*0.5/(3*rigidity*l), 1e-10)
	// A couple on the left end: slopes M·l/3EI and M·l/6EI.
	b = proof.Must(even(d, l).Bend([]shaft.Load{{At: 0, Mz: 50}}, []float64{0, l}))(t)
	proof.Near(t, "couple, near", b.Stations[0].SlopeY, 50*l/3/rigidity, 1e-10)
	proof.Near(t, "couple, far", b.Stations[1].SlopeY, -50*l/6/rigidity, 1e-10)
	b = proof.Must(even(d, l).Bend([]shaft.Load{{At: 0, My: 50}}, []float64{0}))(t)
	proof.Near(t, "couple about y", b.Stations[0].SlopeZ, -50*l/3/rigidity, 1e-10)
	// Overhanging by c: F·c²·(l + c)/3EI at its end.
	s := shaft.Stepped{Steps: []shaft.Step{{Length: 1, Diameter: d}}, Left: 0, Right: 0.7, E: 210e9}
	b = proof.Must(s.Bend([]shaft.Load{{At: 1, Fz: -f}}, []float64{1}))(t)
	proof.Near(t, "overhang", -b.Stations[0].Z, f*0.3*0.3*1/(3*rigidity), 1e-10)
	proof.Near(t, "overhang, left bearing pulls down", b.LeftZ, -f*0.3/0.7, 1e-12)
}

// The deflection of any stepped shaft is, by virtual work, the integral of
// M·m/EI, with m the moment of a unit force at the station.
func TestBendVirtualWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := shaft.Stepped{E: 210e9}
		length := 0.0
		for range rapid.IntRange(1, 4).Draw(t, "steps") {
			step := shaft.Step{Length: rapid.Float64Range(0.05, 0.3).Draw(t, "length"), Diameter: rapid.Float64Range(0.02, 0.06).Draw(t, "diameter")}
			step.Bore = step.Diameter * rapid.Float64Range(0, 0.7).Draw(t, "bore")
			s.Steps = append(s.Steps, step)
			length += step.Length
		}
		s.Left = length * rapid.Float64Range(0, 0.3).Draw(t, "left")
		s.Right = length * rapid.Float64Range(0.6, 1).Draw(t, "right")
		load := length * rapid.Float64Range(0, 1).Draw(t, "load")
		at := length * rapid.Float64Range(0, 1).Draw(t, "station")
		b, err := s.Bend([]shaft.Load{{At: load, Fy: 1000}}, []float64{at})
		if err != nil {
			t.Fatal(err)
		}
		moment := func(x, at float64) float64 { // of a unit force at the place, x from the left
			right := -(at - s.Left) / (s.Right - s.Left)
			left := -1 - right
			m := 0.0
			for _, f := range [][2]float64{{s.Left, left}, {s.Right, right}, {at, 1}} {
				m += f[1] * math.Max(0, x-f[0])
			}
			return m
		}
		// Between steps, bearings, load and station the product of the moments is of
		// the second degree, for which Simpson's rule is exact.
		breaks := []float64{0, s.Left, s.Right, load, at}
		end := 0.0
		for _, step := range s.Steps {
			end += step.Length
			breaks = append(breaks, end)
		}
		slices.Sort(breaks)
		rigidity := func(x float64) float64 {
			end := 0.0
			for _, step := range s.Steps {
				if end += step.Length; x < end {
					return s.E * shaft.Round{Diameter: step.Diameter, Bore: step.Bore}.SecondMoment()
				}
			}
			return math.NaN()
		}
		want, size := 0.0, 0.0
		for i := range len(breaks) - 1 {
			a, c := breaks[i], breaks[i+1]
			if c-a < 1e-12 {
				continue
			}
			product := func(x float64) float64 { return 1000 * moment(x, load) * moment(x, at) }
			part := (product(a) + 4*product((a+c)/2) + product(c)) * (c - a) / 6 / rigidity((a+c)/2)
			want += part
			size += math.Abs(part)
		}
		if got := b.Stations[0].Y; math.Abs(got-want) > 1e-9*size+1e-18 {
			t.Fatalf("got %g, want %g", got, want)
		}
	})
}

// Loads at each other's places move each other alike (Maxwell).
func TestBendReciprocal(t *testing.T) {
	s := shaft.Stepped{
		Steps: []shaft.Step{{Length: 0.1, Diameter: 0.03}, {Length: 0.2, Diameter: 0.05, Bore: 0.02}, {Length: 0.15, Diameter: 0.025}},
		Left:  0.02, Right: 0.4, E: 210e9,
	}
	one := proof.Must(s.Bend([]shaft.Load{{At: 0.15, Fy: 1}}, []float64{0.45}))(t)
	other := proof.Must(s.Bend([]shaft.Load{{At: 0.45, Fy: 1}}, []float64{0.15}))(t)
	proof.Near(t, "reciprocal", one.Stations[0].Y, other.Stations[0].Y, 1e-9)
	both := proof.Must(s.Bend([]shaft.Load{{At: 0.15, Fy: 3, Fz: 4}}, []float64{0.15}))(t)
	y := proof.Must(s.Bend([]shaft.Load{{At: 0.15, Fy: 5}}, []float64{0.15}))(t)
	proof.Near(t, "any direction", both.Stations[0].Deflection, y.Stations[0].Deflection, 1e-12)
	proof.Near(t, "bearings", both.Left+both.Right, 5, 1e-12)
}

func TestBendRefuses(t *testing.T) {
	s := even(0.03, 0.5)
	for _, c := range []struct {
		change func(s *shaft.Stepped)
		load   shaft.Load
		words  string
	}{
		{func(s *shaft.Stepped) { s.Steps = nil }, shaft.Load{}, "got no steps"},
		{func(s *shaft.Stepped) { s.Steps = []shaft.Step{{Length: 1, Diameter: 0.02, Bore: 0.03}} }, shaft.Load{}, "step 1: bore"},
		{func(s *shaft.Stepped) { s.Right = 0 }, shaft.Load{}, "want them apart"},
		{func(s *shaft.Stepped) { s.Right = 0.6 }, shaft.Load{}, "right bearing"},
		{func(s *shaft.Stepped) {}, shaft.Load{At: 0.6}, "load 1: place"},
		{func(s *shaft.Stepped) {}, shaft.Load{At: 0.2, Fy: math.NaN()}, "load 1"},
		{func(s *shaft.Stepped) { s.E = 0 }, shaft.Load{}, "modulus E"},
	} {
		bad := s
		c.change(&bad)
		_, err := bad.Bend([]shaft.Load{c.load}, nil)
		proof.Fails(t, c.words, err, c.words)
	}
	_, err := s.Bend(nil, []units.Length{-1})
	proof.Fails(t, "station", err, "station 1")
}

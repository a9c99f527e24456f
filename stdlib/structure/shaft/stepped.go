package shaft

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Stepped shaft is turned to several diameters and runs in two bearings that
// give way neither across nor to a slope.
type Stepped struct {
	Steps       []Step         // from the left end
	Left, Right units.Length   // of the bearings' middles from the left end
	E           units.Pressure // modulus of elasticity
}

// A Step is a piece of a shaft of one section.
type Step struct {
	Length   units.Length
	Diameter units.Length
	Bore     units.Length
}

// A Load acts on a shaft at a place, across it or as a couple.
type Load struct {
	At     units.Length // from the left end
	Fy, Fz units.Force
	My, Mz units.Moment // right-handed
}

// A Station is what a place on the shaft does under its loads.
type Station struct {
	At             units.Length
	Y, Z           units.Length // how far it moves
	Deflection     units.Length // of both
	SlopeY, SlopeZ units.Angle  // how it tilts in the planes of x with y and z
	Slope          units.Angle  // of both
	Bending        units.Moment // of both planes, just right of the place
}

// A Bent shaft is the answer of a stepped shaft to its loads.
type Bent struct {
	LeftY, LeftZ   units.Force // of the left bearing on the shaft
	RightY, RightZ units.Force
	Left, Right    units.Force  // radial load of each bearing
	Stations       []Station    // in the order asked for
	Greatest       units.Moment // bending, anywhere
}

// Bend is how the shaft bends under loads, at the stations asked for.
//
// Between the places where something changes the bending moment is straight and
// the section even, so that the integrals are exact. Shear is left out. A shaft
// without steps, bearings or loads that are not on it, and numbers out of range
// are errors.
//
// Source: elastic beam theory, integrated piece by piece; derived here.
func (s Stepped) Bend(loads []Load, stations []units.Length) (Bent, error) {
	if err := s.check(loads, stations); err != nil {
		return Bent{}, fmt.Errorf("stepped shaft: %w", err)
	}
	var inY, inZ plane
	for _, l := range loads {
		inY.loads = append(inY.loads, planeLoad{l.At, l.Fy, l.Mz})
		inZ.loads = append(inZ.loads, planeLoad{l.At, l.Fz, -l.My})
	}
	places := s.places(loads, stations)
	s.solve(&inY, places)
	s.solve(&inZ, places)
	b := Bent{
		LeftY: inY.left, RightY: inY.right, LeftZ: inZ.left, RightZ: inZ.right,
		Left: math.Hypot(inY.left, inZ.left), Right: math.Hypot(inY.right, inZ.right),
	}
	for i := range places {
		b.Greatest = math.Max(b.Greatest, math.Max(math.Hypot(inY.before[i], inZ.before[i]), math.Hypot(inY.after[i], inZ.after[i])))
	}
	for _, at := range stations {
		i, _ := slices.BinarySearch(places, at)
		b.Stations = append(b.Stations, Station{
			At: at, Y: inY.v[i], Z: inZ.v[i], Deflection: math.Hypot(inY.v[i], inZ.v[i]),
			SlopeY: inY.slope[i], SlopeZ: inZ.slope[i], Slope: math.Hypot(inY.slope[i], inZ.slope[i]),
			Bending: math.Hypot(inY.after[i], inZ.after[i]),
		})
	}
	return b, nil
}

func (s Stepped) check(loads []Load, stations []units.Length) error {
	if len(s.Steps) == 0 {
		return fmt.Errorf("got no steps, want at least one")
	}
	length := 0.0
	for i, step := range s.Steps {
		if err := argument.Positive(fmt.Sprintf("step %d: length", i+1), step.Length); err != nil {
			return err
		}
		if err := (Round{step.Diameter, step.Bore}).check(); err != nil {
			return fmt.Errorf("step %d: %w", i+1, err)
		}
		length += step.Length
	}
	within := func(what string, at float64) error { return argument.Within(what, at, 0, length*(1+1e-12)) }
	for _, err := range []error{argument.Positive("modulus E", s.E), within("left bearing", s.Left), within("right bearing", s.Right)} {
		if err != nil {
			return err
		}
	}
	if !(s.Right > s.Left) {
		return fmt.Errorf("bearings: got the right one at %g m and the left one at %g m, want them apart and in this order", s.Right, s.Left)
	}
	for i, l := range loads {
		if err := within(fmt.Sprintf("load %d: place", i+1), l.At); err != nil {
			return err
		}
		for _, v := range []float64{l.Fy, l.Fz, l.My, l.Mz} {
			if err := argument.Finite(fmt.Sprintf("load %d", i+1), v); err != nil {
				return err
			}
		}
	}
	for i, at := range stations {
		if err := within(fmt.Sprintf("station %d", i+1), at); err != nil {
			return err
		}
	}
	return nil
}

// places are all where something changes or is asked for, rising.
func (s Stepped) places(loads []Load, stations []units.Length) []float64 {
	list := append([]float64{0, s.Left, s.Right}, stations...)
	end := 0.0
	for _, step := range s.Steps {
		end += step.Length
		list = append(list, end)
	}
	for _, l := range loads {
		list = append(list, l.At)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// A plane is the shaft's bending in x and one direction across it.
type plane struct {
	loads         []planeLoad
	left, right   float64
	v, slope      []float64 // at each place
	before, after []float64 // bending moment on both sides of it, above 0 when it bends the shaft towards v
}

type planeLoad struct{ at, force, couple float64 }

func (s Stepped) solve(p *plane, places []float64) {
	sum, about := 0.0, 0.0
	for _, l := range p.loads {
		sum += l.force
		about += l.force*(l.at-s.Left) + l.couple
	}
	p.right = -about / (s.Right - s.Left)
	p.left = -sum - p.right
	all := append([]planeLoad{{s.Left, p.left, 0}, {s.Right, p.right, 0}}, p.loads...)
	moment := func(x float64, after bool) float64 {
		m := 0.0
		for _, l := range all {
			if l.at < x {
				m += l.force * (x - l.at)
			}
			if l.at < x || after && l.at == x {
				m -= l.couple
			}
		}
		return m
	}
	n := len(places)
	p.v, p.slope = make([]float64, n), make([]float64, n)
	p.before, p.after = make([]float64, n), make([]float64, n)
	for i, x := range places {
		p.before[i], p.after[i] = moment(x, false), moment(x, true)
		if i == 0 {
			continue
		}
		l, m0, m1 := x-places[i-1], p.after[i-1], p.before[i]
		rigidity := s.E * s.sectionAt((x+places[i-1])/2).SecondMoment()
		p.slope[i] = p.slope[i-1] + l*(m0+m1)/2/rigidity
		p.v[i] = p.v[i-1] + l*p.slope[i-1] + l*l*(2*m0+m1)/6/rigidity
	}
	// Turn and shift it back onto the bearings.
	a, _ := slices.BinarySearch(places, s.Left)
	b, _ := slices.BinarySearch(places, s.Right)
	turn := -(p.v[b] - p.v[a]) / (s.Right - s.Left)
	shift := -p.v[a]
	for i, x := range places {
		p.v[i] += shift + turn*(x-s.Left)
		p.slope[i] += turn
	}
}

func (s Stepped) sectionAt(x float64) Round {
	end := 0.0
	for _, step := range s.Steps {
		if end += step.Length; x < end {
			return Round{step.Diameter, step.Bore}
		}
	}
	last := s.Steps[len(s.Steps)-1]
	return Round{last.Diameter, last.Bore}
}

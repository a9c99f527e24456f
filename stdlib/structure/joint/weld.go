package joint

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/units"
)

// A FilletStrength is what fillet welds of one steel may carry.
type FilletStrength struct {
	Fu    units.Pressure // tensile strength of the weaker part joined
	BetaW units.Number   // correlation factor of its grade
	M2    units.Number   // partial factor
}

// NewFilletStrength is the strength of fillet welds on a steel.
//
// The grade is that of the weaker part: S235, S275, S355, S420 or S460, with or
// without letters behind. Its tensile strength fu is a number of its own, more
// than 0: EN 1993-1-1 has 430 MPa for S275 and 510 MPa (490 MPa as corrected)
// for S355, the product standards 410 and 470 MPa. A grade that is not known is
// an error.
//
// Caution: the filler metal is at least as strong as the steel.
//
// Source: EN 1993-1-8:2005, Table 4.1 and 4.5.3.
func NewFilletStrength(grade string, fu units.Pressure, f Factors) (FilletStrength, error) {
	if err := cmp.Or(argument.Positive("tensile strength fu", fu), factor("M2", f.M2)); err != nil {
		return FilletStrength{}, fmt.Errorf("fillet welds on %s: %w", grade, err)
	}
	var known []string
	for _, g := range []struct {
		name string
		beta float64
	}{{"S235", 0.80}, {"S275", 0.85}, {"S355", 0.90}, {"S420", 1.00}, {"S460", 1.00}} {
		if strings.HasPrefix(grade, g.name) {
			return FilletStrength{Fu: fu, BetaW: g.beta, M2: f.M2}, nil
		}
		known = append(known, g.name)
	}
	return FilletStrength{}, fmt.Errorf("fillet welds: grade: got %q, want one of: %s", grade, strings.Join(known, ", "))
}

func (s FilletStrength) check() error {
	return cmp.Or(argument.Positive("tensile strength fu (take NewFilletStrength)", s.Fu), argument.Within("betaW", s.BetaW, 0.8, 1), factor("M2", s.M2))
}

// Shear is the design shear strength of the weld, whatever the direction of the
// force: the simplified method.
//
//	fvw = s.Fu/(sqrt(3)*s.BetaW*s.M2)
//
// It panics if a field is out of its range.
//
// Source: EN 1993-1-8:2005, 4.5.3.3(3).
func (s FilletStrength) Shear() units.Pressure {
	argument.Demand("joint: FilletStrength.Shear", s.check())
	return s.Fu / (math.Sqrt(3) * s.BetaW * s.M2)
}

// PerLength is what a length of weld may carry by the simplified method.
//
//	F = throat*s.Fu/(sqrt(3)*s.BetaW*s.M2)
//
// The throat is more than 0. It panics if it or a field is out of its range.
//
// Source: EN 1993-1-8:2005, 4.5.3.3(2).
func (s FilletStrength) PerLength(throat units.Length) units.ForcePerLength {
	argument.Demand("joint: FilletStrength.PerLength", argument.Positive("throat", throat), s.check())
	return throat * s.Shear()
}

// Throat is the throat of an equal-legged fillet weld between square faces.
//
//	a = leg/sqrt(2)
//
// The leg is more than 0; outside it panics. A drawing may ask for either: say
// which.
//
// Source: geometry.
func Throat(leg units.Length) units.Length {
	argument.Demand("joint: Throat", argument.Positive("leg", leg))
	return leg / math.Sqrt2
}

// A Weld is a straight fillet weld, by the line of its root.
//
// Its faces are those of the two parts that it joins, as directions that point
// out of each part on the weld's side. They say how the throat lies, which the
// directional method needs; without them only the simplified method is used.
type Weld struct {
	Name         string
	From, To     Point
	Throat       units.Length // effective, more than 0
	FaceA, FaceB Direction    // out of the two parts; both zero: not known
}

// A Direction points somewhere in the joint's axes; its length does not matter.
type Direction struct{ X, Y, Z units.Number }

func (d Direction) vector() vector.Vector { return vector.Vector{d.X, d.Y, d.Z} }

func (w Weld) length() float64 { return w.To.vector().Minus(w.From.vector()).Length() }

func (w Weld) check() error {
	err := cmp.Or(argument.Positive("throat", w.Throat), w.From.check("start"), w.To.check("end"))
	if err == nil {
		err = argument.Positive("length", w.length())
	}
	if err == nil && w.directed() {
		_, _, err = w.throatAxes()
	}
	if err != nil {
		return fmt.Errorf("weld %q: %w", w.Name, err)
	}
	return nil
}

func (w Weld) directed() bool { return w.FaceA != Direction{} || w.FaceB != Direction{} }

// throatAxes is the normal of the throat plane and the direction in it across
// the weld.
func (w Weld) throatAxes() (normal, across vector.Vector, err error) {
	along := w.To.vector().Minus(w.From.vector()).Unit()
	var faces [2]vector.Vector
	for i, d := range []Direction{w.FaceA, w.FaceB} {
		f := d.vector()
		if err := cmp.Or(argument.Positive("length of a face's direction", f.Length())); err != nil {
			return vector.Vector{}, vector.Vector{}, err
		}
		faces[i] = f.Unit()
		if math.Abs(faces[i].Dot(along)) > 1e-6 {
			return vector.Vector{}, vector.Vector{}, fmt.Errorf("face (%g, %g, %g): got a direction that is not square to the weld, want one out of the part's face", d.X, d.Y, d.Z)
		}
	}
	between := math.Pi - math.Acos(math.Max(-1, math.Min(1, faces[0].Dot(faces[1]))))
	if between < 60*units.Deg-1e-9 || between > 120*units.Deg+1e-9 {
		return vector.Vector{}, vector.Vector{}, fmt.Errorf("angle between the faces: got %.0f°, want 60° to 120° for a fillet weld (EN 1993-1-8, 4.3.2.1)", between/units.Deg)
	}
	across = faces[0].Plus(faces[1]).Unit()
	return along.Cross(across), across, nil
}

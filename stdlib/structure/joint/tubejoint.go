package joint

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Tube is a hollow section at a joint.
type Tube struct {
	Round  bool
	Height units.Length // in the plane of the joint; the diameter of a round tube
	Width  units.Length // across it; the diameter of a round tube
	Wall   units.Length
	Fy     units.Pressure // yield strength
}

func (t Tube) check(what string) error {
	err := cmp.Or(argument.Positive(what+": height", t.Height), argument.Positive(what+": width", t.Width), argument.Positive(what+": yield strength", t.Fy))
	if err == nil {
		err = argument.Within(what+": wall", t.Wall, 1e-6, math.Min(t.Height, t.Width)/2)
	}
	if err == nil && t.Round && t.Height != t.Width {
		err = fmt.Errorf("%s: got a round tube of %g by %g mm, want one diameter", what, t.Height/units.Mm, t.Width/units.Mm)
	}
	return err
}

// A TubeJoint is a brace welded to the face of a chord that runs through, both
// hollow sections with their axes in one plane.
type TubeJoint struct {
	Chord, Brace Tube
	Angle        units.Angle    // between their axes, 30° to 90°
	ChordStress  units.Pressure // greatest compression in the chord at the joint, from force and bending; 0 when it is pulled
}

// A TubeResistance is what the chord and the brace's end may carry at a joint:
// the local failure of the tubes, not that of the weld or of the members.
type TubeResistance struct {
	Covered     bool        // false: no rule here covers the joint, and the numbers are 0
	Why         string      // what is outside the rules
	Axial       units.Force // that the brace may bring, pull or push
	Mode        string      // how it would fail then
	Moment      units.Moment
	MomentMode  string
	MomentPower units.Number // of the moment's utilisation when it is added to that of the force
	Warnings    []string
	Source      string
}

// Utilisation is that of a brace's axial force and of its moment in the plane of
// the joint together.
//
//	u = axial/r.Axial + pow(moment/r.Moment, r.MomentPower)
//
// Axial force and moment are 0 or more, without regard to their direction. It
// panics on a joint that is not covered and on numbers out of range.
//
// Source: EN 1993-1-8:2005, 7.4.2(2) and 7.5.2(2).
func (r TubeResistance) Utilisation(axial units.Force, moment units.Moment) units.Number {
	if !r.Covered {
		panic("joint: TubeResistance.Utilisation: joint: got one that is not covered (" + r.Why + "), want one with a rule")
	}
	argument.Demand("joint: TubeResistance.Utilisation", argument.NotNegative("axial force", axial), argument.NotNegative("moment", moment))
	return axial/r.Axial + math.Pow(moment/r.Moment, r.MomentPower)
}

// Single is what a brace alone may bring: a T-joint, or a Y-joint at an angle.
//
// The least of the failures that the standard lists is taken, as for a push:
// yielding of the chord's face, crushing of its side walls, punching, failure of
// the brace at its end. The moment is that in the plane of the joint; for
// rectangular tubes it is covered at 90° only, and is 0 otherwise. Tubes outside
// the range of the rules give a result that is not covered and says why. A number
// out of range is an error.
//
// Caution: a light brace on a thin chord fails the chord's face long before
// either tube. A joint that is not covered is tested or stiffened, not guessed.
//
// Source: EN 1993-1-8:2005, 7.4, Tables 7.1 and 7.2 and 7.5 (round); 7.5, Tables
// 7.8, 7.11 and 7.14 (rectangular); from memory: verify against the document.
func (j TubeJoint) Single(f Factors) (TubeResistance, error) {
	if err := j.check(f); err != nil {
		return TubeResistance{}, err
	}
	if why := j.outside(); why != "" {
		return TubeResistance{Why: why}, nil
	}
	if j.Chord.Round {
		return j.round(f), nil
	}
	return j.rectangular(f), nil
}

func (j TubeJoint) check(f Factors) error {
	err := cmp.Or(j.Chord.check("chord"), j.Brace.check("brace"), argument.Within("angle", j.Angle, 1*units.Deg, 90*units.Deg+1e-9),
		argument.Within("compression in the chord", j.ChordStress, 0, j.Chord.Fy), factor("M5", f.M5))
	if err != nil {
		return fmt.Errorf("tube joint: %w", err)
	}
	return nil
}

// outside says what keeps a single brace out of the rules' range, "" if nothing.
func (j TubeJoint) outside() string {
	c, b := j.Chord, j.Brace
	epsilon := math.Sqrt(235 * units.MPa / b.Fy)
	switch {
	case c.Round != b.Round:
		return "a round and a rectangular tube together are not covered"
	case math.Max(c.Fy, b.Fy) > 460*units.MPa:
		return "steel above 460 MPa is not covered"
	case j.Angle < 30*units.Deg-1e-9:
		return "an angle below 30° is not covered"
	case b.Width > c.Width*(1+1e-9):
		return "a brace wider than its chord is not covered"
	case c.Round && b.Width < 0.2*c.Width:
		return "a brace thinner than 0.2 of its chord is not covered"
	case c.Round && (c.Width/c.Wall < 10 || c.Width/c.Wall > 50):
		return fmt.Sprintf("a chord's diameter of %.0f walls is not covered, only 10 to 50", c.Width/c.Wall)
	case b.Round && b.Width/b.Wall > math.Min(50, 70*epsilon*epsilon):
		return fmt.Sprintf("a brace's diameter of %.0f walls is not covered, only class 1 and 2 up to 50", b.Width/b.Wall)
	case c.Round:
		return ""
	case b.Width < 0.25*c.Width:
		return "a brace narrower than 0.25 of its chord is not covered"
	case math.Max(c.Width, c.Height)/c.Wall > 35:
		return fmt.Sprintf("a chord's side of %.0f walls is not covered, only up to 35", math.Max(c.Width, c.Height)/c.Wall)
	case math.Max(b.Width, b.Height)/b.Wall > math.Min(35, 38*epsilon+3):
		return fmt.Sprintf("a brace's side of %.0f walls is not covered, only class 1 and 2 up to 35", math.Max(b.Width, b.Height)/b.Wall)
	case c.Height/c.Width < 0.5 || c.Height/c.Width > 2 || b.Height/b.Width < 0.5 || b.Height/b.Width > 2:
		return "a tube more than twice as high as wide, or as wide as high, is not covered"
	case b.Width > 0.85*c.Width && b.Width < c.Width*(1-1e-9):
		return "a brace of more than 0.85 of its chord but not its full width is not covered: take the full width"
	}
	return ""
}

// result begins the result of a covered joint: strength is taken down for
// high-strength steel and warned about where walls are thin.
func (j TubeJoint) result(source string) (r TubeResistance, reduced float64) {
	r = TubeResistance{Covered: true, Source: source + " (from memory: verify against the document)"}
	if t := math.Min(j.Chord.Wall, j.Brace.Wall); t < 2.5*units.Mm-1e-9 {
		r.Warnings = append(r.Warnings, fmt.Sprintf("wall of %.3g mm: the rules are for 2.5 mm and more", t/units.Mm))
	}
	if math.Max(j.Chord.Fy, j.Brace.Fy) > 355*units.MPa {
		return r, 0.9
	}
	return r, 1
}

// round is a round brace on a round chord: EN 1993-1-8, Tables 7.2 and 7.5.
func (j TubeJoint) round(f Factors) TubeResistance {
	r, reduced := j.result("EN 1993-1-8:2005, Tables 7.2 and 7.5")
	fy, t, d := j.Chord.Fy, j.Chord.Wall, j.Brace.Width
	sin := math.Sin(j.Angle)
	beta, gamma, n := d/j.Chord.Width, j.Chord.Width/(2*t), j.ChordStress/j.Chord.Fy/f.M5
	kp := math.Min(1, 1-0.3*n*(1+n))
	r.Axial, r.Mode = math.Pow(gamma, 0.2)*kp*fy*t*t/sin*(2.8+14.2*beta*beta), "the chord's face yields"
	r.Moment, r.MomentMode = 4.85*fy*t*t*d/sin*math.Sqrt(gamma)*beta*kp, "the chord's face yields"
	if d <= j.Chord.Width-2*t {
		if punch := fy / math.Sqrt(3) * t * math.Pi * d * (1 + sin) / (2 * sin * sin); punch < r.Axial {
			r.Axial, r.Mode = punch, "the brace punches through the chord"
		}
		if punch := fy * t * d * d / math.Sqrt(3) * (1 + 3*sin) / (4 * sin * sin); punch < r.Moment {
			r.Moment, r.MomentMode = punch, "the brace punches through the chord"
		}
	}
	r.Axial *= reduced / f.M5
	r.Moment *= reduced / f.M5
	r.MomentPower = 2
	return r
}

// rectangular is a rectangular brace on a rectangular chord: EN 1993-1-8, Tables
// 7.11 and 7.14.
func (j TubeJoint) rectangular(f Factors) TubeResistance {
	r, reduced := j.result("EN 1993-1-8:2005, Tables 7.11 and 7.14")
	c, b := j.Chord, j.Brace
	sin := math.Sin(j.Angle)
	beta, eta, n := b.Width/c.Width, b.Height/c.Width, j.ChordStress/c.Fy/f.M5
	kn := 1.0
	if n > 0 {
		kn = math.Min(1, 1.3-0.4*n/beta)
	}
	square := j.Angle > 89.9*units.Deg
	if beta <= 0.85 {
		r.Axial, r.Mode = kn*c.Fy*c.Wall*c.Wall/((1-beta)*sin)*(2*eta/sin+4*math.Sqrt(1-beta)), "the chord's face yields"
		r.Moment, r.MomentMode = kn*c.Fy*c.Wall*c.Wall*b.Height*(1/(2*eta)+2/math.Sqrt(1-beta)+eta/(1-beta)), "the chord's face yields"
	} else { // full width
		slender := 3.46 * (c.Height/c.Wall - 2) * math.Sqrt(1/sin) / (math.Pi * math.Sqrt(210*units.GPa/c.Fy))
		r.Axial, r.Mode = chi(slender)*c.Fy*c.Wall/sin*(2*b.Height/sin+10*c.Wall), "the chord's side walls are crushed"
		r.Moment, r.MomentMode = 0.5*c.Fy*c.Wall*math.Pow(b.Height+5*c.Wall, 2), "the chord's side walls are crushed"
		// Only this part of the brace's width finds the chord's face stiff.
		stiff := math.Min(1, 10/(c.Width/c.Wall)*c.Fy*c.Wall/(b.Fy*b.Wall)) * b.Width
		if end := b.Fy * b.Wall * (2*b.Height - 4*b.Wall + 2*stiff); end < r.Axial {
			r.Axial, r.Mode = end, "the brace fails at its end"
		}
		plastic := b.Width*b.Height*b.Height/4 - (b.Width-2*b.Wall)*math.Pow(b.Height-2*b.Wall, 2)/4
		if end := b.Fy * (plastic - (b.Width-stiff)*(b.Height-b.Wall)*b.Wall); end < r.Moment {
			r.Moment, r.MomentMode = end, "the brace fails at its end"
		}
	}
	if !square {
		r.Moment, r.MomentMode = 0, "not covered: the angle is not 90°"
		r.Warnings = append(r.Warnings, "no rule here covers the moment of a brace that is not square to its chord")
	}
	r.Axial *= reduced / f.M5
	r.Moment *= reduced / f.M5
	r.MomentPower = 1
	return r
}

// chi is the reduction for buckling by curve a: EN 1993-1-1:2005, 6.3.1.2.
func chi(slender float64) float64 {
	if slender <= 0.2 {
		return 1
	}
	phi := 0.5 * (1 + 0.21*(slender-0.2) + slender*slender)
	return math.Min(1, 1/(phi+math.Sqrt(phi*phi-slender*slender)))
}

// KGap is what each of two like braces may bring that meet a chord from opposite
// sides of a gap, one pushing and one pulling alike.
//
// The gap, more than 0, is measured along the chord's face between the toes of
// the braces. Round on round and square on square tubes are covered; a gap of
// square tubes lies between 0.5 and 1.5 of the chord's width less the brace's,
// and is at least the two walls. No moment is covered. Otherwise as Single.
//
// Source: EN 1993-1-8:2005, Tables 7.1, 7.2, 7.8, 7.9 and 7.10; from memory:
// verify against the document.
func (j TubeJoint) KGap(gap units.Length, f Factors) (TubeResistance, error) {
	if err := cmp.Or(j.check(f), argument.Positive("gap", gap)); err != nil {
		return TubeResistance{}, err
	}
	c, b := j.Chord, j.Brace
	sin := math.Sin(j.Angle)
	gamma, n := c.Width/(2*c.Wall), j.ChordStress/c.Fy/f.M5
	beta := b.Width / c.Width
	if why := cmp.Or(j.outside(), j.outsideGap(gap)); why != "" {
		return TubeResistance{Why: why}, nil
	}
	if c.Round {
		r, reduced := j.result("EN 1993-1-8:2005, Table 7.2")
		kp := math.Min(1, 1-0.3*n*(1+n))
		kg := math.Pow(gamma, 0.2) * (1 + 0.024*math.Pow(gamma, 1.2)/(1+math.Exp(0.5*gap/c.Wall-1.33)))
		r.Axial, r.Mode = kg*kp*c.Fy*c.Wall*c.Wall/sin*(1.8+10.2*beta), "the chord's face yields"
		if punch := c.Fy / math.Sqrt(3) * c.Wall * math.Pi * b.Width * (1 + sin) / (2 * sin * sin); b.Width <= c.Width-2*c.Wall && punch < r.Axial {
			r.Axial, r.Mode = punch, "a brace punches through the chord"
		}
		r.Axial *= reduced / f.M5
		return r, nil
	}
	r, reduced := j.result("EN 1993-1-8:2005, Table 7.10")
	kn := 1.0
	if n > 0 {
		kn = math.Min(1, 1.3-0.4*n/beta)
	}
	r.Axial, r.Mode = 8.9*math.Sqrt(gamma)*kn*c.Fy*c.Wall*c.Wall/sin*beta*reduced/f.M5, "the chord's face yields"
	return r, nil
}

// outsideGap says what keeps a K-joint with a gap out of the rules' range.
func (j TubeJoint) outsideGap(gap float64) string {
	c, b := j.Chord, j.Brace
	beta := b.Width / c.Width
	switch {
	case gap < 2*b.Wall:
		return "a gap of less than the two walls is not covered"
	case c.Round:
		return ""
	case c.Height != c.Width || b.Height != b.Width:
		return "a K-joint of tubes that are not square is not covered"
	case beta < math.Max(0.35, 0.1+0.01*c.Width/c.Wall):
		return fmt.Sprintf("a K-joint with a brace of %.2f of its chord's width is not covered, only of %.2f and more", beta, math.Max(0.35, 0.1+0.01*c.Width/c.Wall))
	case c.Width/c.Wall < 15:
		return "a K-joint on a chord of less than 15 walls is not covered"
	case gap < 0.5*(c.Width-b.Width) || gap > 1.5*(c.Width-b.Width):
		return fmt.Sprintf("a gap of %.3g mm is not covered, only %.3g to %.3g mm", gap/units.Mm, 500*(c.Width-b.Width), 1500*(c.Width-b.Width))
	}
	return ""
}

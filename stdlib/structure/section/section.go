// Package section is what a steel beam is cut from: the shape of its
// cross-section with every property that a calculation asks of it, and the
// steel with the strengths that its standard promises.
//
// Two nouns. A Section comes from its dimensions (CHS, RHS, SHS, Flat, RoundBar,
// Angle, Channel, ISection, BuiltUp) or by the name of a standard size
// (Standard); a Material from a standard, grade and thickness (Steel) or from
// numbers of one's own.
//
//	tube := section.SHS(60*units.Mm, 4*units.Mm, section.ColdFormed)
//	s355 := sheet.Must(section.Steel("EN 10219-1", "S355J2H", tube.Wall))
//	sigma := M / tube.Wely // to be held against s355.Fy
//
// Axes: y to the right and z upwards through the centroid, seen against the
// member's own axis x. So Iy resists bending in the plane of the height, and it
// is the stronger one when the height is the larger side. u and v are the
// principal axes, u the stronger; they are y and z unless Iyz is not 0.
//
// Invariants: properties are computed from the dimensions, never copied from a
// table, because tables in circulation mix cold-formed and hot-finished corners;
// tests hold them to the standards' printed rows. A value from a document names
// its edition.
package section

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Shape is the kind of a section, which decides the clauses that apply to it.
type Shape string

// The shapes.
const (
	RoundTube       Shape = "circular hollow section"
	RectangularTube Shape = "rectangular hollow section"
	Bar             Shape = "flat or square bar"
	Rod             Shape = "round bar"
	AngleShape      Shape = "angle"
	ChannelShape    Shape = "channel"
	IShape          Shape = "I-section"
	Composed        Shape = "built-up section"
)

// Forming is how a section was made, which decides its corners and its buckling
// curve.
type Forming string

// The ways of making a section.
const (
	ColdFormed  Forming = "EN 10219" // cold-formed welded hollow section
	HotFinished Forming = "EN 10210" // hot-finished hollow section
	Rolled      Forming = "rolled"
	Welded      Forming = "welded"
)

// A Section is the cross-section of a straight member with its properties. The
// letters are those of EN 1993-1-1, 1.7.
type Section struct {
	Name    string
	Shape   Shape
	Forming Forming

	Height units.Length // overall, along z; of a round one its diameter
	Width  units.Length // overall, along y
	Wall   units.Length // of a tube, or of the web, or of an angle's legs
	Flange units.Length // thickness of the flanges of a channel or I-section, else 0
	Root   units.Length // radius of a tube's corner outside, or of a rolled fillet, as calculated with
	Toe    units.Length // radius of a tube's corner inside, or at an angle's toes, as calculated with

	A          units.Area
	Iy, Iz     units.SecondMoment   // about y and z
	Iyz        units.SecondMoment   // product of area, the sum of y·z
	Iu, Iv     units.SecondMoment   // about the principal axes, Iu the larger
	Alpha      units.Angle          // from y to u, counter-clockwise
	Wely, Welz units.SectionModulus // elastic, to the farther edge
	Wply, Wplz units.SectionModulus // plastic
	Avy, Avz   units.Area           // shear areas for resistance to forces along y and z
	Asy, Asz   units.Area           // shear areas for elastic shear deformation
	It         units.SecondMoment   // torsion constant
	Wt         units.SectionModulus // torsion modulus: torque over the greatest shear stress
	Iw         units.WarpingConstant

	Left, Bottom     units.Length // centroid from the left edge and from the bottom
	CentreY, CentreZ units.Length // shear centre from the centroid

	Parts    []Part // of a built-up section
	Source   string // of the formulas
	Warnings []string
}

// MassPerLength is the mass of the section per length.
//
//	m = s.A*density
//
// The density is more than 0; outside it panics.
//
// Source: geometry; the product standards print it for 7850 kg/m³.
func (s Section) MassPerLength(density units.Density) units.MassPerLength {
	argument.Demand("section: Section.MassPerLength", argument.Positive("density", density))
	return s.A * density
}

// RadiusY is the radius of gyration about y.
//
//	i = sqrt(s.Iy/s.A)
//
// Source: definition.
func (s Section) RadiusY() units.Length { return math.Sqrt(s.Iy / s.A) }

// RadiusZ is the radius of gyration about z.
//
//	i = sqrt(s.Iz/s.A)
//
// Source: definition.
func (s Section) RadiusZ() units.Length { return math.Sqrt(s.Iz / s.A) }

// RadiusV is the radius of gyration about the weaker principal axis, about which
// a single strut buckles.
//
//	i = sqrt(s.Iv/s.A)
//
// Source: definition.
func (s Section) RadiusV() units.Length { return math.Sqrt(s.Iv / s.A) }

// Hollow reports whether the section is a closed tube.
func (s Section) Hollow() bool { return s.Shape == RoundTube || s.Shape == RectangularTube }

// principal sets the principal axes of s from Iy, Iz and Iyz. A product that is
// only rounding counts as none.
func (s Section) principal() Section {
	if math.Abs(s.Iyz) < 1e-9*(s.Iy+s.Iz) {
		s.Iyz = 0
	}
	half := math.Hypot((s.Iy-s.Iz)/2, s.Iyz)
	s.Iu, s.Iv = (s.Iy+s.Iz)/2+half, (s.Iy+s.Iz)/2-half
	s.Alpha = math.Atan2(-2*s.Iyz, s.Iy-s.Iz) / 2
	if s.Iyz == 0 {
		s.Iu, s.Iv, s.Alpha = math.Max(s.Iy, s.Iz), math.Min(s.Iy, s.Iz), 0
		if s.Iz > s.Iy {
			s.Alpha = math.Pi / 2
		}
	}
	return s
}

// sameBothWays sets what a section with two like axes has about z from y.
func (s Section) sameBothWays() Section {
	s.Iz, s.Welz, s.Wplz, s.Avy, s.Asy = s.Iy, s.Wely, s.Wply, s.Avz, s.Asz
	return s
}

// Package member checks steel members: whether a cross-section bears what passes
// through it, and whether the member buckles.
//
// Two nouns. A Member is a section of a steel with the lengths over which it may
// buckle. A Verification is every check of EN 1993-1-1 that concerns it, each
// with its clause and its utilisation.
//
//	mast := member.Member{Section: tube, Material: steel, LengthY: 4 * units.M, LengthZ: 4 * units.M}
//	v := sheet.Must(mast.Verify(res.Member(m)))
//	sheet.AtMost("mast", v.Utilisation, 1, v.Clause)
//
// The method is that of EN 1993-1-1:2005: classes of section (5.5), resistance of
// sections (6.2), flexural, torsional and lateral buckling (6.3.1, 6.3.2), and
// compression with bending by 6.3.3 with Annex B, method 2. Its numbers are from
// memory: verify against the document. Axes are those of package frame and of the
// standard: y is the stronger axis of a section that stands upright.
//
// Invariants: forces are design values, with their factors in; resistances have
// their partial factors in; a section of class 4 is an error, because EN 1993-1-5
// is not here. Left out: bimoments, holes, shear buckling of slender webs (which
// is checked for and refused), members of changing section.
//
// People ride on what is checked here. The numbers support a competent designer;
// the National Annex, local law and licensed practice come before them.
package member

import (
	"cmp"
	"fmt"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// A Member is a straight steel member of one section.
type Member struct {
	Name     string
	Section  section.Section
	Material section.Material

	// Buckling lengths, more than 0: the distance between points of contraflexure
	// when the member buckles by bending about y and about z; of an angle, about
	// its principal axes u and v.
	LengthY, LengthZ units.Length
	// LengthT is the length over which it may twist, LengthLT that between points
	// held sideways; 0 stands for LengthZ.
	LengthT, LengthLT units.Length

	// C1 and C2 of the critical moment: 1 and 0 for an even moment, which is on
	// the safe side; 0 stands for 1 in C1. LoadHeight is of the load above the
	// shear centre, against which it falls; C2 must be set for it.
	C1, C2     units.Number
	LoadHeight units.Length

	// Sway says that the ends move against each other when the frame deflects:
	// equivalent moments are then 0.9 of the greatest.
	Sway bool

	Factors Factors // 0 stands for RecommendedFactors
}

// Factors are the partial factors on resistance.
type Factors struct {
	M0     units.Number // of sections
	M1     units.Number // of members against buckling
	Source string
}

// RecommendedFactors are those that EN 1993-1-1 recommends where no National
// Annex says otherwise.
//
// Source: EN 1993-1-1:2005, 6.1(1), note 2B, from memory: verify against the
// document.
func RecommendedFactors() Factors {
	return Factors{M0: 1, M1: 1, Source: "EN 1993-1-1:2005, 6.1(1), note 2B (from memory: verify against the document)"}
}

// Of is a member of a frame, taken to buckle over its own length about both
// axes: on the safe side where its ends cannot move sideways, not where they
// can. Set LengthY and LengthZ from the frame's buckling then.
//
// It panics if the frame has no such member.
//
// Source: common practice, no source.
func Of(f *frame.Frame, m frame.Member) Member {
	l := f.Length(m)
	b := f.Members[m-1]
	name := b.Name
	if name == "" {
		name = fmt.Sprintf("member %d", m)
	}
	return Member{Name: name, Section: b.Section, Material: b.Material, LengthY: l, LengthZ: l}
}

// check reports what is missing, and fills in what 0 stands for.
func (m Member) check() (Member, error) {
	if m.LengthT == 0 {
		m.LengthT = m.LengthZ
	}
	if m.LengthLT == 0 {
		m.LengthLT = m.LengthZ
	}
	if m.C1 == 0 {
		m.C1 = 1
	}
	if m.Factors.M0 == 0 && m.Factors.M1 == 0 {
		m.Factors = RecommendedFactors()
	}
	err := cmp.Or(
		argument.Positive("area of its section", m.Section.A), argument.Positive("Iv of its section", m.Section.Iv),
		argument.Positive("fy", m.Material.Fy), argument.Positive("E", m.Material.E), argument.Positive("G", m.Material.G),
		argument.Positive("LengthY", m.LengthY), argument.Positive("LengthZ", m.LengthZ), argument.Positive("LengthT", m.LengthT),
		argument.Positive("LengthLT", m.LengthLT), argument.Positive("C1", m.C1), argument.NotNegative("C2", m.C2), argument.Finite("LoadHeight", m.LoadHeight),
		argument.Positive("M0", m.Factors.M0), argument.Positive("M1", m.Factors.M1))
	if err != nil {
		return m, fmt.Errorf("%s: %w", m.name(), err)
	}
	if fu := m.Material.Fu; fu > 0 && fu < 1.1*m.Material.Fy {
		return m, fmt.Errorf("%s: fu: got %g MPa, want at least 1.1 of fy %g MPa: EN 1993-1-1, 3.2.2(1)", m.name(), fu/units.MPa, m.Material.Fy/units.MPa)
	}
	return m, nil
}

func (m Member) name() string {
	if m.Name != "" {
		return m.Name
	}
	return strings.TrimSpace("member " + m.Section.Name)
}

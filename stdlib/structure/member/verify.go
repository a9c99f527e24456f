package member

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/section"
	"tautline/stdlib/units"
)

// An Item is one check of a member.
type Item struct {
	Clause      string // of EN 1993-1-1:2005
	What        string
	Utilisation units.Number
	At          units.Length // from the first end; 0 for the member as a whole
}

// A Verification is all checks of a member.
type Verification struct {
	Name        string
	Combination string // that governs, where several were looked at
	Class       Class
	Items       []Item       // the worst of each clause, in the order of the standard
	Utilisation units.Number // the greatest
	Clause      string       // that governs, with its standard
	What        string       // is governed
	ChiY, ChiZ  units.Number // reduction for buckling; of an angle about u and v
	ChiLT       units.Number
	Warnings    []string
}

// Verify checks a member under the internal forces of a frame analysis, design
// values.
//
// Sections are checked at every station; buckling with the greatest compression
// and the greatest moments anywhere along the member. A member that lacks what
// the checks need, or a section of class 4, is an error.
//
// Caution: forces of the first order are enough only where the frame's buckling
// factor is 10 or more (EN 1993-1-1, 5.2.1(3)); below it, give those of the
// second order with the frame's imperfections.
//
// Source: EN 1993-1-1:2005, 6.2 and 6.3 with Annex B, from memory: verify against
// the document.
func (m Member) Verify(f frame.Forces) (Verification, error) {
	m, err := m.check()
	if err != nil {
		return Verification{}, err
	}
	if len(f.Stations) < 2 {
		return Verification{}, fmt.Errorf("%s: forces: got %d stations, want those of a frame's result", m.name(), len(f.Stations))
	}
	x := &examination{Member: m, forces: f}
	x.greatest()
	if err := x.classify(); err != nil {
		return Verification{}, fmt.Errorf("%s: %w", m.name(), err)
	}
	for _, s := range x.stations {
		x.section(s)
	}
	x.stability()
	return x.verification(), nil
}

// Worst is Verify for a member of a frame over several results, and the one that
// governs.
//
// There is at least one result; otherwise it panics.
//
// Source: as Verify.
func (m Member) Worst(n frame.Member, results ...frame.Result) (Verification, error) {
	if len(results) == 0 {
		panic("member: Member.Worst: results: got none, want at least one")
	}
	var worst Verification
	for i, r := range results {
		v, err := m.Verify(r.Member(n))
		if err != nil {
			return v, fmt.Errorf("combination %q: %w", r.Name, err)
		}
		if i == 0 || v.Utilisation > worst.Utilisation {
			worst = v
			worst.Combination = r.Name
		}
	}
	return worst, nil
}

// An examination is a member being checked. Moments are about the axes that it
// is checked about: those of its section, or u and v of an angle.
type examination struct {
	Member
	forces     frame.Forces
	stations   []frame.Station
	press      float64 // greatest compression
	my, mz     float64 // greatest moments
	resistance Resistance
	items      []Item
	chi        [3]float64 // about y, about z, lateral
	warnings   []string
}

func (x *examination) greatest() {
	x.stations = slices.Clone(x.forces.Stations)
	if x.Section.Shape == section.AngleShape {
		sin, cos := math.Sincos(x.Section.Alpha)
		for i, s := range x.stations {
			x.stations[i].MY, x.stations[i].MZ = s.MY*cos+s.MZ*sin, s.MZ*cos-s.MY*sin
		}
	}
	for _, s := range x.stations {
		x.press = math.Max(x.press, -s.N)
		x.my, x.mz = math.Max(x.my, math.Abs(s.MY)), math.Max(x.mz, math.Abs(s.MZ))
	}
}

func (x *examination) classify() error {
	var c Class
	var err error
	fy := x.Material.Fy
	if x.Section.Shape == section.Composed {
		c = Class{Class: 3, Part: "not classified", Source: classSource}
		x.warnings = append(x.warnings, "a built-up section is taken as class 3: classify its parts")
	} else if c, err = Classify(x.Section, fy, x.press, x.my, x.mz); err != nil {
		return err
	}
	x.resistance, err = ResistanceOf(x.Section, fy, c, x.Factors.M0)
	if err == nil && x.Section.Shape == section.AngleShape {
		wu, wv := principalModuli(x.Section)
		x.resistance.MY, x.resistance.MZ = wu*fy/x.Factors.M0, wv*fy/x.Factors.M0
	}
	return err
}

// principalModuli are the elastic moduli about u and v.
func principalModuli(s section.Section) (wu, wv float64) {
	sin, cos := math.Sincos(s.Alpha)
	u, v := 0.0, 0.0
	for _, l := range s.Outline() {
		for i := range l.Y {
			u = math.Max(u, math.Abs(l.Y[i]*cos+l.Z[i]*sin))
			v = math.Max(v, math.Abs(l.Z[i]*cos-l.Y[i]*sin))
		}
	}
	return s.Iu / v, s.Iv / u
}

// note keeps the worst item of each clause and subject.
func (x *examination) note(clause, what string, utilisation, at float64) {
	for i := range x.items {
		if it := &x.items[i]; it.Clause == clause && it.What == what {
			if utilisation > it.Utilisation {
				it.Utilisation, it.At = utilisation, at
			}
			return
		}
	}
	x.items = append(x.items, Item{clause, what, utilisation, at})
}

// section checks the cross-section at a station.
func (x *examination) section(s frame.Station) {
	r := x.resistance
	if s.N >= 0 {
		x.note("6.2.3(1)", "tension", s.N/r.N, s.At)
	} else {
		x.note("6.2.4(1)", "compression", -s.N/r.N, s.At)
	}
	x.note("6.2.5(1)", "bending about y", math.Abs(s.MY)/r.MY, s.At)
	x.note("6.2.5(1)", "bending about z", math.Abs(s.MZ)/r.MZ, s.At)
	twist := math.Abs(s.T) / r.T
	x.note("6.2.7(1)", "torsion", twist, s.At)
	keep := shearUnderTorsion(x.Section, math.Min(1, twist))
	vy, vz := math.Abs(s.VY), math.Abs(s.VZ)
	loss := 0.0
	for _, shear := range []struct {
		what  string
		v, v0 float64
	}{{"shear along y", vy, r.VY}, {"shear along z", vz, r.VZ}} {
		if shear.v == 0 {
			continue
		}
		x.note("6.2.6(1), 6.2.7(9)", shear.what, shear.v/(shear.v0*keep), s.At)
		if keep > 0 {
			loss = math.Max(loss, ShearLoss(shear.v, shear.v0*keep))
		}
	}
	x.combined(s, loss)
}

// combined checks axial force and bending together at a station; shear may have
// taken a share of the strength.
func (x *examination) combined(s frame.Station, loss float64) {
	r := x.resistance
	left := 1 - loss
	if left <= 0 {
		left = 1e-9 // the shear check has failed already
	}
	n, my, mz := math.Abs(s.N)/r.N, math.Abs(s.MY)/(r.MY*left), math.Abs(s.MZ)/(r.MZ*left)
	if elastic(x.Section, r.Class) {
		of := x.forcesAt(s.At, s)
		stress := StressOf(x.Section, of.N, of.VY, of.VZ, of.T, of.MY, of.MZ)
		limit := x.Material.Fy / x.Factors.M0
		x.note("6.2.9.2(1)", "axial force and bending, stress at the edge", math.Abs(stress.Direct)/(limit*left), s.At)
		x.note("6.2.1(5)", "stresses together, von Mises", stress.Combined/limit, s.At)
		return
	}
	switch x.Section.Shape {
	case section.RoundTube, section.RectangularTube, section.Bar:
		if n >= 1 {
			x.note("6.2.9.1", "axial force and bending", n+my+mz, s.At)
			return
		}
		ky, kz := AxialBending(x.Section, n)
		power := 2.0
		switch x.Section.Shape {
		case section.RectangularTube:
			power = BiaxialExponent(n)
		case section.Bar:
			power = 1
		}
		// The moments scaled together until the sum is 1, so that the utilisation is
		// in proportion to them.
		y, z := my/ky, mz/kz
		u := math.Max(y, z)
		if u > 0 {
			u *= math.Pow(math.Pow(y/u, power)+math.Pow(z/u, power), 1/power)
		}
		x.note("6.2.9.1(6)", "axial force and bending", math.Max(n, u), s.At)
	default:
		x.note("6.2.1(7)", "axial force and bending, added up", n+my+mz, s.At)
	}
}

// forcesAt are the forces about the section's own axes at a station.
func (x *examination) forcesAt(at float64, s frame.Station) frame.Station {
	if x.Section.Shape != section.AngleShape {
		return s
	}
	sin, cos := math.Sincos(x.Section.Alpha)
	s.MY, s.MZ = s.MY*cos-s.MZ*sin, s.MY*sin+s.MZ*cos
	return s
}

// stability checks the member as a whole.
func (x *examination) stability() {
	s, mat, r := x.Section, x.Material, x.resistance
	iy, iz := s.Iy, s.Iz
	if s.Shape == section.AngleShape {
		iy, iz = s.Iu, s.Iv
	}
	curveY, curveZ := Curves(s, mat)
	ly := Slenderness(s.A, mat.Fy, EulerLoad(mat.E, iy, x.LengthY))
	lz := Slenderness(s.A, mat.Fy, EulerLoad(mat.E, iz, x.LengthZ))
	x.chi = [3]float64{Reduction(curveY, ly), Reduction(curveZ, lz), 1}
	full := r.N * x.Factors.M0 / x.Factors.M1
	x.torsional(full, curveZ)

	yShare, zShare := AxialShare{ly, x.press / (x.chi[0] * full)}, AxialShare{lz, x.press / (x.chi[1] * full)}
	if x.press > 0 {
		x.note("6.3.1.1(1)", "buckling about y", yShare.Share, 0)
		x.note("6.3.1.1(1)", "buckling about z", zShare.Share, 0)
	}
	if s.Shape == section.AngleShape || s.Shape == section.Composed {
		if x.my > 1e-3*r.MY || x.mz > 1e-3*r.MZ {
			x.warnings = append(x.warnings, "lateral buckling of this shape is not looked at: keep bending away from it, or hold it sideways")
		}
	} else {
		x.chi[2], _ = x.lateral(r.MY * x.Factors.M0 / mat.Fy)
	}
	my, mz := x.my/(x.chi[2]*r.MY*x.Factors.M0/x.Factors.M1), x.mz/(r.MZ*x.Factors.M0/x.Factors.M1)
	if x.chi[2] < 1 {
		x.note("6.3.2.1(1)", "lateral buckling", my, 0)
	}
	if x.press == 0 && (x.chi[2] == 1 || x.mz == 0) {
		return
	}
	cmy, cmz := x.equivalent(func(s frame.Station) float64 { return s.MY }), x.equivalent(func(s frame.Station) float64 { return s.MZ })
	k := Interactions(s, !elastic(s, r.Class), yShare, zShare, cmy, cmz, cmy)
	x.note("6.3.3(4), (6.61)", "compression and bending, buckling about y", yShare.Share+k.YY*my+k.YZ*mz, 0)
	x.note("6.3.3(4), (6.62)", "compression and bending, buckling about z", zShare.Share+k.ZY*my+k.ZZ*mz, 0)
}

// torsional lowers the reduction about z of an open section that twists first.
func (x *examination) torsional(full float64, curve Curve) {
	s, mat := x.Section, x.Material
	if s.Hollow() || s.Shape == section.Rod || s.Shape == section.Bar || s.Shape == section.Composed || !(s.It > 0) {
		return
	}
	lengthU, lengthV := x.LengthY, x.LengthZ
	if s.Shape != section.AngleShape && s.Iz > s.Iy {
		lengthU, lengthV = lengthV, lengthU
	}
	critical := TorsionalLoad(s, mat.E, mat.G, lengthU, lengthV, x.LengthT)
	chi := Reduction(curve, Slenderness(s.A, mat.Fy, critical))
	if x.press > 0 {
		x.note("6.3.1.4(1)", "torsional buckling", x.press/(chi*full), 0)
	}
	x.chi[1] = math.Min(x.chi[1], chi)
}

// equivalent is the factor Cm of a moment along the member.
func (x *examination) equivalent(of func(frame.Station) float64) units.Number {
	if x.Sway {
		return 0.9
	}
	middle := x.forces
	middle.Stations = x.stations
	return EquivalentMoment(of(x.stations[0]), of(middle.At(x.forces.Length/2)), of(x.stations[len(x.stations)-1]))
}

func (x *examination) verification() Verification {
	v := Verification{Name: x.name(), Class: x.resistance.Class, ChiY: x.chi[0], ChiZ: x.chi[1], ChiLT: x.chi[2], Warnings: x.warnings}
	for _, it := range x.items {
		argument.Demand("member: Member.Verify", argument.NotNegative(it.What, it.Utilisation))
		if it.Utilisation == 0 {
			continue
		}
		v.Items = append(v.Items, it)
		if it.Utilisation > v.Utilisation {
			v.Utilisation, v.What = it.Utilisation, it.What
			v.Clause = "EN 1993-1-1:2005, " + it.Clause
		}
	}
	return v
}

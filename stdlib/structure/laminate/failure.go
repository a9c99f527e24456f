package laminate

import (
	"cmp"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Criterion says when a lamina breaks.
type Criterion string

// The criteria. They agree under one stress at a time and differ where stresses
// meet.
const (
	MaxStress        Criterion = "maximum stress"
	TsaiHill         Criterion = "Tsai–Hill"          // as published, with the strengths in tension throughout
	ModifiedTsaiHill Criterion = "modified Tsai–Hill" // with the strength of each stress's sign
	TsaiWu           Criterion = "Tsai–Wu"            // with the coupling H12 = -sqrt(H11·H22)/2
	TsaiWuHoffman    Criterion = "Tsai–Wu, Hoffman"   // with Hoffman's coupling H12 = -1/(2·Xt·Xc)
)

// A PlaneStress is the stresses in a lamina: along x and y, or along 1 and 2, and
// in shear.
type PlaneStress struct{ X, Y, Shear units.Pressure }

// Local is a stress in x and y seen in axes turned by an angle.
//
// The stress and the angle are finite; outside it panics.
//
// Source: equilibrium (Mohr's circle).
func (p PlaneStress) Local(angle units.Angle) PlaneStress {
	argument.Demand("laminate: PlaneStress.Local", argument.Finite("stress", p.X), argument.Finite("stress", p.Y), argument.Finite("shear", p.Shear), argument.Finite("angle", angle))
	s, c := math.Sincos(angle)
	return PlaneStress{
		X:     c*c*p.X + s*s*p.Y + 2*s*c*p.Shear,
		Y:     s*s*p.X + c*c*p.Y - 2*s*c*p.Shear,
		Shear: s*c*(p.Y-p.X) + (c*c-s*s)*p.Shear,
	}
}

// Strength is how many times a stress in the lamina's own directions may grow
// before it breaks, by a criterion.
//
// A lamina with a strength that is 0, a stress that is 0 or not finite, and a
// criterion that is not one of those here are errors.
//
// Source: Kaw, Mechanics of Composite Materials, 2nd edition, 2.8.
func (l Lamina) Strength(local PlaneStress, c Criterion) (units.Number, error) {
	for _, s := range []struct {
		name string
		v    float64
	}{{"Xt", l.Xt}, {"Xc", l.Xc}, {"Yt", l.Yt}, {"Yc", l.Yc}, {"S", l.S}} {
		if !(s.v > 0) {
			return 0, fmt.Errorf("strength %s: got %g, want more than 0: give the lamina its strengths, from tests", s.name, s.v)
		}
	}
	if err := cmp.Or(argument.Finite("stress", local.X), argument.Finite("stress", local.Y), argument.Finite("shear", local.Shear)); err != nil {
		return 0, err
	}
	if local == (PlaneStress{}) {
		return 0, fmt.Errorf("stress: got none, want some: what carries nothing does not break")
	}
	s1, s2, t := local.X, local.Y, local.Shear
	signed := func(stress, tension, compression float64) float64 {
		if stress < 0 {
			return compression
		}
		return tension
	}
	switch c {
	case MaxStress:
		return 1 / math.Max(math.Abs(t)/l.S, math.Max(math.Abs(s1)/signed(s1, l.Xt, l.Xc), math.Abs(s2)/signed(s2, l.Yt, l.Yc))), nil
	case TsaiHill:
		return 1 / math.Sqrt(s1*s1/(l.Xt*l.Xt)-s1*s2/(l.Xt*l.Xt)+s2*s2/(l.Yt*l.Yt)+t*t/(l.S*l.S)), nil
	case ModifiedTsaiHill:
		x1, x2, y := signed(s1, l.Xt, l.Xc), signed(s2, l.Xt, l.Xc), signed(s2, l.Yt, l.Yc)
		return 1 / math.Sqrt(s1*s1/(x1*x1)-s1*s2/(x2*x2)+s2*s2/(y*y)+t*t/(l.S*l.S)), nil
	case TsaiWu, TsaiWuHoffman:
		h11, h22 := 1/(l.Xt*l.Xc), 1/(l.Yt*l.Yc)
		h12 := -math.Sqrt(h11*h22) / 2
		if c == TsaiWuHoffman {
			h12 = -h11 / 2
		}
		linear := (1/l.Xt-1/l.Xc)*s1 + (1/l.Yt-1/l.Yc)*s2
		quadratic := h11*s1*s1 + h22*s2*s2 + t*t/(l.S*l.S) + 2*h12*s1*s2
		return 2 / (linear + math.Sqrt(linear*linear+4*quadratic)), nil
	}
	return 0, fmt.Errorf("criterion: got %q, want MaxStress, TsaiHill, ModifiedTsaiHill, TsaiWu or TsaiWuHoffman", c)
}

// A Load is what a laminate carries on a length: forces per length in its plane
// and moments per length.
type Load struct {
	Nx, Ny, Nxy units.ForcePerLength
	Mx, My, Mxy units.Force // moment per length
}

// A PlyStress is the stress on one side of a ply, in its own directions.
type PlyStress struct {
	Ply    string
	Number units.Number // of the ply, from 1
	Z      units.Length
	Along  units.Pressure // direction 1
	Across units.Pressure // direction 2
	Shear  units.Pressure
}

// Stresses are those on both sides of every ply under a load.
//
// A laminate out of range and a load that is not finite are errors.
//
// Source: Jones, Mechanics of Composite Materials, 2nd edition, chapter 4.
func (l Laminate) Stresses(load Load) ([]PlyStress, error) {
	s, err := l.Stiffness()
	if err != nil {
		return nil, err
	}
	give, err := s.compliance()
	if err != nil {
		return nil, err
	}
	return l.stresses(give, load)
}

func (l Laminate) stresses(give *mat.SymDense, load Load) ([]PlyStress, error) {
	forces := [6]float64{load.Nx, load.Ny, load.Nxy, load.Mx, load.My, load.Mxy}
	var strain [6]float64
	for i := range strain {
		for k, f := range forces {
			if err := argument.Finite("load", f); err != nil {
				return nil, fmt.Errorf("laminate: %w", err)
			}
			strain[i] += give.At(i, k) * f
		}
	}
	var out []PlyStress
	z := -l.Thickness() / 2
	for i, p := range l.Plies {
		q := p.Lamina.turned(p.Angle)
		for side := range 2 {
			at := z + float64(side)*p.Thickness
			x, y, g := strain[0]+at*strain[3], strain[1]+at*strain[4], strain[2]+at*strain[5]
			local := PlaneStress{q[0]*x + q[1]*y + q[2]*g, q[1]*x + q[3]*y + q[4]*g, q[2]*x + q[4]*y + q[5]*g}.Local(p.Angle)
			out = append(out, PlyStress{p.Name, float64(i + 1), at, local.X, local.Y, local.Shear})
		}
		z += p.Thickness
	}
	return out, nil
}

// A Failure is the first ply of a laminate to break.
type Failure struct {
	Safety    units.Number // how many times the load may grow
	Ply       string
	Number    units.Number // of the ply, from 1
	Z         units.Length // where in it
	Criterion string
	Warnings  []string
}

// FirstPly is the ply that breaks first as a load grows, and how many times it may
// grow.
//
// Plies without strengths, and no load, are errors. The doubts of the plies'
// numbers are passed on as warnings.
//
// Caution: a broken first ply is the end here; what the rest still carries is no
// reserve for a body that people sit in.
//
// Source: Kaw, Mechanics of Composite Materials, 2nd edition, 2.8 and 5.2.
func (l Laminate) FirstPly(load Load, c Criterion) (Failure, error) {
	s, err := l.Stiffness()
	if err != nil {
		return Failure{}, err
	}
	give, err := s.compliance()
	if err != nil {
		return Failure{}, err
	}
	f, err := l.firstPly(give, load, c)
	f.Warnings = append(s.Warnings, l.doubts()...)
	return f, err
}

func (l Laminate) firstPly(give *mat.SymDense, load Load, c Criterion) (Failure, error) {
	stresses, err := l.stresses(give, load)
	if err != nil {
		return Failure{}, err
	}
	f := Failure{Safety: math.Inf(1), Criterion: string(c)}
	for _, s := range stresses {
		local := PlaneStress{s.Along, s.Across, s.Shear}
		if local == (PlaneStress{}) {
			continue
		}
		safety, err := l.Plies[int(s.Number)-1].Lamina.Strength(local, c)
		if err != nil {
			return Failure{}, fmt.Errorf("ply %g, %q: %w", s.Number, s.Ply, err)
		}
		if safety < f.Safety {
			f.Safety, f.Ply, f.Number, f.Z = safety, s.Ply, s.Number, s.Z
		}
	}
	if math.IsInf(f.Safety, 1) {
		return Failure{}, fmt.Errorf("laminate: got no load, want some")
	}
	return f, nil
}

// doubts are the warnings of the plies' laminae, each once.
func (l Laminate) doubts() []string {
	var list []string
	seen := map[string]bool{}
	for _, p := range l.Plies {
		for _, w := range p.Lamina.Warnings {
			if !seen[w] {
				seen[w] = true
				list = append(list, w)
			}
		}
	}
	return list
}

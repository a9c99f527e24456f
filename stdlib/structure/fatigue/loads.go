package fatigue

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/structure/joint"
	"tautline/stdlib/units"
)

// Loads are the forces and moments at one joint through one event, as a motion
// program or a measurement gives them. A list left out is 0 throughout; the
// others have one value for each time.
type Loads struct {
	Time       []units.Time // rising
	Fx, Fy, Fz []units.Force
	Mx, My, Mz []units.Moment
}

func (l Loads) check() error {
	if len(l.Time) < 2 {
		return fmt.Errorf("loads: got %d times, want two or more", len(l.Time))
	}
	for i := range l.Time {
		if i > 0 && !(l.Time[i] > l.Time[i-1]) {
			return fmt.Errorf("loads: time %d: got %g s after %g s, want rising times", i+1, l.Time[i], l.Time[i-1])
		}
	}
	for i, list := range l.lists() {
		if len(list) != 0 && len(list) != len(l.Time) {
			return fmt.Errorf("loads: %s: got %d values for %d times, want one for each, or none", components[i], len(list), len(l.Time))
		}
	}
	return nil
}

var components = [6]string{"Fx", "Fy", "Fz", "Mx", "My", "Mz"}

func (l Loads) lists() [6][]float64 { return [6][]float64{l.Fx, l.Fy, l.Fz, l.Mx, l.My, l.Mz} }

// Preceded is the loads with another state one second before them: the empty ride
// before its riders get on, whose weight is then a swing of load too.
//
// Loads without a time and lists that do not fit are errors.
//
// Source: definition.
func (l Loads) Preceded(by joint.Action) (Loads, error) {
	if err := l.check(); err != nil {
		return Loads{}, err
	}
	out := Loads{Time: append([]float64{l.Time[0] - 1*units.S}, l.Time...)}
	for k, list := range out.each() {
		old := l.lists()[k]
		first := [6]float64{by.Fx, by.Fy, by.Fz, by.Mx, by.My, by.Mz}[k]
		if len(old) == 0 && first == 0 {
			continue
		}
		if len(old) == 0 {
			old = make([]float64, len(l.Time))
		}
		*list = append([]float64{first}, old...)
	}
	return out, nil
}

// About is the same loads with their moments taken about another point, at x, y and
// z from the one before: M - r×F.
//
// Lists that do not fit and a distance that is not finite are errors.
//
// Source: statics.
func (l Loads) About(x, y, z units.Length) (Loads, error) {
	if err := cmp.Or(l.check(), argument.Finite("x", x), argument.Finite("y", y), argument.Finite("z", z)); err != nil {
		return Loads{}, err
	}
	l = l.full()
	out := Loads{Time: l.Time, Fx: l.Fx, Fy: l.Fy, Fz: l.Fz}
	for i := range l.Time {
		out.Mx = append(out.Mx, l.Mx[i]-(y*l.Fz[i]-z*l.Fy[i]))
		out.My = append(out.My, l.My[i]-(z*l.Fx[i]-x*l.Fz[i]))
		out.Mz = append(out.Mz, l.Mz[i]-(x*l.Fy[i]-y*l.Fx[i]))
	}
	return out, nil
}

// Shares are what loads of 1 N and of 1 N·m at one place do at a joint of a linear
// frame: Fx is the action on the joint by 1 N along x, My that by 1 N·m about y.
type Shares struct {
	Fx, Fy, Fz, Mx, My, Mz joint.Action
}

// Through is the loads at a joint, of the loads at the place that its shares are of:
// the sum of each force and moment times the action that 1 of it makes.
//
// Lists that do not fit are an error.
//
// Source: superposition, for a frame that stays linear: no pad lifts, and it is far
// from buckling.
func (l Loads) Through(s Shares) (Loads, error) {
	if err := l.check(); err != nil {
		return Loads{}, err
	}
	l = l.full()
	out := Loads{Time: l.Time}.full()
	for k, a := range [6]joint.Action{s.Fx, s.Fy, s.Fz, s.Mx, s.My, s.Mz} {
		by := l.lists()[k]
		for p, share := range [6]float64{a.Fx, a.Fy, a.Fz, a.Mx, a.My, a.Mz} {
			list := out.lists()[p]
			for i := range list {
				list[i] += share * by[i]
			}
		}
	}
	return out, nil
}

// each points at the six lists; full has none left out.
func (l *Loads) each() [6]*[]float64 { return [6]*[]float64{&l.Fx, &l.Fy, &l.Fz, &l.Mx, &l.My, &l.Mz} }

func (l Loads) full() Loads {
	for _, list := range l.each() {
		if len(*list) == 0 {
			*list = make([]float64, len(l.Time))
		}
	}
	return l
}

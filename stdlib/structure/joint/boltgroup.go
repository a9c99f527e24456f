package joint

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/units"
)

// A BoltGroup is equal bolts through one stiff plate, by the places of their
// axes in the plane of the plate.
type BoltGroup struct {
	Y, Z []units.Length // of each bolt
}

// A BoltForce is what one bolt of a group carries.
type BoltForce struct {
	Bolt    units.Number // its place in the group, from 1
	Shear   units.Force  // in the plane of the plate, of ShearY and ShearZ
	ShearY  units.Force
	ShearZ  units.Force
	Tension units.Force // along the bolt; below 0 the plates are pressed together there
}

func (g BoltGroup) spread() (*spread, error) {
	if len(g.Y) != len(g.Z) || len(g.Y) == 0 {
		return nil, fmt.Errorf("bolt group: got %d y and %d z, want one or more of each, equally many", len(g.Y), len(g.Z))
	}
	s := &spread{}
	for i := range g.Y {
		p := Point{0, g.Y[i], g.Z[i]}
		if err := p.check(fmt.Sprintf("bolt %d", i+1)); err != nil {
			return nil, fmt.Errorf("bolt group: %w", err)
		}
		s.point(1, p.vector())
	}
	return s, nil
}

// Forces are the forces on every bolt of the group.
//
// The plate is rigid and the bolts are equal springs: each carries an equal
// share of the force, and of the moment a share that grows with its distance
// from the centre of the group. Bending is taken by the bolts alone, about their
// centre, which asks more of them than a plate that presses on its edge. A
// moment about a line through all bolts is an error.
//
// Source: elastic bolt group, as EN 1993-1-8:2005, 3.12(1) and 2.5; equilibrium,
// derived here.
func (g BoltGroup) Forces(a Action) ([]BoltForce, error) {
	s, err := g.spread()
	if err == nil {
		err = a.check()
	}
	if err != nil {
		return nil, err
	}
	share, err := s.share(a)
	if err != nil {
		return nil, fmt.Errorf("bolt group: %w", err)
	}
	var forces []BoltForce
	for i := range g.Y {
		q := share(vector.Vector{0, g.Y[i], g.Z[i]})
		forces = append(forces, BoltForce{
			Bolt: float64(i + 1), Shear: math.Hypot(q[1], q[2]), ShearY: q[1], ShearZ: q[2], Tension: q[0],
		})
	}
	return forces, nil
}

// Worst is the bolt of the group that is used most by shear and tension
// together, and its utilisation.
//
// shearMax and tensionMax are what one bolt may carry of each alone, more than
// 0. Errors are those of Forces.
//
// Source: as Forces; EN 1993-1-8:2005, Table 3.4.
func (g BoltGroup) Worst(a Action, shearMax, tensionMax units.Force) (WorstBolt, error) {
	argument.Demand("joint: BoltGroup.Worst", argument.Positive("shear resistance", shearMax), argument.Positive("tension resistance", tensionMax))
	forces, err := g.Forces(a)
	if err != nil {
		return WorstBolt{}, err
	}
	worst := WorstBolt{Utilisation: -1}
	for _, f := range forces {
		if u := ShearAndTension(f.Shear, shearMax, math.Max(0, f.Tension), tensionMax); u > worst.Utilisation {
			worst = WorstBolt{Bolt: f.Bolt, Shear: f.Shear, Tension: f.Tension, Utilisation: u}
		}
	}
	return worst, nil
}

// A WorstBolt is the bolt of a group that governs.
type WorstBolt struct {
	Bolt        units.Number // its place in the group, from 1
	Shear       units.Force
	Tension     units.Force // below 0 the plates are pressed together there
	Utilisation units.Number
}

package form

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/balance"
	"tautline/stdlib/internal/ldl"
	"tautline/stdlib/units"
)

// A Support holds points where they are, but for directions in which it leaves
// them free, as on a plane of symmetry.
//
// A support with a direction Across leaves its points free along the plane square to
// it, wherever that lies, such as the sides of a sector of something round.
type Support struct {
	Name                string
	Points              []int
	FreeX, FreeY, FreeZ bool
	Across              Direction // of a plane that the points stay in; 0: x, y and z as above
}

// A Reaction is what a support does to the membrane.
type Reaction struct {
	Name    string
	X, Y, Z units.Force // sums over its points
	Most    units.Force // greatest size at one point
	Points  []PointLoad // at each point
}

func (g Support) check() error {
	across := vec{g.Across.X, g.Across.Y, g.Across.Z}
	if size := across.Length(); size-size != 0 {
		return fmt.Errorf("across: got (%g, %g, %g), want finite numbers", across[0], across[1], across[2])
	}
	switch {
	case g.FreeX && g.FreeY && g.FreeZ:
		return fmt.Errorf("free in x, y and z: it holds nothing")
	case across != (vec{}) && (g.FreeX || g.FreeY || g.FreeZ):
		return fmt.Errorf("across and free: got both, want one: a plane leaves free what lies in it")
	}
	return nil
}

// ways are the directions in which the support holds.
func (g Support) ways() []vec {
	if across := (vec{g.Across.X, g.Across.Y, g.Across.Z}); across != (vec{}) {
		return []vec{across.Unit()}
	}
	var ways []vec
	for d, free := range []bool{g.FreeX, g.FreeY, g.FreeZ} {
		if !free {
			var way vec
			way[d] = 1
			ways = append(ways, way)
		}
	}
	return ways
}

// holds are the supports as the search knows them.
func holds(supports []Support) []balance.Hold {
	list := make([]balance.Hold, len(supports))
	for i, g := range supports {
		list[i] = balance.Hold{Points: g.Points, Ways: g.ways()}
	}
	return list
}

// reactions are what is out of balance where points are held, point loads there
// included. Of supports that hold a point the same way the first takes it.
func (e *Equilibrium) reactions(supports []Support, out []vec) {
	type hold struct {
		support int
		way     vec
	}
	holds := make([][]hold, len(out))
	spans := make([]balance.Span, len(out))
	for k, g := range supports {
		for _, p := range g.Points {
			for _, way := range g.ways() {
				var more bool
				if spans[p], more = spans[p].With(way); more {
					if g.Across == (Direction{}) { // what those before leave to it
						way = spans[p][len(spans[p])-1]
					}
					holds[p] = append(holds[p], hold{k, way})
				}
			}
		}
	}
	e.Supports = make([]Reaction, len(supports))
	shares := make([]map[int]vec, len(supports))
	for k, g := range supports {
		e.Supports[k].Name, shares[k] = g.Name, map[int]vec{}
	}
	for p, list := range holds {
		if len(list) == 0 {
			continue
		}
		// The parts along the ways, which need not be square: least squares.
		blocks := ldl.Block{}
		right := make([]float64, len(list))
		for i, a := range list {
			blocks.Index = append(blocks.Index, i)
			right[i] = a.way.Dot(out[p])
			for _, b := range list {
				blocks.Values = append(blocks.Values, a.way.Dot(b.way))
			}
		}
		m := ldl.Assemble(len(list), []ldl.Block{blocks})
		if f, err := ldl.Analyse(m).Factor(m, 0); err == nil {
			f.Solve(right)
		}
		for i, h := range list {
			shares[h.support][p] = shares[h.support][p].Plus(h.way.Times(right[i]))
		}
	}
	for k, g := range supports {
		r := &e.Supports[k]
		for _, p := range slices.Compact(slices.Sorted(slices.Values(g.Points))) {
			f := shares[k][p]
			r.X, r.Y, r.Z = r.X+f[0], r.Y+f[1], r.Z+f[2]
			r.Most = math.Max(r.Most, f.Length())
			r.Points = append(r.Points, PointLoad{p, f[0], f[1], f[2]})
		}
	}
}

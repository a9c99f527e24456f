package form

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/balance"
)

// sense names what no search could mend: pressure that pushes neighbours opposite
// ways, a closed skin under suction, and what its loads drive away.
func (m Membrane) sense(s *balance.System) error {
	if err := m.checkFacing(s); err != nil {
		return err
	}
	return m.checkHeld(s)
}

// part names a triangle's part.
func (m Membrane) part(i int) string { return m.Mesh.Parts[m.Mesh.Triangles[i].Part] }

func (m Membrane) checkFacing(s *balance.System) error {
	ways := map[[2]int][]int{} // triangles under pressure by edge and the way they run along it
	for i, e := range s.Patches {
		for k, a := range e.Corners {
			if way := [2]int{a, e.Corners[(k+1)%3]}; e.Pressure != 0 {
				ways[way] = append(ways[way], i)
			}
		}
	}
	sucked, open := -1, false
	for i, e := range s.Patches {
		if e.Pressure == 0 {
			continue
		}
		for k, a := range e.Corners {
			b := e.Corners[(k+1)%3]
			same, back := ways[[2]int{a, b}], ways[[2]int{b, a}]
			if len(same) == 2 && len(back) == 0 && s.Patches[same[0]].Pressure*s.Patches[same[1]].Pressure > 0 {
				return fmt.Errorf("triangle %d of part %q and triangle %d of part %q face opposite ways at the edge from point %d to point %d and pressure pushes both: turn one part over with Flipped",
					same[0], m.part(same[0]), same[1], m.part(same[1]), a, b)
			}
			open = open || len(back) == 0
		}
		if e.Pressure < 0 && sucked < 0 {
			sucked = i
		}
		open = open || e.Pressure > 0
	}
	if sucked >= 0 && !open {
		return fmt.Errorf("pressure on part %q: got %g Pa behind a closed skin, want 0 or more: fabric without air inside does not stand", m.part(sucked), s.Patches[sucked].Pressure)
	}
	return nil
}

// checkHeld finds what hangs together, is not held along an axis and is pushed that
// way by its loads.
func (m Membrane) checkHeld(s *balance.System) error {
	g := newGroups(len(s.X))
	for _, e := range s.Patches {
		g.join(e.Corners[0], e.Corners[1])
		g.join(e.Corners[0], e.Corners[2])
	}
	for _, e := range s.Segments {
		g.join(e.Corners[0], e.Corners[1])
	}
	push := make([]vec, len(s.X))
	size := make([]float64, len(s.X))
	held := make([]balance.Span, len(s.X))
	add := func(p int, f vec) {
		push[g.of(p)] = push[g.of(p)].Plus(f)
		size[g.of(p)] += f.Length()
	}
	for i := range s.Patches {
		f := s.Patches[i].Push(s.X)
		for _, p := range s.Patches[i].Corners {
			add(p, f)
		}
	}
	for p, f := range s.Load {
		add(p, f)
	}
	for p, ways := range s.Held {
		for _, way := range ways {
			held[g.of(p)], _ = held[g.of(p)].With(way)
		}
	}
	name := func(group int) string {
		for i, e := range s.Patches {
			if g.of(e.Corners[0]) == group {
				return fmt.Sprintf("part %q", m.part(i))
			}
		}
		return fmt.Sprintf("cable at point %d", group)
	}
	for p := range s.X {
		free := held[p].Rest(push[p])
		for d, axis := range []string{"x", "y", "z"} {
			if math.Abs(free[d]) > 1e-6*size[p] { // the rest is rounding
				return fmt.Errorf("%s: nothing holds it along %s and its loads push it that way with %.4g N: give it a support", name(p), axis, free[d])
			}
		}
	}
	return nil
}

package form

import (
	"fmt"
	"math"
)

// sense names what no search could mend: pressure that pushes neighbours opposite
// ways, a closed skin under suction, and what its loads drive away.
func (m Membrane) sense(s *system) error {
	if err := m.checkFacing(s); err != nil {
		return err
	}
	return m.checkHeld(s)
}

// part names a triangle's part.
func (m Membrane) part(i int) string { return m.Mesh.Parts[m.Mesh.Triangles[i].Part] }

func (m Membrane) checkFacing(s *system) error {
	ways := map[[2]int][]int{} // triangles under pressure by edge and the way they run along it
	for i, e := range s.patches {
		for k, a := range e.corners {
			if way := [2]int{a, e.corners[(k+1)%3]}; e.pressure != 0 {
				ways[way] = append(ways[way], i)
			}
		}
	}
	sucked, open := -1, false
	for i, e := range s.patches {
		if e.pressure == 0 {
			continue
		}
		for k, a := range e.corners {
			b := e.corners[(k+1)%3]
			same, back := ways[[2]int{a, b}], ways[[2]int{b, a}]
			if len(same) == 2 && len(back) == 0 && s.patches[same[0]].pressure*s.patches[same[1]].pressure > 0 {
				return fmt.Errorf("triangle %d of part %q and triangle %d of part %q face opposite ways at the edge from point %d to point %d and pressure pushes both: turn one part over with Flipped",
					same[0], m.part(same[0]), same[1], m.part(same[1]), a, b)
			}
			open = open || len(back) == 0
		}
		if e.pressure < 0 && sucked < 0 {
			sucked = i
		}
		open = open || e.pressure > 0
	}
	if sucked >= 0 && !open {
		return fmt.Errorf("pressure on part %q: got %g Pa behind a closed skin, want 0 or more: fabric without air inside does not stand", m.part(sucked), s.patches[sucked].pressure)
	}
	return nil
}

// checkHeld finds what hangs together, is not held along an axis and is pushed that
// way by its loads.
func (m Membrane) checkHeld(s *system) error {
	g := newGroups(len(s.x))
	for _, e := range s.patches {
		g.join(e.corners[0], e.corners[1])
		g.join(e.corners[0], e.corners[2])
	}
	for _, e := range s.segments {
		g.join(e.corners[0], e.corners[1])
	}
	push := make([]vec, len(s.x))
	size := make([]float64, len(s.x))
	held := make([]span, len(s.x))
	add := func(p int, f vec) {
		push[g.of(p)] = push[g.of(p)].Plus(f)
		size[g.of(p)] += f.Length()
	}
	for i := range s.patches {
		f := s.patches[i].push(s.x)
		for _, p := range s.patches[i].corners {
			add(p, f)
		}
	}
	for p, f := range s.load {
		add(p, f)
	}
	for p, ways := range s.held {
		for _, way := range ways {
			held[g.of(p)], _ = held[g.of(p)].with(way)
		}
	}
	name := func(group int) string {
		for i, e := range s.patches {
			if g.of(e.corners[0]) == group {
				return fmt.Sprintf("part %q", m.part(i))
			}
		}
		return fmt.Sprintf("cable at point %d", group)
	}
	for p := range s.x {
		free := held[p].rest(push[p])
		for d, axis := range []string{"x", "y", "z"} {
			if math.Abs(free[d]) > 1e-6*size[p] { // the rest is rounding
				return fmt.Errorf("%s: nothing holds it along %s and its loads push it that way with %.4g N: give it a support", name(p), axis, free[d])
			}
		}
	}
	return nil
}

package frame

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/beam"
	"tautline/stdlib/internal/ldl"
	"tautline/stdlib/internal/stiffness"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/units"
)

// A Shape is how a frame moves when it buckles or vibrates, its greatest entry 1.
type Shape struct {
	Nodes   []Displacement   // of node n at n-1
	Members [][]Displacement // of member m at m-1, at the ends of its pieces; turns are left out
}

// A BucklingMode is a way in which a frame buckles.
type BucklingMode struct {
	Factor units.Number // on the loads, at which it does
	Shape  Shape
}

// A VibrationMode is a way in which a frame vibrates.
type VibrationMode struct {
	Frequency units.Frequency
	Shape     Shape
}

// Buckling is the factors on a combination at which the frame becomes unstable,
// the least first: as many as asked for, or as there are below a million.
//
// The count is 1 or more; outside it panics. Axial forces are those of Solve,
// pads are held as they stand or lift there. A factor below 1 means that the
// combination already buckles the frame. A count of the negative pivots proves
// that none below the last was missed.
//
// Caution: the factor is that of the perfect elastic frame. Crooked members fail
// before it: a member is checked with its buckling curve.
//
// Source: geometric stiffness by pieces; Przemieniecki, Theory of Matrix
// Structural Analysis, chapter 15. Torsion by moments and lateral buckling of
// beams are left out.
func (f Frame) Buckling(c Combination, count int) ([]BucklingMode, error) {
	argument.Demand("frame: Frame.Buckling", argument.Above("count", float64(count), 0))
	m, err := newModel(f, f.cuts())
	if err != nil {
		return nil, err
	}
	s, err := m.solve(c, false)
	if err != nil {
		return nil, fmt.Errorf("combination %q: %w", c.Name, err)
	}
	for i := range m.Elements {
		s.Pull[i] = s.Axial(i)
	}
	k, factor, err := s.held().stiff()
	if err != nil {
		return nil, err
	}
	softening := s.Assemble(func(e *beam.Element) beam.Matrix {
		g := s.Pulled(e)
		for i := range g {
			for j := range g[i] {
				g[i][j] = -g[i][j]
			}
		}
		return g
	}, false)
	const most = 1e6
	found, err := ldl.Lowest(k, factor, softening, count, most)
	if err != nil {
		return nil, fmt.Errorf("buckling: %w", err)
	}
	var modes []BucklingMode
	for _, e := range found {
		modes = append(modes, BucklingMode{e.Value, s.held().shape(e.Shape)})
	}
	return modes, nil
}

// Vibrations is the natural frequencies of the frame, the lowest first: as many
// as asked for, or as there are. Members vibrate with their own mass, nodes with
// the masses given to them.
//
// The count is 1 or more; outside it panics. Pads are held as if they could
// pull.
//
// Source: consistent mass by pieces; Przemieniecki, Theory of Matrix Structural
// Analysis, chapters 11 and 12. No damping.
func (f Frame) Vibrations(count int) ([]VibrationMode, error) {
	argument.Demand("frame: Frame.Vibrations", argument.Above("count", float64(count), 0))
	m, err := newModel(f, f.cuts())
	if err != nil {
		return nil, err
	}
	h := m.hold(make([]bool, len(f.Supports)))
	return h.vibrations(count, nil)
}

// VibrationsUnder is Vibrations of the frame under a combination: compression
// softens it, tension stiffens it, and pads that lift hold nothing.
//
// Source: as Vibrations.
func (f Frame) VibrationsUnder(c Combination, count int) ([]VibrationMode, error) {
	argument.Demand("frame: Frame.VibrationsUnder", argument.Above("count", float64(count), 0))
	m, err := newModel(f, f.cuts())
	if err != nil {
		return nil, err
	}
	s, err := m.solve(c, true)
	if err != nil {
		return nil, fmt.Errorf("combination %q: %w", c.Name, err)
	}
	return s.held().vibrations(count, s.Assemble(s.Pulled, false))
}

// vibrations solves K·x = ω²·M·x, with stress added to K if given.
func (h held) vibrations(count int, stress *ldl.Matrix) ([]VibrationMode, error) {
	k, factor, err := h.stiff()
	if err != nil {
		return nil, err
	}
	if stress != nil {
		k = k.Plus(1, stress)
		if factor, err = h.Factor(k); err != nil {
			return nil, h.mechanism(err)
		}
	}
	found, err := ldl.Lowest(k, factor, h.masses(), count, math.Inf(1))
	if err != nil {
		return nil, fmt.Errorf("vibrations: %w", err)
	}
	if len(found) == 0 {
		return nil, fmt.Errorf("vibrations: got no mass that can move, want a density or a node mass")
	}
	var modes []VibrationMode
	for _, e := range found {
		modes = append(modes, VibrationMode{math.Sqrt(e.Value) / (2 * math.Pi), h.shape(e.Shape)})
	}
	return modes, nil
}

// masses is the mass matrix, in the pattern of the stiffness matrix.
func (h held) masses() *ldl.Matrix {
	m := h.Assemble((*beam.Element).Inertia, false)
	var blocks []ldl.Block
	for _, w := range h.model.frame.Masses {
		i := int(w.Node) - 1
		own := h.model.nodes[i]
		move, turn := ldl.Block{}, ldl.Block{}
		for a := range 3 {
			move.Index = append(move.Index, h.Equation[6*i+a])
			turn.Index = append(turn.Index, h.Equation[6*i+3+a])
			for b := range 3 {
				same := 0.0
				if a == b {
					same = w.Mass
				}
				move.Values = append(move.Values, same)
				turn.Values = append(turn.Values, own[a][0]*own[b][0]*w.IX+own[a][1]*own[b][1]*w.IY+own[a][2]*own[b][2]*w.IZ)
			}
		}
		blocks = append(blocks, move, turn)
	}
	return m.With(blocks)
}

// shape is a vector of unknowns in the terms of the frame.
func (h held) shape(x []float64) Shape {
	m := h.model
	u := make([]float64, m.freedoms())
	for p, at := range h.Equation {
		if at >= 0 {
			u[p] = x[at]
		}
	}
	s := &solution{State: &stiffness.State{Held: h.Held, U: u}, model: m}
	most := 0.0
	var shape Shape
	for i := range m.frame.Nodes {
		d, t := s.node(i)
		shape.Nodes = append(shape.Nodes, Displacement{d[0], d[1], d[2], t[0], t[1], t[2]})
	}
	for i := range m.frame.Members {
		var line []Displacement
		pieces := m.piecesOf(i)
		for k := range pieces {
			e := &pieces[k]
			d := e.Local(u)
			if k == 0 {
				line = append(line, moved(e.Axes.Out(vector.Vector(d[0:3]))))
			}
			line = append(line, moved(e.Axes.Out(vector.Vector(d[6:9]))))
		}
		shape.Members = append(shape.Members, line)
		for _, d := range line {
			most = math.Max(most, math.Sqrt(d.X*d.X+d.Y*d.Y+d.Z*d.Z))
		}
	}
	if most > 0 {
		shape.scale(1 / most)
	}
	return shape
}

func moved(v vector.Vector) Displacement { return Displacement{X: v[0], Y: v[1], Z: v[2]} }

// scale multiplies all entries; only movements count for the greatest.
func (s *Shape) scale(c float64) {
	for i := range s.Nodes {
		s.Nodes[i] = s.Nodes[i].times(c)
	}
	for _, line := range s.Members {
		for i := range line {
			line[i] = line[i].times(c)
		}
	}
}

func (d Displacement) times(c float64) Displacement {
	return Displacement{c * d.X, c * d.Y, c * d.Z, c * d.RX, c * d.RY, c * d.RZ}
}

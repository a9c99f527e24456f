package frame

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/beam"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/units"
)

// applied is a combination on a model, besides what the elements carry: forces
// on freedoms and moved supports.
type applied struct {
	force []float64
	moved []float64
}

// apply puts a combination on the model in place of the one before.
func (m *model) apply(c Combination) (applied, error) {
	if err := c.Check(m.frame); err != nil {
		return applied{}, err
	}
	a := applied{make([]float64, m.freedoms()), make([]float64, m.freedoms())}
	for i := range m.Elements {
		m.Elements[i].Loads, m.Elements[i].Warmth = nil, [3]float64{}
	}
	for _, t := range c.Terms {
		if err := m.applyCase(a, t); err != nil {
			return a, fmt.Errorf("case %q: %w", t.Case.Name, err)
		}
	}
	for i := range m.Elements {
		if e := &m.Elements[i]; !e.Finite() {
			return a, fmt.Errorf("combination %q: load on %s: got one that is not a number", c.Name, m.frame.member(Member(e.Member+1)))
		}
	}
	for p, v := range a.force {
		if p/6 >= len(m.frame.Nodes) {
			break
		}
		name := m.frame.node(Node(p/6 + 1))
		if err := argument.Finite("load", v); err != nil {
			return a, fmt.Errorf("combination %q: %s: %w", c.Name, name, err)
		}
		if v != 0 && !m.Active[p] && !m.supported(p) {
			return a, fmt.Errorf("combination %q: moment on %s: only bars and hinges meet there, so nothing takes it", c.Name, name)
		}
	}
	return a, nil
}

// supported reports whether a support holds or springs a freedom.
func (m *model) supported(p int) bool {
	for _, s := range m.frame.Supports {
		if int(s.Node-1) == p/6 && (s.held()[p%6] || s.stiffness()[p%6] > 0) {
			return true
		}
	}
	return false
}

func (m *model) applyCase(a applied, t Term) error {
	c, factor := t.Case, t.Factor
	for _, l := range c.Nodes {
		m.push(a, l.Node, vector.Vector{l.Load.FX, l.Load.FY, l.Load.FZ}.Times(factor), vector.Vector{l.Load.MX, l.Load.MY, l.Load.MZ}.Times(factor))
	}
	for _, l := range c.Points {
		e, at := m.piece(l.Member, l.At)
		force, moment := vector.Vector{l.Load.FX, l.Load.FY, l.Load.FZ}, vector.Vector{l.Load.MX, l.Load.MY, l.Load.MZ}
		e.Loads = append(e.Loads, beam.Load{From: at, To: at, First: e.Principal.In(force).Times(factor), Moment: e.Principal.In(moment).Times(factor)})
	}
	for _, l := range c.Lines {
		m.line(l, factor)
	}
	for _, w := range c.Warmths {
		if err := m.warm(w, factor); err != nil {
			return err
		}
	}
	m.pull(a, vector.Vector{c.AX, c.AY, c.AZ}.Times(factor))
	for _, s := range c.Settled {
		if err := m.settle(a, s, factor); err != nil {
			return err
		}
	}
	return nil
}

// push loads a node.
func (m *model) push(a applied, n Node, force, moment vector.Vector) {
	i := int(n) - 1
	force, moment = m.nodes[i].In(force), m.nodes[i].In(moment)
	for k := range 3 {
		a.force[6*i+k] += force[k]
		a.force[6*i+3+k] += moment[k]
	}
}

// piece is the element of a member at a distance from its first end, and the
// distance from that of the element.
func (m *model) piece(n Member, at units.Length) (*beam.Element, float64) {
	pieces := m.piecesOf(int(n) - 1)
	l := pieces[0].Length
	k := min(int(at/l), len(pieces)-1)
	return &pieces[k], math.Min(at-float64(k)*l, l)
}

// line puts a line load on the pieces that it covers.
func (m *model) line(l Spread, factor float64) {
	pieces := m.piecesOf(int(l.Member) - 1)
	piece := pieces[0].Length
	from, to := l.From, l.To
	if to == 0 {
		to = piece * float64(len(pieces))
	}
	for k := range pieces {
		e := &pieces[k]
		start := float64(k) * piece
		a, b := math.Max(from, start), math.Min(to, start+piece)
		if b-a <= 1e-12*piece {
			continue
		}
		at := func(x float64) vector.Vector {
			s := (x - from) / (to - from)
			p, q := l.First, l.Last
			v := vector.Vector{p.X + s*(q.X-p.X), p.Y + s*(q.Y-p.Y), p.Z + s*(q.Z-p.Z)}.Times(factor)
			if l.First.Local {
				v = e.Axes.Out(v)
			}
			return e.Principal.In(v)
		}
		e.Loads = append(e.Loads, beam.Load{From: a - start, To: math.Min(b-start, e.Length), First: at(a), Last: at(b)})
	}
}

func (m *model) warm(w Warmth, factor float64) error {
	b := m.frame.Members[w.Member-1]
	y, z := w.DepthY, w.DepthZ
	if y == 0 {
		y = b.Section.Width
	}
	if z == 0 {
		z = b.Section.Height
	}
	if w.AcrossY != 0 && !(y > 0) || w.AcrossZ != 0 && !(z > 0) {
		return fmt.Errorf("warmth across %s: depth: got %g m and %g m, want more than 0", m.frame.member(w.Member), y, z)
	}
	pieces := m.piecesOf(int(w.Member) - 1)
	for k := range pieces {
		e := &pieces[k]
		alpha := e.Expansion * factor
		e.Warmth[0] += alpha * w.Rise
		bent := vector.Vector{} // turn of the section per length, about its axes
		if w.AcrossZ != 0 {
			bent = bent.Plus(e.Axes[1].Times(alpha * w.AcrossZ / z))
		}
		if w.AcrossY != 0 {
			bent = bent.Minus(e.Axes[2].Times(alpha * w.AcrossY / y))
		}
		bent = e.Principal.In(bent)
		e.Warmth[1] += bent[1]
		e.Warmth[2] += bent[2]
	}
	return nil
}

// pull loads every mass as a field of acceleration does.
func (m *model) pull(a applied, g vector.Vector) {
	if g == (vector.Vector{}) {
		return
	}
	for i := range m.Elements {
		e := &m.Elements[i]
		q := e.Principal.In(g.Times(e.Mass))
		e.Loads = append(e.Loads, beam.Load{To: e.Length, First: q, Last: q})
	}
	for _, w := range m.frame.Masses {
		m.push(a, w.Node, g.Times(w.Mass), vector.Vector{})
	}
}

func (m *model) settle(a applied, s Settlement, factor float64) error {
	for _, support := range m.frame.Supports {
		if support.Node != s.Node {
			continue
		}
		d := s.Move
		for k, v := range [6]float64{d.X, d.Y, d.Z, d.RX, d.RY, d.RZ} {
			if v != 0 && !support.held()[k] {
				return fmt.Errorf("settlement of %s: got a movement that its support does not hold", m.frame.node(s.Node))
			}
			a.moved[6*int(s.Node-1)+k] += factor * v
		}
		return nil
	}
	return fmt.Errorf("settlement of %s: got a node without support", m.frame.node(s.Node))
}

package frame

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/internal/ldl"
	"tautline/stdlib/internal/vector"
)

// mechanism says in the frame's words which freedom a singular matrix leaves
// loose.
func (h held) mechanism(err error) error {
	var s *ldl.Singular
	if !errors.As(err, &s) {
		return err
	}
	m := h.model
	u := make([]float64, m.freedoms())
	for p, eq := range h.Equation {
		if eq >= 0 {
			u[p] = s.Shape[eq]
		}
	}
	node, move, turn := -1, vector.Vector{}, vector.Vector{}
	moving := 0
	most := 0.0
	reach := m.reach()
	for i := range m.frame.Nodes {
		d := m.nodes[i].Out(vector.Vector{u[6*i], u[6*i+1], u[6*i+2]})
		r := m.nodes[i].Out(vector.Vector{u[6*i+3], u[6*i+4], u[6*i+5]})
		size := math.Max(d.Length(), r.Length()*reach*1e-3) // a turn counts where nothing moves
		if size > most {
			node, move, turn, most = i, d, r, size
		}
	}
	for i := range m.frame.Nodes {
		d := vector.Vector{u[6*i], u[6*i+1], u[6*i+2]}
		if d.Length() > 1e-6*most {
			moving++
		}
	}
	hint := "hold it with a support or a member, or take a release away"
	if list := h.liftedNames(); list != "" {
		hint = fmt.Sprintf("with %s lifted off, the frame tips or slides: widen its base, weigh it down or anchor it", list)
	}
	if node < 0 || most < 1e-9*ldl.Most(s.Shape) {
		l := m.loose(s.Unknown, h)
		return fmt.Errorf("mechanism: %s; %s", l, hint)
	}
	name := m.frame.node(Node(node + 1))
	if move.Length() > 1e-6*turn.Length()*reach {
		return fmt.Errorf("mechanism: %s can move along %s without resistance, %d of %d nodes with it; %s",
			name, move.Words(), moving, len(m.frame.Nodes), hint)
	}
	return fmt.Errorf("mechanism: %s can turn about %s without resistance; %s", name, turn.Words(), hint)
}

// loose names a released freedom or a cut within a member.
func (m *model) loose(unknown int, h held) string {
	for p, eq := range h.Equation {
		if eq != unknown {
			continue
		}
		if i := p - 6*len(m.nodes); i >= 0 {
			l := m.released[i]
			end := "first"
			if l.local >= 6 {
				end = "second"
			}
			what := [6]string{"move along its x", "move along its y", "move along its z", "turn about its x", "turn about its y", "turn about its z"}[l.local%6]
			return fmt.Sprintf("%s can %s at its %s end without resistance, because both ends are released", m.frame.member(l.member), what, end)
		}
	}
	return "a member between its ends can move without resistance"
}

// reach is the greatest distance of a node from the first, or the length of a
// member if it is longer.
func (m *model) reach() float64 {
	if m.size == 0 {
		first := m.frame.at(1)
		for i := range m.frame.Nodes {
			m.size = math.Max(m.size, m.frame.at(Node(i+1)).Minus(first).Length())
		}
	}
	return m.size
}

func (h held) liftedNames() string {
	var names []string
	for i, off := range h.Lifted {
		if off {
			names = append(names, h.model.frame.node(h.model.frame.Supports[i].Node))
		}
	}
	return strings.Join(names, ", ")
}

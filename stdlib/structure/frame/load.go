package frame

import (
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Case is loads that come and go together: the frame's own weight, the riders
// on one side, wind from one side.
type Case struct {
	Name    string
	Nodes   []NodeLoad
	Points  []PointLoad
	Lines   []Spread
	Warmths []Warmth
	Settled []Settlement
	AX      units.Acceleration // field that pulls on every mass; own weight is AZ = -gₙ
	AY, AZ  units.Acceleration
}

// A Load is a force and a moment along and about global axes.
type Load struct {
	FX, FY, FZ units.Force
	MX, MY, MZ units.Moment
}

// A LineLoad is force per length of a member, along global axes or, if Local,
// along the member's own.
type LineLoad struct {
	X, Y, Z units.ForcePerLength
	Local   bool
}

// A NodeLoad is a load on a node.
type NodeLoad struct {
	Node Node
	Load Load
}

// A PointLoad is a load on a member, at a distance from its first end.
type PointLoad struct {
	Member Member
	At     units.Length
	Load   Load
}

// A Spread is a line load on a part of a member, linear from its first to its
// second value. To is 0 for the whole length.
type Spread struct {
	Member      Member
	From, To    units.Length
	First, Last LineLoad
}

// A Warmth is a member warmer than it was when the frame was joined: evenly, and
// more so on one side than on the other. The depth is between the two sides.
type Warmth struct {
	Member  Member
	Rise    units.TemperatureDifference // of the middle
	AcrossY units.TemperatureDifference // of the side at +y over that at -y
	AcrossZ units.TemperatureDifference // of the side at +z over that at -z
	DepthY  units.Length                // 0 is the section's width
	DepthZ  units.Length                // 0 is the section's height
}

// A Settlement moves a support in the directions that it holds.
type Settlement struct {
	Node Node
	Move Displacement // along the support's axes
}

// NewCase is a case without loads.
func NewCase(name string) *Case { return &Case{Name: name} }

// Node loads a node.
func (c *Case) Node(n Node, l Load) { c.Nodes = append(c.Nodes, NodeLoad{n, l}) }

// Point loads a member at a distance from its first end.
func (c *Case) Point(m Member, at units.Length, l Load) {
	c.Points = append(c.Points, PointLoad{m, at, l})
}

// Line loads a member evenly along its length.
func (c *Case) Line(m Member, l LineLoad) {
	c.Lines = append(c.Lines, Spread{Member: m, First: l, Last: l})
}

// Trapezoid loads the part of a member between two distances from its first end,
// linearly from the first value to the last.
func (c *Case) Trapezoid(m Member, from, to units.Length, first, last LineLoad) {
	argument.Demand("frame: Case.Trapezoid", argument.NotNegative("from", from), argument.Above("to", to, from))
	if first.Local != last.Local {
		panic("frame: Case.Trapezoid: axes: got global and local, want the same for both values")
	}
	c.Lines = append(c.Lines, Spread{m, from, to, first, last})
}

// Warm makes a member warmer than it was when the frame was joined.
func (c *Case) Warm(m Member, rise units.TemperatureDifference) {
	c.Warmths = append(c.Warmths, Warmth{Member: m, Rise: rise})
}

// WarmAcross makes the sides of a member at +y and +z warmer than those at -y
// and -z, over the section's width and height.
func (c *Case) WarmAcross(m Member, y, z units.TemperatureDifference) {
	c.Warmths = append(c.Warmths, Warmth{Member: m, AcrossY: y, AcrossZ: z})
}

// Settle moves the support of a node, along its axes, in the directions that it
// holds rigidly.
func (c *Case) Settle(n Node, move Displacement) {
	c.Settled = append(c.Settled, Settlement{n, move})
}

// SelfWeight pulls all members and node masses down at standard gravity.
func (c *Case) SelfWeight() { c.AZ -= units.Gn }

// Accelerate presses all members and node masses as a field of acceleration does:
// opposite to the acceleration of the frame itself.
func (c *Case) Accelerate(ax, ay, az units.Acceleration) {
	c.AX += ax
	c.AY += ay
	c.AZ += az
}

// A Term is a case with a factor.
type Term struct {
	Case   *Case
	Factor units.Number
}

// Times is the case with a factor, for a combination.
func (c Case) Times(factor units.Number) Term { return Term{&c, factor} }

// Alone is the combination of this case with the factor 1.
func (c Case) Alone() Combination { return Combine(c.Name, c.Times(1)) }

// A Combination is cases that act at once, each with its factor.
type Combination struct {
	Name  string
	Terms []Term
}

// Combine names a combination of cases.
func Combine(name string, terms ...Term) Combination {
	return Combination{name, append([]Term(nil), terms...)}
}

// Check reports the first load of a combination that does not fit the frame.
//
// Source: as Frame.Solve, which checks too.
func (c Combination) Check(f Frame) error {
	if len(c.Terms) == 0 {
		return fmt.Errorf("combination %q: got no case, want at least one", c.Name)
	}
	for _, t := range c.Terms {
		if err := argument.Finite("factor", t.Factor); err != nil {
			return fmt.Errorf("combination %q, case %q: %w", c.Name, t.Case.Name, err)
		}
		if err := t.Case.check(f); err != nil {
			return fmt.Errorf("case %q: %w", t.Case.Name, err)
		}
	}
	return nil
}

func (c Case) check(f Frame) error {
	node := func(n Node) error {
		if n < 1 || int(n) > len(f.Nodes) {
			return fmt.Errorf("node: got %d, want 1 to %d", n, len(f.Nodes))
		}
		return nil
	}
	on := func(m Member, at, to units.Length) error {
		if m < 1 || int(m) > len(f.Members) {
			return fmt.Errorf("member: got %d, want 1 to %d", m, len(f.Members))
		}
		if l := f.Length(m); !(at >= 0 && to <= l*(1+1e-9)) {
			return fmt.Errorf("load on %s: got %g m to %g m, want within its length of %g m", f.member(m), at, to, l)
		}
		return nil
	}
	for _, l := range c.Nodes {
		if err := node(l.Node); err != nil {
			return err
		}
	}
	for _, l := range c.Settled {
		if err := node(l.Node); err != nil {
			return err
		}
	}
	for _, l := range c.Points {
		if err := on(l.Member, l.At, l.At); err != nil {
			return err
		}
	}
	for _, l := range c.Lines {
		if err := on(l.Member, l.From, l.To); err != nil {
			return err
		}
	}
	for _, l := range c.Warmths {
		if err := on(l.Member, 0, 0); err != nil {
			return err
		}
	}
	return nil
}

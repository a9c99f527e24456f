package guarding

import (
	"fmt"
	"slices"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Part is a part of the body and the least gap in which it is not crushed.
type Part struct {
	Name   string
	Gap    units.Length
	Source string
}

const crushing = "ISO 13854:2017, table 1 (as quoted by others: verify against the document)"

// CrushGaps is the table of minimum gaps, from the widest to the narrowest. It was
// EN 349 before.
//
// Source: ISO 13854:2017, table 1, as quoted by others: verify against the
// document.
func CrushGaps() []Part {
	return []Part{
		{"body", 500 * units.Mm, crushing}, {"head", 300 * units.Mm, crushing}, {"leg", 180 * units.Mm, crushing}, {"foot", 120 * units.Mm, crushing},
		{"arm", 120 * units.Mm, crushing}, {"hand", 100 * units.Mm, crushing}, {"toes", 50 * units.Mm, crushing}, {"finger", 25 * units.Mm, crushing},
	}
}

// CrushGap is the row of the table for a part of the body: "body", "head", "leg",
// "foot", "arm", "hand" (with wrist and fist), "toes" or "finger".
//
// Any other part is an error.
//
// Source: as CrushGaps.
func CrushGap(part string) (Part, error) {
	table := CrushGaps()
	var names []string
	for _, p := range table {
		if p.Name == part {
			return p, nil
		}
		names = append(names, p.Name)
	}
	return Part{}, fmt.Errorf("part of the body: got %q, want one of %s", part, strings.Join(names, ", "))
}

// A Closing is a gap between parts that move towards each other.
type Closing struct {
	Name   string
	Open   units.Length // at its widest, no less than Closed
	Closed units.Length // at its narrowest, 0 or more
	Parts  []string     // of the body that can come into it; none for all
}

// A Squeeze is what becomes of a body in a closing gap.
type Squeeze struct {
	Safe   bool
	Least  units.Length // the gap that the widest part needs; 0 where nothing comes in
	Caught []string     // parts that are crushed, the widest first
	Why    string
	Source string
}

// enters is the widest gap that no fingertip enters.
const enters = 4 * units.Mm

// Judge says which parts of the body the gap crushes: those that can come into it
// and need more than is left when it is closed. Where the gap never opens beyond
// 4 mm no fingertip enters.
//
// A number out of its range, or a part that the table does not have, is an error.
//
// Caution: name the parts for the smallest child and the longest arm that may be
// there, not for those that should be. A gap that is wide enough for a hand is a
// trap for a head that gets in.
//
// Source: ISO 13854:2017, 4.1 and table 1; 4 mm: ISO 13857:2019, tables 4 and 5.
// As quoted by others: verify against the documents.
func (c Closing) Judge() (Squeeze, error) {
	if err := argument.NotNegative("closed", c.Closed); err != nil {
		return Squeeze{}, fmt.Errorf("gap %q: %w", c.Name, err)
	}
	if err := argument.Within("open", c.Open, c.Closed, 1e3*units.M); err != nil {
		return Squeeze{}, fmt.Errorf("gap %q: %w", c.Name, err)
	}
	for _, part := range c.Parts {
		if _, err := CrushGap(part); err != nil {
			return Squeeze{}, fmt.Errorf("gap %q: %w", c.Name, err)
		}
	}
	s := Squeeze{Source: crushing}
	if atMost(c.Open, enters) {
		s.Safe, s.Why, s.Source = true, "no fingertip comes in", through
		return s, nil
	}
	for _, p := range CrushGaps() {
		if len(c.Parts) > 0 && !slices.Contains(c.Parts, p.Name) {
			continue
		}
		s.Least = max(s.Least, p.Gap)
		if !atMost(p.Gap, c.Closed) {
			s.Caught = append(s.Caught, p.Name)
		}
	}
	s.Safe = len(s.Caught) == 0
	s.Why = "wide enough"
	if !s.Safe {
		s.Why = "crushes " + strings.Join(s.Caught, ", ")
	}
	return s, nil
}

// atMost is v ≤ limit, with rounding left aside.
func atMost(v, limit float64) bool { return v <= limit*(1+1e-9) }

// Gaps are closing gaps judged, for a table.
type Gaps struct {
	Name    []string
	Parts   []string
	Open    []units.Length
	Closed  []units.Length
	Least   []units.Length
	Verdict []string
	Safe    bool // all of them
	Source  string
}

// Survey judges gaps one after the other.
//
// It is an error where Closing.Judge is one.
//
// Source: as Closing.Judge.
func Survey(gaps []Closing) (Gaps, error) {
	g := Gaps{Safe: true, Source: crushing}
	for _, c := range gaps {
		s, err := c.Judge()
		if err != nil {
			return Gaps{}, err
		}
		parts := "any"
		if len(c.Parts) > 0 {
			parts = strings.Join(c.Parts, ", ")
		}
		g.Name, g.Parts, g.Verdict = append(g.Name, c.Name), append(g.Parts, parts), append(g.Verdict, s.Why)
		g.Open, g.Closed, g.Least = append(g.Open, c.Open), append(g.Closed, c.Closed), append(g.Least, s.Least)
		g.Safe = g.Safe && s.Safe
	}
	return g, nil
}

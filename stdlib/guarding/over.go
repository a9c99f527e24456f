package guarding

import (
	"cmp"
	"fmt"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Structure is what keeps people out: a fence or a wall that stands on what they
// stand on, without footholds.
type Structure struct {
	Height units.Length // of its upper edge, 1 m or more
	Risk   string       // of what lies behind it: "high", or "low" where it hurts and heals
}

const (
	overLow  = "ISO 13857:2019, table 1 (from memory: verify against the document)"
	overHigh = "ISO 13857:2019, table 2 (from memory: verify against the document)"
	upward   = "ISO 13857:2019, 4.2.1 (from memory: verify against the document)"
	around   = "ISO 13857:2019, table 3 (from memory: verify against the document)"
)

// A reach over structures: the heights of structures, of what is reached for, and
// how far behind the structure it is reached, in millimetres. Columns that are not
// there are 0.
type over struct {
	edges   []float64
	heights []float64
	reaches [][]float64
}

var overStructures = map[string]over{
	"low": {
		[]float64{1000, 1200, 1400, 1600, 1800, 2000, 2200, 2400, 2500},
		[]float64{0, 200, 400, 600, 800, 1000, 1200, 1400, 1600, 1800, 2000, 2200, 2400, 2500},
		[][]float64{
			{1100, 200}, {1100, 200}, {1200, 300}, {1200, 500}, {1300, 900, 600}, {1400, 1000, 900, 300}, {1400, 1000, 900, 500}, {1300, 1000, 900, 800, 100},
			{1300, 1000, 900, 900, 500}, {1100, 1000, 900, 900, 600}, {1100, 900, 700, 600, 500, 350}, {600, 600, 500, 500, 400, 350, 250},
			{100, 100, 100, 100, 100, 100, 100, 100}, {},
		},
	},
	"high": {
		[]float64{1000, 1200, 1400, 1600, 1800, 2000, 2200, 2400, 2500, 2700},
		[]float64{0, 200, 400, 600, 800, 1000, 1200, 1400, 1600, 1800, 2000, 2200, 2400, 2600, 2700},
		[][]float64{
			{1100, 500}, {1200, 900}, {1400, 1200, 400}, {1400, 1300, 800}, {1500, 1300, 900, 600}, {1500, 1400, 1000, 800}, {1500, 1400, 1100, 900, 700}, {1500, 1400, 1100, 900, 800},
			{1500, 1400, 1100, 900, 800, 500}, {1500, 1400, 1100, 900, 800, 600}, {1400, 1300, 1100, 900, 800, 600, 400}, {1300, 1200, 1000, 900, 800, 600, 400, 300},
			{1100, 1000, 900, 800, 700, 600, 400, 300, 100}, {900, 800, 700, 600, 600, 500, 400, 300, 100}, {},
		},
	},
}

// at is the reach over the column no higher than an edge, for rows from the one no
// higher than low to the one no lower than high: the greatest of them.
func (o over) at(edge, low, high units.Length) units.Length {
	column := 0
	for i, e := range o.edges {
		if atMost(e*units.Mm, edge) {
			column = i
		}
	}
	reach := 0.0
	for i := range o.heights {
		below := i+1 < len(o.heights) && atMost(o.heights[i+1]*units.Mm, low) // the next row is no higher than low
		above := i > 0 && atMost(high, o.heights[i-1]*units.Mm)
		if !below && !above && column < len(o.reaches[i]) {
			reach = max(reach, o.reaches[i][column])
		}
	}
	return reach * units.Mm
}

// Over is how far behind the structure somebody of 14 years or more reaches who
// leans over it: what can hurt, from the height low to the height high, lies at
// least so far behind it. Heights between those of the table count as the worse of
// the two; a structure between two as the lower one.
//
// Heights are counted from where people stand, 0 or more, low no more than high. A
// structure lower than 1 m, which keeps nobody back, and any risk but "low" and
// "high" are an error.
//
// Caution: not for those who climb, and children do. Against a high risk nothing
// lower than 1.4 m is used without something else besides; a fence that only keeps a
// queue back is such a case.
//
// Source: ISO 13857:2019, 4.2.2, tables 1 and 2, from memory: verify against the
// document.
func (s Structure) Over(low, high units.Length) (Reach, error) {
	table, ok := overStructures[s.Risk]
	err := cmp.Or(argument.Within("height of the structure", s.Height, 1*units.M, 1e3*units.M), argument.NotNegative("lowest of what hurts", low), argument.Within("highest of what hurts", high, low, 1e3*units.M))
	if err == nil && !ok {
		err = fmt.Errorf(`risk: got %q, want "low" or "high"`, s.Risk)
	}
	if err != nil {
		return Reach{}, fmt.Errorf("structure: %w", err)
	}
	return Reach{table.at(s.Height, low, high), map[string]string{"low": overLow, "high": overHigh}[s.Risk]}, nil
}

// Up is the height that nobody reaches from where they stand: 2.5 m, or 2.7 m
// where the risk is "high". Any risk but "low" and "high" is an error.
//
// Source: ISO 13857:2019, 4.2.1, from memory: verify against the document.
func Up(risk string) (Reach, error) {
	switch risk {
	case "low":
		return Reach{2.5 * units.M, upward}, nil
	case "high":
		return Reach{2.7 * units.M, upward}, nil
	}
	return Reach{}, fmt.Errorf(`reach upward: risk: got %q, want "low" or "high"`, risk)
}

// Around is how far somebody of 14 years or more reaches round an edge or through
// a hole of at most 120 mm, with the arm held up to a joint: "shoulder" where
// nothing else stops it, "elbow", "wrist" or "knuckles". Any other joint is an error.
//
// Source: ISO 13857:2019, table 3, from memory: verify against the document.
func Around(heldTo string) (Reach, error) {
	joints := []string{"shoulder", "elbow", "wrist", "knuckles"}
	i := slices.Index(joints, heldTo)
	if i < 0 {
		return Reach{}, fmt.Errorf("reach round an edge: joint: got %q, want shoulder, elbow, wrist or knuckles", heldTo)
	}
	return Reach{[]units.Length{850 * units.Mm, 550 * units.Mm, 230 * units.Mm, 130 * units.Mm}[i], around}, nil
}

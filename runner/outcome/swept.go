package outcome

import (
	"math"
	"slices"
)

// A CheckID tells one check of a notebook from the others, the same in every
// run: what is checked, and how many checks of that very text came before it.
type CheckID struct {
	What string
	Nth  int // 0 for the first
}

// A Judged is one check in one run.
type Judged struct {
	Known       bool // false when the run ended early or did not come to the check
	Demand      float64
	Utilisation float64 // NaN when it has none
	Holds       bool
}

// A Swept is what became of the checks while one given took other values.
type Swept struct {
	Given   string
	Nominal float64   // what the notebook has
	Values  []float64 // what it took, rising, in SI base units
	Faults  []string  // by value: why that run ended early; empty when it did not
	Courses []*Course // one for each check, in the order they were put
}

// A Course is one check along a sweep.
type Course struct {
	Check   CheckID
	Nominal Judged   // with the notebook's own value
	Points  []Judged // by value
	Turns   []Turn   // rising
}

// A Turn is where a check changes between holding and failing.
type Turn struct {
	At    float64 // the last value found at which it holds
	Fails bool    // above At; otherwise below
}

// A Span is a stretch of values. An end that is infinite is that of the sweep.
type Span struct{ Low, High float64 }

// Fails lists where the check fails, rising. The ends that are finite are those
// of Turns.
func (c *Course) Fails() []Span {
	var spans []Span
	for i, t := range c.Turns {
		switch {
		case t.Fails:
			spans = append(spans, Span{t.At, math.Inf(1)})
		case i == 0:
			spans = append(spans, Span{math.Inf(-1), t.At})
		default:
			spans[len(spans)-1].High = t.At
		}
	}
	if len(c.Turns) == 0 && slices.ContainsFunc(c.Points, func(p Judged) bool { return p.Known && !p.Holds }) {
		spans = append(spans, Span{math.Inf(-1), math.Inf(1)})
	}
	return spans
}

// Greatest is the index of the point with the greatest utilisation, the first of
// several; -1 when none has any.
func (c *Course) Greatest() int {
	best := -1
	for i, p := range c.Points {
		if p.measured() && (best < 0 || p.Utilisation > c.Points[best].Utilisation) {
			best = i
		}
	}
	return best
}

// Moves reports whether the check differs along the sweep at all.
func (c *Course) Moves() bool {
	return slices.ContainsFunc(c.Points, func(p Judged) bool { return p.Known && p.differs(c.Nominal) })
}

// measured reports whether there is a utilisation.
func (j Judged) measured() bool { return j.Known && !math.IsNaN(j.Utilisation) }

// differs reports whether a check came out otherwise. The last digits of the
// arithmetic make no difference.
func (j Judged) differs(k Judged) bool {
	if j.Holds != k.Holds || j.measured() != k.measured() {
		return true
	}
	return j.measured() && j.Utilisation != k.Utilisation &&
		!(math.Abs(j.Utilisation-k.Utilisation) <= 1e-12*math.Abs(k.Utilisation))
}

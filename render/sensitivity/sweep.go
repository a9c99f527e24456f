package sensitivity

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"tautline/render/chart"
	"tautline/render/report"
	"tautline/render/working"
	"tautline/runner/check"
	"tautline/runner/outcome"
)

const (
	curvesEach = 5   // in one figure: more cannot be told apart
	mostDrawn  = 3.0 // utilisation beyond which a curve is not drawn
)

// Sweep makes the table and the figures of a sweep.
func Sweep(plan *check.Plan, out *outcome.Outcome, swept *outcome.Swept) *report.Sweep {
	g := variedOf(working.New(plan, out), swept.Given)
	last := len(swept.Values) - 1
	s := &report.Sweep{Symbol: g.symbol, Text: g.text, Steps: len(swept.Values),
		From: g.exact(swept.Values[0]), Nominal: g.exact(swept.Nominal), To: g.exact(swept.Values[last])}
	for _, c := range swept.Courses {
		row := &report.SweepRow{What: label(c.Check), From: report.ShareOf(c.Points[0]), Nominal: report.ShareOf(c.Nominal), To: report.ShareOf(c.Points[last]), Fails: stretches(c, g)}
		if k := c.Greatest(); k >= 0 {
			row.Greatest = report.ShareOf(c.Points[k])
			if row.Where = "at " + g.rounded(swept.Values[k]).String(); !c.Moves() {
				row.Where = "throughout"
			}
		}
		s.Rows = append(s.Rows, row)
	}
	s.Summary = summary(swept, g)
	drawSweep(s, swept, g)
	noteFaults(s, swept, g)
	return s
}

// stretches says where a check fails.
func stretches(c *outcome.Course, g varied) string {
	var words []string
	for _, span := range c.Fails() {
		fromStart, toEnd := math.IsInf(span.Low, 0), math.IsInf(span.High, 0)
		switch {
		case fromStart && toEnd:
			words = append(words, "always")
		case fromStart:
			words = append(words, "below "+g.rounded(span.High).String())
		case toEnd:
			words = append(words, "above "+g.rounded(span.Low).String())
		default:
			words = append(words, g.rounded(span.Low).String()+" to "+g.rounded(span.High).String())
		}
	}
	if len(words) == 0 {
		return "never"
	}
	return strings.Join(words, ", ")
}

// summary says which check is the first to fail, going up and going down from
// the notebook's own value.
func summary(swept *outcome.Swept, g varied) string {
	var up, down *outcome.Course
	var upAt, downAt float64
	broken := 0
	for _, c := range swept.Courses {
		if !c.Nominal.Holds {
			broken++
			continue
		}
		for _, t := range c.Turns {
			if t.Fails && t.At >= swept.Nominal && (up == nil || t.At < upAt) {
				up, upAt = c, t.At
			}
			if !t.Fails && t.At <= swept.Nominal && (down == nil || t.At > downAt) {
				down, downAt = c, t.At
			}
		}
	}
	way := func(word, beyond string, c *outcome.Course, at float64) string {
		if c == nil {
			return "Going " + word + ", none fails."
		}
		return fmt.Sprintf("Going %s, the first to fail is %s, %s %s.", word, label(c.Check), beyond, g.rounded(at))
	}
	var says []string
	if broken > 0 {
		says = append(says, fmt.Sprintf("%d of %d checks %s as the notebook stands.", broken, len(swept.Courses), report.Verb(broken, "fail")))
	}
	if up == nil && down == nil {
		return strings.Join(append(says, "Along the way nothing changes between holding and failing."), " ")
	}
	if swept.Values[len(swept.Values)-1] > swept.Nominal {
		says = append(says, way("up", "above", up, upAt))
	}
	if swept.Values[0] < swept.Nominal {
		says = append(says, way("down", "below", down, downAt))
	}
	return strings.Join(says, " ")
}

// drawSweep makes the figures: the checks that the given moves, those that come
// highest first.
func drawSweep(s *report.Sweep, swept *outcome.Swept, g varied) {
	var moved []*outcome.Course
	var still []string
	for _, c := range swept.Courses {
		if c.Greatest() >= 0 && c.Moves() {
			moved = append(moved, c)
		} else if !c.Moves() {
			still = append(still, label(c.Check))
		}
	}
	slices.SortStableFunc(moved, func(x, y *outcome.Course) int {
		return -cmp.Compare(x.Points[x.Greatest()].Utilisation, y.Points[y.Greatest()].Utilisation)
	})
	high := false
	for part := range slices.Chunk(moved, curvesEach) {
		f := &chart.Figure{Title: "Utilisation over " + s.Text, X: chart.Axis{Label: s.Text, Unit: g.unit.Symbol}, Y: chart.Axis{Label: "utilisation", Unit: "%"},
			Limits: []chart.Limit{{Name: "limit", At: 100}}}
		if n := swept.Nominal; n >= swept.Values[0] && n <= swept.Values[len(swept.Values)-1] {
			f.Limits = append(f.Limits, chart.Limit{Name: "in the notebook", At: g.unit.FromSI(n), Upright: true})
		}
		for _, c := range part {
			curve := chart.Curve{Name: label(c.Check)}
			for i, p := range c.Points {
				u := 100 * p.Utilisation
				if high = high || u > 100*mostDrawn; !p.Known || u > 100*mostDrawn {
					u = math.NaN()
				}
				curve.X, curve.Y = append(curve.X, g.unit.FromSI(swept.Values[i])), append(curve.Y, u)
			}
			f.Curves = append(f.Curves, curve)
		}
		s.Figures = append(s.Figures, f)
	}
	if high {
		s.Notes = append(s.Notes, fmt.Sprintf("What is above %g\u202f%% is not drawn.", 100*mostDrawn))
	}
	if len(still) > 0 {
		s.Notes = append(s.Notes, fmt.Sprintf("%s does not move: %s.", s.Text, strings.Join(still, "; ")))
	}
}

// noteFaults notes the values that could not be computed.
func noteFaults(s *report.Sweep, swept *outcome.Swept, g varied) {
	count, first := 0, -1
	for i, f := range swept.Faults {
		if f == "" {
			continue
		}
		if count++; first < 0 {
			first = i
		}
	}
	if count > 0 {
		s.Notes = append(s.Notes, fmt.Sprintf("%d of %d values could not be computed; the first, at %s: %s.", count, len(swept.Values),
			g.rounded(swept.Values[first]), strings.TrimSuffix(swept.Faults[first], ".")))
	}
}

package chart

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot"

	"tautline/render/lettering"
)

// A span is what one axis of a figure shows, from low to high in steps of 1, 2
// or 5 times a power of ten. Its tick labels are in units of ten to the power.
type span struct {
	low, high float64
	step      float64
	power     int
	log       bool // by powers of ten, with ticks at them or at 1, 2 and 5 times them
	empty     bool // nothing was added
}

func newSpan(log bool) span { return span{low: math.Inf(1), high: math.Inf(-1), log: log} }

func (s *span) add(v float64) { s.low, s.high = min(s.low, v), max(s.high, v) }

// nice widens the span to whole steps, and to zero when zero is near.
func (s span) nice() span {
	if s.log {
		return s.niceLog()
	}
	if s.low > s.high {
		s.low, s.high, s.empty = 0, 1, true
	}
	size := max(math.Abs(s.low), math.Abs(s.high))
	switch {
	case size < 1e-300:
		s.low, s.high = -1, 1
	case s.high-s.low < 1e-9*size: // one value
		s.low, s.high = s.low-0.1*size, s.high+0.1*size
	case s.low > 0 && s.low < 0.4*s.high:
		s.low = 0
	case s.high < 0 && s.high > 0.4*s.low:
		s.high = 0
	}
	s.step = lettering.NiceStep((s.high - s.low) / 5)
	s.low, s.high = math.Floor(s.low/s.step+1e-9)*s.step, math.Ceil(s.high/s.step-1e-9)*s.step
	size = max(math.Abs(s.low), math.Abs(s.high))
	if e := int(math.Floor(math.Log10(size))); e >= 5 || e < -3 {
		s.power = int(math.Floor(float64(e)/3)) * 3
	}
	return s
}

// fewDecades is up to how many powers of ten have ticks between them.
const fewDecades = 3

// niceLog widens a span of values above 0 to powers of ten or, where it covers
// few of them, to 1, 2 or 5 times a power.
func (s span) niceLog() span {
	if s.low > s.high {
		s.low, s.high, s.empty = 1, 10, true
	}
	low, high := logFloor(s.low), logCeiling(s.high)
	if high/low > math.Pow10(fewDecades) {
		low, high = math.Pow10(decade(s.low)), math.Pow10(int(math.Ceil(math.Log10(s.high)-1e-9)))
	}
	if low == high {
		low, high = logFloor(low*0.99), logCeiling(high*1.01)
	}
	s.low, s.high = low, high
	return s
}

// decade is the power of ten at or below v, a hair's breadth above v counting.
func decade(v float64) int { return int(math.Floor(math.Log10(v) + 1e-9)) }

// logFloor is the 1, 2 or 5 times a power of ten at or below v, logCeiling at or
// above it.
func logFloor(v float64) float64 {
	power := math.Pow10(decade(v))
	for _, m := range []float64{5, 2} {
		if v >= m*power*(1-1e-9) {
			return m * power
		}
	}
	return power
}

func logCeiling(v float64) float64 {
	power := math.Pow10(decade(v))
	for _, m := range []float64{1, 2, 5} {
		if v <= m*power*(1+1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// logTicks are at the powers of ten, not too many, or at 1, 2 and 5 times them.
func (s span) logTicks() []plot.Tick {
	var ticks []plot.Tick
	few := s.high/s.low <= math.Pow10(fewDecades)*(1+1e-9)
	first, last := decade(s.low), decade(s.high)
	skip := 1 + (last-first)/10
	for e := first; e <= last; e += skip {
		for _, m := range []float64{1, 2, 5} {
			v := m * math.Pow10(e)
			if m > 1 && !few || v < s.low*(1-1e-9) || v > s.high*(1+1e-9) {
				continue
			}
			label := lettering.Number(v)
			if !few || e >= 5 || e < -3 {
				label = "10" + lettering.Superscript(e)
				if m > 1 {
					label = strconv.Itoa(int(m)) + "·" + label
				}
			}
			ticks = append(ticks, plot.Tick{Value: v, Label: label})
		}
	}
	return ticks
}

func (s span) ticks() []plot.Tick {
	if s.log {
		return s.logTicks()
	}
	scale := math.Pow(10, float64(s.power))
	decimals := max(0, -int(math.Floor(math.Log10(s.step/scale)+1e-9)))
	first := math.Round(s.low / s.step)
	n := int(math.Round((s.high - s.low) / s.step))
	ticks := make([]plot.Tick, 0, n+1)
	for i := range n + 1 {
		v := (first + float64(i)) * s.step
		label := strconv.FormatFloat(v/scale+0, 'f', decimals, 64)
		ticks = append(ticks, plot.Tick{Value: v, Label: lettering.Typeset(label)})
	}
	return ticks
}

// title is the label of the axis with its unit: "bed pressure (kPa)".
func (s span) title(a Axis) string {
	unit := lettering.OneLine(a.Unit)
	if s.power != 0 {
		unit = strings.TrimSpace("×10" + lettering.Superscript(s.power) + " " + unit)
	}
	if unit == "" {
		return lettering.OneLine(a.Label)
	}
	return strings.TrimSpace(lettering.OneLine(a.Label) + " (" + unit + ")")
}

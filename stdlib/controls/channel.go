package controls

import (
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Part is something in a channel that can fail dangerously.
type Part struct {
	Name     string
	MTTFd    units.Time   // mean time to a dangerous failure, more than 0
	Coverage units.Number // share of its dangerous failures that is found, 0 to 1
}

func (p Part) check() error {
	for _, err := range []error{argument.Positive("mean time to a dangerous failure", p.MTTFd), argument.Within("coverage", p.Coverage, 0, 1)} {
		if err != nil {
			return fmt.Errorf("part %q: %w", p.Name, err)
		}
	}
	return nil
}

// A Wear is a part that wears with every operation, and how often it works.
type Wear struct {
	B10d  units.Number // operations until a tenth of such parts has failed dangerously, from its maker
	Days  units.Number // of use in a year, more than 0 to 365
	Hours units.Time   // of use in a day, more than 0 to 24 h
	Every units.Time   // from one operation to the next, more than 0
}

func (w Wear) demand(method string) {
	argument.Demand("controls: Wear."+method,
		argument.Positive("operations to a tenth failed", w.B10d), argument.Within("days in a year", w.Days, 1e-9, 365),
		argument.Within("hours in a day", w.Hours, 1e-9, 24*units.H), argument.Positive("time between operations", w.Every))
}

// Operations is how often the part works in a year.
//
//	n = w.Days*w.Hours/w.Every
//
// It panics when a field is out of range.
//
// Source: ISO 13849-1:2015, C.4.2 (from memory: verify against the document).
func (w Wear) Operations() units.Number {
	w.demand("Operations")
	return w.Days * w.Hours / w.Every
}

// MTTFd is the mean time to a dangerous failure of the part: B10d over a tenth of
// its operations in a year, in years.
//
// It panics when a field is out of range.
//
// Source: ISO 13849-1:2015, C.4.2 (from memory: verify against the document).
func (w Wear) MTTFd() units.Time {
	w.demand("MTTFd")
	return w.B10d / (0.1 * w.Operations()) * units.Yr
}

// Replace is after what time a tenth of such parts has failed: B10d over its
// operations in a year. By then the part has to be replaced, and after 20 years in
// any case.
//
// It panics when a field is out of range.
//
// Source: ISO 13849-1:2015, C.4.2 (from memory: verify against the document).
func (w Wear) Replace() units.Time {
	w.demand("Replace")
	return w.B10d / w.Operations() * units.Yr
}

// Part is the part in a channel.
//
// It panics when a field is out of range.
//
// Source: as MTTFd.
func (w Wear) Part(name string, coverage units.Number) Part {
	return Part{Name: name, MTTFd: w.MTTFd(), Coverage: coverage}
}

// ChannelTime is the mean time to a dangerous failure of a channel: the rates of
// its parts add up.
//
// No parts and parts out of range are an error.
//
// Source: ISO 13849-1:2015, D.1, equation (D.1) (from memory: verify against the
// document).
func ChannelTime(parts []Part) (units.Time, error) {
	if len(parts) == 0 {
		return 0, fmt.Errorf("channel: got no parts, want at least one")
	}
	rate := 0.0
	for _, p := range parts {
		if err := p.check(); err != nil {
			return 0, fmt.Errorf("channel: %w", err)
		}
		rate += 1 / p.MTTFd
	}
	return 1 / rate, nil
}

// AverageCoverage is the diagnostic coverage over all parts of a subsystem, each
// counted by its rate of failures.
//
// No parts and parts out of range are an error.
//
// Source: ISO 13849-1:2015, E.2, equation (E.1) (from memory: verify against the
// document).
func AverageCoverage(parts []Part) (units.Number, error) {
	whole, err := ChannelTime(parts)
	if err != nil {
		return 0, err
	}
	found := 0.0
	for _, p := range parts {
		found += p.Coverage / p.MTTFd
	}
	return found * whole, nil
}

// BothChannels is the mean time to a dangerous failure that stands for two
// channels which differ.
//
//	T = 2.0/3*(one + two - 1/(1/one+1/two))
//
// Both times are more than 0, and each is cut to the cap of a channel first: 100
// years, 2500 in category 4. Outside it panics.
//
// Source: ISO 13849-1:2015, D.2, equation (D.2) (from memory: verify against the
// document).
func BothChannels(one, two units.Time) units.Time {
	argument.Demand("controls: BothChannels", argument.Positive("time of one channel", one), argument.Positive("time of the other", two))
	return 2.0 / 3 * (one + two - 1/(1/one+1/two))
}

// A CCF is the measures that are taken against one cause that fails both channels.
// A measure counts whole or not at all.
type CCF struct {
	Separation  bool // signal paths apart: cables, clearances, guards between them
	Diversity   bool // different principles, makes or physical sizes
	Overload    bool // against too much voltage, pressure, current, temperature
	WellTried   bool // parts that have proved themselves
	Analysis    bool // failures and effects were analysed, and the design follows
	Competence  bool // designers know causes and consequences
	Environment bool // electromagnetic compatibility, or clean fluid
	Other       bool // temperature, shock, vibration, damp as the standards of the parts ask
}

// CCFLines are the measures with their points, for a table.
type CCFLines struct {
	Measure []string
	Points  []units.Number // what the measure is worth
	Counted []units.Number // that, or 0 where it is not taken
}

// enoughAgainstCCF is the score that category 2, 3 and 4 need.
const enoughAgainstCCF = 65

// Lines are the measures with their points.
//
// Source: ISO 13849-1:2015, Annex F, Table F.1 (from memory: verify against the
// document).
func (c CCF) Lines() CCFLines {
	var out CCFLines
	for _, m := range []struct {
		what   string
		points float64
		taken  bool
	}{
		{"separation of the channels", 15, c.Separation}, {"diversity", 20, c.Diversity}, {"protection against overload", 15, c.Overload},
		{"well-tried parts", 5, c.WellTried}, {"analysis of failures", 5, c.Analysis}, {"competence of designers", 5, c.Competence},
		{"electromagnetic compatibility, clean fluid", 25, c.Environment}, {"other influences of the place", 10, c.Other},
	} {
		counted := 0.0
		if m.taken {
			counted = m.points
		}
		out.Measure, out.Points, out.Counted = append(out.Measure, m.what), append(out.Points, m.points), append(out.Counted, counted)
	}
	return out
}

// Score is the sum of the points of the measures taken, 100 at most. Category 2, 3
// and 4 need 65.
//
// Source: ISO 13849-1:2015, Annex F, Table F.1 (from memory: verify against the
// document).
func (c CCF) Score() units.Number {
	sum := 0.0
	for _, p := range c.Lines().Counted {
		sum += p
	}
	return sum
}

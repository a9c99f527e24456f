package controls

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Subsystem is a stage of a safety function: what notices, what decides, what
// acts. Either its channels are given, or what its maker states for it as a whole.
type Subsystem struct {
	Name     string
	Category string // "B", "1", "2", "3" or "4"; for a stated one only told
	One, Two []Part // the parts of the channels; Two in category 3 and 4 only
	CCF      CCF

	Rate  units.Frequency // of dangerous failures, as the maker states it; 0 where channels are given
	Level string          // as the maker states it
}

// An Assessment is what a subsystem reaches.
type Assessment struct {
	Name, Category string
	MTTFd          units.Time // of a channel, capped; 0 for a stated one, as the classes are ""
	TimeClass      string
	Coverage       units.Number // average
	CoverageClass  string
	Score          units.Number    // of the measures against one cause for both channels
	Rate           units.Frequency // of dangerous failures
	Simple         string          // level by category and classes alone; of a stated one as stated
	Level          string          // the lower of that and the level of the rate
	Warnings       []string
}

// Assess finds what performance level a subsystem reaches.
//
// Each channel is capped at 100 years, 2500 in category 4, and two are made one.
// The level is the lower of that of the rate and that of the category and the
// classes, which differ near the ends of classes.
//
// Channels that a category does not have or misses, less than 65 points against
// one cause for both channels in category 2, 3 and 4, times and coverages for
// which the standard has no level, and a stated rate without a level or one that
// does not fit it are an error.
//
// Source: ISO 13849-1:2015, 4.5, Annex D, E, F and K (from memory: verify against
// the document).
func (s Subsystem) Assess() (Assessment, error) {
	a, err := s.assess()
	if err != nil {
		return Assessment{}, fmt.Errorf("subsystem %q: %w", s.Name, err)
	}
	return a, nil
}

func (s Subsystem) assess() (Assessment, error) {
	if s.Rate != 0 || s.Level != "" {
		return s.stated()
	}
	a := Assessment{Name: s.Name, Category: s.Category, Score: s.CCF.Score()}
	twice := s.Category == "3" || s.Category == "4"
	if (len(s.Two) > 0) != twice {
		return a, fmt.Errorf("category %s: got %d parts in a second channel, want some in category 3 and 4, and only there", s.Category, len(s.Two))
	}
	most := capped * units.Yr
	if s.Category == "4" {
		most = cappedFour * units.Yr
	}
	one, err := ChannelTime(s.One)
	if err != nil {
		return a, err
	}
	a.MTTFd = math.Min(one, most)
	if twice {
		two, err := ChannelTime(s.Two)
		if err != nil {
			return a, err
		}
		a.MTTFd = BothChannels(a.MTTFd, math.Min(two, most))
	}
	if a.Coverage, err = AverageCoverage(append(append([]Part{}, s.One...), s.Two...)); err != nil {
		return a, err
	}
	a.CoverageClass = CoverageClass(a.Coverage)
	if a.TimeClass, err = TimeClass(a.MTTFd); err != nil {
		return a, err
	}
	if s.Category != "B" && s.Category != "1" && a.Score < enoughAgainstCCF {
		return a, fmt.Errorf("category %s: measures against one cause for both channels: got %g points, want at least %d", s.Category, a.Score, enoughAgainstCCF)
	}
	if a.Simple, err = SimpleLevel(s.Category, a.TimeClass, a.CoverageClass); err != nil {
		return a, err
	}
	if a.Rate, err = FailureRate(s.Category, a.MTTFd, a.Coverage); err != nil {
		return a, err
	}
	byRate, err := Level(a.Rate)
	if err != nil {
		return a, err
	}
	a.Level = lower(byRate, a.Simple)
	if s.Category == "2" {
		a.Warnings = append(a.Warnings, "category 2 rests on a test that comes at least a hundred times as often as the demand, or at once with it and before anyone is hurt (ISO 13849-1:2015, 6.2.5; from memory: verify against the document)")
	}
	if a.MTTFd > capped*units.Yr {
		a.Warnings = append(a.Warnings, "the rate is that of 100 years: no row above it is at hand")
	}
	return a, nil
}

// stated is the assessment of what a maker states.
func (s Subsystem) stated() (Assessment, error) {
	a := Assessment{Name: s.Name, Category: s.Category, Rate: s.Rate, Simple: s.Level, Level: s.Level}
	if len(s.One)+len(s.Two) > 0 {
		return a, fmt.Errorf("got parts and a stated level or rate, want one of them")
	}
	if err := argument.Positive("stated rate", s.Rate); err != nil {
		return a, err
	}
	if _, err := rank(s.Level); err != nil {
		return a, fmt.Errorf("stated: %w", err)
	}
	byRate, err := Level(s.Rate)
	if err != nil {
		return a, err
	}
	if byRate < s.Level {
		return a, fmt.Errorf("stated level %q: got a rate of %.3g per hour, which is level %q: ask the maker again", s.Level, s.Rate/units.PerH, byRate)
	}
	return a, nil
}

// A Function is a safety function: subsystems in a row, of which each can lose it.
type Function struct {
	Name      string
	Required  string // performance level
	Emergency bool   // an emergency stop, which needs "c" at least
	Parts     []Subsystem
}

// A Reached is what a safety function reaches.
type Reached struct {
	Name     string
	Required string // with the least of an emergency stop
	Rate     units.Frequency
	Level    string
	Holds    bool         // Level is Required or better
	Parts    []Assessment // in their order
	Warnings []string
}

// Assess finds what performance level a safety function reaches.
//
// The rates of the subsystems add up; the level is that of the sum, and not better
// than that of the poorest subsystem.
//
// No subsystems, a required level that is none, and whatever Subsystem.Assess
// refuses are an error.
//
// Caution: the level counts failures of parts only. Faults of design, software and
// installation need measures of their own, and the function a test on the built
// ride.
//
// Source: ISO 13849-1:2015, 6.3 (from memory: verify against the document); the
// least level of an emergency stop by ISO 13850:2015, 4.1.5.1 (from memory: verify
// against the document).
func (f Function) Assess() (Reached, error) {
	out := Reached{Name: f.Name, Required: f.Required, Level: "e"}
	if _, err := rank(f.Required); err != nil {
		return Reached{}, fmt.Errorf("safety function %q: required: %w", f.Name, err)
	}
	if len(f.Parts) == 0 {
		return Reached{}, fmt.Errorf("safety function %q: got no subsystems, want at least one", f.Name)
	}
	if f.Emergency && out.Required < "c" {
		out.Required = "c"
	}
	for _, s := range f.Parts {
		a, err := s.Assess()
		if err != nil {
			return Reached{}, fmt.Errorf("safety function %q: %w", f.Name, err)
		}
		out.Parts = append(out.Parts, a)
		out.Rate += a.Rate
		out.Level = lower(out.Level, a.Level)
		for _, w := range a.Warnings {
			out.Warnings = append(out.Warnings, s.Name+": "+w)
		}
	}
	byRate, err := Level(out.Rate)
	if err != nil {
		return Reached{}, fmt.Errorf("safety function %q: %w", f.Name, err)
	}
	out.Level = lower(out.Level, byRate)
	out.Holds = out.Level >= out.Required
	return out, nil
}

// A Row is the subsystems of a function, for a table; of a stated one time and
// coverage are empty.
type Row struct {
	Name, Category []string
	Years          []string // mean time to a dangerous failure of a channel
	Coverage       []string // average
	Rate           []units.Frequency
	Level          []string
}

// Row is the subsystems of the function, one after the other.
func (r Reached) Row() Row {
	var out Row
	for _, a := range r.Parts {
		years, coverage := "", ""
		if a.MTTFd > 0 {
			years, coverage = fmt.Sprintf("%.0f", a.MTTFd/units.Yr), fmt.Sprintf("%.0f %%", 100*a.Coverage)
		}
		out.Name, out.Category, out.Level = append(out.Name, a.Name), append(out.Category, a.Category), append(out.Level, a.Level)
		out.Years, out.Coverage, out.Rate = append(out.Years, years), append(out.Coverage, coverage), append(out.Rate, a.Rate)
	}
	return out
}

package crew

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Hold is where the hands are at one end of a lift.
type Hold struct {
	Out    units.Length // before the middle of the ankles, 0 or more
	Height units.Length // over the floor, 0 or more
	Twist  units.Angle  // of the load from straight ahead, 0 to 180°
}

func (h Hold) check(end string) error {
	return cmp.Or(argument.NotNegative(end+": out", h.Out), argument.NotNegative(end+": height", h.Height), argument.Within(end+": twist", h.Twist, 0, math.Pi))
}

// A Lift is one piece taken up and put down.
type Lift struct {
	Name   string
	Mass   units.Mass      // more than 0
	From   Hold            // the origin
	To     Hold            // the destination
	Grip   string          // coupling: "good", "fair" or "poor"
	Rate   units.Frequency // lifts in a time, over 15 minutes, 0 or more
	Work   units.Time      // how long such lifting lasts without a rest, up to 8 h
	Placed bool            // set down with care: the destination counts, too
	People units.Number    // who lift it together, 1 to 3; 0 is one
	Pounds bool            // by the equation in pounds and inches, rounded a little otherwise
}

// constants are those of the equation in one system of units.
type constants struct {
	load                    units.Mass
	nearest, farthest       units.Length // of the hands
	knuckles, highest       units.Length
	byHeight                units.PerLength
	travelLeast, travelOver units.Length
}

func (l Lift) constants() constants {
	if l.Pounds {
		return constants{51 * units.Lb, 10 * units.In, 25 * units.In, 30 * units.In, 70 * units.In, 0.0075 / units.In, 10 * units.In, 1.8 * units.In}
	}
	return constants{23 * units.Kg, 25 * units.Cm, 63 * units.Cm, 75 * units.Cm, 175 * units.Cm, 0.003 / units.Cm, 25 * units.Cm, 4.5 * units.Cm}
}

// widestTwist is the angle beyond which nobody should lift.
const widestTwist = 135 * units.Deg

// Multipliers are the factors of the lifting equation at one end of a lift, 1 where
// nothing is taken off.
type Multipliers struct {
	Horizontal units.Number // by how far out the hands are
	Vertical   units.Number // by their height
	Distance   units.Number // by how far up or down the load goes
	Asymmetry  units.Number // by the twist
	Frequency  units.Number
	Coupling   units.Number // by the grip
}

func (m Multipliers) product() float64 {
	return m.Horizontal * m.Vertical * m.Distance * m.Asymmetry * m.Frequency * m.Coupling
}

// worst names the multiplier that takes most off.
func (m Multipliers) worst() string {
	name, least := "nothing", 1.0
	for _, f := range []struct {
		name string
		v    float64
	}{{"reach", m.Horizontal}, {"height", m.Vertical}, {"travel", m.Distance}, {"twist", m.Asymmetry}, {"frequency", m.Frequency}, {"grip", m.Coupling}} {
		if f.v < least {
			name, least = f.name, f.v
		}
	}
	return name
}

// A Judged is a lift judged by the lifting equation.
type Judged struct {
	Limit       units.Mass   // recommended weight limit, of all who lift
	Index       units.Number // mass over limit: 1 and less is for nearly everybody; infinite when the limit is 0
	End         string       // "origin" or "destination", where the limit is lower
	Origin      Multipliers
	Destination Multipliers
	AtOrigin    units.Mass // the limit there
	AtEnd       units.Mass // at the destination, whether it counts or not
	Warnings    []string
}

// Judge works the revised lifting equation for the lift: the load constant of 23 kg
// times six multipliers, at the origin and, where the load is placed with care, at
// the destination; the lower limit holds. The height at the origin decides on the
// frequency multiplier at both ends.
//
// Two people lift together two thirds of what each could alone, three a half: a
// limit of 4/3 and 3/2 of one person's, with a warning, as the equation itself is
// for one.
//
// A number out of its range, another grip or more than three people is an error.
// Hands more than 63 cm out, above 175 cm, twisted more than 135° or lifting more
// often than the table has give a limit of 0 and an infinite index, with a warning
// that says which.
//
// Caution: an index of 1 keeps most healthy workers from harm, not all. Below 3 it
// hurts some people, above it nearly everybody.
//
// Source: Waters, Putz-Anderson, Garg, Applications Manual for the Revised NIOSH
// Lifting Equation, DHHS (NIOSH) 94-110, revised 2021, pages 7 to 27, from public
// transcriptions; teams: HSE guidance L23, from memory: verify against the document.
func (l Lift) Judge() (Judged, error) {
	if err := l.check(); err != nil {
		return Judged{}, fmt.Errorf("lift %q: %w", l.Name, err)
	}
	share, err := TeamLimit(l.people())
	if err != nil {
		return Judged{}, fmt.Errorf("lift %q: %w", l.Name, err)
	}
	k := l.constants()
	j := Judged{Origin: l.multipliers(l.From), Destination: l.multipliers(l.To), End: "origin"}
	j.AtOrigin, j.AtEnd = k.load*j.Origin.product()*share, k.load*j.Destination.product()*share
	j.Limit = j.AtOrigin
	if l.Placed && j.AtEnd < j.AtOrigin {
		j.Limit, j.End = j.AtEnd, "destination"
	}
	j.Index = math.Inf(1)
	if j.Limit > 0 {
		j.Index = l.Mass / j.Limit
	} else {
		j.Warnings = append(j.Warnings, fmt.Sprintf("%s is not to be lifted at all: %s at the %s is beyond the equation", l.Name, j.at().worst(), j.End))
	}
	if n := l.people(); n > 1 {
		j.Warnings = append(j.Warnings, fmt.Sprintf("%s is lifted by %.0f people: the equation is for one, the share of a team a rule of guidance", l.Name, n))
	}
	return j, nil
}

// at are the multipliers at the end that governs.
func (j Judged) at() Multipliers {
	if j.End == "origin" {
		return j.Origin
	}
	return j.Destination
}

func (l Lift) people() float64 { return max(l.People, 1) }

func (l Lift) check() error {
	err := cmp.Or(argument.Positive("mass", l.Mass), l.From.check("origin"), l.To.check("destination"), argument.NotNegative("rate", l.Rate),
		argument.Within("time of work", l.Work, 0, 8*units.H), argument.Whole("people", l.People), argument.Within("people", l.People, 0, 3))
	if err == nil && coupling(l.Grip, true) == 0 {
		err = fmt.Errorf(`grip: got %q, want "good", "fair" or "poor"`, l.Grip)
	}
	return err
}

func (l Lift) multipliers(h Hold) Multipliers {
	k := l.constants()
	m := Multipliers{
		Horizontal: k.nearest / max(h.Out, k.nearest), Vertical: 1 - k.byHeight*math.Abs(h.Height-k.knuckles),
		Distance: 0.82 + k.travelOver/max(math.Abs(l.To.Height-l.From.Height), k.travelLeast), Asymmetry: 1 - 0.0032*h.Twist/units.Deg,
		Frequency: frequency(l.Rate, l.Work, !below(l.From.Height, k.knuckles)), Coupling: coupling(l.Grip, !below(h.Height, k.knuckles)),
	}
	if below(k.farthest, h.Out) {
		m.Horizontal = 0
	}
	if below(k.highest, h.Height) {
		m.Vertical = 0
	}
	if below(widestTwist, h.Twist) {
		m.Asymmetry = 0
	}
	m.Distance = min(m.Distance, 1)
	return m
}

// below is v < limit, with rounding left aside.
func below(v, limit float64) bool { return v < limit*(1-1e-9) }

// coupling is the multiplier for a grip, 0 for one that is none.
func coupling(grip string, high bool) float64 {
	switch {
	case grip == "good" || grip == "fair" && high:
		return 1
	case grip == "fair":
		return 0.95
	case grip == "poor":
		return 0.9
	}
	return 0
}

// The table of frequency multipliers: lifts a minute, then for work of up to 1, 2
// and 8 h the multiplier with the hands at the origin below 75 cm and above.
var frequencies = [][7]float64{
	{0.2, 1, 1, .95, .95, .85, .85}, {0.5, .97, .97, .92, .92, .81, .81}, {1, .94, .94, .88, .88, .75, .75}, {2, .91, .91, .84, .84, .65, .65},
	{3, .88, .88, .79, .79, .55, .55}, {4, .84, .84, .72, .72, .45, .45}, {5, .80, .80, .60, .60, .35, .35}, {6, .75, .75, .50, .50, .27, .27},
	{7, .70, .70, .42, .42, .22, .22}, {8, .60, .60, .35, .35, .18, .18}, {9, .52, .52, .30, .30, 0, .15}, {10, .45, .45, .26, .26, 0, .13},
	{11, .41, .41, 0, .23, 0, 0}, {12, .37, .37, 0, .21, 0, 0}, {13, 0, .34, 0, 0, 0, 0}, {14, 0, .31, 0, 0, 0, 0}, {15, 0, .28, 0, 0, 0, 0},
}

// FrequencyMultiplier is what the lifting equation leaves for lifting at a rate,
// over a time of work, with the hands at the origin at a height. Between the rows
// of the table it is a straight line, and 0 above the last row that is not 0.
//
// The rate and the height are 0 or more, the time of work 0 to 8 h; outside it
// panics. Lifting of up to 1 h is followed by a rest of 1.2 of that time, of up to
// 2 h by a rest of 0.3 of it; else it counts as one stretch.
//
// Source: DHHS (NIOSH) 94-110, revised 2021, tables 1 and 5, from public
// transcriptions.
func FrequencyMultiplier(rate units.Frequency, work units.Time, height units.Length) units.Number {
	argument.Demand("crew: FrequencyMultiplier", argument.NotNegative("rate", rate), argument.Within("time of work", work, 0, 8*units.H), argument.NotNegative("height", height))
	return frequency(rate, work, !below(height, 75*units.Cm))
}

func frequency(rate, work float64, high bool) float64 {
	column := 5
	switch {
	case !below(1*units.H, work):
		column = 1
	case !below(2*units.H, work):
		column = 3
	}
	if high {
		column++
	}
	f := max(rate/units.PerMin, frequencies[0][0])
	for i := range len(frequencies) - 1 {
		a, b := frequencies[i], frequencies[i+1]
		switch {
		case below(b[0], f):
		case f <= a[0]*(1+1e-9):
			return a[column]
		case f >= b[0]*(1-1e-9):
			return b[column]
		case b[column] == 0:
			return 0
		default:
			return a[column] + (b[column]-a[column])*(f-a[0])/(b[0]-a[0])
		}
	}
	return 0
}

// AverageRate is the rate of lifts over fifteen minutes that are not all spent
// lifting.
//
//	F = rate*active/(15*60)
//
// The rate is 0 or more, the time spent lifting 0 to 15 min; outside it panics.
//
// Source: DHHS (NIOSH) 94-110, revised 2021, page 16.
func AverageRate(rate units.Frequency, active units.Time) units.Frequency {
	argument.Demand("crew: AverageRate", argument.NotNegative("rate", rate), argument.Within("time spent lifting", active, 0, 15*units.Min))
	return rate * active / (15 * units.Min)
}

// TeamLimit is what people lift together over what one of them lifts alone: 4/3 for
// two and 3/2 for three.
//
// The number of people is whole; more than three, or fewer than one, is an error:
// they get in each other's way, so use wheels or a hoist.
//
// Source: HSE guidance L23 on manual handling: two thirds and half of the sum; from
// memory: verify against the document.
func TeamLimit(people units.Number) (units.Number, error) {
	switch people {
	case 1:
		return 1, nil
	case 2:
		return 2 * 2.0 / 3, nil
	case 3:
		return 3 * 1.0 / 2, nil
	}
	return 0, fmt.Errorf("people: got %g, want 1, 2 or 3: for more use wheels or a hoist", people)
}

// Lifts are lifts judged, for a table.
type Lifts struct {
	Name     []string
	Mass     []units.Mass
	People   []units.Number
	Limit    []units.Mass
	Index    []units.Number
	From     []units.Length // height of the hands at the origin
	To       []units.Length // and at the destination
	Out      []units.Length // how far out they are at the most
	Governs  []string       // what takes most off, and at which end
	Worst    units.Number
	Heaviest string // name of the lift with the worst index
	Alone    bool   // nobody needs a second person
	Warnings []string
}

// Survey judges lifts one after the other.
//
// No lift, or one that Lift.Judge refuses, is an error.
//
// Source: as Lift.Judge.
func Survey(lifts []Lift) (Lifts, error) {
	if len(lifts) == 0 {
		return Lifts{}, fmt.Errorf("lifts: got none, want one or more")
	}
	s := Lifts{Worst: -1, Alone: true}
	for _, l := range lifts {
		j, err := l.Judge()
		if err != nil {
			return Lifts{}, err
		}
		s.Name, s.Mass, s.People = append(s.Name, l.Name), append(s.Mass, l.Mass), append(s.People, l.people())
		s.Limit, s.Index = append(s.Limit, j.Limit), append(s.Index, j.Index)
		s.From, s.To, s.Out = append(s.From, l.From.Height), append(s.To, l.To.Height), append(s.Out, max(l.From.Out, l.To.Out))
		end := map[string]string{"origin": "taken up", "destination": "put down"}[j.End]
		s.Governs = append(s.Governs, fmt.Sprintf("%s, %s", j.at().worst(), end))
		s.Alone = s.Alone && l.people() == 1
		s.Warnings = append(s.Warnings, j.Warnings...)
		if j.Index > s.Worst {
			s.Worst, s.Heaviest = j.Index, l.Name
		}
	}
	return s, nil
}

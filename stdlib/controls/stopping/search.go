package stopping

import (
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/kept"
	"tautline/stdlib/motion"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// A Worst is what a search over a programme found.
type Worst struct {
	// One row for each axis and each way that it goes on turning: yaw, pitch and
	// roll with rising angle, then with falling. An axis that never does has no
	// level and an angle of 0.
	Axis   []string
	Way    []string // "rising" or "falling"
	Moment []units.Time
	Level  []string
	Speed  []units.AngularSpeed // at that moment
	Angle  []units.Angle        // greatest, without sign
	Rest   []units.Time         // of that stop, when the axis last moved

	// One row for each thing felt, at any seat.
	Feeling []string // forward, back, sideways, pressed, lifted, jolt
	Value   []units.Acceleration
	Seat    []string
	When    []units.Time
	During  []string // level

	Jerk     units.Jerk // greatest at any seat, jolts left out
	JerkSeat string
	JerkWhen units.Time

	Whole      units.Time // longest until all rest
	WholeWhen  units.Time
	Travel     units.Length // greatest of a seat or a point of the hull
	TravelWhen units.Time

	Struck   []units.AngularSpeed // of yaw, pitch, roll: fastest meeting with an end of travel
	Tried    int                  // stops worked out
	Warnings []string
}

// The things searched for, by their place in a list of values.
const (
	angles   = 0 // six: rising, then falling
	feelings = 6 // six
	jerks    = 12
	wholes   = 13
	travels  = 14
	kinds    = 15
)

// values are what a search compares of a stop; more is worse.
func (c Course) values() (v [kinds]float64) {
	for k, a := range c.Angle {
		v[angles+k], v[angles+3+k] = math.Max(a, 0), math.Max(-a, 0)
	}
	for i := range feelings {
		v[feelings+i] = math.Inf(-1)
	}
	for _, f := range c.Feels {
		for i, felt := range f.values() {
			v[feelings+i] = math.Max(v[feelings+i], felt)
		}
		v[jerks] = math.Max(v[jerks], f.Jerk)
	}
	v[wholes], v[travels] = c.Whole, c.Travel
	return v
}

func (f Feel) values() [6]float64 {
	return [6]float64{f.Forward, f.Back, f.Side, f.Press, -f.Lift, f.Jolt}
}

// search is all that a search depends on.
type search struct {
	Chain     Chain
	Programme motion.Programme
	Fault     Fault
	Step      units.Time
}

// Search tries a stop at every moment of a programme, a step apart, finer about
// each worst one, and keeps what is worst: for each axis and each way round, for
// each thing that a rider feels at any seat, and for all axes together.
//
// The step is 10 ms to 1 s, a fifth of it about the worst moments. What
// Programme.Ride and Chain.Stop refuse is an error, as is a step out of range.
//
// Caution: between the moments tried it can be a little worse, and the built ride
// does not keep to its programme to the last degree. Measure stops at the worst
// moments on the built ride.
//
// Source: as Chain.Stop.
func (c Chain) Search(p motion.Programme, fault Fault, step units.Time) (Worst, error) {
	return kept.Result("stopping.Chain.Search", search{c, p, fault, step}, search.run)
}

func (s search) run() (Worst, error) {
	if err := argument.Within("step", s.Step, 10*units.Ms, 1); err != nil {
		return Worst{}, fmt.Errorf("search: %w", err)
	}
	if err := s.Chain.ready(s.Fault); err != nil {
		return Worst{}, fmt.Errorf("search: %w", err)
	}
	ride, err := s.Programme.Ride(s.Chain.Base)
	if err != nil {
		return Worst{}, fmt.Errorf("search: %w", err)
	}
	w, moves := Worst{Struck: make([]float64, 3)}, false
	var best, at [kinds]float64
	for i := range best {
		best[i] = math.Inf(-1)
	}
	tried := map[float64]bool{}
	try := func(moment float64) {
		if moment < 0 || moment > ride.Duration || tried[moment] {
			return
		}
		tried[moment] = true
		course := s.Chain.stop(ride, moment, s.Fault, false)
		for i, v := range course.values() {
			if v > best[i] {
				best[i], at[i] = v, moment
			}
		}
		for k, v := range course.Struck {
			w.Struck[k] = math.Max(w.Struck[k], math.Abs(v))
		}
		moves = moves || !course.Rests
	}
	for _, t := range ride.Times(s.Step) {
		try(t)
	}
	for _, middle := range at { // a copy
		for i := -4; i <= 4; i++ {
			try(middle + s.Step*float64(i)/5)
		}
	}
	w.Tried = len(tried)
	s.fill(&w, ride, best, at)
	for k, v := range w.Struck {
		if v > 0 {
			w.Warnings = append(w.Warnings, strikes(k, v))
		}
	}
	if moves {
		w.Warnings = append(w.Warnings, fmt.Sprintf("some stop is not over after %g s", longest))
	}
	return w, nil
}

// fill writes what was found at its moments.
func (s search) fill(w *Worst, ride motion.Ride, best, at [kinds]float64) {
	for k := range 6 {
		way := [2]string{"rising", "falling"}[k/3]
		w.Axis, w.Way, w.Angle = append(w.Axis, axisNames[k%3]), append(w.Way, way), append(w.Angle, best[angles+k])
		var course Course
		if best[angles+k] == 0 {
			course = Course{Speed: make([]float64, 3), Rest: make([]float64, 3)}
		} else {
			course = s.Chain.stop(ride, at[angles+k], s.Fault, false)
		}
		w.Moment, w.Level = append(w.Moment, course.Moment), append(w.Level, course.Level)
		w.Speed, w.Rest = append(w.Speed, course.Speed[k%3]), append(w.Rest, course.Rest[k%3])
	}
	seat := func(kind int, of func(Feel) float64) string {
		name := ""
		for _, f := range s.Chain.stop(ride, at[kind], s.Fault, false).Feels {
			if of(f) == best[kind] {
				name = f.Seat
			}
		}
		return name
	}
	if len(s.Chain.Base.Seats) > 0 {
		for i, name := range []string{"forward", "back", "sideways", "pressed", "lifted", "jolt"} {
			kind := feelings + i
			value := best[kind]
			if name == "lifted" {
				value = -value // the least felt upward
			}
			w.Feeling, w.Value, w.When, w.During = append(w.Feeling, name), append(w.Value, value), append(w.When, at[kind]), append(w.During, ride.LevelAt(at[kind]))
			w.Seat = append(w.Seat, seat(kind, func(f Feel) float64 { return f.values()[i] }))
		}
		w.Jerk, w.JerkWhen = best[jerks], at[jerks]
		w.JerkSeat = seat(jerks, func(f Feel) float64 { return f.Jerk })
	}
	w.Whole, w.WholeWhen, w.Travel, w.TravelWhen = best[wholes], at[wholes], best[travels], at[travels]
}

// Moments are the moments at which the search found something worst, rising.
//
// Source: as Chain.Search.
func (w Worst) Moments() []units.Time {
	var all []float64
	for i, t := range w.Moment {
		if w.Angle[i] > 0 {
			all = append(all, t)
		}
	}
	all = append(append(all, w.When...), w.JerkWhen, w.WholeWhen, w.TravelWhen)
	slices.Sort(all)
	return slices.Compact(all)
}

// A Survey is what each of some faults leads to, one row for each.
type Survey struct {
	Part, Left       []string
	Whole            []units.Time  // longest until all rest
	Yaw, Pitch, Roll []units.Angle // greatest, without sign
	Travel           []units.Length
	Press, Lift      []units.Acceleration // greatest and least felt upward at any seat
	Struck           []units.AngularSpeed // fastest meeting with an end of travel
	Outcome          []string             // "rests", "meets its end" or "still moves", of the worst moment
}

// survey is all that a survey depends on.
type survey struct {
	Chain     Chain
	Programme motion.Programme
	Faults    []Fault
	Moments   []units.Time
}

// Survey works out what each fault leads to, at the worst of some moments of a
// programme.
//
// A drive that runs away without a way runs both ways. No faults or moments, a
// moment outside the ride, and what Programme.Ride and Chain.Stop refuse are an
// error.
//
// Caution: only the faults listed are judged, one at a time. What else can break,
// and what breaks with it, has to be thought of by someone who knows the parts.
//
// Source: as Chain.Stop.
func (c Chain) Survey(p motion.Programme, faults []Fault, moments []units.Time) (Survey, error) {
	return kept.Result("stopping.Chain.Survey", survey{c, p, faults, moments}, survey.run)
}

func (s survey) run() (Survey, error) {
	if len(s.Faults) == 0 || len(s.Moments) == 0 {
		return Survey{}, fmt.Errorf("survey: got %d faults and %d moments, want at least one of each", len(s.Faults), len(s.Moments))
	}
	ride, err := s.Programme.Ride(s.Chain.Base)
	if err != nil {
		return Survey{}, fmt.Errorf("survey: %w", err)
	}
	var out Survey
	for _, f := range s.Faults {
		if err := s.Chain.ready(f); err != nil {
			return Survey{}, fmt.Errorf("survey: %w", err)
		}
		var most [kinds]float64
		for i := range most {
			most[i] = math.Inf(-1)
		}
		struck, moves := 0.0, false
		ways := []float64{f.Way}
		if f.RunsAway != "" && f.Way == 0 {
			ways = []float64{1, -1}
		}
		for _, t := range s.Moments {
			if err := argument.Within("moment", t, 0, ride.Duration); err != nil {
				return Survey{}, fmt.Errorf("survey: %w", err)
			}
			for _, f.Way = range ways {
				course := s.Chain.stop(ride, t, f, false)
				for i, v := range course.values() {
					most[i] = math.Max(most[i], v)
				}
				for _, v := range course.Struck {
					struck = math.Max(struck, math.Abs(v))
				}
				moves = moves || !course.Rests
			}
		}
		out.add(f, most, struck, moves)
	}
	return out, nil
}

func (s *Survey) add(f Fault, most [kinds]float64, struck float64, moves bool) {
	outcome := "rests"
	switch {
	case moves:
		outcome = "still moves"
	case struck > 0:
		outcome = "meets its end"
	}
	both := func(k int) float64 { return math.Max(most[angles+k], most[angles+3+k]) }
	s.Part, s.Left, s.Outcome = append(s.Part, f.Part), append(s.Left, f.Left), append(s.Outcome, outcome)
	s.Whole, s.Travel, s.Struck = append(s.Whole, most[wholes]), append(s.Travel, most[travels]), append(s.Struck, struck)
	s.Yaw, s.Pitch, s.Roll = append(s.Yaw, both(0)), append(s.Pitch, both(1)), append(s.Roll, both(2))
	press, lift := most[feelings+3], -most[feelings+4]
	if math.IsInf(press, -1) { // no seats
		press, lift = 0, 0
	}
	s.Press, s.Lift = append(s.Press, press), append(s.Lift, lift)
}

// Draw draws the stop over time: the speed of each axis that moves, and when the
// contact opens, the outputs change and the power goes.
//
// The figure's x axis is a time, its y axis an angular speed. A course without
// traces, as none of Chain.Stop is, draws nothing but the times.
func (c Course) Draw(fig *sheet.Figure) {
	fig.Axes("Time", "AngularSpeed")
	for k, speeds := range [][]float64{c.YawSpeed, c.PitchSpeed, c.RollSpeed} {
		if slices.ContainsFunc(speeds, func(v float64) bool { return math.Abs(v) > still }) {
			fig.Curve(axisNames[k], c.Time, speeds)
		}
	}
	if c.Pull > 0 {
		fig.LimitX("pull", c.Pull)
	}
	fig.LimitX("contact open", c.Contact)
	if c.Command > c.Contact {
		fig.LimitX("command", c.Command)
	}
	if c.Off > c.Command {
		fig.LimitX("power off", c.Off)
	}
}

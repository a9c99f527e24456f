package tether

import (
	"fmt"
	"math"

	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Survey is what a wind of one speed does from every side, with all anchors and
// with each of them lost in turn. A utilisation is tension over holding; it is
// infinite where the device is lost.
type Survey struct {
	Speed units.Speed
	From  []units.Angle

	// With all anchors.
	Utilisation []units.Number // greatest of any anchor, by bearing of the wind
	Lifted      []units.Number // feet off the ground, by bearing
	Tension     []units.Force  // greatest over all bearings, by anchor
	Greatest    units.Number   // of Utilisation
	Governs     string         // the anchor with it
	Worst       units.Angle    // the bearing with it
	Next        units.Number   // greatest utilisation of any other anchor: the governing one is ahead by the rest

	// With one anchor lost.
	OneLost         []units.Number // greatest of any other anchor, whichever is lost, by bearing
	LossOf          []units.Number // greatest of any other anchor over all bearings, by the anchor lost
	TensionOneLost  []units.Force  // greatest over all bearings and losses, by anchor
	GreatestOneLost units.Number
	GovernsOneLost  string      // the anchor with it
	Lost            string      // while this one is lost
	WorstOneLost    units.Angle // in a wind from this bearing
	State           string      // worst state of the device over all cases

	Warnings []string
}

// rank orders states from the best to the worst.
func rank(state string) int {
	for i, s := range []string{StateStands, StateSlid, StateLifted, StateHangs} {
		if s == state {
			return i
		}
	}
	return 4
}

// Survey solves the set in a wind of a speed from n bearings evenly round from
// north, with all anchors and with each of them lost in turn.
//
// The speed is 0 or more, n 1 or more. A set or number out of its range is an
// error. Warnings are as in Solve; a lost or undecided device, and one that lifts,
// adds one.
//
// Caution: the device is taken as rigid and the ground as even. A bed that is soft,
// a stake that gives more than its neighbours and a strap drawn tighter than the
// others change who carries what: keep a reserve, and look at every anchor.
//
// Source: as Solve.
func (s Set) Survey(speed units.Speed, n int) (Survey, error) {
	m, err := s.model()
	if err == nil {
		err = argument.NotNegative("wind speed", speed)
	}
	if err == nil && n < 1 {
		err = fmt.Errorf("number of bearings: got %d, want 1 or more", n)
	}
	if err != nil {
		return Survey{}, err
	}
	out := Survey{Speed: speed, From: windload.Bearings(n), State: StateStands,
		Utilisation: make([]float64, n), Lifted: make([]float64, n), OneLost: make([]float64, n),
		Tension: make([]float64, len(s.Anchors)), TensionOneLost: make([]float64, len(s.Anchors)), LossOf: make([]float64, len(s.Anchors))}
	for i, from := range out.From {
		l, err := windload.On(s.Faces, s.Pressure(speed), from)
		if err != nil {
			return Survey{}, err
		}
		load := wrenchOfLoad(l, s.Factors.Wind)
		m.body.off = -1
		out.all(m, i, m.hold(load))
		start := m.u
		for off := range s.Anchors {
			m.body.off, m.u = off, start
			out.without(m, i, off, load)
		}
		m.u = start
	}
	for i, t := range out.Tension {
		if use := t / s.Anchors[i].Holding; s.Anchors[i].Name != out.Governs {
			out.Next = math.Max(out.Next, use)
		}
	}
	out.Warnings = append(s.warnings(), out.doubts()...)
	return out, nil
}

// all takes in what the i-th bearing does with all anchors.
func (v *Survey) all(m *model, i int, h Held) {
	v.Utilisation[i], v.Lifted[i] = h.Utilisation, h.Lifted
	for k, t := range h.Tension {
		v.Tension[k] = math.Max(v.Tension[k], t)
	}
	if h.Utilisation > v.Greatest*(1+1e-9) {
		v.Greatest, v.Governs, v.Worst = h.Utilisation, h.Governs, v.From[i]
	}
	if rank(h.State) > rank(v.State) {
		v.State = h.State
	}
}

// without takes in what the i-th bearing does with one anchor lost.
func (v *Survey) without(m *model, i, off int, load [6]float64) {
	use, governs := math.Inf(1), ""
	state := m.equilibrium(load)
	if state == "" {
		use, state = 0, StateStands // how it stands is told of the whole set only
		for k, a := range m.set.Anchors {
			t := m.tension(k)
			v.TensionOneLost[k] = math.Max(v.TensionOneLost[k], t)
			if t > use*a.Holding {
				use, governs = t/a.Holding, a.Name
			}
		}
	}
	v.OneLost[i], v.LossOf[off] = math.Max(v.OneLost[i], use), math.Max(v.LossOf[off], use)
	if use > v.GreatestOneLost*(1+1e-9) {
		v.GreatestOneLost, v.GovernsOneLost, v.Lost, v.WorstOneLost = use, governs, m.set.Anchors[off].Name, v.From[i]
	}
	if rank(state) > rank(v.State) {
		v.State = state
	}
}

// doubts says what a crew has to know beyond the numbers.
func (v *Survey) doubts() []string {
	switch rank(v.State) {
	case rank(StateLifted), rank(StateHangs):
		return []string{fmt.Sprintf("the device has %s in a wind of %.1f m/s: wind gets under it and finds more to push on than the faces given", v.State, v.Speed)}
	case rank(StateOpen):
		return []string{fmt.Sprintf("the device is %s in a wind of %.1f m/s, from some side or with some anchor lost", v.State, v.Speed)}
	}
	return nil
}

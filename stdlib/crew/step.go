package crew

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Step is one thing done when a set is put up or taken down.
type Step struct {
	Name   string
	After  []string     // steps that must be finished
	Time   units.Time   // more than 0
	People units.Number // whole; 0 for what goes on by itself, as a bed that fills
}

// A Schedule is who does which step when.
type Schedule struct {
	Number []units.Number // of the steps, as they begin
	Name   []string
	After  []string // numbers of the steps that must be finished
	Begin  []units.Time
	End    []units.Time
	Who    []string     // "A", "A and B", or "nobody" for what goes on by itself
	Spare  []units.Time // by which the step may be late without the end being later, where hands allow
	Blank  []string     // to write in
	People units.Number
	Total  units.Time
	Chain  []string     // the longest chain of steps that wait for one another
	Least  units.Time   // no crew of this size is quicker: the chain, or the work over the people
	Work   units.Time   // time of all people in steps
	Busy   units.Number // share of the people's time that is work
}

// Arrange plans the steps for so many people. Whenever hands are free, the step goes
// first that has the longest chain of others waiting for it; going by the work that
// waits, and by the time of the step, is tried as well, and the shortest of the
// three plans taken. Of equal steps the first in the list goes first.
//
// The people are whole, 1 to 26. No step, a name that is missing or stands twice, a
// step after an unknown one, steps that wait for each other in a ring, a step that
// takes more people than there are, or a number out of its range is an error. The
// plan need not be the shortest of all: Least says how much shorter one could be at
// the most.
//
// Caution: a plan is no order to hurry. Wind, ground and people decide; a step that
// is not finished is not started upon.
//
// Source: list scheduling by the critical path; Graham, Bounds on Multiprocessing
// Timing Anomalies, SIAM J. Appl. Math. 17, 1969. Times of steps: measured in the
// shop's yard, or guessed; say which.
func Arrange(steps []Step, people units.Number) (Schedule, error) {
	if err := cmp.Or(argument.Whole("people", people), argument.Within("people", people, 1, 26)); err != nil {
		return Schedule{}, fmt.Errorf("schedule: %w", err)
	}
	n, err := network(steps, int(people))
	if err != nil {
		return Schedule{}, fmt.Errorf("schedule: %w", err)
	}
	best := n.list(n.tail)
	for _, rule := range [][]float64{n.work, n.time} {
		if r := n.list(rule); r.total < best.total*(1-1e-12) {
			best = r
		}
	}
	return n.schedule(best), nil
}

// A net is steps with those that they wait for.
type net struct {
	steps  []Step
	people int
	before [][]int
	time   []float64 // of the step
	tail   []float64 // of the longest chain that starts with the step
	work   []float64 // of all steps that wait for it, and its own
	order  []int     // every step after those that it waits for
}

func network(steps []Step, people int) (*net, error) {
	if len(steps) == 0 || len(steps) > 500 {
		return nil, fmt.Errorf("steps: got %d, want 1 to 500", len(steps))
	}
	index := map[string]int{}
	for i, s := range steps {
		if _, twice := index[s.Name]; twice || s.Name == "" {
			return nil, fmt.Errorf("step %d: name: got %q, want one of its own", i+1, s.Name)
		}
		if err := cmp.Or(argument.Positive("time", s.Time), argument.Whole("people", s.People), argument.NotNegative("people", s.People)); err != nil {
			return nil, fmt.Errorf("step %q: %w", s.Name, err)
		}
		if s.People > float64(people) {
			return nil, fmt.Errorf("step %q: people: got %g, want at most the %d of the crew: find another way to do it, or take more people", s.Name, s.People, people)
		}
		index[s.Name] = i
	}
	n := &net{steps: steps, people: people, before: make([][]int, len(steps))}
	for i, s := range steps {
		n.time = append(n.time, s.Time)
		for _, name := range s.After {
			j, ok := index[name]
			if !ok {
				return nil, fmt.Errorf("step %q: after: got %q, want the name of a step", s.Name, name)
			}
			if !slices.Contains(n.before[i], j) {
				n.before[i] = append(n.before[i], j)
			}
		}
	}
	return n, n.sort()
}

// sort finds the order and the chains, or a ring.
func (n *net) sort() error {
	done := make([]bool, len(n.steps))
	for len(n.order) < len(n.steps) {
		found := false
		for i := range n.steps {
			if !done[i] && !slices.ContainsFunc(n.before[i], func(j int) bool { return !done[j] }) {
				done[i], found = true, true
				n.order = append(n.order, i)
			}
		}
		if !found {
			var ring []string
			for i, s := range n.steps {
				if !done[i] {
					ring = append(ring, s.Name)
				}
			}
			return fmt.Errorf("steps: %s: got a ring in which each waits for another, want a first one", strings.Join(ring, ", "))
		}
	}
	n.tail, n.work = make([]float64, len(n.steps)), make([]float64, len(n.steps))
	waits := make([]map[int]bool, len(n.steps))
	for _, i := range slices.Backward(n.order) {
		n.tail[i] += n.time[i]
		n.work[i] += n.time[i] * n.steps[i].People
		for j := range waits[i] {
			n.work[i] += n.time[j] * n.steps[j].People
		}
		for _, j := range n.before[i] {
			n.tail[j] = max(n.tail[j], n.tail[i])
			if waits[j] == nil {
				waits[j] = map[int]bool{}
			}
			waits[j][i] = true
			for k := range waits[i] {
				waits[j][k] = true
			}
		}
	}
	return nil
}

// A run is the times and hands of one way to do the steps.
type run struct {
	begin []float64
	hands [][]int
	total float64
}

// list starts, whenever hands are free, the ready steps in the order of a rank.
func (n *net) list(rank []float64) run {
	order := make([]int, len(n.steps))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rank[b], rank[a]) })
	r := run{begin: make([]float64, len(n.steps)), hands: make([][]int, len(n.steps))}
	end := make([]float64, len(n.steps))
	for i := range end {
		end[i] = math.Inf(1)
	}
	free := make([]float64, n.people) // when each is free
	started := make([]bool, len(n.steps))
	for now, left := 0.0, len(n.steps); left > 0; {
		for _, i := range order {
			if started[i] || slices.ContainsFunc(n.before[i], func(j int) bool { return end[j] > now }) {
				continue
			}
			hands := idle(free, now, int(n.steps[i].People))
			if len(hands) < int(n.steps[i].People) {
				continue
			}
			started[i], r.begin[i], r.hands[i], end[i] = true, now, hands, now+n.time[i]
			for _, h := range hands {
				free[h] = end[i]
			}
			r.total = max(r.total, end[i])
			left--
		}
		next := math.Inf(1)
		for _, e := range end {
			if e > now {
				next = min(next, e)
			}
		}
		now = next
	}
	return r
}

// idle are the first so many people who are free.
func idle(free []float64, now float64, count int) []int {
	var hands []int
	for h, f := range free {
		if len(hands) < count && f <= now {
			hands = append(hands, h)
		}
	}
	return hands
}

// schedule writes a run for the crew.
func (n *net) schedule(r run) Schedule {
	s := Schedule{People: float64(n.people), Total: r.total}
	order := slices.Clone(n.order)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(r.begin[a], r.begin[b]) })
	number := make([]int, len(order))
	for k, i := range order {
		number[i] = k + 1
	}
	latest := make([]float64, len(order))
	for i := range latest {
		latest[i] = r.total
	}
	for _, i := range slices.Backward(n.order) {
		for _, j := range n.before[i] {
			latest[j] = min(latest[j], latest[i]-n.time[i])
		}
	}
	for k, i := range order {
		var waits []int
		for _, j := range n.before[i] {
			waits = append(waits, number[j])
		}
		slices.Sort(waits)
		var after []string
		for _, j := range waits {
			after = append(after, fmt.Sprint(j))
		}
		s.Number, s.Name, s.After = append(s.Number, float64(k+1)), append(s.Name, n.steps[i].Name), append(s.After, strings.Join(after, ", "))
		s.Begin, s.End, s.Who = append(s.Begin, r.begin[i]), append(s.End, r.begin[i]+n.time[i]), append(s.Who, letters(r.hands[i]))
		s.Spare = append(s.Spare, max(0, latest[i]-r.begin[i]-n.time[i]))
		s.Work += n.time[i] * n.steps[i].People
		s.Blank = append(s.Blank, "")
	}
	longest := slices.Max(n.tail)
	s.Chain = n.chain(longest)
	s.Least = max(longest, s.Work/s.People)
	s.Busy = s.Work / (s.People * s.Total)
	return s
}

// chain names the steps of the longest chain, in their order.
func (n *net) chain(longest float64) []string {
	var names []string
	at := slices.Index(n.tail, longest)
	for at >= 0 {
		names = append(names, n.steps[at].Name)
		rest, next := n.tail[at]-n.time[at], -1
		for i := range n.steps {
			if slices.Contains(n.before[i], at) && (next < 0 || n.tail[i] > n.tail[next]) {
				next = i
			}
		}
		if rest <= 0 {
			break
		}
		at = next
	}
	return names
}

// letters name people.
func letters(hands []int) string {
	if len(hands) == 0 {
		return "nobody"
	}
	var names []string
	for _, h := range hands {
		names = append(names, string(rune('A'+h)))
	}
	if last := len(names) - 1; last > 0 {
		return strings.Join(names[:last], ", ") + " and " + names[last]
	}
	return names[0]
}

package crew

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Task is one of several kinds of lift that one person does by turns.
type Task struct {
	Name   string
	Mass   units.Mass      // more than 0
	Limit  units.Mass      // recommended weight limit without the frequency multiplier, more than 0
	Rate   units.Frequency // 0 or more
	Height units.Length    // of the hands at the origin
}

// Task is the lift as one of several kinds.
//
// A lift that Judge refuses, or whose limit is 0 whatever its rate, is an error.
//
// Source: DHHS (NIOSH) 94-110, revised 2021, pages 27 to 28.
func (l Lift) Task() (Task, error) {
	seldom := l
	seldom.Rate, seldom.Work = 0, 0
	j, err := seldom.Judge()
	if err != nil {
		return Task{}, err
	}
	if j.Limit == 0 {
		return Task{}, fmt.Errorf("lift %q: limit: got 0, want more: %s at the %s is beyond the equation", l.Name, j.at().worst(), j.End)
	}
	return Task{Name: l.Name, Mass: l.Mass, Limit: j.Limit, Rate: l.Rate, Height: l.From.Height}, nil
}

// A Composite is several kinds of lift by one person taken together.
type Composite struct {
	Index    units.Number   // composite lifting index; infinite where the table of frequencies ends
	Order    []string       // the tasks, the hardest first
	Single   []units.Number // index of each by itself, in this order
	Seldom   []units.Number // index of each without the frequency, in this order
	Warnings []string
}

// Together is the composite lifting index of tasks that one person does by turns
// over a time of work: the index of the hardest, and what the others add to it by
// making the lifts more frequent.
//
// The tasks' numbers stand in their ranges, the time of work is 0 to 8 h; no task,
// or a number outside, is an error. More lifts in all than the table has give an
// infinite index and a warning.
//
// Source: DHHS (NIOSH) 94-110, revised 2021, pages 27 to 28 and 46, from public
// transcriptions.
func Together(tasks []Task, work units.Time) (Composite, error) {
	if len(tasks) == 0 {
		return Composite{}, fmt.Errorf("tasks: got none, want one or more")
	}
	if err := argument.Within("time of work", work, 0, 8*units.H); err != nil {
		return Composite{}, err
	}
	type ranked struct {
		Task
		single, seldom float64
	}
	var list []ranked
	for _, t := range tasks {
		if err := cmp.Or(argument.Positive("mass", t.Mass), argument.Positive("limit", t.Limit), argument.NotNegative("rate", t.Rate), argument.NotNegative("height", t.Height)); err != nil {
			return Composite{}, fmt.Errorf("task %q: %w", t.Name, err)
		}
		r := ranked{Task: t, seldom: t.Mass / t.Limit, single: math.Inf(1)}
		if fm := FrequencyMultiplier(t.Rate, work, t.Height); fm > 0 {
			r.single = r.seldom / fm
		}
		list = append(list, r)
	}
	slices.SortStableFunc(list, func(a, b ranked) int { return cmp.Compare(b.single, a.single) })
	c := Composite{Index: list[0].single}
	rate := 0.0
	for i, t := range list {
		c.Order, c.Single, c.Seldom = append(c.Order, t.Name), append(c.Single, t.single), append(c.Seldom, t.seldom)
		before := FrequencyMultiplier(rate, work, t.Height)
		rate += t.Rate
		if i == 0 {
			continue
		}
		if fm := FrequencyMultiplier(rate, work, t.Height); fm > 0 && before > 0 {
			c.Index += t.seldom * (1/fm - 1/before)
		} else {
			c.Index = math.Inf(1)
		}
	}
	if math.IsInf(c.Index, 1) {
		c.Warnings = append(c.Warnings, fmt.Sprintf("%.3g lifts a minute in all are more than the table of frequencies has", rate/units.PerMin))
	}
	return c, nil
}

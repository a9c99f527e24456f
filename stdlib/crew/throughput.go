package crew

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Cycle is a ride, with getting on and off.
type Cycle struct {
	Seats  units.Number // 1 or more
	Taken  units.Number // share of the seats that are taken, more than 0 to 1
	Ride   units.Time   // more than 0
	Change units.Time   // getting off and on, 0 or more
}

func (c Cycle) check() error {
	return cmp.Or(argument.Within("seats", c.Seats, 1, 1e4), argument.Within("share taken", c.Taken, 1e-9, 1), argument.Positive("ride", c.Ride), argument.NotNegative("change", c.Change))
}

// Throughput is how many people ride in a time.
//
//	n = c.Seats*c.Taken/(c.Ride+c.Change)
//
// It panics when a field is out of its range.
//
// Source: definition.
func (c Cycle) Throughput() units.Frequency {
	argument.Demand("crew: Cycle.Throughput", c.check())
	return c.Seats * c.Taken / (c.Ride + c.Change)
}

// A Queue is what people who come at random find before a ride.
type Queue struct {
	Busy   units.Number // share of the time in which the ride runs
	Steady units.Time   // mean wait where each ride takes the same time
	Random units.Time   // mean wait where the times of rides differ as wildly as those of arrivals
}

// Wait is how long people wait who come at a rate, one by one and at random, and
// are served one after the other.
//
// The rate is 0 or more, the time for each more than 0; outside it is an error, as
// is a rate that the ride cannot keep up with: the queue then grows without end.
//
// Source: Khinchin–Pollaczek formula, M/D/1 and M/M/1 queues.
func Wait(arrivals units.Frequency, each units.Time) (Queue, error) {
	if err := cmp.Or(argument.NotNegative("arrivals", arrivals), argument.Positive("time for each", each)); err != nil {
		return Queue{}, fmt.Errorf("queue: %w", err)
	}
	busy := arrivals * each
	if busy >= 1 {
		return Queue{}, fmt.Errorf("queue: arrivals: got %.3g an hour, want less than the %.3g that are served: or the queue grows without end", arrivals/units.PerH, 1/each/units.PerH)
	}
	random := busy / (1 - busy) * each
	return Queue{Busy: busy, Steady: random / 2, Random: random}, nil
}

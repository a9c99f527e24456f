package throwing

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/internal/vector"
	"tautline/stdlib/kept"
	"tautline/stdlib/units"
)

// Meetings are what pairs of riders do to each other who both fly.
type Meetings struct {
	Pairs  units.Number // who both flew to the bed
	Air    units.Number // of them, who touched in the air
	Down   units.Number // who came down nearer to each other than allowed
	Either units.Number // one or the other
	Share  units.Number // of the pairs that did either
	Upper  units.Number // of all pairs like these, with the game's confidence
	Speed  units.Speed  // greatest with which two closed in who touched in the air
}

// meeting is all that Meet depends on.
type meeting struct {
	One, Other     Game
	Opposite       bool
	Within, Nearer float64
}

// Meet draws pairs: a rider of this game, and one of another game in the same bed who
// leaves at a moment after him, drawn evenly up to a time, whether his own hands
// would open then or not. Both are followed as in Throw, each as if the other were not there. Two
// touch in the air when the balls about their middles do; they come down on each other
// when their middles land nearer than a length.
//
// With opposite, the other game stands turned by half a turn about the middle of the
// bed, as its mirrored twin does. Within is 0 or more, nearer is 0 or more. As many
// riders are drawn as this game has flights; of those who do not fly there is no pair.
// A number out of its range, and games of which no pair flies, are errors.
//
// Caution: the share is that of pairs who come off so soon after each other. How often
// two do is a matter of the game, and of who stops it.
//
// Source: Newton's second law, derived here: two who fly freely close in on a straight
// line; bound: ShareUpTo.
func (g Game) Meet(other Game, opposite bool, within units.Time, nearer units.Length) (Meetings, error) {
	return kept.Result("throwing.Game.Meet", meeting{g, other, opposite, within, nearer}, meeting.work)
}

func (m meeting) work() (Meetings, error) {
	stages := [2]*stage{}
	for i, g := range []Game{m.One, m.Other} {
		if err := g.check(); err != nil {
			return Meetings{}, fmt.Errorf("meet: %s game: %w", []string{"first", "other"}[i], err)
		}
		s, err := newStage(g)
		if err != nil {
			return Meetings{}, fmt.Errorf("meet: %s game: %w", []string{"first", "other"}[i], err)
		}
		stages[i] = s
	}
	for _, err := range []error{argument.NotNegative("time within which both leave", m.Within), argument.NotNegative("length nearer than which they land", m.Nearer)} {
		if err != nil {
			return Meetings{}, fmt.Errorf("meet: %w", err)
		}
	}
	var out Meetings
	draw := draws(uint64(m.One.Seed)<<20 ^ uint64(m.Other.Seed)<<40)
	for range m.One.Flights {
		first, off := stages[0].release(&draw)
		second := stages[1].rider(&draw)
		later := draw.between(0, m.Within)
		if !off {
			continue
		}
		m.pair(&out, stages, first, stages[1].leave(second, min(first.start+later, stages[1].until)))
	}
	if out.Pairs == 0 {
		return Meetings{}, fmt.Errorf("meet: of %d pairs none flew to the bed: weaken the grip or push off harder", m.One.Flights)
	}
	out.Share = out.Either / out.Pairs
	var err error
	out.Upper, err = ShareUpTo(out.Either, out.Pairs, m.One.Confidence)
	return out, err
}

// pair follows two flights and counts what they do to each other.
func (m meeting) pair(out *Meetings, stages [2]*stage, first, second flight) {
	var ways [2]path
	var lands [2]float64
	var at, down [2]vector.Vector
	for i, f := range []flight{first, second} {
		start, s := f, stages[i]
		if s.fly(&f); f.back {
			return
		}
		ways[i] = s.path(&start)
		lands[i] = start.start + ways[i].down(s.Bed.Crown+s.Round)
		at[i], down[i] = vector.Vector{s.Bed.X, s.Bed.Y}, f.at
	}
	out.Pairs++
	if m.Opposite {
		down[1][0], down[1][1] = -down[1][0], -down[1][1]
	}
	// Where one is as seen from the other, and how fast.
	seen := func(t float64) (vector.Vector, vector.Vector) {
		a, u := ways[0].after(t - first.start)
		b, v := ways[1].after(t - second.start)
		a, b = a.Plus(at[0]), b.Plus(at[1])
		if m.Opposite {
			b[0], b[1], v[0], v[1] = -b[0], -b[1], -v[0], -v[1]
		}
		return b.Minus(a), v.Minus(u)
	}
	touch := stages[0].Round + stages[1].Round
	air := false
	begin, end := max(first.start, second.start), min(lands[0], lands[1])
	for t := begin; t < end && !air; t += look {
		from, speed := seen(t)
		to, _ := seen(min(t+look, end))
		if length(between(vector.Vector{}.Minus(from), to.Minus(from))) < touch {
			air = true
			out.Air++
			out.Speed = max(out.Speed, length(speed))
		}
	}
	near := level(down[1].Minus(down[0])) < m.Nearer
	if near {
		out.Down++
	}
	if air || near {
		out.Either++
	}
}

// ShareUpTo is the greatest share of all that a count among so many drawn is still
// likely with: with this share, so few or fewer come with a probability of just 1 less
// the confidence.
//
// count and draws are whole numbers, count from 0 to draws, draws from 1 to 1e9;
// confidence is more than 0 and less than 1; outside is an error. Where all drawn
// count, it is 1.
//
// Source: C. J. Clopper and E. S. Pearson, The use of confidence or fiducial limits
// illustrated in the case of the binomial, Biometrika 26 (1934) 404-413.
func ShareUpTo(count, draws, confidence units.Number) (units.Number, error) {
	for _, err := range []error{argument.Whole("draws", draws), argument.Within("draws", draws, 1, 1e9), argument.Whole("count", count), argument.Within("count", count, 0, draws), inner("confidence", confidence)} {
		if err != nil {
			return 0, fmt.Errorf("share: %w", err)
		}
	}
	if count == draws {
		return 1, nil
	}
	all, _ := math.Lgamma(draws + 1)
	few := func(share float64) float64 { // probability of so few or fewer
		sum := 0.0
		for k := count; k >= 0; k-- { // the greatest first, while it matters
			in, _ := math.Lgamma(k + 1)
			out, _ := math.Lgamma(draws - k + 1)
			term := math.Exp(all - in - out + float64(k*math.Log(share)) + float64((draws-k)*math.Log1p(-share)))
			if sum += term; term < 1e-17*sum {
				break
			}
		}
		return sum
	}
	low, high := count/draws, 1.0
	for range 100 {
		if middle := (low + high) / 2; few(middle) > 1-confidence {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2, nil
}

package landing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// A History is what a body or a headform felt, straight between its points.
type History struct {
	Time []units.Time   // rising
	Felt []units.Number // in multiples of gravity
}

// A HeadInjury is the head injury criterion and the time over which it is
// reached.
type HeadInjury struct {
	HIC   units.Number // in g^2.5·s, always given without a unit
	Begin units.Time
	End   units.Time
}

// An ImpactLimit is what a document allows a head to feel.
type ImpactLimit struct {
	HIC    units.Number
	Felt   units.Number // in multiples of gravity
	Source string
}

// PlaygroundSurfacing gives the limits for a headform on playground surfacing.
// Both have to hold.
//
// Caution: the headform weighs 4.6 kg and is 160 mm wide. A rider's body that
// lands on a bed is not a headform; the limits serve there by analogy.
//
// Source: EN 1177:2018, limits as quoted in public articles: verify against the
// document.
func PlaygroundSurfacing() ImpactLimit {
	return ImpactLimit{HIC: 1000, Felt: 200, Source: "EN 1177:2018 (limits as quoted in public articles: verify against the document)"}
}

func (h History) check() error {
	n := len(h.Time)
	if n < 2 || len(h.Felt) != n {
		return fmt.Errorf("history: got %d times and %d values, want two or more of each, equally many", n, len(h.Felt))
	}
	for i := range n {
		if err := cmp.Or(argument.Finite("time", h.Time[i]), argument.Finite("felt", h.Felt[i])); err != nil {
			return err
		}
		if i > 0 && h.Time[i] <= h.Time[i-1] {
			return fmt.Errorf("time: got %g after %g s, want rising times", h.Time[i], h.Time[i-1])
		}
	}
	return nil
}

// HIC is the head injury criterion: the greatest that (mean of what is felt)^2.5
// times its time comes to, over any time within the history.
//
// The time is found exactly, not on the points of the history only: over a
// straight piece at each end, the best ends are where what is felt is 3/5 of the
// mean between them, the root of a quadratic. No time is longer than longest; 0
// sets no limit. A history that is none, or a longest below 0, is an error.
//
// Source: Versace's criterion in the form of Chou and Nyquist, SAE 740082 (1974);
// condition for the ends derived here.
func (h History) HIC(longest units.Time) (HeadInjury, error) {
	if err := cmp.Or(h.check(), argument.NotNegative("longest time", longest)); err != nil {
		return HeadInjury{}, fmt.Errorf("head injury criterion: %w", err)
	}
	if longest == 0 {
		longest = math.Inf(1)
	}
	w := newWindows(h, longest)
	w.inside()
	w.fromStart()
	w.asLong()
	// The end held fixed is the start held fixed, backwards in time.
	back := History{}
	for i := range h.Time {
		k := len(h.Time) - 1 - i
		back.Time, back.Felt = append(back.Time, -h.Time[k]), append(back.Felt, h.Felt[k])
	}
	v := newWindows(back, longest)
	v.fromStart()
	if v.best.HIC > w.best.HIC {
		w.best = HeadInjury{v.best.HIC, -v.best.End, -v.best.Begin}
	}
	return w.best, nil
}

// Draw draws the history on a figure of what is felt over time.
func (h History) Draw(figure *sheet.Figure, name string) {
	argument.Demand("landing: History.Draw", h.check())
	figure.Curve(name, h.Time, h.Felt)
}

// windows searches the times over which a history is judged.
type windows struct {
	History
	sum     []float64 // integral up to each point
	slope   []float64 // of each piece
	longest float64
	best    HeadInjury
}

func newWindows(h History, longest float64) *windows {
	w := &windows{History: h, longest: longest, sum: []float64{0}}
	for i := range len(h.Time) - 1 {
		dt := h.Time[i+1] - h.Time[i]
		w.sum = append(w.sum, w.sum[i]+dt*(h.Felt[i]+h.Felt[i+1])/2)
		w.slope = append(w.slope, (h.Felt[i+1]-h.Felt[i])/dt)
	}
	return w
}

// upTo is the integral up to a time in piece i.
func (w *windows) upTo(i int, t float64) float64 {
	s := t - w.Time[i]
	return w.sum[i] + s*(w.Felt[i]+w.slope[i]*s/2)
}

// try keeps the window from t1 in piece i to t2 in piece j if it is the best.
func (w *windows) try(i int, t1 float64, j int, t2 float64) {
	long, sum := t2-t1, w.upTo(j, t2)-w.upTo(i, t1)
	if !(long > 0 && sum > 0) || long > w.longest*(1+1e-12) {
		return
	}
	if hic := math.Pow(sum/long, 2.5) * long; hic > w.best.HIC {
		w.best = HeadInjury{hic, t1, t2}
	}
}

// inside tries windows that begin on a rising and end on a falling piece, at one
// level. With the level as unknown, both the integral and the time are short
// polynomials of it.
func (w *windows) inside() {
	for i, up := range w.slope {
		if up <= 0 {
			continue
		}
		for j := i + 1; j < len(w.slope); j++ {
			down := w.slope[j]
			low := math.Max(0, math.Max(w.Felt[i], w.Felt[j+1]))
			high := math.Min(w.Felt[i+1], w.Felt[j])
			if down >= 0 || low > high {
				continue
			}
			a, b := w.Felt[i], w.Felt[j]
			width := 1/down - 1/up
			long := w.Time[j] - b/down - w.Time[i] + a/up
			sum := w.sum[j] - b*b/(2*down) - w.sum[i] + a*a/(2*up)
			for _, level := range quadratic(0.7*width, long, -0.6*sum) {
				if level >= low && level <= high {
					w.try(i, w.Time[i]+(level-a)/up, j, w.Time[j]+(level-b)/down)
				}
			}
		}
	}
}

// fromStart tries windows that begin with the history.
func (w *windows) fromStart() {
	start := w.Time[0]
	for j, slope := range w.slope {
		before, b := w.Time[j]-start, w.Felt[j]
		w.try(0, start, j, w.Time[j+1])
		for _, s := range quadratic(0.7*slope, 0.4*b+slope*before, b*before-0.6*w.sum[j]) {
			if s >= 0 && s <= w.Time[j+1]-w.Time[j] {
				w.try(0, start, j, w.Time[j]+s)
			}
		}
	}
}

// asLong tries windows as long as any may be: at each place where an end passes
// a point of the history, and where both ends feel the same in between.
func (w *windows) asLong() {
	first, last := w.Time[0], w.Time[len(w.Time)-1]
	if last-first <= w.longest {
		return
	}
	latest := last - w.longest
	places := []float64{first, latest}
	for _, t := range w.Time {
		for _, from := range []float64{t, t - w.longest} {
			if from > first && from < latest {
				places = append(places, from)
			}
		}
	}
	slices.Sort(places)
	for k, from := range places[:len(places)-1] {
		next := places[k+1]
		middle := from + (next-from)/2 // rounding may put the ends beside their points
		i, j := w.piece(middle), w.piece(middle+w.longest)
		w.try(i, from, j, from+w.longest)
		w.try(i, next, j, next+w.longest)
		here := w.Felt[i] + w.slope[i]*(from-w.Time[i])
		there := w.Felt[j] + w.slope[j]*(from+w.longest-w.Time[j])
		if s := (there - here) / (w.slope[i] - w.slope[j]); s > 0 && from+s < next {
			w.try(i, from+s, j, from+s+w.longest)
		}
	}
}

// piece is that in which a time lies.
func (w *windows) piece(t float64) int {
	i, _ := slices.BinarySearch(w.Time, math.Nextafter(t, math.Inf(1)))
	return min(max(i-1, 0), len(w.slope)-1)
}

// quadratic gives the roots of a·x² + b·x + c.
func quadratic(a, b, c float64) []float64 {
	if a == 0 {
		if b == 0 {
			return nil
		}
		return []float64{-c / b}
	}
	root := b*b - 4*a*c
	if root < 0 {
		return nil
	}
	q := -(b + math.Copysign(math.Sqrt(root), b)) / 2
	if q == 0 {
		return []float64{0}
	}
	return []float64{q / a, c / q}
}

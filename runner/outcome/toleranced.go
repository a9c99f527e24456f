package outcome

// A Toleranced is what becomes of the checks while the givens differ from what
// the notebook has by no more than the tolerances that it states.
type Toleranced struct {
	Samples  int    // in which all givens differ at once
	Seed     uint64 // of the samples: the same seed gives the same ones
	Givens   []Tolerance
	Unvaried []string // names that state a tolerance and are computed: they keep their values
	Checks   []*Sensitivity
	Faulted  int    // samples that ended early
	Fault    string // why the first run that did so ended early; empty when none did
}

// A Tolerance is a given with its tolerance, in SI base units.
type Tolerance struct {
	Given            string
	Value, PlusMinus float64
}

// A Sensitivity is one check under the tolerances.
type Sensitivity struct {
	Check           CheckID
	Nominal         Judged
	Effects         []Effect // by given, each varied alone
	Least, Greatest float64  // utilisation among the samples; NaN when it has none
	Fails           int      // samples in which the check fails
	Missing         int      // samples that did not come to the check
}

// An Effect is a check with one given at either end of its tolerance.
type Effect struct{ Low, High Judged }

// Mover is the index of the given that moves the check most: whose ends and
// middle lie farthest apart in utilisation, the first of equals. It is -1 when
// none moves it.
func (s *Sensitivity) Mover() int {
	best, widest := -1, 0.0
	for i, e := range s.Effects {
		if w := s.Width(e); w > widest {
			best, widest = i, w
		}
	}
	return best
}

// Width is how far apart in utilisation the ends of an effect and the check as
// it stands lie; 0 when they do not differ, or in the last digits only.
func (s *Sensitivity) Width(e Effect) float64 {
	low, high, moved := s.Nominal.Utilisation, s.Nominal.Utilisation, false
	for _, j := range []Judged{e.Low, e.High} {
		if j.measured() && s.Nominal.measured() && j.differs(s.Nominal) {
			low, high, moved = min(low, j.Utilisation), max(high, j.Utilisation), true
		}
	}
	if !moved || low == high {
		return 0
	}
	return high - low
}

// Worst is the worst that one given alone leads to: which one, and whether at its
// upper end. To fail is worse than to hold, then the greater utilisation. given is
// -1 when none leads to worse than the check as it stands.
func (s *Sensitivity) Worst() (given int, high bool, worst Judged) {
	given, worst = -1, s.Nominal
	for i, e := range s.Effects {
		for k, j := range []Judged{e.Low, e.High} {
			if j.Known && j.differs(s.Nominal) && j.worse(worst) {
				given, high, worst = i, k == 1, j
			}
		}
	}
	return given, high, worst
}

// worse reports whether a check came out worse than in another run.
func (j Judged) worse(k Judged) bool {
	if j.Holds != k.Holds {
		return k.Holds
	}
	return j.measured() && (!k.measured() || j.Utilisation > k.Utilisation)
}

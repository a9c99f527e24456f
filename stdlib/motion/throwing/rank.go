package throwing

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Rank says which of so many drawn values, counted from the least, is no less than
// the value that a share of all like them keep within, with a confidence.
//
// It is the least rank k for which the sum of
//
//	n!/(i!·(n-i)!)·share^i·(1-share)^(n-i)
//
// over i from 0 to k-1 reaches the confidence. Draws are a whole number from 1 to
// 1e9; share and confidence are more than 0 and less than 1. It is an error where
// even the greatest value is not enough, and the error says how many draws are.
//
// Source: S. S. Wilks, Determination of sample sizes for setting tolerance limits,
// Annals of Mathematical Statistics 12 (1941) 91-96; H. A. David and H. N.
// Nagaraja, Order Statistics, 3rd edition, 7.1.
func Rank(draws, share, confidence units.Number) (units.Number, error) {
	for _, err := range []error{
		argument.Whole("draws", draws), argument.Within("draws", draws, 1, 1e9), inner("share", share), inner("confidence", confidence),
	} {
		if err != nil {
			return 0, fmt.Errorf("rank: %w", err)
		}
	}
	if need := DrawsFor(share, confidence); draws < need {
		return 0, fmt.Errorf("rank: draws: got %g, want at least %g for a share of %g with a confidence of %g", draws, need, share, confidence)
	}
	// How many may lie beyond: the most for which that few are unlikely enough.
	all, _ := math.Lgamma(draws + 1)
	few := 0.0
	for beyond := 0.0; beyond <= draws; beyond++ {
		out, _ := math.Lgamma(beyond + 1)
		in, _ := math.Lgamma(draws - beyond + 1)
		few += math.Exp(all - out - in + float64(beyond*math.Log1p(-share)) + float64((draws-beyond)*math.Log(share)))
		if few > 1-confidence {
			return draws - (beyond - 1), nil
		}
	}
	return 1, nil
}

// DrawsFor is how many draws are needed so that the greatest of them is no less
// than the value that a share of all keeps within, with a confidence.
//
//	n = ceil(log(1 - confidence)/log(share))
//
// Share and confidence are more than 0 and less than 1; outside it panics.
//
// Source: as Rank.
func DrawsFor(share, confidence units.Number) units.Number {
	argument.Demand("throwing: DrawsFor", inner("share", share), inner("confidence", confidence))
	return math.Ceil(math.Log(1-confidence) / math.Log(share))
}

func inner(what string, v float64) error {
	if v > 0 && v < 1 {
		return nil
	}
	return fmt.Errorf("%s: got %g, want more than 0 and less than 1", what, v)
}

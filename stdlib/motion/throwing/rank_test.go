package throwing_test

import (
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion/throwing"
)

// 59 and 299 draws for 95 % and 99 % with 95 % confidence are Wilks's; the others
// by scipy 1.10.1, the least k with binom.cdf(k-1, n, share) ≥ confidence.
func TestRank(t *testing.T) {
	for _, c := range []struct{ n, share, confidence, want float64 }{
		{59, 0.95, 0.95, 59}, {93, 0.95, 0.95, 92}, {299, 0.99, 0.95, 299}, {2995, 0.999, 0.95, 2995},
		{22, 0.9, 0.9, 22}, {10, 0.5, 0.9, 8}, {1000, 0.9, 0.9, 913}, {20000, 0.99, 0.95, 19824},
		{100000, 0.99, 0.95, 99052}, {100000, 0.999, 0.95, 99917}, {100000, 0.999, 0.99, 99923},
	} {
		got, err := throwing.Rank(c.n, c.share, c.confidence)
		if err != nil || got != c.want {
			t.Errorf("Rank(%g, %g, %g) = %g, %v, want %g", c.n, c.share, c.confidence, got, err, c.want)
		}
	}
	proof.Near(t, "draws", throwing.DrawsFor(0.99, 0.95), 299, 0)
	_, err := throwing.Rank(298, 0.99, 0.95)
	proof.Fails(t, "too few", err, "draws: got 298, want at least 299")
	_, err = throwing.Rank(100, 1, 0.95)
	proof.Fails(t, "share", err, "share: got 1")
	_, err = throwing.Rank(1.5, 0.5, 0.95)
	proof.Fails(t, "draws", err, "draws: got 1.5, want a whole number")
	proof.Panics(t, "confidence: got 0", func() { throwing.DrawsFor(0.9, 0) })
}

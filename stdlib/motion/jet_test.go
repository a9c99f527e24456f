package motion

import (
	"testing"

	"tautline/stdlib/internal/proof"
)

// Someone walks outward on a turntable: r” - r·w² along the radius, and r·w' +
// 2·r'·w across it, 1.2 m/s² of which is Coriolis's.
func TestTurntable(t *testing.T) {
	out := vector{{1.2, 0.4, 0.2}}
	a := newTurn(2, jet{0, 1.5, 0.3}).out(out).order(2)
	proof.Near(t, "outward", a[0], -2.5, 1e-14)
	proof.Near(t, "across", a[1], 1.56, 1e-14)
}

// A seat that spins at the end of an arm: R·w1² + r·(w1+w2)², not the sum of
// squares.
func TestSpinningSeat(t *testing.T) {
	for _, c := range []struct{ seat, spin, want float64 }{{0.3, 2, 6.672}, {-0.3, 2, 0.528}, {0.3, -2, 3.792}} {
		rider := newTurn(2, jet{0, c.spin}).out(fixed(Point{X: c.seat}))
		a := newTurn(2, jet{0, 1.2}).out(rider.plus(fixed(Point{X: 2.5}))).order(2)
		proof.Near(t, "inward", -a[0], c.want, 1e-14)
		proof.Near(t, "across", a[1], 0, 1e-14)
	}
}

package textile_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/textile"
	"tautline/stdlib/internal/proof"
)

// Law of an orthotropic membrane, worked by hand.
func TestStiffness(t *testing.T) {
	s := textile.Stiffness{Warp: 400e3, Weft: 300e3, Poisson: 0.2}
	proof.Near(t, "weft", s.WeftStrain(2500, 5000), 0.01541667, 1e-6/2)
	proof.Near(t, "warp", s.WarpStrain(2500, 5000), 0.00375, 1e-12)
	proof.Panics(t, "textile: Stiffness.WarpStrain: weft force: got -1", func() { s.WarpStrain(1, -1) })
	proof.Panics(t, "warp stiffness: got 0", func() { textile.Stiffness{Weft: 1}.WarpStrain(1, 1) })
}

// Two loads do the same work on each other's strains (Maxwell and Betti), and no
// load takes work out of the cloth.
func TestStiffnessIsElastic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := textile.Stiffness{
			Warp:    rapid.Float64Range(50e3, 1e6).Draw(t, "warp"),
			Weft:    rapid.Float64Range(50e3, 1e6).Draw(t, "weft"),
			Poisson: rapid.Float64Range(0, 0.5).Draw(t, "Poisson's ratio"),
		}
		if s.Check() != nil {
			t.Skip("swapped cloth")
		}
		force := rapid.Float64Range(0, 1e4)
		a, b, c, d := force.Draw(t, "a"), force.Draw(t, "b"), force.Draw(t, "c"), force.Draw(t, "d")
		one := c*s.WarpStrain(a, b) + d*s.WeftStrain(a, b)
		other := a*s.WarpStrain(c, d) + b*s.WeftStrain(c, d)
		if math.Abs(one-other) > 1e-9*(1+math.Abs(one)) {
			t.Errorf("work of one load on the other's strain %g, the other way %g", one, other)
		}
		if work := a*s.WarpStrain(a, b) + b*s.WeftStrain(a, b); work < -1e-9 {
			t.Errorf("load takes %g out of the cloth", work)
		}
	})
}

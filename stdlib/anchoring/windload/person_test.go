package windload_test

import (
	"testing"

	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// 9 ft² and 6 ft² of Hoerner, Fluid-Dynamic Drag, 1965, chapter 3 (from memory: verify
// against the document), in m² with the exact foot of 0.3048 m, rounded to two digits.
func TestPerson(t *testing.T) {
	const foot = 0.3048
	stands, sits := windload.StandingPerson(), windload.SittingPerson()
	proof.Near(t, "stands", stands.DragArea, 9*foot*foot, 0.005)
	proof.Near(t, "sits", sits.DragArea, 6*foot*foot, 0.005)
	// A wind of 20 m/s, 250 Pa in air of 1.25 kg/m³: 210 N at 0.9 m over a deck of 1.1 m.
	proof.Near(t, "force", stands.Force(250*units.Pa), 210, 1e-12)
	proof.Near(t, "moment", stands.Moment(250*units.Pa, 1.1*units.M), 420, 1e-12)
	proof.Panics(t, "windload: Person.Force: drag area: got 0, want more than 0", func() { windload.Person{}.Force(1) })
	proof.Panics(t, "windload: Person.Moment: feet: got -1, want 0 or more", func() { stands.Moment(1, -1) })
}

package contact_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion/contact"
	"tautline/stdlib/units"
)

// Closed forms of the criterion for plain pulses, 100 g and 10 ms, and their
// windows; and a rectangle of 50 g and 30 ms under both usual windows.
func TestHeadInjury(t *testing.T) {
	const n = 4000
	pulse := func(shape func(x float64) float64, g float64) []float64 {
		out := make([]float64, n+1)
		for i := range out {
			out[i] = g * units.Gn * shape(float64(i)/n)
		}
		return out
	}
	rectangle := func(float64) float64 { return 1 }
	for _, c := range []struct {
		name         string
		shape        func(x float64) float64
		want, window float64
	}{
		{"rectangle", rectangle, 1000, 1},
		{"half sine", func(x float64) float64 { return math.Sin(math.Pi * x) }, 414.646, 0.6702297},
		{"triangle", func(x float64) float64 { return 1 - math.Abs(2*x-1) }, 246.401, 4.0 / 7},
		{"saw", func(x float64) float64 { return x }, 246.401, 4.0 / 7},
		{"haversine", func(x float64) float64 { return (1 - math.Cos(2*math.Pi*x)) / 2 }, 302.939, 0.5075918},
	} {
		h := proof.Must(contact.NewHeadInjury(pulse(c.shape, 100), 0.010/n, 0))(t)
		proof.Near(t, c.name, h.Value, c.want, 5e-6)
		proof.Near(t, c.name+", window", (h.End-h.Start)/0.010, c.window, 1e-3)
	}
	for ms, want := range map[float64]float64{15: 265.165, 36: 530.330} {
		h := proof.Must(contact.NewHeadInjury(pulse(rectangle, 50), 0.030/n, ms*units.Ms))(t)
		proof.Near(t, "rectangle of 30 ms", h.Value, want, 2e-6)
	}
	_, err := contact.NewHeadInjury([]float64{1}, 1, 0)
	proof.Fails(t, "count", err, "got 1 samples")
	_, err = contact.NewHeadInjury([]float64{1, -1}, 1, 0)
	proof.Fails(t, "sign", err, "sample 2: got -1")
	_, err = contact.NewHeadInjury([]float64{1, 1}, 1, 0.015)
	proof.Fails(t, "window", err, "want a step no longer")
}

// ISO/TS 15066:2016, A.3.4, chest in a blow: energy, mass and speed.
func TestBlow(t *testing.T) {
	chest := proof.Must(contact.NewRegion("chest"))(t)
	proof.Near(t, "struck", chest.Struck, 280, 0)
	b := contact.Blow{Body: chest, Moving: 4}
	proof.Near(t, "mass", b.Mass(), 3.636364, 1e-6)
	proof.Near(t, "speed", b.Speed(280), 0.928655, 1e-6)
	proof.Near(t, "energy", b.At(b.Speed(280)).Energy, 1.568, 1e-12)
	proof.Near(t, "force", b.At(0.928655).Force, 280, 1e-6)
	b.Moving = 1e12
	proof.Near(t, "wall", b.Speed(280), 0.280, 1e-9)
	b = contact.Blow{Body: chest, Moving: 4, Pad: 10 * units.NPerMm, Depth: 50 * units.Mm, Usable: 0.7}
	proof.Near(t, "stiffness", b.Stiffness(), 7.142857e3, 1e-6)
	proof.Near(t, "padded", b.Speed(280), 1.737354, 1e-6)
	if r := b.At(b.Speed(280)); len(r.Warnings) != 0 || math.Abs(r.Pressed-0.028) > 1e-12 {
		t.Errorf("padded: got %+v", r)
	}
	if r := b.At(3); len(r.Warnings) != 1 {
		t.Errorf("pressed hard: got %+v", r)
	}
	proof.Panics(t, "moving mass: got 0", func() { contact.Blow{Body: chest}.At(1) })
	_, err := contact.NewRegion("tail")
	proof.Fails(t, "region", err, `got "tail", want one of skull and forehead, face`)
	for _, r := range contact.Regions() {
		if head := r.Name == "face" || r.Name == "skull and forehead"; head != (r.Struck == 0) {
			t.Errorf("%s: struck %g N", r.Name, r.Struck)
		}
	}
}

// ISO/TS 15066:2016, Tables A.2 and A.3 (from memory): force while it lasts, that of
// a blow twice as much but for the head, stiffness in N/mm, mass in kg.
func TestRegions(t *testing.T) {
	force := []float64{130, 65, 150, 210, 140, 110, 180, 150, 160, 140, 220, 130}
	stiffness := []float64{150, 75, 50, 35, 25, 10, 25, 30, 40, 75, 50, 60}
	mass := []float64{4.4, 4.4, 1.2, 40, 40, 40, 40, 3, 2, 0.6, 75, 75}
	all := contact.Regions()
	if len(all) != len(force) {
		t.Fatalf("got %d regions, want %d", len(all), len(force))
	}
	for i, r := range all {
		blow := 2 * force[i]
		if i < 2 {
			blow = 0
		}
		proof.Near(t, r.Name, r.Clamped, force[i], 0)
		proof.Near(t, r.Name+", struck", r.Struck, blow, 0)
		proof.Near(t, r.Name+", stiffness", r.Stiffness/units.NPerMm, stiffness[i], 1e-15)
		proof.Near(t, r.Name+", mass", r.Mass, mass[i], 0)
	}
}

// A uniform arm of 12 kg and 3 m is 4 kg at its tip; a motor counts the square of
// the ratio.
func TestArm(t *testing.T) {
	a := contact.Arm{Mass: 12, Length: 3}
	proof.Near(t, "arm", a.MassAt(3), 4, 1e-15)
	a.Motor, a.Ratio = 0.001, 40
	proof.Near(t, "with its motor", a.MassAt(3), 4.177778, 1e-6)
}

func TestFormulaLines(t *testing.T) {
	proof.Formulas(t, []proof.Call{
		proof.Of("Arm.MassAt", contact.Arm.MassAt, [][]any{{contact.Arm{Mass: 12, Length: 3, Motor: 0.001, Ratio: 40}, 2.5}}),
	})
}

package crew_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"tautline/stdlib/crew"
	"tautline/stdlib/internal/proof"
)

// Worked by hand: 300 kg over the middle of a base of 3 m, 100 kg on the rear axle,
// 90 kg a metre behind it: 150 + 0 - 30 forward, 150 + 100 + 120 aft.
func TestCarriage(t *testing.T) {
	van := crew.Carriage{Name: "van", Empty: 2000, EmptyFront: 1100, Base: 3, Most: 3500, MostFront: 1800, MostRear: 2000, LeastFront: 0.25}
	load := []crew.Stowed{{Name: "bed", Mass: 300, At: 1.5}, {Name: "plates", Mass: 100, At: 3}, {Name: "ball", Mass: 90, At: 4}}
	s := proof.Must(van.Load(load))(t)
	proof.Near(t, "front", s.Front, 1220, 1e-12)
	proof.Near(t, "rear", s.Rear, 1270, 1e-12)
	proof.Near(t, "all", s.Mass, 2490, 1e-12)
	proof.Near(t, "centre", s.Centre, (450+300+360)/490.0, 1e-12)
	proof.Near(t, "least", s.Least, 622.5, 1e-12)
	if !s.Holds || len(s.Warnings) != 0 {
		t.Errorf("got %+v, want it to hold", s)
	}
	// A trailer with its axle 3.2 m behind the ball: 500 kg of load 3.1 m behind it put
	// 15.6 kg on the ball, to the 40 that were there; 3.6 m behind it they lift it.
	trailer := crew.Carriage{Name: "trailer", Empty: 400, EmptyFront: 40, Base: 3.2, Most: 850, MostFront: 75, MostRear: 850, LeastFront: 0.04}
	for _, c := range []struct {
		at, nose float64
		warnings string
	}{
		{3.1, 55.625, "[trailer weighs 900 kg, more than 850 kg]"},
		{3.6, -22.5, "[trailer weighs 900 kg, more than 850 kg trailer puts on its rear support 922 kg, more than 850 kg trailer puts -22 kg on its front support, less than the 36 kg that have to stand there: move the load forward]"},
	} {
		s := proof.Must(trailer.Load([]crew.Stowed{{Name: "load", Mass: 500, At: c.at}}))(t)
		proof.Near(t, "nose", s.Front, c.nose, 1e-12)
		proof.Near(t, "axle", s.Rear, 900-c.nose, 1e-12)
		if s.Holds || fmt.Sprint(s.Warnings) != c.warnings {
			t.Errorf("load at %g m: got %q, want %s", c.at, s.Warnings, c.warnings)
		}
	}
	// Moments about the rear axle have the same sum.
	rng := rand.New(rand.NewPCG(1, 2))
	for range 100 {
		var some []crew.Stowed
		about := van.EmptyFront * van.Base
		for range 5 {
			m, x := 1+100*rng.Float64(), 6*rng.Float64()-1
			some, about = append(some, crew.Stowed{Mass: m, At: x}), about+m*(van.Base-x)
		}
		proof.Near(t, "about the rear axle", proof.Must(van.Load(some))(t).Front*van.Base, about, 1e-12)
	}
	for _, c := range []struct {
		c    crew.Carriage
		load []crew.Stowed
		want string
	}{
		{van, nil, `carriage "van": load: got none`},
		{van, []crew.Stowed{{Name: "bed"}}, `carriage "van": "bed": mass: got 0`},
		{crew.Carriage{Name: "sled", Empty: 1, EmptyFront: 2}, load, `carriage "sled": empty mass on the front support: got 2, want 0 to 1`},
	} {
		_, err := c.c.Load(c.load)
		proof.Fails(t, "load", err, c.want)
	}
}

// Pieces in their places, and what a tow ball has to bear: StVZO, § 44 (3) (from
// memory), 4 % and no more than 25 kg.
func TestStow(t *testing.T) {
	p := crew.Packed{Name: []string{"bed", "plate"}, Masses: []float64{210, 240}}
	got := proof.Must(p.Stow([]float64{2, 3}))(t)
	if fmt.Sprint(got) != "[{bed 210 2} {plate 240 3}]" {
		t.Errorf("got %v", got)
	}
	_, err := p.Stow([]float64{2})
	proof.Fails(t, "places", err, "places: got 1 for 2 kinds of pieces, want one for each")
	for trailer, want := range map[float64]float64{500: 20, 625: 25, 1800: 25} {
		proof.Near(t, "nose", crew.LeastNose(trailer), want, 1e-12)
	}
	proof.Panics(t, "crew: LeastNose: mass of the trailer: got 0", func() { crew.LeastNose(0) })
}

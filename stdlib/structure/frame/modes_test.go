package frame_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/structure/frame"
	"tautline/stdlib/structure/section"
)

// cantileverMast is a beam along x, 1.5 m, fixed at one end.
func cantileverMast(mass, density float64) (*frame.Frame, frame.Node) {
	f, n, _ := beam(0, 1500)
	f.Members[0].Material.Density = density
	f.Fix(n[0])
	if mass > 0 {
		f.Mass(n[1], mass)
	}
	return f, n[1]
}

// Natural frequencies: √(3EI/mL³)/2π of a mass on a light cantilever; with the
// beam's own mass the root of the exact equation; 1.875104² and π² of beams
// alone. The mass of the tube is 6.7102 kg/m.
func TestFrequencies(t *testing.T) {
	const density = 6.7102 / (area * 1e-6)
	f, _ := cantileverMast(60, 0)
	proof.Near(t, "mass on a light cantilever", proof.Must(f.Vibrations(1))(t)[0].Frequency, 5.858379, 1e-6)

	// 33/140 of the beam's mass is Rayleigh's estimate, 0.01 % too low or high at
	// this ratio: 5.745878 Hz. The exact equation of a beam with a tip mass gives
	// the tight number.
	f, _ = cantileverMast(60, density)
	got := proof.Must(f.Vibrations(1))(t)[0].Frequency
	proof.Near(t, "with its own mass, Rayleigh", got, 5.745878, 2e-4)
	proof.Near(t, "with its own mass", got, tipMassFrequency(60, 6.7102, 1.5, ei*1e-6), 1e-5)

	f, _ = cantileverMast(0, density)
	modes := proof.Must(f.Vibrations(6))(t)
	proof.Near(t, "cantilever alone", modes[0].Frequency, 29.03553, 1e-5)
	proof.Near(t, "and across, the same", modes[1].Frequency, 29.03553, 1e-5)
	proof.Near(t, "second mode, 4.694091²", modes[2].Frequency, 29.03553*math.Pow(4.694091/1.875104, 2), 5e-4)

	f, n, _ := beam(0, 1500)
	f.Members[0].Material.Density = density
	pin(f, n[0])
	roller(f, n[1])
	f.Pieces = 16
	proof.Near(t, "on two supports", proof.Must(f.Vibrations(1))(t)[0].Frequency, 81.50398, 1e-5)
}

// tipMassFrequency is the first root of the exact frequency equation of a
// cantilever of mass m per length with a mass at its tip:
// 1 + cos·cosh + (M/mL)·x·(cos·sinh - sin·cosh) = 0.
func tipMassFrequency(tip, m, l, rigidity float64) float64 {
	f := func(x float64) float64 {
		return 1 + math.Cos(x)*math.Cosh(x) + tip/(m*l)*x*(math.Cos(x)*math.Sinh(x)-math.Sin(x)*math.Cosh(x))
	}
	low, high := 0.1, 1.8
	for range 100 {
		if mid := (low + high) / 2; f(mid) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return low * low / (2 * math.Pi * l * l) * math.Sqrt(rigidity/m)
}

// A shaft with a disc at its end twists at √(GJ/IL)/2π.
func TestTwistFrequency(t *testing.T) {
	f, tip := cantileverMast(0, 0)
	f.Inertia(tip, 2, 0, 0)
	got := proof.Must(f.Vibrations(3))(t)
	proof.Near(t, "twist", got[0].Frequency, math.Sqrt(81e9*torsion*1e-12/(2*1.5))/(2*math.Pi), 1e-6)
	if len(got) != 1 {
		t.Errorf("got %d modes of one inertia, want 1", len(got))
	}
}

// Euler's columns: π²EI/(K·L)². The error of n pieces is (u/n)⁴/720, u = π/K.
func TestEulerColumns(t *testing.T) {
	for _, c := range []struct {
		name string
		hold func(f *frame.Frame, a, b frame.Node)
		want float64
	}{
		{"pinned", func(f *frame.Frame, a, b frame.Node) {
			f.Support(a, frame.Support{X: true, Y: true, Z: true, RX: true})
			f.Support(b, frame.Support{Y: true, Z: true})
		}, 225661.87},
		{"free", func(f *frame.Frame, a, b frame.Node) { f.Fix(a) }, 56415.47},
		{"fixed", func(f *frame.Frame, a, b frame.Node) {
			f.Fix(a)
			f.Support(b, frame.Support{Y: true, Z: true, RY: true, RZ: true})
		}, 902647.47},
		{"fixed and pinned", func(f *frame.Frame, a, b frame.Node) {
			f.Fix(a)
			f.Support(b, frame.Support{Y: true, Z: true})
		}, 461647.43},
	} {
		f, n, _ := beam(0, 2000)
		c.hold(f, n[0], n[1])
		q := frame.NewCase("press")
		q.Node(n[1], frame.Load{FX: -1000})
		modes := proof.Must(f.Buckling(q.Alone(), 2))(t)
		u := 2000 * math.Sqrt(c.want/ei)
		proof.Near(t, c.name, modes[0].Factor*1000, c.want, math.Pow(u/8, 4)/720+1e-7)
		proof.Near(t, c.name+", the other plane", modes[1].Factor, modes[0].Factor, 1e-9)
		f.Pieces = 32
		proof.Near(t, c.name+", 32 pieces", proof.Must(f.Buckling(q.Alone(), 1))(t)[0].Factor*1000, c.want, math.Pow(u/32, 4)/720+1e-7)
		pull := frame.NewCase("pull")
		pull.Node(n[1], frame.Load{FX: 1000})
		if modes, err := f.Buckling(pull.Alone(), 1); err != nil || len(modes) != 0 {
			t.Errorf("%s, pulled: got %d modes, %v, want none", c.name, len(modes), err)
		}
	}
}

// The fixed portal sways at the root of Bleich's equation; here against the
// equation of slope and deflection for k = (Ib/L)/(Ic/h): u/tan u = -6k.
func TestPortalBuckling(t *testing.T) {
	f, _, knees, _ := portal(true)
	q := frame.NewCase("on the columns")
	q.Node(knees[0], down(1000))
	q.Node(knees[1], down(1000))
	f.Pieces = 16
	got := proof.Must(f.Buckling(q.Alone(), 1))(t)[0].Factor * 1000
	k := (3280132.923 / 4.0) / (3659440.637 / 3.0)
	low, high := math.Pi/2+1e-9, math.Pi-1e-9
	for range 100 {
		if u := (low + high) / 2; u/math.Tan(u) > -6*k {
			low = u
		} else {
			high = u
		}
	}
	proof.Near(t, "sway buckling", got, low*low*210e9*3659440.637e-12/9, 1e-5)
}

// Beam-column: a cantilever under 20 kN, u = L·√(P/EI): the tip moves
// 3(tan u - u)/u³ times as far, the moment is tan u/u times as great.
func TestBeamColumn(t *testing.T) {
	f, n, m := beam(0, 2000)
	f.Fix(n[0])
	c := frame.NewCase("press and push")
	c.Node(n[1], frame.Load{FX: -20000, FZ: -100})
	first := solve(t, f, c)
	second := proof.Must(f.SolveSecondOrder(c.Alone()))(t)
	proof.Near(t, "deflection", second.Displacement(n[1]).Z/first.Displacement(n[1]).Z, 1.54179795, 2e-5)
	proof.Near(t, "base moment", second.Member(m[0]).First().MY/first.Member(m[0]).First().MY, 1.44954976, 2e-5)
	proof.Near(t, "moment at the tip", second.Member(m[0]).Last().MY/second.Member(m[0]).First().MY, 0, 1e-9)
	// In the middle: M = H·sin(u·(L-x)/L)/(cos u)·L/u.
	u := 2 * math.Sqrt(20000*1e6/ei)
	proof.Near(t, "moment in the middle", nmm(second.Member(m[0]).At(1).MY), 100*2000*math.Sin(u/2)/(u*math.Cos(u)), 2e-5)

	f.Pieces = 32
	second = proof.Must(f.SolveSecondOrder(c.Alone()))(t)
	proof.Near(t, "deflection, 32 pieces", second.Displacement(n[1]).Z/first.Displacement(n[1]).Z, 1.54179795, 1e-6)

	c.Node(n[1], frame.Load{FX: -40000}) // 60 kN, over Euler's 56.4 kN
	_, err := f.SolveSecondOrder(c.Alone())
	proof.Fails(t, "over the critical load", err, "beyond the critical one")
}

// A string: a taut bar of no bending stiffness deflects PL/4N in the middle.
func TestTautLine(t *testing.T) {
	f := frame.New()
	a, b, c := f.Node(0, 0, 0), f.Node(1, 0, 0), f.Node(2, 0, 0)
	cable := section.Section{A: 10e-6}
	f.Bar(a, b, cable, steel)
	f.Bar(b, c, cable, steel)
	f.Pin(a)
	f.Support(c, frame.Support{Y: true, Z: true})
	f.Support(b, frame.Support{Y: true, KZ: 1}) // a hair of stiffness to start from
	q := frame.NewCase("taut")
	q.Node(c, frame.Load{FX: 10000})
	q.Node(b, down(100))
	r := proof.Must(f.SolveSecondOrder(q.Alone()))(t)
	proof.Near(t, "sag", -r.Displacement(b).Z, 100/(2*10000.0+1), 1e-9)
}

// Compression lowers the frequency of a column as √(1 - P/Pcr), exact for a
// pinned one.
func TestFrequencyUnderLoad(t *testing.T) {
	f, n, _ := beam(0, 2000)
	pin(f, n[0])
	roller(f, n[1])
	free := proof.Must(f.Vibrations(1))(t)[0].Frequency
	c := frame.NewCase("press")
	c.Node(n[1], frame.Load{FX: -0.36 * 225661.87})
	pressed := proof.Must(f.VibrationsUnder(c.Alone(), 1))(t)[0].Frequency
	proof.Near(t, "ratio", pressed/free, 0.8, 1e-4)
}

// A mast at 5 Hz, shaken once and twice in a turn.
func TestResonances(t *testing.T) {
	modes := []frame.VibrationMode{{Frequency: 5}, {Frequency: 12}}
	list := frame.Resonances(modes, 1, 2)
	want := []float64{150, 300, 360, 720} // rpm: 60·f/k
	for i, r := range list {
		proof.Near(t, "speed", r.Speed*30/math.Pi, want[i], 1e-12)
	}
	proof.Near(t, "margin at 120 rpm", frame.SpeedMargin(list, 120*math.Pi/30), 0.2, 1e-12)
	proof.Near(t, "margin at rest", frame.SpeedMargin(list, 0), 1, 1e-12)
}

package motion_test

import (
	"math"
	"strings"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

// A rider of 90 kg tilted by 20°, 0.9 m above the axis, 78.9 kg·m² about it: by
// hand the drive has to hold back 34.98 N·m while it speeds up outward, and the
// spin adds m·l²·w²·sin·cos of overturning.
func TestTiltTorque(t *testing.T) {
	b := plain(motion.Point{Z: 1})
	rider := []motion.Body{{Name: "rider", Part: "roll", Mass: 90, At: motion.Point{Z: 0.9}, X: 6, Y: 6}}
	s := motion.Pose(0, 20*deg, 0)
	l := proof.Must(b.Load(s, rider))(t)
	proof.Near(t, "still", l.Pitch, -271.6798, 1e-6)
	proof.Near(t, "weight", l.Fz, -90*units.Gn, 1e-14)
	proof.Near(t, "overturning", l.My, 271.6798, 1e-6)
	s.Pitch.Acceleration = 3
	proof.Near(t, "outward", proof.Must(b.Load(s, rider))(t).Pitch, -34.9798, 1e-5)
	point := []motion.Body{{Name: "rider", Part: "roll", Mass: 90, At: motion.Point{Z: 0.9}}}
	s = motion.Pose(0, 20*deg, 0)
	still := proof.Must(b.Load(s, point))(t).Pitch
	s.Yaw.Speed = 3
	proof.Near(t, "spun", still-proof.Must(b.Load(s, point))(t).Pitch, 210.8665, 1e-6)
}

// A rotor of 12 kg·m² at 3 rad/s, turned by 1 rad/s: 36 N·m across.
func TestGyroscope(t *testing.T) {
	rotor := []motion.Body{{Name: "rotor", Part: "roll", X: 12}}
	s := motion.State{Yaw: motion.AxisState{Speed: 1}, Roll: motion.AxisState{Speed: 3}}
	l := proof.Must(plain(motion.Point{}).Load(s, rotor))(t)
	proof.Near(t, "across", l.Pitch, 36, 1e-14)
	proof.Near(t, "about yaw", l.Yaw, 0, 1e-14)
}

// Work and energy: what the three drives give is what kinetic energy and height
// gain; the ground takes the change of momentum. Energy is computed from places
// and rates only.
func TestEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := plain(motion.Point{})
		b.PitchAxis, b.RollAxis = motion.Point{X: 0.1, Y: -0.05, Z: 0.8}, motion.Point{X: -0.05, Y: 0.02, Z: 0.3}
		c := rapid.Float64Range(-1, 1)
		bodies := make([]motion.Body, 2)
		for i := range bodies {
			bodies[i] = motion.Body{
				Name: "body", Part: "roll", Mass: 80, At: motion.Point{X: c.Draw(t, "x"), Y: c.Draw(t, "y"), Z: c.Draw(t, "z")},
				X: 5 + 4*c.Draw(t, "X"), Y: 7 + 5*c.Draw(t, "Y"), Z: 4 + 3*c.Draw(t, "Z"),
			}
		}
		energy := func(s motion.State) float64 {
			w := s.Spin().Rate
			sum := 0.0
			for _, body := range bodies {
				p := b.Point(s, body.At)
				v := p.Velocity.Size()
				sum += body.Mass*(v*v/2+units.Gn*p.At.Z) + (body.X*w.X*w.X+body.Y*w.Y*w.Y+body.Z*w.Z*w.Z)/2
			}
			return sum
		}
		// About the ground: momentum along x, spin about x.
		momentum := func(s motion.State) (px, lx float64) {
			w, r := s.Spin().Rate, s.Rotation()
			for _, body := range bodies {
				p := b.Point(s, body.At)
				px += body.Mass * p.Velocity.X
				lx += body.Mass*(p.At.Y*p.Velocity.Z-p.At.Z*p.Velocity.Y) + r.XX*body.X*w.X + r.XY*body.Y*w.Y + r.XZ*body.Z*w.Z
			}
			return px, lx
		}
		s := drawState(t)
		l, err := b.Load(s, bodies)
		if err != nil {
			t.Fatal(err)
		}
		const h = 1e-4
		const bound = 1e-2 // h² times third derivatives of some 10⁵, and rounding of 10³/h
		a, z := later(s, -h), later(s, h)
		close(t, "power", l.Yaw*s.Yaw.Speed+l.Pitch*s.Pitch.Speed+l.Roll*s.Roll.Speed, (energy(z)-energy(a))/(2*h), bound)
		pa, la := momentum(a)
		pz, lz := momentum(z)
		weight := 0.0
		for _, body := range bodies {
			weight += body.Mass * units.Gn * b.Point(s, body.At).At.Y
		}
		close(t, "force along x", -l.Fx, (pz-pa)/(2*h), bound)
		close(t, "moment about x", -l.Mx, (lz-la)/(2*h)+weight, bound)
		close(t, "moment about z", -l.Mz, l.Yaw, 1e-9)
		// Fixed to an outer part that does not turn, a body is on the inner one.
		s.Roll = motion.AxisState{}
		outer := proofLoad(t, b, s, bodies)
		for i := range bodies {
			bodies[i].Part = "pitch"
			bodies[i].At.X += b.RollAxis.X
			bodies[i].At.Y += b.RollAxis.Y
			bodies[i].At.Z += b.RollAxis.Z
		}
		inner := proofLoad(t, b, s, bodies)
		close(t, "pitch, carried one part further in", inner.Pitch, outer.Pitch, 1e-9)
		close(t, "moment on the ground", inner.My, outer.My, 1e-9)
		close(t, "nothing to roll", inner.Roll, 0, 0)
	})
}

func proofLoad(t *rapid.T, b motion.Base, s motion.State, bodies []motion.Body) motion.Load {
	l, err := b.Load(s, bodies)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestHistory(t *testing.T) {
	b := skiff()
	r := proof.Must(seas().Ride(b))(t)
	bodies := []motion.Body{{Name: "skiff", Part: "roll", Mass: 100, X: 20, Y: 60, Z: 65}}
	l := proof.Must(r.Loads(bodies, 0.1))(t)
	lines := strings.Split(l.History(), "\n")
	if len(lines) != 1043 || lines[0] != "time s,Fx N,Fy N,Fz N,Mx Nm,My Nm,Mz Nm" || lines[1] != "0.0000,0.0,0.0,-980.7,0.00,0.00,0.00" {
		t.Errorf("got %d lines, %q, %q", len(lines), lines[0], lines[1])
	}
	proof.Near(t, "as at that time", l.Pitch[100], proof.Must(b.Load(r.At(10), bodies))(t).Pitch, 1e-9)
	bodies[0].Part = "heave"
	_, err := r.Loads(bodies, 0.1)
	proof.Fails(t, "part", err, `body "skiff": part: got "heave"`)
	bodies[0].Part, bodies[0].Mass = "yaw", math.NaN()
	_, err = b.Load(motion.State{}, bodies)
	proof.Fails(t, "mass", err, "mass: got NaN")
}

func BenchmarkMove(b *testing.B) {
	l := motion.Limits{Speed: 10, Acceleration: 10, Jerk: 30}
	for b.Loop() {
		if _, err := motion.NewMove(10, 1, 0, l); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFelt(b *testing.B) {
	base, s := skiff(), motion.State{Yaw: motion.AxisState{Speed: 2}, Pitch: motion.AxisState{Position: 0.1, Speed: 1}}
	for b.Loop() {
		base.Felt(s, 0)
	}
}

func BenchmarkLoad(b *testing.B) {
	base, s := skiff(), motion.State{Yaw: motion.AxisState{Speed: 2}, Pitch: motion.AxisState{Position: 0.1, Speed: 1}}
	bodies := []motion.Body{{Name: "hull", Part: "roll", Mass: 85, X: 14, Y: 55, Z: 60}, {Name: "rider", Part: "roll", Mass: 80}, {Name: "rider", Part: "roll", Mass: 80}}
	for b.Loop() {
		if _, err := base.Load(s, bodies); err != nil {
			b.Fatal(err)
		}
	}
}

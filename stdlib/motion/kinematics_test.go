package motion_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

const deg = units.Deg

var loose = motion.Limits{Speed: 100, Acceleration: 1000, Jerk: 1e5}

// plain is a base whose axes meet in one point on the ground, with a seat.
func plain(at motion.Point) motion.Base {
	tilt := motion.Axis{Low: -math.Pi / 2, High: math.Pi / 2, Limits: loose}
	return motion.Base{
		Name: "plain", Yaw: motion.Axis{Continuous: true, Limits: loose}, Pitch: tilt, Roll: tilt,
		Seats: []motion.Seat{{Name: "one", At: at}},
	}
}

// Yaw and pitch at once, by alpha x r + omega x (omega x r) on paper: adding the
// axes one by one would give 0 along y, forgetting that the pitch axis turns 2.
func TestCoupling(t *testing.T) {
	s := motion.State{Yaw: motion.AxisState{Speed: 2}, Pitch: motion.AxisState{Speed: 1}}
	if w := s.Spin(); w.Change != (motion.RateChange{X: -2}) {
		t.Errorf("angular acceleration: got %+v, want -2 along x", w.Change)
	}
	for _, c := range []struct {
		at   motion.Point
		want motion.Acceleration
	}{
		{motion.Point{Z: 1}, motion.Acceleration{Y: 4, Z: -1}},
		{motion.Point{X: 0.5}, motion.Acceleration{X: -2.5}},
		{motion.Point{Y: 0.5}, motion.Acceleration{Y: -2}},
	} {
		got := plain(c.at).Point(s, c.at).Acceleration
		proof.Near(t, "x", got.X, c.want.X, 1e-15)
		proof.Near(t, "y", got.Y, c.want.Y, 1e-15)
		proof.Near(t, "z", got.Z, c.want.Z, 1e-15)
	}
}

// Tilted and still: the components of one g are sines and cosines.
func TestStaticTilt(t *testing.T) {
	b := plain(motion.Point{Z: 1})
	f := b.Felt(motion.Pose(1, 20*deg, 0), 0)
	proof.Near(t, "pitch x", f.X/units.Gn, -0.342020, 2e-6)
	proof.Near(t, "pitch y", f.Y, 0, 1e-15)
	proof.Near(t, "pitch z", f.Z/units.Gn, 0.939693, 1e-6)
	f = b.Felt(motion.Pose(1, 0, 20*deg), 0)
	proof.Near(t, "roll y", f.Y/units.Gn, 0.342020, 2e-6)
	proof.Near(t, "roll z", f.Z/units.Gn, 0.939693, 1e-6)
	// Backwards, the bow down presses into the back; reclined by as much as the
	// base pitches, the rider is upright again.
	b.Seats[0].Facing = math.Pi
	proof.Near(t, "backwards", b.Felt(motion.Pose(0, 20*deg, 0), 0).X/units.Gn, 0.342020, 2e-6)
	b.Seats[0].Facing, b.Seats[0].Recline = 0, 20*deg
	proof.Near(t, "reclined", b.Felt(motion.Pose(0, 20*deg, 0), 0).Z, units.Gn, 1e-15)
	proof.Near(t, "leaning back", b.Felt(motion.Pose(0, 0, 0), 0).X/units.Gn, 0.342020, 2e-6)
}

// 30 rpm at half a metre.
func TestPureSpin(t *testing.T) {
	b := plain(motion.Point{X: 0.5})
	s := motion.State{Yaw: motion.AxisState{Speed: 30 * units.Rpm}}
	f := b.Felt(s, 0)
	proof.Near(t, "centripetal", -f.X, 4.934802, 1e-6)
	proof.Near(t, "in g", -f.X/units.Gn, 0.503210, 1e-6)
	proof.Near(t, "resultant", motion.Acceleration{X: f.X, Y: f.Y, Z: f.Z}.Size()/units.Gn, 1.119473, 1e-6)
	proof.Near(t, "jerk in the rider's axes", f.Jerk.X, 0, 1e-12)
}

// ±20° at 0.4 Hz, 0.9 m above the axis: closed forms of harmonic motion.
func TestHarmonicPitch(t *testing.T) {
	b := plain(motion.Point{Z: 0.9})
	w, A := 2*math.Pi*0.4, 20*deg
	proof.Near(t, "rate", A*w, 0.877298, 1e-6)
	end := motion.State{Pitch: motion.AxisState{Position: A, Acceleration: -A * w * w}}
	a := b.Point(end, b.Seats[0].At).Acceleration
	proof.Near(t, "at the end", a.Size(), 1.984402, 1e-6)
	middle := motion.State{Pitch: motion.AxisState{Speed: A * w, Jerk: -A * w * w * w}}
	a = b.Point(middle, b.Seats[0].At).Acceleration
	proof.Near(t, "in the middle", a.Z, -0.692687, 1e-6)
}

// Order of rotations, matrix and quaternion: Rz(40°)·Ry(25°)·Rx(-15°) multiplied
// out apart from this code.
func TestRotation(t *testing.T) {
	r := motion.Pose(90*deg, 90*deg, 0).Rotation()
	proof.Near(t, "x goes down", r.ZX, -1, 1e-15)
	s := motion.Pose(40*deg, 25*deg, -15*deg)
	r = s.Rotation()
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"xx", r.XX, 0.69427204}, {"xy", r.XY, -0.70467636}, {"xz", r.XZ, 0.14634737},
		{"yx", r.YX, 0.58256342}, {"yy", r.YY, 0.66963294}, {"yz", r.YZ, 0.46066430},
		{"zx", r.ZX, -0.42261826}, {"zy", r.ZY, -0.23456972}, {"zz", r.ZZ, 0.87542610},
		{"w", s.Quaternion().W, 0.89990709}, {"x", s.Quaternion().X, -0.19314050},
		{"y", s.Quaternion().Y, 0.15806233}, {"z", s.Quaternion().Z, 0.35760352},
	} {
		proof.Near(t, c.name, c.got, c.want, 4e-8) // eight digits
	}
	a := r.Angles()
	proof.Near(t, "yaw", a.Yaw, 40*deg, 1e-14)
	proof.Near(t, "pitch", a.Pitch, 25*deg, 1e-14)
	proof.Near(t, "roll", a.Roll, -15*deg, 1e-14)
	locked := motion.Pose(50*deg, 90*deg, 20*deg).Rotation().Angles()
	if !locked.Locked {
		t.Errorf("pitch of 90°: got %+v, want it locked", locked)
	}
	proof.Near(t, "yaw less roll", locked.Yaw, 30*deg, 1e-9)
	proof.Panics(t, "length of a row", func() { motion.Rotation{XX: 2}.Angles() })
}

func drawState(t *rapid.T) motion.State {
	axis := func(name string) motion.AxisState {
		r := rapid.Float64Range(-2, 2)
		return motion.AxisState{Position: r.Draw(t, name), Speed: r.Draw(t, name+"'"), Acceleration: r.Draw(t, name+"''"), Jerk: r.Draw(t, name+"'''")}
	}
	return motion.State{Yaw: axis("yaw"), Pitch: axis("pitch"), Roll: axis("roll")}
}

// later is the state after a time at constant jerk.
func later(s motion.State, t float64) motion.State {
	step := func(a motion.AxisState) motion.AxisState {
		return motion.AxisState{
			Position:     a.Position + t*(a.Speed+t*(a.Acceleration/2+t*a.Jerk/6)),
			Speed:        a.Speed + t*(a.Acceleration+t*a.Jerk/2),
			Acceleration: a.Acceleration + t*a.Jerk,
			Jerk:         a.Jerk,
		}
	}
	return motion.State{Yaw: step(s.Yaw), Pitch: step(s.Pitch), Roll: step(s.Roll)}
}

func close(t *rapid.T, what string, got, want, bound float64) {
	if !(math.Abs(got-want) <= bound) {
		t.Fatalf("%s: got %.12g, want %.12g within %.1g", what, got, want, bound)
	}
}

// With offsets between the axes: velocity, acceleration and jerk are what the
// differences of positions tend to; and the rates give the same acceleration by
// the rigid-body formula.
func TestDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := motion.Point{X: 0.7, Y: -0.4, Z: 0.9}
		b := plain(at)
		b.PitchAxis, b.RollAxis = motion.Point{X: 0.1, Z: 0.8}, motion.Point{X: -0.05, Y: 0.02, Z: 0.3}
		s := drawState(t)
		p := b.Point(s, at)
		const h = 1e-3
		m, n := b.Point(later(s, -h), at), b.Point(later(s, h), at)
		const bound = 2e-3 // h² times fifth derivatives of some thousands
		close(t, "velocity", (n.At.X-m.At.X)/(2*h), p.Velocity.X, bound)
		close(t, "acceleration", (n.Velocity.Y-m.Velocity.Y)/(2*h), p.Acceleration.Y, bound)
		close(t, "jerk", (n.Acceleration.Z-m.Acceleration.Z)/(2*h), p.Jerk.Z, bound)
		f, g := b.Felt(later(s, -h), 0), b.Felt(later(s, h), 0)
		close(t, "felt jerk", (g.Y-f.Y)/(2*h), b.Felt(s, 0).Jerk.Y, bound)

		spin, yaw, pitch, roll := s.Spin(), s.Yaw, s.Pitch, s.Roll
		st, ct := math.Sincos(pitch.Position)
		sr, cr := math.Sincos(roll.Position)
		close(t, "p", spin.Rate.X, roll.Speed-yaw.Speed*st, 1e-12)
		close(t, "q", spin.Rate.Y, pitch.Speed*cr+yaw.Speed*ct*sr, 1e-12)
		close(t, "r", spin.Rate.Z, -pitch.Speed*sr+yaw.Speed*ct*cr, 1e-12)
		// Where all axes meet: f = alpha x r + omega x (omega x r) + turned g.
		q := plain(at)
		w, a := [3]float64{spin.Rate.X, spin.Rate.Y, spin.Rate.Z}, [3]float64{spin.Change.X, spin.Change.Y, spin.Change.Z}
		r := [3]float64{at.X, at.Y, at.Z}
		x := func(a, b [3]float64) [3]float64 {
			return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
		}
		ar, wwr := x(a, r), x(w, x(w, r))
		turned := s.Rotation()
		felt := q.Felt(s, 0)
		close(t, "felt x", felt.X, ar[0]+wwr[0]+units.Gn*turned.ZX, 1e-9)
		close(t, "felt y", felt.Y, ar[1]+wwr[1]+units.Gn*turned.ZY, 1e-9)
		close(t, "felt z", felt.Z, ar[2]+wwr[2]+units.Gn*turned.ZZ, 1e-9)
	})
}

func TestBadBase(t *testing.T) {
	b := plain(motion.Point{})
	if err := b.Check(); err != nil {
		t.Error(err)
	}
	b.Seats = make([]motion.Seat, 5)
	proof.Fails(t, "too many seats", b.Check(), "got 5 seats, want at most 4")
	b = plain(motion.Point{})
	b.Seats = append(b.Seats, b.Seats[0])
	proof.Fails(t, "two of a name", b.Check(), `seat 2: name: got "one"`)
	b = plain(motion.Point{X: math.NaN()})
	proof.Fails(t, "seat", b.Check(), "seat one: got NaN")
	b = plain(motion.Point{})
	b.Roll.Low = 2
	proof.Fails(t, "travel", b.Check(), "roll: travel: got 2 to")
	b.Yaw.Limits.Jerk = 0
	proof.Fails(t, "limits", b.Check(), "yaw: jerk limit: got 0")
	proof.Panics(t, "seat: got 7", func() { b.Felt(motion.State{}, 7) })
	proof.Panics(t, "pitch: got NaN", func() { b.Felt(motion.Pose(0, math.NaN(), 0), 0) })
}

// The same seat, projected by hand: upright at rest it stands over the hull.
func TestPictures(t *testing.T) {
	var s sheet.Sheet
	d := s.NewDrawing("poses")
	b := plain(motion.Point{X: 0.4, Z: 0.8})
	b.PitchAxis.Z = 0.7
	b.Hull = []motion.Point{{X: 1}, {Y: 1}, {X: -1}}
	b.Draw(d, motion.Pose(0, 0, 0), "rest", 2)
	for _, shape := range d.Shapes {
		if shape.Kind == sheet.ShapeOutline {
			proof.Near(t, "x", float64(shape.X[0]), 2+math.Cos(math.Pi/6), 1e-15)
			proof.Near(t, "y", float64(shape.Y[0]), 0.7+0.5, 1e-15)
			return
		}
	}
	t.Error("got no outline")
}

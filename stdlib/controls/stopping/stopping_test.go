package stopping_test

import (
	"fmt"
	"math"
	"testing"

	"tautline/stdlib/controls/stopping"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

const deg = units.Deg

var limits = motion.Limits{Speed: 3, Acceleration: 20, Jerk: 400}

// base has all axes through one point 0.8 m over the ground and a seat at 1.2 m
// before them.
func base() motion.Base {
	tilt := motion.Axis{Low: -20 * deg, High: 20 * deg, Limits: limits}
	return motion.Base{
		Name: "bench", PitchAxis: motion.Point{Z: 0.8}, Yaw: motion.Axis{Continuous: true, Limits: limits}, Pitch: tilt, Roll: tilt,
		Seats: []motion.Seat{{Name: "bow", At: motion.Point{X: 1.2}}},
	}
}

// hull is a disc on the axes: nothing but inertia, 78.9 kg·m² about each.
var hull = []motion.Body{{Name: "hull", Part: "roll", Mass: 100, X: 78.9, Y: 78.9, Z: 78.9}}

func chain(category int) stopping.Chain {
	axle := stopping.Axle{Deceleration: 3.75, Jerk: 1e9, Brake: 300, Runaway: motion.Limits{Speed: 2.5, Acceleration: 5, Jerk: 1e9}}
	return stopping.Chain{Base: base(), Bodies: hull, Yaw: axle, Pitch: axle, Roll: axle, Category: category, Notice: 0.05, Control: 0.07, Patience: 1}
}

func programme(level motion.Level) motion.Programme {
	level.Name, level.Duration = "test", 30
	return motion.Programme{Name: "test", Levels: []motion.Level{level}}
}

// spin turns at 1.5 rad/s; at 10 s it does so evenly.
var spin = programme(motion.Level{Yaw: motion.Wave{Spin: 1.5}})

func stop(t *testing.T, c stopping.Chain, p motion.Programme, moment float64, f stopping.Fault) stopping.Course {
	t.Helper()
	ride := proof.Must(p.Ride(c.Base))(t)
	return proof.Must(c.Stop(ride, moment, f))(t)
}

// A turntable of 1.5 rad/s, 0.12 s until the drive slows it by 3.75 rad/s²:
// v·t + v²/2a and t + v/a by hand; then with jerk, v/2·(v/a + a/j).
func TestControlledStop(t *testing.T) {
	c := chain(1)
	s := stop(t, c, spin, 10, stopping.Fault{})
	proof.Near(t, "angle", s.Angle[0]/deg, 27.50197, 1e-6)
	proof.Near(t, "time", s.Whole, 0.520, 1e-7)
	proof.Near(t, "contact", s.Contact, 0.05, 0)
	proof.Near(t, "command", s.Command, 0.12, 1e-15)
	proof.Near(t, "power off", s.Off, 0.52, 1e-7)
	proof.Near(t, "brake", s.Energy[0], 0, 0)
	// The seat goes along an arc of 1.2 m: a chord of 2·r·sin(angle/2).
	proof.Near(t, "travel", s.Travel, 2*1.2*math.Sin(27.50197*deg/2), 1e-6)
	f := s.Feels[0]
	proof.Near(t, "outward", f.Back, 1.5*1.5*1.2, 1e-9)
	proof.Near(t, "sideways", f.Side, 3.75*1.2, 1e-9)
	proof.Near(t, "pressed", f.Press, units.Gn, 1e-12)

	c.Notice, c.Control, c.Yaw.Jerk = 0, 0, 20
	s = stop(t, c, spin, 10, stopping.Fault{})
	proof.Near(t, "time", s.Whole, 0.5875, 1e-12)
	proof.Near(t, "angle", s.Angle[0], 0.440625, 1e-12)
	// The jerk of the seat at first is that of the axis times the arm, across, and
	// 3·w·a·r along at its most, where the acceleration has come.
	w := 1.5 - 3.75*3.75/20/2
	proof.Near(t, "jerk", s.Feels[0].Jerk, 1.2*math.Hypot(20, 0), 0.5)
	if s.Feels[0].Jerk < 1.2*math.Hypot(3*w*3.75, 0) || s.Feels[0].Jolt > 1e-9 {
		t.Errorf("got %+v", s.Feels[0])
	}
}

// The power goes, the brake bites after 0.03 s and is there after another 0.04 s:
// each stretch in closed form, and all energy in the brake.
func TestBrake(t *testing.T) {
	c := chain(0)
	c.Yaw.Inertia = 5.1
	s := stop(t, c, spin, 10, stopping.Fault{})
	J := 78.9 + 5.1
	proof.Near(t, "angle", s.Angle[0], 1.5*0.12+J*1.5*1.5/2/300, 1e-9)
	proof.Near(t, "time", s.Whole, 0.12+J*1.5/300, 1e-9)
	proof.Near(t, "energy", s.Energy[0], J*1.5*1.5/2, 1e-9)
	// It bites at once and catches at once: twice the same jolt.
	along := 300 / J * 1.2
	proof.Near(t, "jolt", s.Feels[0].Jolt, along, 1e-6)
	proof.Near(t, "sideways", s.Feels[0].Side, along, 1e-9)

	c.Yaw.Delay, c.Yaw.Rise = 0.03, 0.04
	s = stop(t, c, spin, 10, stopping.Fault{})
	w := 1.5 - 300*0.04/2/J
	proof.Near(t, "angle", s.Angle[0], 1.5*0.15+1.5*0.04-300*0.04*0.04/6/J+J*w*w/2/300, 1e-9)
	proof.Near(t, "time", s.Whole, 0.19+J*w/300, 1e-9)
	proof.Near(t, "energy", s.Energy[0], J*1.5*1.5/2, 1e-9)
	c.Yaw.Friction = 100
	s = stop(t, c, spin, 10, stopping.Fault{Brake: "yaw", Lost: 1})
	proof.Near(t, "friction alone", s.Whole, 0.12+J*1.5/100, 1e-9)
	s = stop(t, c, spin, 10, stopping.Fault{Brake: "all", Lost: 0.5})
	w -= 100*0.07/J - 300*0.04/4/J
	if math.Abs(s.Whole-(0.19+J*w/250)) > 1e-9 {
		t.Errorf("half a brake: got %g s, want %g", s.Whole, 0.19+J*w/250)
	}
}

// A rider of 90 kg 0.9 m over the pitch axis, braked while swinging: one equation
// of motion, integrated here in steps of a microsecond, another way.
func TestBrakedPendulum(t *testing.T) {
	c := chain(0)
	c.Bodies = []motion.Body{{Name: "rider", Part: "roll", Mass: 90, At: motion.Point{Z: 0.9}, X: 6, Y: 6, Z: 1}}
	c.Pitch = stopping.Axle{Deceleration: 4, Jerk: 40, Inertia: 5, Friction: 20, Brake: 500, Delay: 0.03, Rise: 0.05}
	p := programme(motion.Level{Pitch: motion.Wave{Amplitude: 13 * deg, Period: 2}})
	ride := proof.Must(p.Ride(c.Base))(t)
	for _, moment := range []float64{8, 8.3, 8.6, 9.1, 9.7} {
		s := proof.Must(c.Stop(ride, moment, stopping.Fault{}))(t)
		at := ride.At(moment + 0.12).Pitch
		q, w, now := at.Position, at.Speed, 0.12
		way := math.Copysign(1, w)
		const h = 1e-6
		for {
			brake := 500 * math.Min(math.Max((now-0.15)/0.05, 0), 1)
			tips := 90 * units.Gn * 0.9 * math.Sin(q)
			if w*way <= 0 { // at rest: it stays, or the weight takes it before the brake is there
				if math.Abs(tips) <= 20+brake {
					break
				}
				w, way = 0, math.Copysign(1, tips)
			}
			w += h * (tips - way*(20+brake)) / (6 + 90*0.81 + 5)
			q += h * w
			now += h
		}
		proof.Near(t, "time", s.Rest[1], now, 1e-5) // steps of 1e-6, first order
		proof.Near(t, "where", s.PitchAngle[len(s.PitchAngle)-1], q, 3e-5)
	}
}

// Three axes braked at once, coupled: what the brakes take is what moved and what
// came down. Energy from places and rates only.
func TestEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := chain(0)
		c.Base.RollAxis = motion.Point{X: 0.05, Z: 0.12}
		c.Bodies = []motion.Body{
			{Name: "table", Part: "yaw", Mass: 60, At: motion.Point{Z: 0.4}, X: 3, Y: 3, Z: 5},
			{Name: "hull", Part: "roll", Mass: 85, At: motion.Point{Z: 0.2}, X: 14, Y: 55, Z: 60},
			{Name: "rider", Part: "roll", Mass: rapid.Float64Range(20, 110).Draw(t, "rider"), At: motion.Point{X: 0.45, Y: 0.08, Z: 0.52}, X: 4, Y: 4, Z: 2},
		}
		axle := func(name string) stopping.Axle {
			return stopping.Axle{Deceleration: 4, Jerk: 40, Inertia: rapid.Float64Range(0, 30).Draw(t, name), Brake: rapid.Float64Range(1500, 2500).Draw(t, name), Delay: 0.02, Rise: 0.03}
		}
		c.Yaw, c.Pitch, c.Roll = axle("yaw"), axle("pitch"), axle("roll")
		p := programme(motion.Level{Yaw: motion.Wave{Amplitude: 40 * deg, Period: 3}, Pitch: motion.Wave{Amplitude: 10 * deg, Period: 2.6}, Roll: motion.Wave{Amplitude: 8 * deg, Period: 2.2}})
		ride, err := p.Ride(c.Base)
		if err != nil {
			t.Fatal(err)
		}
		energy := func(s motion.State, rotors bool) float64 {
			sum := 0.0
			if rotors {
				sum = (c.Yaw.Inertia*s.Yaw.Speed*s.Yaw.Speed + c.Pitch.Inertia*s.Pitch.Speed*s.Pitch.Speed + c.Roll.Inertia*s.Roll.Speed*s.Roll.Speed) / 2
			}
			w := s.Spin().Rate
			for _, b := range c.Bodies {
				at, rate := b.At, w
				if b.Part == "yaw" { // its own place, turned with the yaw only
					rate = motion.Rate{Z: s.Yaw.Speed}
					v := s.Yaw.Speed * math.Hypot(at.X, at.Y)
					sum += b.Mass*v*v/2 + b.Z*rate.Z*rate.Z/2
					continue
				}
				point := c.Base.Point(s, at)
				v := point.Velocity.Size()
				sum += b.Mass*(v*v/2+units.Gn*point.At.Z) + (b.X*rate.X*rate.X+b.Y*rate.Y*rate.Y+b.Z*rate.Z*rate.Z)/2
			}
			return sum
		}
		moment := rapid.Float64Range(6, 20).Draw(t, "moment")
		s, err := c.Stop(ride, moment, stopping.Fault{})
		if err != nil {
			t.Fatal(err)
		}
		if !s.Rests {
			t.Fatalf("got %q", s.Warnings)
		}
		n := len(s.Time) - 1
		end := motion.Pose(s.YawAngle[n], s.PitchAngle[n], s.RollAngle[n])
		lost := energy(ride.At(moment+0.12), true) - energy(end, true)
		taken := s.Energy[0] + s.Energy[1] + s.Energy[2]
		// Steps of 10 ms, in which a speed is not quite a parabola.
		if math.Abs(taken-lost) > 1e-3*math.Abs(lost)+0.01 {
			t.Fatalf("brakes took %g J, %g J were lost", taken, lost)
		}
	})
}

// Power gone and no brake at 10° of pitch, from rest: the weight takes it to the
// end at 20°, as fast as the height makes it; a brake that holds less than the
// weight only makes it slower, one that holds more keeps it.
func TestSinks(t *testing.T) {
	c := chain(0)
	c.Bodies = []motion.Body{{Name: "rider", Part: "roll", Mass: 90, At: motion.Point{Z: 0.9}, X: 6, Y: 6, Z: 1}}
	c.Pitch.Inertia = 5
	held := programme(motion.Level{Pitch: motion.Wave{Centre: 10 * deg}})
	lift := 90 * units.Gn * 0.9
	J := 6 + 90*0.81 + 5.0
	s := stop(t, c, held, 10, stopping.Fault{PowerLost: true, Brake: "pitch", Lost: 1})
	proof.Near(t, "struck", s.Struck[1], math.Sqrt(2*lift*(math.Cos(10*deg)-math.Cos(20*deg))/J), 1e-6)
	proof.Near(t, "angle", s.Angle[1], 10*deg, 1e-9)
	if len(s.Warnings) != 1 || !s.Rests {
		t.Errorf("got %q, rests %t", s.Warnings, s.Rests)
	}
	weak := 0.5 * lift * math.Sin(10*deg)
	c.Pitch.Brake = weak
	s = stop(t, c, held, 10, stopping.Fault{PowerLost: true})
	proof.Near(t, "held back", s.Struck[1], math.Sqrt(2*(lift*(math.Cos(10*deg)-math.Cos(20*deg))-weak*10*deg)/J), 1e-6)
	c.Pitch.Brake = 2.1 * weak
	s = stop(t, c, held, 10, stopping.Fault{PowerLost: true})
	proof.Near(t, "kept", s.Angle[1], 0, 0)
	proof.Near(t, "at rest", s.Whole, 0, 0)
}

// The turntable runs away from 1.5 to 2.5 rad/s at 5 rad/s² for the 0.4 s that
// someone takes to pull, goes on until the power goes, and only then is braked.
func TestRunaway(t *testing.T) {
	c := chain(1)
	away := stopping.Fault{RunsAway: "yaw", Reaction: 0.4}
	s := stop(t, c, spin, 10, away)
	on := 0.4 + 0.12 + 1
	gone := 1.5*0.2 + 5*0.2*0.2/2 + 2.5*(on-0.2)
	proof.Near(t, "category 1", s.Angle[0], gone+78.9*2.5*2.5/2/300, 1e-6)
	proof.Near(t, "time", s.Whole, on+78.9*2.5/300, 1e-6)
	proof.Near(t, "pull", s.Pull, 0.4, 0)
	c.Category = 0
	s = stop(t, c, spin, 10, away)
	proof.Near(t, "category 0", s.Angle[0], gone-2.5+78.9*2.5*2.5/2/300, 1e-6)
	away.Way = -1
	s = stop(t, c, spin, 10, away)
	proof.Near(t, "before it turns round", s.Angle[0], 1.5*1.5/2/5, 1e-4) // farthest of steps of 5 ms
	// A tilt axis runs to its end.
	s = stop(t, c, spin, 10, stopping.Fault{RunsAway: "pitch", Reaction: 0.4})
	proof.Near(t, "met its end", s.Struck[1], math.Sqrt(2*5*20*deg), 0.02) // found at a step of 5 ms
	proof.Near(t, "there", s.Angle[1], 20*deg, 1e-9)
}

// A drive without torque lets its axis run on until the power goes and the brake
// closes; the patience is then what costs. The same when the stop is noticed late.
func TestDeadAndLate(t *testing.T) {
	c := chain(1)
	s := stop(t, c, spin, 10, stopping.Fault{Dead: "yaw"})
	proof.Near(t, "dead", s.Angle[0], 1.5*1.12+78.9*1.5*1.5/2/300, 1e-9)
	s = stop(t, c, spin, 10, stopping.Fault{Late: 0.8})
	proof.Near(t, "late", s.Whole, 1.32, 1e-7)
	s = stop(t, c, spin, 10, stopping.Fault{PowerLost: true})
	proof.Near(t, "power lost", s.Angle[0], 78.9*1.5*1.5/2/300, 1e-9)
	// Patience shorter than the stop: the brakes finish it.
	c.Patience = 0.2
	s = stop(t, c, spin, 10, stopping.Fault{})
	w := 1.5 - 3.75*0.2
	proof.Near(t, "cut short", s.Whole, 0.32+78.9*w/300, 1e-7)
}

// The search on an even spin finds what one stop has; on a wave that swings
// alike both ways it finds alike, and nothing worse at any other moment.
func TestSearch(t *testing.T) {
	c := chain(1)
	w := proof.Must(c.Search(spin, stopping.Fault{}, 0.5))(t)
	proof.Near(t, "angle", w.Angle[0]/deg, 27.50197, 1e-6)
	proof.Near(t, "time", w.Whole, 0.520, 1e-6)
	if w.Level[0] != "test" || w.Angle[1] != 0 || w.Angle[3] != 0 || w.Level[3] != "" || w.Way[3] != "falling" {
		t.Errorf("got %+v", w)
	}
	wave := programme(motion.Level{Pitch: motion.Wave{Amplitude: 12 * deg, Period: 2.5, Limits: motion.Limits{Speed: 1, Acceleration: 3, Jerk: 20}}})
	c.Pitch.Jerk = 60
	w = proof.Must(c.Search(wave, stopping.Fault{}, 0.05))(t)
	ride := proof.Must(wave.Ride(c.Base))(t)
	rapid.Check(t, func(t *rapid.T) {
		s, err := c.Stop(ride, rapid.Float64Range(0, 30).Draw(t, "moment"), stopping.Fault{})
		if err != nil {
			t.Fatal(err)
		}
		const finer = 1.002 // between moments tried
		f := s.Feels[0]
		if math.Abs(s.Angle[1]) > w.Angle[1]*finer || s.Whole > w.Whole*finer || s.Travel > w.Travel*finer || f.Press > w.Value[3]*finer || f.Lift < w.Value[4]/finer || f.Jerk > w.Jerk*finer {
			t.Fatalf("worse than found: at %g s got %g rad, %g s, %g m, %+v", s.Moment, s.Angle[1], s.Whole, s.Travel, f)
		}
	})
	if len(w.Moments()) < 4 || w.Tried < 600 {
		t.Errorf("got %d moments of %d tried", len(w.Moments()), w.Tried)
	}
	_, err := c.Search(wave, stopping.Fault{}, 2)
	proof.Fails(t, "step", err, "search: step: got 2")
}

func TestSurvey(t *testing.T) {
	c := chain(1)
	faults := []stopping.Fault{
		{Part: "none", Left: "drives"}, {Part: "yaw drive", Left: "brakes", Dead: "yaw"}, {Part: "pitch drive", Left: "brakes", RunsAway: "pitch"},
		{Part: "yaw brake and power", Left: "friction", PowerLost: true, Brake: "yaw", Lost: 1},
	}
	s := proof.Must(c.Survey(spin, faults, []float64{10, 11}))(t)
	proof.Near(t, "none", s.Yaw[0]/deg, 27.50197, 1e-6)
	proof.Near(t, "dead", s.Yaw[1], 1.5*1.12+78.9*1.5*1.5/2/300, 1e-9)
	proof.Near(t, "runs away", s.Pitch[2], 20*deg, 1e-9)
	for i, want := range []string{"rests", "rests", "meets its end", "still moves"} {
		if s.Outcome[i] != want {
			t.Errorf("%s: got %q, want %q", s.Part[i], s.Outcome[i], want)
		}
	}
	_, err := c.Survey(spin, nil, []float64{1})
	proof.Fails(t, "none", err, "got 0 faults and 1 moments")
	_, err = c.Survey(spin, faults, []float64{50})
	proof.Fails(t, "moment", err, "survey: moment: got 50")
}

func TestBadChain(t *testing.T) {
	ride := proof.Must(spin.Ride(base()))(t)
	for _, c := range []struct {
		change func(*stopping.Chain, *stopping.Fault)
		words  string
	}{
		{func(c *stopping.Chain, _ *stopping.Fault) { c.Category = 2 }, "category: got 2, which keeps the power on, want 0 or 1"},
		{func(c *stopping.Chain, _ *stopping.Fault) { c.Category = 3 }, "category: got 3, want 0 or 1"},
		{func(c *stopping.Chain, _ *stopping.Fault) { c.Pitch.Brake = -1 }, "stop: pitch: brake: got -1"},
		{func(c *stopping.Chain, _ *stopping.Fault) { c.Yaw.Deceleration = 0 }, "yaw: deceleration: got 0"},
		{func(c *stopping.Chain, _ *stopping.Fault) { c.Control = math.NaN() }, "control: got NaN"},
		{func(c *stopping.Chain, _ *stopping.Fault) { c.Bodies = nil }, "got a free axis without inertia"},
		{func(c *stopping.Chain, _ *stopping.Fault) { c.Base.Yaw.Limits.Jerk = 0 }, "jerk limit: got 0"},
		{func(_ *stopping.Chain, f *stopping.Fault) { f.RunsAway = "all" }, `runs away: got "all"`},
		{func(_ *stopping.Chain, f *stopping.Fault) { f.Brake = "heave" }, `brake: got "heave", want "yaw", "pitch" or "roll"`},
		{func(_ *stopping.Chain, f *stopping.Fault) { f.Lost = 2 }, "lost: got 2"},
		{func(_ *stopping.Chain, f *stopping.Fault) { f.Reaction = 1 }, "reaction: got 1 s without a drive that runs away"},
		{func(c *stopping.Chain, f *stopping.Fault) { f.RunsAway, c.Yaw.Runaway = "yaw", motion.Limits{} }, "yaw: runaway: got"},
	} {
		bad, f := chain(1), stopping.Fault{}
		c.change(&bad, &f)
		_, err := bad.Stop(ride, 1, f)
		proof.Fails(t, c.words, err, c.words)
	}
	proof.Panics(t, "moment: got 99", func() { chain(1).Stop(ride, 99, stopping.Fault{}) })
}

func TestDraw(t *testing.T) {
	var s sheet.Sheet
	fig := s.NewFigure("stop", "time", "speed")
	course := stop(t, chain(1), spin, 10, stopping.Fault{})
	course.Draw(fig)
	if len(fig.Curves) != 1 || fig.Curves[0].Name != "yaw" || len(fig.Limits) != 3 {
		t.Errorf("got %d curves, %d limits", len(fig.Curves), len(fig.Limits))
	}
	n := len(course.Time)
	if len(course.Felt[0].X) != n || len(course.RollAngle) != n {
		t.Errorf("got traces of %d, %d and %d values", n, len(course.Felt[0].X), len(course.RollAngle))
	}
}

// How far a turntable turns after the cord is pulled.
func Example() {
	c := chain(1)
	ride, err := spin.Ride(c.Base)
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := c.Stop(ride, 10*units.S, stopping.Fault{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f° in %.2f s\n", s.Angle[0]/units.Deg, s.Whole)
	// Output: 27.5° in 0.52 s
}

// Axes that hardly move and are loaded off their middle let go and catch together
// before their brakes bite; every stop comes to an end, in few steps.
func TestCatchesTogether(t *testing.T) {
	c := chain(0)
	c.Base.RollAxis = motion.Point{Z: 0.12}
	c.Bodies = []motion.Body{
		{Name: "hull", Part: "roll", Mass: 85, At: motion.Point{Z: 0.2}, X: 14, Y: 55, Z: 60},
		{Name: "bow", Part: "roll", Mass: 110, At: motion.Point{X: 0.45, Y: 0.08, Z: 0.52}, X: 4, Y: 4, Z: 2},
		{Name: "stern", Part: "roll", Mass: 20, At: motion.Point{X: -0.45, Z: 0.52}, X: 1, Y: 1, Z: 1},
	}
	tilting := stopping.Axle{Deceleration: 4, Jerk: 40, Inertia: 15, Friction: 15, Brake: 1800, Delay: 0.04, Rise: 0.03}
	c.Yaw, c.Pitch, c.Roll = stopping.Axle{Deceleration: 4, Jerk: 40, Friction: 25, Brake: 360, Delay: 0.04, Rise: 0.03}, tilting, tilting
	slow := motion.Limits{Speed: 0.4, Acceleration: 0.7, Jerk: 4}
	p := programme(motion.Level{Pitch: motion.Wave{Amplitude: 5 * deg, Period: 4, Limits: slow}, Roll: motion.Wave{Amplitude: 4 * deg, Period: 3.4, Delay: 0.5, Limits: slow}})
	ride := proof.Must(p.Ride(c.Base))(t)
	for i := range 100 {
		s := proof.Must(c.Stop(ride, float64(i)*0.3, stopping.Fault{}))(t)
		if !s.Rests || len(s.Time) > 200 {
			t.Errorf("at %g s: rests %t after %d values", s.Moment, s.Rests, len(s.Time))
		}
	}
}

// The same turntable, stopped at every half second of its ride: the worst is as far,
// since it turns evenly.
func ExampleChain_Search() {
	worst, err := chain(1).Search(spin, stopping.Fault{}, 500*units.Ms)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s %s: %.1f°\n", worst.Axis[0], worst.Way[0], worst.Angle[0]/units.Deg)
	// Output: yaw rising: 27.5°
}

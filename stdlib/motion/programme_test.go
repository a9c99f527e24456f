package motion_test

import (
	"encoding/csv"
	"math"
	"strings"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion"

	"pgregory.net/rapid"
)

// skiff is a base of usual size, its data invented.
func skiff() motion.Base {
	tilt := motion.Axis{Low: -20 * deg, High: 20 * deg, Limits: motion.Limits{Speed: 60 * deg, Acceleration: 240 * deg, Jerk: 2400 * deg}}
	return motion.Base{
		Name:      "skiff",
		PitchAxis: motion.Point{Z: 0.8}, RollAxis: motion.Point{Z: 0.15},
		Yaw:   motion.Axis{Continuous: true, Limits: motion.Limits{Speed: 120 * deg, Acceleration: 90 * deg, Jerk: 300 * deg}},
		Pitch: tilt, Roll: tilt,
		Seats: []motion.Seat{{Name: "bow", At: motion.Point{X: 0.5, Z: 0.8}}, {Name: "stern", At: motion.Point{X: -0.5, Z: 0.8}}},
	}
}

func seas() motion.Programme {
	return motion.Programme{
		Name: "sea states", Pause: 2, Seed: 7,
		Levels: []motion.Level{
			{Name: "harbour swell", Duration: 30, Pitch: motion.Wave{Amplitude: 5 * deg, Period: 4}, Roll: motion.Wave{Amplitude: 4 * deg, Period: 5, Delay: 1}},
			{Name: "bow up", Duration: 8, Pitch: motion.Wave{Centre: -10 * deg}},
			{Name: "whirlpool", Duration: 20, Yaw: motion.Wave{Spin: -90 * deg}, Pitch: motion.Wave{Centre: 4 * deg, Amplitude: 3 * deg, Period: 3}},
			{Name: "storm", Duration: 40, Variation: 0.4, Yaw: motion.Wave{Amplitude: 30 * deg, Period: 6}, Pitch: motion.Wave{Amplitude: 14 * deg, Period: 2.5}, Roll: motion.Wave{Amplitude: 10 * deg, Period: 2.2}},
		},
	}
}

func TestRide(t *testing.T) {
	b := skiff()
	r := proof.Must(seas().Ride(b))(t)
	proof.Near(t, "duration", r.Duration, 30+8+20+40+3*2, 1e-12)
	step := r.Step()
	if step.Position > 1e-12 || step.Speed > 1e-9 || step.Acceleration > 1e-6 { // rounding of the pieces' ends
		t.Errorf("the ride jumps: %+v", step)
	}
	// The middle of the swell is the sine itself: speed and position on one ellipse.
	for _, at := range []float64{10, 12.3, 15.9} {
		s := r.At(at).Pitch
		w := 2 * math.Pi / 4
		proof.Near(t, "ellipse", math.Hypot(s.Position, s.Speed/w), 5*deg, 1e-12)
		proof.Near(t, "sine", s.Acceleration, -w*w*s.Position, 1e-12)
	}
	proof.Near(t, "pose", r.At(36).Pitch.Position, -10*deg, 1e-12)
	proof.Near(t, "full spin", r.At(52).Yaw.Speed, -90*deg, 1e-12)
	// Whole turns: 90°/s for 20 s less a ramp of 1.3 s leaves four.
	proof.Near(t, "turns", r.At(61).Yaw.Position, -4*360*deg, 1e-12)
	for i := range r.Levels {
		for _, at := range []float64{r.Starts[i], r.Ends[i]} {
			s := r.At(at)
			if math.Abs(s.Pitch.Position)+math.Abs(s.Roll.Position) > 1e-12 || math.Abs(math.Sin(s.Yaw.Position)) > 1e-9 {
				t.Errorf("%s: at %g s: got %+v, want rest", r.Levels[i], at, s)
			}
		}
	}
	if r.LevelAt(31) != "" || r.LevelAt(33) != "bow up" || r.LevelAt(200) != "" {
		t.Error("levels are not told apart from pauses")
	}
	if again := proof.Must(seas().Ride(b))(t); again.Table(0.5) != r.Table(0.5) {
		t.Error("the same seed gives another ride")
	}
	other := seas()
	other.Seed++
	if proof.Must(other.Ride(b))(t).Table(0.5) == r.Table(0.5) {
		t.Error("another seed gives the same ride")
	}
	e := r.Extremes()
	if len(e.Level) != 12 || e.Level[4] != "bow up" || e.Axis[4] != "pitch" {
		t.Fatalf("extremes: got %+v", e)
	}
	proof.Near(t, "swell", e.High[1], 5*deg, 1e-4)
	proof.Near(t, "swell, speed", e.Speed[1], 5*deg*2*math.Pi/4, 1e-4)
	proof.Near(t, "pose", e.Low[4], -10*deg, 1e-12)
}

// Whatever the seed: no jump, and nothing higher or quicker than the regular wave.
func TestVariation(t *testing.T) {
	b := skiff()
	rapid.Check(t, func(t *rapid.T) {
		A, T := rapid.Float64Range(1, 15).Draw(t, "amplitude")*deg, rapid.Float64Range(2.5, 6).Draw(t, "period")
		p := motion.Programme{Seed: rapid.IntRange(0, 1e6).Draw(t, "seed"), Levels: []motion.Level{{
			Name: "sea", Duration: rapid.Float64Range(5*T, 60).Draw(t, "duration"), Variation: rapid.Float64Range(0.01, 0.5).Draw(t, "variation"),
			Pitch: motion.Wave{Amplitude: A, Period: T},
		}}}
		r, err := p.Ride(b)
		if err != nil {
			t.Fatal(err)
		}
		w, e := 2*math.Pi/T, r.Extremes()
		if e.High[1] > A*(1+1e-12) || e.Low[1] < -A*(1+1e-12) || e.Speed[1] > A*w*(1+1e-4) || e.Acceleration[1] > A*w*w*(1+1e-4) {
			t.Fatalf("got %g to %g rad, %g rad/s, %g rad/s²; amplitude %g, peaks of the sine %g and %g", e.Low[1], e.High[1], e.Speed[1], e.Acceleration[1], A, A*w, A*w*w)
		}
		if s := r.Step(); s.Position > 1e-12 || s.Speed > 1e-10 || s.Acceleration > 1e-9 {
			t.Fatalf("jumps: %+v", s)
		}
	})
}

func TestShopTexts(t *testing.T) {
	p := seas()
	p.Levels[1].Name = `bow up, "hold"`
	r := proof.Must(p.Ride(skiff()))(t)
	rows, err := csv.NewReader(strings.NewReader(r.Table(0.1))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1042 || len(rows[0]) != 11 || rows[0][4] != "pitch deg" || rows[361][10] != p.Levels[1].Name || rows[361][4] != "-10.0000" {
		t.Errorf("got %d rows, head %q, at 36 s %q", len(rows), rows[0], rows[361])
	}
	if want := "position,label,duration s\n1,harbour swell,30.0\n2,\"bow up, \"\"hold\"\"\",8.0\n"; !strings.HasPrefix(r.Panel(), want) {
		t.Errorf("panel: got %q", r.Panel())
	}
	k := proof.Must(r.Record("roll", 0.1))(t)
	proof.Near(t, "record", k.Position[100], r.At(10).Roll.Position, 1e-12)
	f := r.Trace(1, 0.1)
	proof.Near(t, "trace", f.Z[100], skiff().Felt(r.At(10), 1).Z, 1e-12)
	_, err = r.Record("heave", 0.1)
	proof.Fails(t, "axis", err, `got "heave"`)
	proof.Panics(t, "step: got 0", func() { r.Times(0) })
}

func TestBadProgramme(t *testing.T) {
	for _, c := range []struct {
		change func(*motion.Programme)
		words  string
	}{
		{func(p *motion.Programme) { p.Levels = nil }, "got no levels"},
		{func(p *motion.Programme) { p.Pause = -1 }, "pause: got -1"},
		{func(p *motion.Programme) { p.Levels[1].Name = "storm" }, `level 4: name: got "storm"`},
		{func(p *motion.Programme) { p.Levels[3].Variation = 0.7 }, "variation: got 0.7, want 0 to 0.5"},
		{func(p *motion.Programme) { p.Levels[0].Pitch.Amplitude = 25 * deg }, `level "harbour swell": pitch: travel`},
		{func(p *motion.Programme) { p.Levels[0].Pitch.Period = 0.4 }, "end speed"},
		{func(p *motion.Programme) { p.Levels[3].Pitch.Period = 0.9 }, `level "storm": pitch: speed: got`},
		{func(p *motion.Programme) { p.Levels[0].Roll.Period = 29 }, "no whole period of 29 s"},
		{func(p *motion.Programme) { p.Levels[3].Roll.Period = 80 }, "no whole period of 80 s"},
		{func(p *motion.Programme) { p.Levels[1].Duration = 0.2 }, "lengthen the level"},
		{func(p *motion.Programme) { p.Levels[2].Yaw.Spin = 9 }, "spin: got 9 rad/s, want at most"},
		{func(p *motion.Programme) { p.Levels[2].Duration = 3 }, "no whole turn"},
		{func(p *motion.Programme) { p.Levels[2].Pitch = motion.Wave{Spin: 1} }, "want a continuous axis"},
		{func(p *motion.Programme) { p.Levels[2].Yaw.Amplitude = 1; p.Levels[2].Yaw.Period = 3 }, "a spin and a wave"},
		{func(p *motion.Programme) { p.Levels[0].Pitch.Period = 0 }, "period: got 0"},
		{func(p *motion.Programme) {
			p.Levels[0].Pitch.Limits = motion.Limits{Speed: 9, Acceleration: 1, Jerk: 1}
		}, "want at most those of the axis"},
	} {
		p := seas()
		c.change(&p)
		_, err := p.Ride(skiff())
		proof.Fails(t, c.words, err, c.words)
	}
	b := skiff()
	b.Seats = make([]motion.Seat, 5)
	_, err := seas().Ride(b)
	proof.Fails(t, "base", err, "got 5 seats")
}

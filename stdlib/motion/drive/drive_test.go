package drive_test

import (
	"fmt"
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion/drive"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

// A tilt axis of 78.9 kg·m² with 20 N·m of friction on a gear of 50, up to
// 1.5 rad/s in 0.6 s, on for 1.2 s, down in 0.4 s, still for 1.8 s.
var (
	gear = drive.Train{Ratio: 50, Efficiency: 0.85, Backward: 0.85, Inertia: 0.0003, Friction: 20}
	m    = drive.Motor{Name: "test", Stall: 8, Rated: 6, Speed: 300, Peak: 20, Corner: 250, Top: 450, Inertia: 0.0020, Heating: 1800}
)

func trapezoid() drive.Demand {
	var d drive.Demand
	add := func(t, speed, acceleration float64) {
		d.Time, d.Speed, d.Acceleration = append(d.Time, t), append(d.Speed, speed), append(d.Acceleration, acceleration)
		d.Torque = append(d.Torque, 78.9*acceleration)
	}
	const just, crawl = 1e-9, 1e-12
	add(0, crawl, 2.5)
	add(0.6, 1.5, 2.5)
	add(0.6+just, 1.5, 0)
	add(1.8, 1.5, 0)
	add(1.8+just, 1.5, -3.75)
	add(2.2, crawl, -3.75)
	add(2.2+just, 0, 0)
	add(4, 0, 0)
	return d
}

// By the handbook formula on paper: accelerating and running torque, peak power,
// rms of the four stretches.
func TestDuty(t *testing.T) {
	d := proof.Must(gear.Duty(trapezoid(), m))(t)
	proof.Near(t, "speed", d.TopSpeed/units.Rpm, 716.197, 1e-6)
	proof.Near(t, "accelerating", d.Torque[1], 5.399265, 1e-7)
	proof.Near(t, "running", d.Torque[2], 0.470588, 1e-6)
	proof.Near(t, "power", d.PeakPower, 404.945, 1e-6)
	proof.Near(t, "reflected", drive.Reflected(78.9, 50), 0.03156, 1e-12)
	proof.Near(t, "inertia ratio", d.InertiaFor, 0.03156/0.0023, 1e-6)
	slowing := (-78.9*3.75+20)*0.85/50 - 0.0023*3.75*50
	proof.Near(t, "slowing", d.Torque[4], slowing, 1e-12)
	rms := math.Sqrt((5.399265*5.399265*0.6 + 0.470588*0.470588*1.2 + slowing*slowing*0.4) / 4)
	proof.Near(t, "rms", d.Rms, rms, 1e-6)
	proof.Near(t, "regained", d.Regained, -slowing*75*0.4/2, 1e-6)
	proof.Near(t, "back power", d.BackPower, -slowing*75, 1e-9)
	proof.Near(t, "margin", d.Margin, 5.399265/20, 1e-6)
	proof.Near(t, "best ratio to the motor", drive.BestRatio(78.9, 0.0020), 198.6202, 1e-6)
	proof.Near(t, "with the gear", drive.BestRatio(78.9, 0.0023), 185.2143, 1e-6)
	proof.Near(t, "two stages", 0.0004+drive.Reflected(0.0010, 5)+drive.Reflected(78.9, 50), 0.032000, 1e-12)
}

// Nothing lost, whatever the motion: what is given less what is regained is what
// the moving masses gained.
func TestNothingLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(0.5, 4).Draw(t, "rate")
		J := rapid.Float64Range(5, 100).Draw(t, "inertia")
		end := rapid.Float64Range(1, 10).Draw(t, "end")
		var d drive.Demand
		const n = 4000
		for i := range n + 1 {
			at := end * float64(i) / n
			d.Time = append(d.Time, at)
			d.Speed = append(d.Speed, math.Sin(w*at))
			d.Acceleration = append(d.Acceleration, w*math.Cos(w*at))
			d.Torque = append(d.Torque, J*w*math.Cos(w*at))
		}
		ideal := drive.Train{Ratio: 40, Efficiency: 1, Backward: 1}
		duty, err := ideal.Duty(d, m)
		if err != nil {
			t.Fatal(err)
		}
		s := math.Sin(w * end)
		want := (J/1600 + 0.0020) * 1600 * s * s / 2
		if got := duty.Given - duty.Regained; math.Abs(got-want) > 1e-4*(J/2+duty.Given) {
			t.Fatalf("got %g J, want %g J", got, want)
		}
		lossy := drive.Train{Ratio: 40, Efficiency: 0.8, Backward: drive.Backward(0.8)}
		other, _ := lossy.Duty(d, m)
		if other.Given < duty.Given || other.Regained > duty.Regained*(1+1e-12) {
			t.Fatalf("with losses less is given (%g, %g J) or more regained (%g, %g J)", other.Given, duty.Given, other.Regained, duty.Regained)
		}
	})
}

// A motor that works at twice its lasting torque for one part in five of a cycle:
// closed form of a body heated on and off.
func TestHeat(t *testing.T) {
	var d drive.Demand
	for i, torque := range []float64{800, 800, 0, 0} {
		d.Time = append(d.Time, []float64{0, 60, 60.0001, 300}[i])
		d.Torque = append(d.Torque, torque)
		d.Speed, d.Acceleration = append(d.Speed, 0), append(d.Acceleration, 0)
	}
	duty := proof.Must(drive.Train{Ratio: 50, Efficiency: 1, Backward: 1}.Duty(d, m))(t)
	tau := 1800.0
	want := 4 * (1 - math.Exp(-60/tau)) / (1 - math.Exp(-300/tau))
	proof.Near(t, "warmest", duty.HeatPeak, want, 1e-5)
	proof.Near(t, "mean", duty.Heat*duty.Heat, 4*60.0/300, 1e-5)
}

// A sliding screw, square and trapezoidal, and one with balls: J. E. Shigley's
// formulas worked apart from this code.
func TestScrew(t *testing.T) {
	s := drive.Screw{Lead: 0.005, Diameter: 0.0225, Friction: 0.12, Lever: 0.2}
	proof.Near(t, "raise", s.Raise(5000), 10.820723, 1e-6)
	proof.Near(t, "lower", s.Lower(5000), 2.747802, 1e-6)
	proof.Near(t, "efficiency", s.Forward(), 0.367709, 2e-6)
	if tr := s.Train(); tr.Backward != 0 {
		t.Errorf("a screw that holds by itself: got %+v", tr)
	}
	s.HalfAngle = 15 * units.Deg
	proof.Near(t, "trapezoidal", s.Raise(5000), 11.064217, 1e-6)
	proof.Near(t, "efficiency", s.Forward(), 0.359616, 2e-6)
	balls := drive.Screw{Lead: 0.010, Efficiency: 0.9, Lever: 0.2}
	proof.Near(t, "balls", balls.Raise(5000), 8.841941, 1e-6)
	proof.Near(t, "backward", drive.Backward(0.9), 0.888889, 1e-6)
	proof.Near(t, "held back", -balls.Lower(5000), 7.073553, 1e-6)
	tr := balls.Train()
	proof.Near(t, "ratio", tr.Ratio, 2*math.Pi*0.2/0.010, 1e-12)
	steep := drive.Screw{Lead: 0.03, Diameter: 0.02, Friction: 0.1, Lever: 0.2}
	proof.Near(t, "raising and lowering by one force", steep.Train().Backward*steep.Lead/(2*math.Pi), -steep.Lower(1), 1e-12)
	proof.Panics(t, "lead: got 0", func() { drive.Screw{}.Forward() })
}

// 0.03356 kg·m² at 75 rad/s, stopped in a quarter of a second.
func TestBrake(t *testing.T) {
	h := drive.Brake(0.03356, 75, 0.25, 0)
	proof.Near(t, "torque", h.Torque, 10.068, 1e-12)
	proof.Near(t, "energy", h.Energy, 94.3875, 1e-12)
	proof.Near(t, "angle", h.Angle, 9.375, 1e-12)
}

func TestMotor(t *testing.T) {
	for _, c := range []struct{ speed, lasting, most float64 }{
		{0, 8, 20}, {150, 7, 20}, {-300, 6, 20 - 14*50.0/200}, {400, 4.5, 20 - 14*150.0/200}, {450, 4, 6}, {451, 0, 0},
	} {
		proof.Near(t, "lasting", m.Continuous(c.speed), c.lasting, 1e-12)
		proof.Near(t, "for a moment", m.Most(c.speed), c.most, 1e-12)
	}
	table := drive.InventedMotors()
	for i, m := range table {
		if i > 0 && m.Stall <= table[i-1].Stall {
			t.Errorf("%s stands before a smaller one", m.Name)
		}
		m.Continuous(0) // its fields are in range
	}
	c := proof.Must(gear.Choose(table, []drive.Demand{trapezoid()}, 0.8, 0.7))(t)
	if c.Motor.Name != "M2 (invented)" || len(c.Rejected) != 1 {
		t.Errorf("got %s, rejected %q", c.Motor.Name, c.Rejected)
	}
	_, err := gear.Choose(table[:1], []drive.Demand{trapezoid()}, 0.8, 0.7)
	proof.Fails(t, "too small", err, "none of 1 suits; M1 (invented): needs")
	slow := gear
	slow.Ratio = 1000
	_, err = slow.Choose(table, []drive.Demand{trapezoid()}, 0.8, 0.7)
	proof.Fails(t, "too slow", err, "turns at most 4500")
	_, err = gear.Choose(nil, nil, 1, 1)
	proof.Fails(t, "empty", err, "got 0 motors and 0 demands")
}

func TestBadDemand(t *testing.T) {
	d := trapezoid()
	d.Torque = d.Torque[1:]
	_, err := gear.Duty(d, m)
	proof.Fails(t, "lists", err, "got 8 times, 7 torques")
	d = trapezoid()
	d.Time[3] = 0
	_, err = gear.Duty(d, m)
	proof.Fails(t, "times", err, "want rising times")
	d = trapezoid()
	d.Speed[3] = math.NaN()
	_, err = gear.Duty(d, m)
	proof.Fails(t, "values", err, "value 4: got NaN")
	bad := gear
	bad.Efficiency = 1.2
	_, err = bad.Duty(trapezoid(), m)
	proof.Fails(t, "train", err, "efficiency: got 1.2")
	_, err = gear.Duty(trapezoid(), drive.Motor{Name: "x"})
	proof.Fails(t, "motor", err, `motor "x": stall torque: got 0`)
}

func TestFormulaLines(t *testing.T) {
	proof.Formulas(t, []proof.Call{
		proof.Of("Backward", drive.Backward, [][]any{{0.9}, {0.4}}),
		proof.Of("Reflected", drive.Reflected, [][]any{{78.9, 50.0}}),
		proof.Of("BestRatio", drive.BestRatio, [][]any{{78.9, 0.002}}),
	})
}

func TestDraw(t *testing.T) {
	var s sheet.Sheet
	fig := s.NewFigure("torque over speed", "speed", "torque")
	proof.Must(gear.Duty(trapezoid(), m))(t).Draw(fig, m)
	if len(fig.Curves) != 3 || len(fig.Marks) != 1 {
		t.Fatalf("got %d curves, %d marks", len(fig.Curves), len(fig.Marks))
	}
	for i, v := range fig.Curves[0].Y {
		if v < fig.Curves[1].Y[i] {
			t.Errorf("at %g rad/s less is given for a moment than for ever", float64(fig.Curves[0].X[i]))
		}
	}
}

// Which motor turns a tilt axis.
func Example() {
	c, err := gear.Choose(drive.InventedMotors(), []drive.Demand{trapezoid()}, 0.8, 0.7)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s, rms %.1f N·m, peak %.1f N·m\n", c.Motor.Name, c.Duty.Rms, c.Duty.Peak)
	// Output: M2 (invented), rms 2.5 N·m, peak 5.2 N·m
}

package motion_test

import (
	"math"
	"testing"

	"tautline/stdlib/internal/proof"
	"tautline/stdlib/motion"
	"tautline/stdlib/units"

	"pgregory.net/rapid"
)

// A pendulum upside down, by hand: m·g·l·sin θ less the torque, over its inertia
// with that of the motor.
func TestFallsOver(t *testing.T) {
	b := plain(motion.Point{Z: 1})
	rider := []motion.Body{{Name: "rider", Part: "roll", Mass: 90, At: motion.Point{Z: 0.9}, X: 6, Y: 6}}
	s := proof.Must(b.Accelerate(motion.Pose(0, 20*deg, 0), rider, motion.Push{}, motion.Push{Free: true, Torque: -100, Inertia: 5}, motion.Push{}))(t)
	proof.Near(t, "pitch", s.Pitch.Acceleration, (90*units.Gn*0.9*math.Sin(20*deg)-100)/(6+90*0.81+5), 1e-13)
	proof.Near(t, "yaw", s.Yaw.Acceleration, 0, 0)
}

// What the axes then ask of their drives is just what pushes them: forces from
// accelerations, as Load has them, against accelerations from forces.
func TestAccelerateAgainstLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := plain(motion.Point{})
		b.PitchAxis, b.RollAxis = motion.Point{X: 0.1, Y: -0.05, Z: 0.8}, motion.Point{X: -0.05, Y: 0.02, Z: 0.3}
		bodies := []motion.Body{
			{Name: "table", Part: "yaw", Mass: 60, At: motion.Point{X: 0.1, Z: 0.4}, X: 3, Y: 3, Z: 5},
			{Name: "cradle", Part: "pitch", Mass: 40, At: motion.Point{Y: 0.1}, X: 2, Y: 2, Z: 3},
			{Name: "hull", Part: "roll", Mass: 250, At: motion.Point{X: 0.2, Y: 0.1, Z: 0.4}, X: 14, Y: 55, Z: 60},
		}
		s := drawState(t)
		s.Pitch.Position /= 2 // away from where yaw and roll are one axis
		var push [3]motion.Push
		for k := range push {
			push[k] = motion.Push{Free: rapid.Bool().Draw(t, "free"), Torque: rapid.Float64Range(-500, 500).Draw(t, "torque"), Inertia: rapid.Float64Range(0, 20).Draw(t, "rotor")}
		}
		moved, err := b.Accelerate(s, bodies, push[0], push[1], push[2])
		if err != nil {
			t.Fatal(err)
		}
		l, err := b.Load(moved, bodies)
		if err != nil {
			t.Fatal(err)
		}
		before := [3]motion.AxisState{s.Yaw, s.Pitch, s.Roll}
		after := [3]motion.AxisState{moved.Yaw, moved.Pitch, moved.Roll}
		for k, torque := range [3]float64{l.Yaw, l.Pitch, l.Roll} {
			if push[k].Free {
				close(t, "torque", torque+push[k].Inertia*after[k].Acceleration, push[k].Torque, 1e-8) // rounding of some 10⁴ N·m
			} else if after[k] != before[k] {
				t.Fatalf("axis %d is steered: got %+v, want %+v", k, after[k], before[k])
			}
		}
	})
}

func TestBadPush(t *testing.T) {
	b := plain(motion.Point{})
	free := motion.Push{Free: true}
	_, err := b.Accelerate(motion.State{}, nil, free, motion.Push{}, motion.Push{})
	proof.Fails(t, "nothing", err, "yaw: got a free axis without inertia")
	_, err = b.Accelerate(motion.State{}, nil, motion.Push{}, motion.Push{Inertia: -1}, free)
	proof.Fails(t, "inertia", err, "pitch: inertia: got -1")
	_, err = b.Accelerate(motion.State{}, []motion.Body{{Name: "x", Part: "keel"}}, free, free, free)
	proof.Fails(t, "part", err, `part: got "keel"`)
}

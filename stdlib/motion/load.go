package motion

import (
	"fmt"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Body is a mass that moves with the base: a part of the machine, the skiff, a
// rider.
type Body struct {
	Name    string
	Part    string        // "yaw", "pitch" or "roll": what it is fixed to
	Mass    units.Mass    // 0 or more
	At      Point         // its centre of mass: from the ground in the yaw part, from the pitch axis in the pitch part, from the roll axis in the roll part
	X, Y, Z units.Inertia // about axes through its centre of mass along those of the part, which are its principal ones; 0 or more
}

func (b Body) check() error {
	for _, err := range []error{
		finite("place", b.At.X, b.At.Y, b.At.Z), argument.NotNegative("mass", b.Mass),
		argument.NotNegative("inertia about x", b.X), argument.NotNegative("inertia about y", b.Y), argument.NotNegative("inertia about z", b.Z),
	} {
		if err != nil {
			return fmt.Errorf("body %q: %w", b.Name, err)
		}
	}
	if b.part() < 0 {
		return fmt.Errorf(`body %q: part: got %q, want "yaw", "pitch" or "roll"`, b.Name, b.Part)
	}
	return nil
}

func (b Body) part() int {
	for k, name := range axisNames {
		if name == b.Part {
			return k
		}
	}
	return -1
}

// A Load is what moving bodies ask of the axes and do to the ground.
type Load struct {
	Yaw, Pitch, Roll units.Moment // that the drive of each axis gives to what it carries, positive with the angle
	Fx, Fy, Fz       units.Force  // on the ground under the yaw axis, in the world; at rest Fz is minus the weight
	Mx, My, Mz       units.Moment // on the ground, about that point
}

// Load is what bodies ask of the axes and do to the ground, where the base is in
// a state: weight, and inertia with every coupling of the axes. Friction is not in
// it.
//
// Bodies of an unknown part or with numbers out of range are an error; a state
// that is not finite panics.
//
// Source: Newton's and Euler's equations of rigid bodies, summed from the roll
// part inwards, derived here.
func (b Base) Load(s State, bodies []Body) (Load, error) {
	for _, body := range bodies {
		if err := body.check(); err != nil {
			return Load{}, fmt.Errorf("load: %w", err)
		}
	}
	argument.Demand("motion: Base.Load", s.check())
	return b.load(s, bodies), nil
}

func (b Base) load(s State, bodies []Body) Load {
	turns := s.turns()
	rates := s.rates(turns)
	var force, moment [3][3]float64 // that each part needs, about the origin on the ground
	for _, body := range bodies {
		part := body.part()
		p := b.world(turns, part, body.At)
		at, a := p.order(0), p.order(2)
		w, change := rates[part].order(0), rates[part].order(1)
		inertia := [3]float64{body.X, body.Y, body.Z}
		var momentum [3]float64
		for i := range 3 {
			momentum[i] = inertia[i] * w[i]
		}
		gyro := cross(w, momentum)
		var own vector // moment about the centre of mass, turned into the world
		for i := range 3 {
			own[i][0] = inertia[i]*change[i] + gyro[i]
		}
		for k := part; k >= 0; k-- {
			own = turns[k].out(own)
		}
		f := [3]float64{body.Mass * a[0], body.Mass * a[1], body.Mass * (a[2] + units.Gn)}
		arm := cross(at, f)
		for i := range 3 {
			force[part][i] += f[i]
			moment[part][i] += own[i][0] + arm[i]
		}
	}
	// From the roll part inwards: what a part carries adds to its own.
	var torque [3]float64
	pivots := [3]Point{{}, b.PitchAxis, b.RollAxis}
	for k := 2; k >= 0; k-- {
		var axis vector
		axis[2-k][0] = 1
		for j := k - 1; j >= 0; j-- {
			axis = turns[j].out(axis)
		}
		pivot := b.world(turns, max(k-1, 0), pivots[k]).order(0)
		lever := cross(pivot, force[k])
		for i := range 3 {
			torque[k] += axis[i][0] * (moment[k][i] - lever[i])
			if k > 0 {
				force[k-1][i] += force[k][i]
				moment[k-1][i] += moment[k][i]
			}
		}
	}
	return Load{
		torque[0], torque[1], torque[2],
		-force[0][0], -force[0][1], -force[0][2], -moment[0][0], -moment[0][1], -moment[0][2],
	}
}

// Loads are a Load for each time of a ride.
type Loads struct {
	Time             []units.Time
	Yaw, Pitch, Roll []units.Moment // torque of the axes
	Fx, Fy, Fz       []units.Force  // on the ground
	Mx, My, Mz       []units.Moment
}

// Loads are what bodies ask of the axes and do to the ground over a ride, in
// equal steps of time, as Times.
//
// Bodies are as in Base.Load; a step out of range panics.
//
// Source: as Base.Load.
func (r Ride) Loads(bodies []Body, step units.Time) (Loads, error) {
	for _, body := range bodies {
		if err := body.check(); err != nil {
			return Loads{}, fmt.Errorf("loads: %w", err)
		}
	}
	out := Loads{Time: r.Times(step)}
	for _, t := range out.Time {
		l := r.base.load(r.At(t), bodies)
		out.Yaw, out.Pitch, out.Roll = append(out.Yaw, l.Yaw), append(out.Pitch, l.Pitch), append(out.Roll, l.Roll)
		out.Fx, out.Fy, out.Fz = append(out.Fx, l.Fx), append(out.Fy, l.Fy), append(out.Fz, l.Fz)
		out.Mx, out.My, out.Mz = append(out.Mx, l.Mx), append(out.My, l.My), append(out.Mz, l.Mz)
	}
	return out, nil
}

// History is the loads on the ground as comma-separated values: a head, then one
// row for each time.
//
// The columns are time s, Fx N, Fy N, Fz N, Mx Nm, My Nm, Mz Nm, all at the point
// of the ground under the yaw axis, on the ground, in the world; forces have one
// decimal, moments two, times four.
func (l Loads) History() string {
	var b strings.Builder
	b.WriteString("time s,Fx N,Fy N,Fz N,Mx Nm,My Nm,Mz Nm\n")
	for i, t := range l.Time {
		fmt.Fprintf(&b, "%.4f", t)
		for k, v := range []float64{l.Fx[i], l.Fy[i], l.Fz[i], l.Mx[i], l.My[i], l.Mz[i]} {
			b.WriteString("," + decimal(v, 1+k/3))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

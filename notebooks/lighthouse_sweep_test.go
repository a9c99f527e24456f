package notebooks

import (
	"math"
	"testing"

	"tautline/runner"
)

// The sweep worked again by hand.
func TestLighthouseSweep(t *testing.T) {
	const (
		g, rpm    = 9.80665, math.Pi / 30
		r, L, mb  = 2.2, 2.6, 7.0
		pad, k    = 3e3, 60e3
		body      = 75.0
		v         = 8 * rpm * r
		gear, eta = 20.0, 0.92
	)
	res := run(t, "lighthouse-sweep.md")
	near(t, "from player to player", number(t, res, "apart"), r) // a hexagon
	// Foam of 90 mm before and behind a tube of 50 mm, 20 mm above and below it. The
	// arm hangs by w·L⁴/(8·E·I), 3.5 kg on 2.6 m.
	near(t, "along its way", number(t, res, "thick"), 0.23)
	near(t, "height of the beam", number(t, res, "high"), 0.09)
	I := math.Pi / 4 * (math.Pow(0.025, 4) - math.Pow(0.022, 4))
	sag := mb / 2 * g / L * math.Pow(L, 4) / (8 * 25e9 * I)
	near(t, "second moment of the tube", number(t, res, "I"), I)
	near(t, "tip hangs by", number(t, res, "sag"), sag)
	near(t, "under the beam", number(t, res, "under"), 0.44-0.09-sag)
	near(t, "over a lying head", number(t, res, "above"), 0.44-0.09-sag-0.29)

	near(t, "speed at the players", number(t, res, "vFull"), v)
	near(t, "slowest", number(t, res, "vGlow"), 7*rpm*r)
	near(t, "the other way round", number(t, res, "wFlare"), 7.5*rpm)
	near(t, "passes", number(t, res, "tPass"), 0.47/(7*rpm*r))
	near(t, "in the air", number(t, res, "tAir"), 2*math.Sqrt(0.24/g)) // 560 mm of jump over 440 mm
	near(t, "from arm to arm", number(t, res, "tTurn"), 60.0/8/2)

	near(t, "slack", number(t, res, "slack"), 2*math.Sqrt(0.24/g)-0.47/(7*rpm*r))
	near(t, "tip", number(t, res, "vTip"), 8*rpm*L)
	near(t, "room", number(t, res, "room"), 2.85-2.6)

	// Kinetic energy of beam and motor as that of a mass at the players.
	J := mb * L * L / 3
	m := (J + 2.9e-4*gear*gear) / (r * r) // rotor and the fast side of the gear
	near(t, "mass at the players", number(t, res, "m"), m)
	near(t, "inertia", number(t, res, "Jbeam"), J)
	near(t, "energy", number(t, res, "EFull"), (J+2.9e-4*gear*gear)*8*rpm*8*rpm/2)
	// All energy of approach into two springs in a row: F = sqrt(2·E·k).
	mu := 1 / (1/body + 1/m)
	near(t, "blow", number(t, res, "Fhit"), math.Sqrt(mu*v*v/(1/k+1/pad)))
	near(t, "without foam", number(t, res, "Fbare"), math.Sqrt(mu*v*v*k))
	near(t, "saved", number(t, res, "saved"), math.Sqrt(mu*v*v*k)-math.Sqrt(mu*v*v/(1/k+1/pad)))
	near(t, "pressed", number(t, res, "pressed"), math.Sqrt(mu*v*v/(1/k+1/pad))/pad)

	// Half a sine: its criterion within 36 ms is that of its middle, T long.
	mh := 1 / (1/4.4 + 1/m)
	kh := 1 / (1/150e3 + 1/pad)
	peak, long := v*math.Sqrt(mh*kh)/4.4, math.Pi*math.Sqrt(mh/kh)
	near(t, "head", number(t, res, "aHead"), peak)
	near(t, "how long", number(t, res, "tHead"), long)
	x := math.Pi * 0.036 / 2 / long
	within(t, "criterion", number(t, res, "hic"), 0.036*math.Pow(peak/g*math.Sin(x)/x, 2.5), 0.03) // a window of whole samples

	near(t, "held", number(t, res, "Fheld"), 100/r)
	// Greatest torque: at 20°/s² against friction.
	a := 20 * math.Pi / 180
	within(t, "torque of the motor", number(t, res, "peak"), (J*a+12)/(gear*eta)+(1.9e-4+1e-4)*gear*a, 0.01)
	w, b, j := 8*rpm, 120*math.Pi/180, 1200*math.Pi/180
	near(t, "way to the stop", number(t, res, "way"), (w*0.15+w/2*(w/b+b/j))*r)
	near(t, "stands after", number(t, res, "stopped"), 1.5+0.15+w/b+b/j)
	sweepHeat(t, res, J)
	allProved(t, res)
}

// sweepHeat works the heat of the motor again, for a beam of inertia J.
func sweepHeat(t *testing.T, res *runner.Result, J float64) {
	t.Helper()
	const rpm, gear, eta = math.Pi / 30, 20.0, 0.92
	// Heat: torque and speed at the motor (M1: 2.4 N·m standing, 1.92 at 3000 rpm) over
	// three levels of 40 s and two pauses of 5 s. Each level speeds up and slows down with
	// 20°/s², which comes and goes at 40°/s³, and ends where it began, after the whole
	// turns that fit in its 40 s. The arm's friction of
	// 12 N·m is more than slowing takes, so power always flows to the beam.
	const most, change = 20 * math.Pi / 180, 40 * math.Pi / 180
	torques, speeds := 0.0, 0.0
	for _, full := range []float64{7 * rpm, 7.5 * rpm, 8 * rpm} {
		const d = 1e-4
		ramp := full/most + most/change
		lasts := math.Floor((40-ramp)*full/(2*math.Pi))*2*math.Pi/full + ramp
		for at := d / 2; at < lasts; at += d {
			from := math.Min(at, lasts-at)
			up := math.Max(0, math.Min(most, change*math.Min(from, ramp-from)))
			// Speed: the integral of a trapezium of acceleration, from both ends.
			rise := func(x float64) float64 {
				x = math.Max(x, 0)
				if x < most/change {
					return change * x * x / 2
				}
				return most*most/change/2 + most*(x-most/change)
			}
			turning := full
			switch {
			case from < ramp/2:
				turning = rise(from)
			case from < ramp:
				turning = full - rise(ramp-from)
			}
			if at > lasts/2 {
				up = -up
			}
			torque := (J*up+12)/(gear*eta) + 2.9e-4*gear*up
			torques, speeds = torques+torque*torque*d, speeds+turning*gear*turning*gear*d
		}
	}
	rms, mean := math.Sqrt(torques/130), math.Sqrt(speeds/130)
	// Records every 50 ms: six steps of torque from or to rest, each half an interval
	// wide of the mark, in the 105 s that the beam turns: 0.15/105, half of it in the root.
	within(t, "heat of the motor", demand(t, res, "heat of the motor"), rms/(2.4-0.48*mean/(3000*rpm)), 0.15/105/2)
}

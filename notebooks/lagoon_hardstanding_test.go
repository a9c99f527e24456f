package notebooks

import (
	"math"
	"testing"
)

// The numbers of the ballast on hard standing, worked again in SI units.
func TestLagoonHardstanding(t *testing.T) {
	res := run(t, "lagoon-hardstanding.md")
	theta, slope := 40*deg, math.Atan(0.02)
	sin, cos := math.Sincos(theta)
	mu := 1550 / (490 * gn)
	near(t, "friction", number(t, res, "mu"), mu)

	// T·cos + W·sin(slope) = mu·(W·cos(slope) - T·sin), along and square to the ground.
	slips := func(mass, mu float64) float64 {
		return mass * gn * (mu*math.Cos(slope) - math.Sin(slope)) / (cos + mu*sin)
	}
	near(t, "163 kg slides at", number(t, res, "trap", 0), slips(163, mu))
	near(t, "straight up", number(t, res, "upright"), 1600/gn)
	near(t, "for this strap", number(t, res, "needs"), 1600*(cos/mu+sin)/gn)
	near(t, "times", number(t, res, "times"), cos/mu+sin)
	near(t, "163 kg weigh", number(t, res, "trap", 1), 163*gn)
	near(t, "share", number(t, res, "trap", 2), slips(163, mu)/(163*gn))
	near(t, "a stack slides at", number(t, res, "held", 0), slips(560, mu))
	near(t, "counted", number(t, res, "holds"), 0.9*slips(560, mu))
	for i := range 61 {
		s, c := math.Sincos(float64(30+i) * deg)
		near(t, "slides", value(t, res, "slips", i), 560*gn*(mu*math.Cos(slope)-math.Sin(slope))/(c+mu*s))
		near(t, "would lift", value(t, res, "lifts", i), 560*gn/s)
	}

	bed := layout{number: 12, patch: 2.85, eyes: 0.80, theta: theta, splay: 10 * deg, stiffness: 10e3 / 0.07 / (0.80 / sin), pretension: 100, weight: 0.9 * 210 * gn, z: 0.5, slope: slope}
	round := bed.around(t, 11.1, 72)
	holds := 0.9 * slips(560, mu)
	const found = 1e-8 // of the forces, a hundred times what either solution leaves over
	close(t, "utilisation, all strapped", number(t, res, "round", 5), round.all/holds, found)
	close(t, "utilisation, one off", number(t, res, "round", 12), round.oneLost/holds, found)
	F := 1.5 * 114.5853 * (2*2.95*1.4 + 2*2.25*0.65)
	near(t, "push with its factor", number(t, res, "pushed"), F)
	near(t, "guess", number(t, res, "guess"), 4*F/(12*cos))
	close(t, "solved over guessed", number(t, res, "ratio"), round.all/(4*F/(12*cos)), found)
	heaviest := 0.0
	for i, T := range round.byStrap {
		// On the slope that rises to the north: pulled inward and dragged south, the
		// least mass is tried out.
		turn := 2 * math.Pi * float64(i) / 12
		if turn += 10 * deg; i%2 == 1 {
			turn -= 20 * deg
		}
		inX, inY := -math.Sin(turn), -math.Cos(turn)
		low, m := 0.0, 1e4
		for range 100 {
			try := (low + m) / 2
			W := try * gn
			along := math.Hypot(T/0.9*cos*inX, T/0.9*cos*inY-W*math.Sin(slope))
			if along <= mu*(W*math.Cos(slope)-T/0.9*sin) {
				m = try
			} else {
				low = try
			}
		}
		close(t, "mass of a stack", value(t, res, "masses", i), m, found)
		close(t, "force in the list", value(t, res, "list", 5, i), 10*math.Ceil(math.Max(T/0.9, 1600)/10), 1e-12)
		heaviest = math.Max(heaviest, m)
	}
	close(t, "greatest mass", number(t, res, "most"), heaviest, found)
	bed.listed(t, res)
	near(t, "a whole stack is dragged at", number(t, res, "drag"), 1550.0/490*560)
	near(t, "on the lorry", number(t, res, "total"), 12*560)
	if got := number(t, res, "lifted"); got != 0 || round.press <= 0 {
		t.Errorf("feet off the ground: got %g, by hand the least pressing is %g N", got, round.press)
	}
	rough := bed
	rough.friction = 0.3
	close(t, "spared by friction", number(t, res, "spared"), 1-rough.around(t, 11.1, 24).oneLost/round.oneLost, 1e-6) // friction and pressing agree to 1e-9
	safeAt(t, "safe wind, all strapped", number(t, res, "safe", 1), func(v float64) bool {
		r := bed.around(t, v, 72)
		return r.all <= holds && r.press > 0
	})
	safeAt(t, "safe wind, one off", number(t, res, "safe", 5), func(v float64) bool {
		r := bed.around(t, v, 72)
		return r.oneLost <= holds && r.pressLost > 0
	})

	// A cube of water: 60 kg and 950 L, 3 L lost in an hour, on a pallet that slides
	// at 2.35 kN.
	full := 60 + 996*0.95
	slick := 2350 / (full * gn)
	need := 1600 * (cos + slick*sin) / (gn * (slick*math.Cos(slope) - math.Sin(slope)))
	near(t, "friction of the cube", number(t, res, "slick"), slick)
	near(t, "mass of the cube", number(t, res, "enough"), need)
	near(t, "it slides at", slips(number(t, res, "enough"), slick), 1600)
	near(t, "time", number(t, res, "lasts"), (full-need)/(996*0.003)*3600)
	near(t, "trailer", number(t, res, "parked"), slips(1500, 0.3))

	playRules(t, res)
	works(t, res, 1e-12, map[string]float64{
		"slope": slope, "held.Weight": 560 * gn, "held.Share": slips(560, mu) / (560 * gn),
		"most of slope of the ground": 0.05, // EN 14960-1, as quoted by others
		"demand of mass of a stack":   560,
		"town.Roughness":              1, "town.Least": 10, // EN 1991-1-4, Table 4.1
	})
	for i := range 61 {
		near(t, "angle of the figure", value(t, res, "angles", i)/deg, float64(30+i))
	}
	windPlan(t, res, math.Sqrt(1+7/math.Log(10/1.0)))
}

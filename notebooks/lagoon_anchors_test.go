package notebooks

import (
	"math"
	"testing"

	"tautline/runner"
	"tautline/stdlib/sheet"
)

const (
	deg = math.Pi / 180
	gn  = 9.80665
)

// value is a number inside a name: a field of a struct or an item of a list, by
// position.
func value(t *testing.T, res *runner.Result, name string, at ...int) float64 {
	t.Helper()
	v := res.Outcome.Values[name]
	for _, i := range at {
		if i >= len(v.Items) {
			t.Fatalf("%s%v: got %d items", name, at, len(v.Items))
		}
		v = v.Items[i]
	}
	if v.Kind != sheet.KindNumber {
		t.Fatalf("%s%v: got %s, want a number", name, at, v.Kind)
	}
	ask(res, v.Number, name, at...)
	return float64(v.Number)
}

// close fails unless got is want within a relative tolerance.
func close(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s: got %.10g, want %.10g within %.1g", what, got, want, tol)
	}
}

// safeAt checks a safe wind, rounded down to a tenth: it is safe, and a tenth more
// is not.
func safeAt(t *testing.T, what string, speed float64, holds func(speed float64) bool) {
	t.Helper()
	if !holds(speed) || holds(speed+0.1) {
		t.Errorf("%s: %.1f m/s holds %v, a tenth more holds %v", what, speed, holds(speed), holds(speed+0.1))
	}
}

// The numbers of the anchors on grass, worked again in SI units.
func TestLagoonAnchors(t *testing.T) {
	res := run(t, "lagoon-anchors.md")
	const (
		outer, inner, wall, level = 2.95, 2.25, 1.40, 0.75
		eyes, patch               = 0.80, 2.85
		q                         = 0.5 * 1.24 * 11.1 * 11.1
	)
	theta := 40 * deg
	sin, cos := math.Sincos(theta)

	// Wind, EN 14960-1 Annex A: 114.5853 N/m² on 5.9·1.4 + 4.5·0.65 m².
	F := 114.5853 * (2*outer*wall + 2*inner*(wall-level))
	near(t, "push by hand", number(t, res, "byHand"), F)
	near(t, "push on the faces", number(t, res, "push"), F)
	near(t, "area shown", number(t, res, "A"), 5.9*1.4+4.5*0.65)
	near(t, "push with its factor", number(t, res, "pushed"), 1.5*F)
	near(t, "guess", number(t, res, "guess"), 4*1.5*F/(12*cos))
	near(t, "height of the push", number(t, res, "centre"), (2*outer*wall*wall/2+2*inner*(wall-level)*(wall+level)/2)/(2*outer*wall+2*inner*(wall-level)))
	near(t, "reach", number(t, res, "reach"), patch+eyes*cos/sin-outer)
	near(t, "length", number(t, res, "length"), eyes/sin)
	soft := 1 / (1/(10e3/0.07/(eyes/sin)) + 1/80e3)
	near(t, "stiffness", number(t, res, "soft"), soft)
	near(t, "anchors by the annex", number(t, res, "annex"), math.Max(6, 4*math.Ceil(1.5*F/1600)))

	bed := layout{number: 12, patch: patch, eyes: eyes, theta: theta, splay: 10 * deg, stiffness: soft, pretension: 100, weight: 0.9 * 210 * gn, z: 0.5}
	round := bed.around(t, 11.1, 72)
	const found = 1e-8 // of the forces, a hundred times what either solution leaves over
	close(t, "utilisation, all set", number(t, res, "round", 5), round.all/1600, found)
	close(t, "solved over guessed", number(t, res, "ratio"), round.all/(4*1.5*F/(12*cos)), found)
	close(t, "utilisation, one lost", number(t, res, "round", 12), round.oneLost/1600, found)
	near(t, "force required", number(t, res, "required"), math.Max(1600, round.oneLost))
	for i, T := range round.byStrap {
		close(t, "tension with one lost", value(t, res, "round", 11, i), T, found)
		near(t, "force in the list", value(t, res, "list", 5, i), 10*math.Ceil(math.Max(T, 1600)/10))
	}
	bed.listed(t, res)
	if got := number(t, res, "lifted"); got != 0 || round.press <= 0 || round.pressLost <= 0 {
		t.Errorf("feet off the ground: got %g, by hand the least pressing is %g N, %g N with one lost", got, round.press, round.pressLost)
	}
	// The number: twelve hold whichever is lost, eleven and ten do not.
	for n, want := range map[int]bool{10: false, 11: false, 12: true} {
		fewer := bed
		fewer.number = n
		if holds := fewer.around(t, 11.1, 72).oneLost <= 1600; holds != want {
			t.Errorf("%d anchors: by hand hold %v, want %v", n, holds, want)
		}
	}
	near(t, "anchors needed", number(t, res, "need", 0), 12)

	// Slope of 5 %: the bed's weight pulls south.
	hill := bed
	hill.slope = math.Atan(0.05)
	close(t, "utilisation on the slope, one lost", number(t, res, "hill", 12), hill.around(t, 11.1, 24).oneLost/1600, found)

	// The safe wind, by trying.
	safeAt(t, "safe wind, all set", number(t, res, "safe", 1), func(v float64) bool {
		r := bed.around(t, v, 72)
		return r.all <= 1600 && r.press > 0
	})
	safeAt(t, "safe wind, one lost", number(t, res, "safe", 5), func(v float64) bool {
		r := bed.around(t, v, 72)
		return r.oneLost <= 1600 && r.pressLost > 0
	})

	// The stake after Broms, bending when dry: H·(e + 1.5·d + H/(18·cu·d)) = fy·d³/6.
	d, e, L := 0.032, 0.05, 1.10
	plastic := 235e6 * d * d * d / 6
	low, high := 0.0, 1e5
	for range 200 {
		if H := (low + high) / 2; H*(e+1.5*d+H/(18*40e3*d)) < plastic {
			low = H
		} else {
			high = H
		}
	}
	lateral, axial := low, 0.5*40e3*math.Pi*d*L
	lean := 10 * deg // 40° of the strap less 30° of the stake
	close(t, "stake, dry", number(t, res, "dry", 0), 1/(math.Cos(lean)/lateral+math.Sin(lean)/axial), 1e-12)
	// Saturated, turning over: f = H/(9·cu·d), g = L - 1.5·d - f, H·(e + 1.5·d + f/2) = 2.25·d·g²·cu.
	low, high = 0, 1e5
	for range 200 {
		H := (low + high) / 2
		f := H / (9 * 20e3 * d)
		if g := L - 1.5*d - f; g > 0 && H*(e+1.5*d+f/2) < 2.25*d*g*g*20e3 {
			low = H
		} else {
			high = H
		}
	}
	close(t, "stake, saturated", number(t, res, "soaked", 0), 1/(math.Cos(lean)/low+math.Sin(lean)/(axial/2)), 1e-12)
	near(t, "pull test", number(t, res, "tested", 4), 2400/1.25)

	// The storm: EN 1991-1-4, category II below its 2 m, two years.
	basic := 24 * math.Sqrt((1-0.2*math.Log(-math.Log(0.5)))/(1-0.2*math.Log(-math.Log(0.98))))
	mean := basic * 0.19 * math.Log(2/0.05)
	near(t, "basic speed", number(t, res, "basic"), basic)
	near(t, "storm", number(t, res, "storm"), (1+7/math.Log(40))*0.5*1.25*mean*mean)
	near(t, "storm over design wind", number(t, res, "times"), (1+7/math.Log(40))*0.5*1.25*mean*mean/q)

	playRules(t, res)
	middle := (2*outer*wall*wall/2 + 2*inner*(wall-level)*(wall+level)/2) / (2*outer*wall + 2*inner*(wall-level))
	works(t, res, 1e-12, map[string]float64{
		"load.East": 0, "load.North": -F, "load.Lift": 0, "load.AboutEast": F * middle, "load.AboutNorth": 0, "load.AboutUp": 0,
		"least of push on the faces": 0.999 * F, "most of push on the faces": 1.001 * F,
		"least of height of the D-rings": middle - 0.1, "most of height of the D-rings": middle + 0.1,
		"theta": theta, "rule.LowAngle": 30 * deg, "rule.HighAngle": 45 * deg, // ISO 20187, 4.2.1
		"rule.StakeLength": 0.38, "rule.StakeDiameter": 0.016, // the same
		"most of holding of an anchor against its strap": 10e3,
		"need.Mass":      210,
		"slope.Grade":    0.05, // EN 14960-1, as quoted by others
		"lawn.Weight":    18e3,
		"lawn.Strength":  40e3, // EN ISO 14688-2, Table 5: from 40 to 75 kPa is firm
		"lawn.Adhesion":  0.5,
		"lawn.Friction":  0,
		"wet.Weight":     18e3,
		"wet.Strength":   20e3, // halved
		"wet.Adhesion":   0.5,
		"wet.Friction":   0,
		"dry.Lateral":    lateral,
		"dry.Axial":      axial,
		"dry.Moment":     plastic,
		"soaked.Lateral": low,
		"soaked.Axial":   axial / 2,
		"soaked.Moment":  low * (e + 1.5*d + low/(18*20e3*d)), // where the shear is 0
		"tested.Count":   4,
		"tested.Lowest":  2400,
		"tested.Mean":    2750,
		"tested.Spread":  3.1 / 2.4,
		"open.Roughness": 0.05, // EN 1991-1-4, Table 4.1
		"open.Least":     2,
		"rare.Longest":   72 * 3600, // EN 1991-1-6, Table 3.1
		"rare.Years":     2,
	})
	works(t, res, found, map[string]float64{"need.Greatest": round.all / 1600, "need.GreatestOneLost": round.oneLost / 1600})

	bed.onTube(t, res)
	windPlan(t, res, math.Sqrt(1+7/math.Log(10/0.05)))
	near(t, "fence", number(t, res, "fence"), patch+eyes*cos/sin-outer+0.5)
	near(t, "pressure left", number(t, res, "stop", 0), 0)
}

// playRules are the standards' values that both notebooks of anchors take.
func playRules(t *testing.T, res *runner.Result) {
	t.Helper()
	works(t, res, 1e-12, map[string]float64{
		"wind.Density": 1.24, "wind.Speed": 11.1, "wind.Coefficient": 1.5, // EN 14960-1, Annex A
		"rule.Load": 1600, "rule.MaxWind": 38 / 3.6, // ISO 20187, 4.2.1
		"factors.PermanentUnfavourable": 1.1, "factors.PermanentFavourable": 0.9, // EN 1990, Table A1.2(A)
		"factors.Wind": 1.5, "factors.Variable": 1.5, "factors.VariableFavourable": 0,
		"scope.Oldest": 14, "stop.Share": 0,
		"away.Closed": 1.8, "away.Open": 3.5, "away.Gate": 1, "away.Impact": 1.5, "away.FallHeight": 0.63, // EN 14960-1, as quoted by others; half of 1.4 m is less
	})
}

// onTube works again how a strap holds on to the upper tube: 0.35 m, at 1.86 kPa, a
// belt of 50 mm.
func (l layout) onTube(t *testing.T, res *runner.Result) {
	t.Helper()
	const (
		r, p, w = 0.35, 1860.0, 0.05
		factors = 1.3 * 1.4 * 1.2 * 1.7 * 1.2 / 0.9
	)
	tentFactors(t, res)
	near(t, "tube", number(t, res, "tube"), r)
	near(t, "half", number(t, res, "half"), 800)
	// In peel 2 kN/m on 50 mm, in shear 300 kPa on 50 mm by 350 mm.
	near(t, "peels", number(t, res, "peels"), 1/(math.Cos(85*deg)/(300e3*w*0.35)+math.Sin(85*deg)/(2e3*w)))
	shares := []float64{
		800 * factors / 5000,                               // half of a D-ring
		800 * factors / 12000,                              // webbing
		800 * factors / (160 * 95 * 0.8),                   // stitches
		800 * factors / (300e3 * 0.05 * 0.35),              // glue, all in shear
		800 / (w + 2*0.35/math.Sqrt(3)) * factors / 30.4e3, // cloth, spread by 30°
	}
	for i, want := range shares {
		close(t, "share of a part", value(t, res, "used", i), want, 1e-12)
	}
	near(t, "weakest", number(t, res, "weakest", 1), shares[0])

	// With riders on, without factors: the wind's factor of 1.5 is taken out by the
	// speed, its force going with the square.
	bare := l
	bare.weight = 210 * gn
	round := bare.around(t, number(t, res, "plan", 1)/math.Sqrt(1.5), 24)
	close(t, "pull with riders on", number(t, res, "pull"), round.all, 1e-8) // as for the other forces
	// Half a tube cut free: the belt presses with T/r on each metre; against it stand
	// the air under its width and twice the pull along the tube, p·r/2.
	T := r * (p*w + 2*p*r/2)
	near(t, "belt goes in", number(t, res, "inward"), 2*T)
	near(t, "belt goes in, least pressure", number(t, res, "yields"), 2*T*1500/p)
	near(t, "cloth beside a belt", number(t, res, "beside"), (800/r-p*w)/math.Sqrt2)
	near(t, "long seams", number(t, res, "long"), 30.4e3/factors)
	// An even load on many spans, w·a²/12 over the supports; Comer and Levy's wrinkle.
	apart := 2 * math.Pi * 2.6 / 12
	near(t, "apart", number(t, res, "apart"), apart)
	close(t, "bending with riders on", number(t, res, "Mridden"), round.all/apart*apart*apart/12, 1e-8)
	near(t, "bending, pulled in full", number(t, res, "Mfull"), 1600/apart*apart*apart/12)
	near(t, "first wrinkle", number(t, res, "first"), math.Pi*p*r*r*r/2)
	near(t, "fold", number(t, res, "folds"), math.Pi*p*r*r*r)
}

// windPlan works the wind actions again from the safe wind: riders on up to 0.95
// of it or 38 km/h, set up to 0.6 of that; by hand at 2 m over 30 mm of roughness.
func windPlan(t *testing.T, res *runner.Result, gust float64) {
	t.Helper()
	safe := number(t, res, "safe", 5)
	speeds := []float64{0, math.Min(38/3.6, 0.95*safe), safe, safe * math.Sqrt(1.5)}
	speeds[0] = 0.6 * speeds[1]
	works(t, res, 1e-12, map[string]float64{"plan.Run": speeds[1]})
	for i, v := range speeds {
		down := func(v, step float64) float64 { return math.Floor(v/step+1e-9) * step }
		near(t, "gust", value(t, res, "acts", 1, i), down(v, 0.1))
		near(t, "by hand", value(t, res, "acts", 2, i), down(v*math.Log(2/0.03)/math.Log(10/0.03), 0.1))
		near(t, "forecast", value(t, res, "acts", 3, i), down(v/gust, 0.1))
		near(t, "Beaufort", value(t, res, "acts", 4, i), math.Round(math.Pow(v/gust/0.836, 2.0/3)))
		near(t, "margin", value(t, res, "acts", 5, i), down(1.5*safe*safe/v/v, 0.01))
	}
}

// listed works the places of the list again, as a tape and a compass show them:
// out of the patch at 40° down, 10° to the right and to the left of the radius in
// turn. A quarter of the ring on, they are the same turned by 90°.
func (l layout) listed(t *testing.T, res *runner.Result) {
	t.Helper()
	out := l.eyes / math.Tan(l.theta)
	side, way := out*math.Sin(l.splay), l.patch+out*math.Cos(l.splay)
	turn := math.Atan(side/way) / deg // 2.5°
	for i := range l.number {
		bearing := 360 * float64(i) / float64(l.number)
		if i%2 == 0 {
			bearing += turn
		} else {
			bearing -= turn
		}
		near(t, "bearing in the list", value(t, res, "list", 2, i)/deg, math.Round(bearing))
		near(t, "distance in the list", value(t, res, "list", 3, i), math.Round(100*math.Hypot(side, way))/100)
		near(t, "angle in the list", value(t, res, "list", 4, i)/deg, 40)
	}
}

package notebooks

import (
	"math"
	"testing"
)

// box is a cold-formed rectangular hollow section with walls up to 6 mm, worked by
// EN 10219-2, Annex B: corners of 2·t outside and t inside.
type box struct{ A, Iy, Iz, Wply, Wplz, It, Wt float64 }

func newBox(h, b, t float64) box {
	ro, ri := 2*t, t
	corner := func(r float64) (area, inset, own float64) { // of the spandrel outside a quarter circle
		return (1 - math.Pi/4) * r * r, (10 - 3*math.Pi) / (12 - 3*math.Pi) * r, (1.0/3 - math.Pi/16 - 1/(3*(12-3*math.Pi))) * r * r * r * r
	}
	Ag, og, Ig := corner(ro)
	Ai, oi, Ii := corner(ri)
	about := func(h, b float64) (I, W float64) {
		hg, hi := h/2-og, (h-2*t)/2-oi
		I = b*h*h*h/12 - (b-2*t)*math.Pow(h-2*t, 3)/12 - 4*(Ig+Ag*hg*hg) + 4*(Ii+Ai*hi*hi)
		W = b*h*h/4 - (b-2*t)*(h-2*t)*(h-2*t)/4 - 4*Ag*hg + 4*Ai*hi
		return
	}
	var s box
	s.A = 2*t*(b+h-2*t) - (4-math.Pi)*(ro*ro-ri*ri)
	s.Iy, s.Wply = about(h, b)
	s.Iz, s.Wplz = about(b, h)
	rc := (ro + ri) / 2
	way := 2*((b-t)+(h-t)) - 2*rc*(4-math.Pi)
	Ah := (b-t)*(h-t) - rc*rc*(4-math.Pi)
	K := 2 * Ah * t / way
	s.It = t*t*t*way/3 + 2*K*Ah
	s.Wt = s.It / (t + K/t)
	return s
}

// The beam over the bed, worked again by hand in SI units.
func TestGangplank(t *testing.T) {
	res := run(t, "gangplank.md")
	is := func(name string, want float64) { t.Helper(); near(t, name, number(t, res, name), want) }
	const (
		g, player, span, pad, under = 9.80665, 95, 4.0, 0.1, 0.3
		fy, E, G, density           = 355e6, 210e9, 81e9, 7850 // EN 1993-1-1, Table 3.1 and 3.2.6; EN 10219-2
		down                        = under + pad + 0.12 + pad // to the bed, 0.9 m high
		deck                        = 0.9 + down
	)
	is("deck", deck)
	is("drop", down)

	s := newBox(0.12, 0.08, 0.004)
	own := s.A * density * g
	stand := 2 * player * g
	is("own", own)
	is("stand", stand)
	w := stand * span * span * span / (48 * E * s.Iy) // hinged beam, force in the middle
	is("w", w)
	is("hop", 0.06)
	is("yields", 0.07)
	jump := 1 + math.Sqrt(1+2*0.06/(w+0.07)) // m·g·(h+k·δ) = k²·m·g·δ/2
	is("jump", jump)
	MEd := 1.5*jump*stand*span/4 + 1.35*own*span*span/8
	MzEd := 1.5 * 600 * span / 4
	is("MEd", MEd)
	is("MzEd", MzEd)
	// Flange (80-12)/4 = 17 < 33·0.81 and web 27 < 72·0.81 of Table 5.2: class 1, plastic.
	MY, MZ := s.Wply*fy, s.Wplz*fy
	is("both", MEd/MY+MzEd/MZ)
	is("twist", 900*(1.3+pad+0.06)/2)
	near(t, "bears a twist", number(t, res, "bears", 4), s.Wt*fy/math.Sqrt(3))
	near(t, "bears about y", number(t, res, "bears", 5), MY)
	near(t, "bears about z", number(t, res, "bears", 6), MZ)
	Mcr := math.Pi / span * math.Sqrt(E*s.Iz*G*s.It) // no warping
	is("Mcr", Mcr)
	is("slender", math.Sqrt(MY/Mcr))

	is("holds", 550)
	is("mu", 1100/(200*g))
	is("tips", 900*(deck+1.3))
	is("rights", 0.9*550*g*0.9)
	is("slides", 900)
	is("grips", 0.9*1100/(200*g)*550*g)
	is("post", 1.5*jump*stand+1.35*550*g/2)
	is("soil", (1.5*jump*stand+1.35*550*g/2)/0.09)

	// A rod that topples about its feet presses no more where its cosine is 1/3; its
	// middle, 1 m up, then runs at √(g·1) square to the rod. So it has come 1/3 m over
	// the edge in height and loses 5/6 m of free fall in all, with the drop.
	fall := 5.0/6 + down
	is("meets", math.Sqrt(2*g*fall))
	is("fall", fall)
	v, c := math.Sqrt(g), 1.0/3
	sin := math.Sqrt(1 - c*c)
	time := (-v*sin + math.Sqrt(v*v*sin*sin+2*g*(down+c))) / g
	reach := sin + v*c*time
	is("reach", reach)
	is("lands", 0.04+pad+reach+1)
	gangplankBed(t, fall)
	// Probes of EN 1176-1, 4.2.7: a head of 230 mm passes, a finger of 8 mm does not come in.
	if under, slit := number(t, res, "under"), number(t, res, "slit"); !(under > 0.23 && slit < 0.008) {
		t.Errorf("gaps: got %g m and %g m", under, slit)
	}

	// Criterion of a half sine: its window has tan(u) = 5·u/3, its share is
	// (sin(u)/u)^2.5·2·u/π.
	lo, hi := 0.5, 1.5
	for range 100 {
		if u := (lo + hi) / 2; math.Tan(u) < 5*u/3 {
			lo = u
		} else {
			hi = u
		}
	}
	share := math.Pow(math.Sin(lo)/lo, 2.5) * 2 * lo / math.Pi
	speed := math.Sqrt(2 * g * 1.6)
	peak := math.Pow(1000/(share*math.Pi*speed/(2*g)), 2.0/3) // below 200: the criterion counts
	way := speed * math.Pi * speed / (4 * peak * g)
	if got := number(t, res, "cushion", 1); !(math.Abs(got-way) <= 1e-8*way) { // the library's share has eight digits
		t.Errorf("way of a head: got %.12g, want %.12g", got, way)
	}
	is("gives", 0.07)
	near(t, "criterion", number(t, res, "limit", 0), 1000) // EN 1177:2018
	near(t, "felt at most", number(t, res, "limit", 1), 200)

	// Chest of ISO/TS 15066, Table A.3: 25 N/mm, 40 kg; A.2: 2·140 N.
	mass, k := 1/(1/2.0+1/40.0), 1/(1/25e3+1/3e3)
	near(t, "a blow's pain", number(t, res, "chestHit", 2), 280)
	F := 2.5 * math.Sqrt(mass*k)
	near(t, "blow", number(t, res, "hit", 0), F)
	near(t, "pad pressed", number(t, res, "hit", 2), F/3e3)

	// EN 14960-1, Annex A: air of 1.24 kg/m³ at 11.1 m/s, 1.5 on a face.
	wind := 0.5 * 1.24 * 11.1 * 11.1 * 1.5 * 5.6 * 0.9
	is("blows", wind)
	// Drag area of a standing man, 9 ft² (Hoerner, from memory), pushed 0.9 m over his feet.
	q := 0.5 * 1.24 * 11.1 * 11.1
	is("leans", 2*q*0.84*(deck+0.9))
	is("drags", 2*q*0.84)
	a := 40 * math.Pi / 180
	weight := 0.9 * 130 * g // EN 1990, Table A1.2(A), and 1.5 on the wind
	is("slide", (1.5*wind-0.2*weight)/(math.Cos(a)+0.2*math.Sin(a)))
	near(t, "stake", number(t, res, "stake", 4), 2600/1.5)
	near(t, "a stake's load", number(t, res, "rule", 0), 1600) // ISO 20187, 4.2.1, as the least number
	near(t, "least stakes", number(t, res, "rule", 2), 6)
	is("over", math.Max(0, (1.5*wind*0.45-weight*2.75)/(5.5*math.Sin(a))))
	shear := s.A * fy / math.Sqrt(3) / 200 // of walls in the ratio of 120 to 80, EN 1993-1-1, 6.2.6(3)
	works(t, res, 1e-12, map[string]float64{
		"steel.Fy": fy, "steel.Fu": 470e6, "steel.E": E, "steel.G": G, "steel.Density": density, "steel.Expansion": 12e-6, // EN 1993-1-1, Table 3.1 and 3.2.6
		"bears.N": s.A * fy, "bears.VY": 80 * shear, "bears.VZ": 120 * shear,
		"class.Class": 1, "class.Ratio": 17, "class.Limits[0]": 33 * math.Sqrt(235.0/355), "class.Limits[1]": 38 * math.Sqrt(235.0/355), "class.Limits[2]": 42 * math.Sqrt(235.0/355), // Table 5.2
		"most of deflection under two players": span / 300, "most of a faller's head from the beam": 5.5 / 2,
		"air": 0.8, "most of depth at the least pressure": 0.76,
		"rod.Out": sin, "rod.Over": c, "rod.Away": v * c, "rod.Down": v * sin, "rod.Angle": math.Acos(c),
		"heads.Narrow": 0.089, "heads.Long": 0.157, "heads.Head": 0.230, // EN 1176-1, 4.2.7
		"chestHit.Clamped": 140, "chestHit.Mass": 40, "chestHit.Stiffness": 25e3, // ISO/TS 15066, Tables A.2 and A.3
		"hit.Energy": mass * 2.5 * 2.5 / 2, "hit.Usable": 0.07,
		"wind.Density": 1.24, "wind.Speed": 11.1, "wind.Coefficient": 1.5, // EN 14960-1, Annex A
		"factors.PermanentUnfavourable": 1.1, "factors.PermanentFavourable": 0.9, "factors.Wind": 1.5, "factors.Variable": 1.5, "factors.VariableFavourable": 0,
		"upright.DragArea": 0.84, "upright.Middle": 0.9, "gust": q,
		"demand of feet, tipping in the wind": 900*(deck+1.3) + 1.5*2*q*0.84*(deck+0.9), "demand of feet, sliding in the wind": 900 + 1.5*2*q*0.84,
		"stake.Count": 3, "stake.Lowest": 2600, "stake.Mean": 2800, "stake.Spread": 3.0 / 2.6,
		"most of stakes of one side": 3 * 2600 / 1.5, "demand of stakes in all": 12,
	})
}

// gangplankBed is the landing in a closed chamber of the bed: the body's energy goes
// into air at one temperature, which follows p·V.
func gangplankBed(t *testing.T, fall float64) {
	res := run(t, "gangplank.md")
	const m, g, A, pa, air = 95, 9.80665, 0.6, 101.3e3, 0.8
	V := 5.6 / 4 * 5.5 * air
	land := func(p float64) (depth, pressure float64) {
		lo, hi := 0.0, air
		for range 100 {
			x := (lo + hi) / 2
			if m*g*(fall+x) > (pa+p)*V*math.Log(V/(V-A*x))-pa*A*x {
				lo = x
			} else {
				hi = x
			}
		}
		return lo, (pa+p)*V/(V-A*lo) - pa
	}
	// Drop keeps each of some hundred steps to 1e-9.
	close := func(what string, got, want float64) {
		t.Helper()
		if !(math.Abs(got-want) <= 1e-7*want) {
			t.Errorf("%s: got %.12g, want %.12g", what, got, want)
		}
	}
	depth, p := land(2500)
	close("depth", number(t, res, "usual", 0), depth)
	close("pressure", number(t, res, "usual", 2), p)
	close("felt", number(t, res, "usual", 3), p*A/(m*g))
	// The first design, 700 mm high and one chamber: its air takes up less than the body
	// brings to the ground.
	whole := 5.6 * 5.5 * 0.6
	if brings, takes := m*g*(fall+0.6), (pa+2500)*whole*math.Log(whole/(whole-A*0.6))-pa*A*0.6; !(brings > takes) {
		t.Errorf("first design: the body brings %g J, its air takes up %g J", brings, takes)
	}
	shallow, _ := land(2000)
	close("depth at the least pressure", number(t, res, "worst", 0), shallow)
	for k := range 9 { // of the figure
		at, _ := land(1500 + float64(k)*187.5)
		close("depth in the figure", number(t, res, "ds", k), at)
	}
	close("rises", number(t, res, "rises"), p/2500)
	for k := range 9 {
		near(t, "pressure in the figure", number(t, res, "ps", k), 1500+float64(k)*187.5)
	}
	close("top panel", demand(t, res, "top panel's seams, faller in it"), p*math.Hypot(0.8, 0.5)/2)
	close("baffles", demand(t, res, "baffle seams, faller in it"), p*0.5)
	near(t, "line force", number(t, res, "N"), 2500*math.Hypot(0.8, 0.5)/2)
	near(t, "baffle", number(t, res, "B"), 2500*0.5)
	near(t, "allowable", number(t, res, "Nallow"), 40e3*0.6/5)
	close("bulge", number(t, res, "Nbulge"), (p-2500)*0.5)
	near(t, "cut", number(t, res, "cut"), 2*0.5*math.Asin(0.8))
}

package notebooks

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The duel worked again: falls into the bed by the other integration, players thrown
// by the other way, toppling by energy and momentum, a head on foam step by step.
func TestPierDuel(t *testing.T) {
	const (
		g           = testGravity
		inner, r    = 3.0, 0.35
		hp, top     = 0.45, 0.35
		apart, hub  = 2.0, 0.15
		short, tall = 1.40, 1.95
		round       = 0.15
	)
	res := run(t, "pier-duel.md")
	D := math.Hypot(0.75, 0.55)
	V := lobedVolume(0.55, 0.75) * math.Pi * inner * inner / 2
	near(t, "depth of the bed", number(t, res, "D"), D)
	near(t, "air of one half", number(t, res, "V"), V)
	near(t, "wall", number(t, res, "wall"), 1.4-D)
	near(t, "ring", number(t, res, "onRing"), 3.7)
	near(t, "gap", number(t, res, "gap"), 1.3)
	near(t, "lightest", number(t, res, "mLight"), 16*short*short)
	m := 29 * tall * tall
	near(t, "heaviest", number(t, res, "mHeavy"), m)
	l := 0.55 * tall
	near(t, "middle", number(t, res, "l"), l)

	// The bed.
	into := func(height, air float64) *fallingBody {
		b := &fallingBody{mass: m, area: 0.75, round: 0.1, depth: D, volume: air, p: 1500, vent: 20e-4 * math.Round(air/V)}
		b.drop(math.Sqrt(2*g*height), D)
		return b
	}
	hBed := number(t, res, "hBed")
	within(t, "highest fall", into(hBed, V).deepest, 0.85*D, 1e-5)
	proved[hBed] = true
	if into(hBed, 2*V).end < 0.1 {
		t.Error("without the closed baffle the fall stops too")
	}
	up := 1.5 * 1.5 / 2 / g
	near(t, "spring", number(t, res, "up"), up)
	if low, high := number(t, res, "low"), number(t, res, "high"); low != hBed || high-low > 1e-9 {
		t.Errorf("halving: got %.12g to %.12g, want it about %.12g", low, high, hBed)
	}
	proved[number(t, res, "high")] = true
	near(t, "highest pedestal", number(t, res, "hMost"), hBed-up-l+round)
	fall := hp + l + up - round
	near(t, "fall", number(t, res, "fall"), fall)
	heavy := into(fall, V)
	within(t, "left", number(t, res, "left"), D-heavy.deepest, 1e-4)
	within(t, "felt", number(t, res, "felt"), heavy.felt, 1e-4)

	// The tide, and what the feet feel.
	w := &thrower{
		pitch: list(t, res, "pitch", 1), roll: list(t, res, "roll", 1), from: 0, to: 68, pitchAxis: D + hp - hub,
		hullDepth: hub, place: point{0, 0, hub}, middle: 0.55, short: short, tall: tall, least: 0.3, most: 1.5,
		aside: -apart / 2, crown: D, wall: 1.4 - D, rng: rand.New(rand.NewPCG(3, 5)),
	}
	for k := range 12 {
		sin, cos := math.Sincos(float64(k) * math.Pi / 6)
		w.hull = append(w.hull, point{top * cos, top * sin, hub})
	}
	near(t, "length of the game", w.end(), 3*20+2*4)
	slope := 0.0
	for i := range w.pitch {
		f := w.feltAt(float64(i)*throwStep, w.place)
		slope = math.Max(slope, math.Hypot(f[0], f[1])/f[2])
	}
	within(t, "feet", number(t, res, "slope"), slope, 1e-3)
	near(t, "lean", number(t, res, "lean"), l*math.Tan(10*math.Pi/180))

	// A baton's energy of approach into two springs in a row.
	mu, k := 1/(1/40.0+1/0.35), 1/(1/25e3+1/1.2e3)
	near(t, "blow", number(t, res, "Fhit"), math.Sqrt(mu*k)*6)
	near(t, "pressed", number(t, res, "pressed"), math.Sqrt(mu*k)*6/1.2e3)
	near(t, "shoved", number(t, res, "vLight"), 35/(16*short*short))

	// Shoved over the edge.
	const n = 40_000
	var middle, whole, deep, xs, ys []float64
	sunk := 0.0
	for range n {
		out, what := w.throw()
		if what == "back" {
			sunk++
			continue
		}
		middle, whole, deep = append(middle, out.middle), append(whole, out.whole), append(deep, out.fall)
		xs, ys = append(xs, out.x), append(ys, out.y)
	}
	flown := 50_000 * (1 - sunk/n)
	bounds(t, "middles", number(t, res, "farMiddle"), middle, flown)
	bounds(t, "whole", number(t, res, "farWhole"), whole, flown)
	bounds(t, "fall", number(t, res, "farFall"), deep, flown)
	flownHere := number(t, res, "shoved", 4)
	share(t, "flown", flownHere, 50_000, 1-sunk/n, n)
	other, close := 0.0, 0.0
	for i := range xs {
		if math.Hypot(xs[i]-apart/2, ys[i]) < top+round {
			other++
		}
		for j := i % 97; j < len(xs); j += 97 {
			if math.Hypot(xs[i]+xs[j], ys[i]+ys[j]) < 0.55 {
				close += 97
			}
		}
	}
	if got := number(t, res, "shareOther"); math.Abs(got-other/float64(len(xs))) > 1e-3 {
		t.Errorf("onto the other pedestal: got %g, want %g", got, other/float64(len(xs)))
	}
	share(t, "onto the other pedestal", number(t, res, "onOther"), flown, other/float64(len(xs)), float64(len(xs)))
	near(t, "share of them", number(t, res, "shareOther"), number(t, res, "onOther")/flownHere)
	near(t, "share of pairs", number(t, res, "close2")/(flownHere*flownHere), number(t, res, "shareClose"))
	proved[number(t, res, "close2")] = true
	// Squares of a tenth of a metre stand for the places in them: 97 of them lie within
	// 0.55 m where the circle has room for 95; and some hundreds of flights decide.
	within(t, "both on one place", number(t, res, "shareClose"), close/float64(len(xs))/float64(len(xs)), 0.1)

	// Pairs within a second: the second from the other side, both on a straight line as
	// one sees the other, since both fall alike.
	const pairs = 30_000
	both, air, onBed, either := 0.0, 0.0, 0.0, 0.0
	for range pairs {
		one, what := w.throw()
		twin := *w
		twin.from, twin.to = one.left, math.Min(one.left+1, w.end())
		other, too := twin.throw()
		if what != "flew" || too != "flew" {
			continue
		}
		both++
		later := other.left - one.left
		d := point{-(other.at[0] - apart/2) - (one.at[0] - apart/2 + one.v[0]*later), -other.at[1] - (one.at[1] + one.v[1]*later), other.at[2] - (one.at[2] + one.v[2]*later - g*later*later/2)}
		u := point{-other.v[0] - one.v[0], -other.v[1] - one.v[1], other.v[2] - (one.v[2] - g*later)}
		touch := false
		if end := math.Min(one.lasts-later, other.lasts); end > 0 {
			du, uu := d[0]*u[0]+d[1]*u[1]+d[2]*u[2], u[0]*u[0]+u[1]*u[1]+u[2]*u[2]
			s := math.Min(math.Max(-du/uu, 0), end)
			touch = math.Sqrt(math.Pow(d[0]+u[0]*s, 2)+math.Pow(d[1]+u[1]*s, 2)+math.Pow(d[2]+u[2]*s, 2)) < 2*round
		}
		close := math.Hypot(one.x+other.x, one.y+other.y) < 0.55
		if touch {
			air++
		}
		if close {
			onBed++
		}
		if touch || close {
			either++
		}
	}
	drawn := number(t, res, "flyBoth")
	share(t, "pairs that fly", drawn, 50_000, both/pairs, pairs)
	share(t, "in the air", number(t, res, "inAir"), drawn, air/both, both)
	share(t, "on each other", number(t, res, "onBed"), drawn, onBed/both, both)
	share(t, "either", number(t, res, "touching"), drawn, either/both, both)
	near(t, "share that meets", number(t, res, "shareMeet"), number(t, res, "touching")/drawn)
	// So few among so many scatter as Poisson says: its 95 % bound for k is half of the 95 %
	// point of chi-square with 2·(k+1) degrees, here by Wilson and Hilferty.
	k1 := number(t, res, "touching") + 1
	most := k1 * math.Pow(1-1/(9*k1)+1.645/(3*math.Sqrt(k1)), 3)
	within(t, "bound", number(t, res, "bound"), most/drawn, 0.02)

	// Toppling: a rod 2l long about its foot. Of the energy m·g·l·(1-cos) three quarters
	// are in the motion of the middle; the foot presses with nothing at cos 1/3.
	v := math.Sqrt(2 * g * l * (1 - 1.0/3) * 3 / 4)
	depth := hp - round
	down := v * math.Sqrt(8) / 3
	flight := (math.Sqrt(down*down+2*g*(l/3+depth)) - down) / g
	reach := l*math.Sqrt(8)/3 + v/3*flight
	near(t, "to fall", number(t, res, "depth"), depth)
	near(t, "toppling", number(t, res, "rTopple"), reach)
	near(t, "as fast", number(t, res, "vTopple"), math.Hypot(v/3, down+g*flight))
	near(t, "as a fall", number(t, res, "hTopple"), v*v/2/g+l/3+depth)
	near(t, "outward", number(t, res, "outward"), apart/2+top+reach)
	near(t, "outmost", number(t, res, "outmost"), apart/2+top+reach+0.55*tall)
	near(t, "inward", number(t, res, "reaches"), reach+0.45*tall)

	// A rod that lies has turned its energy m·g·L/2 into m·L²/3·w²/2.
	near(t, "head", number(t, res, "vHead"), tall*math.Sqrt(g*tall/2/(tall*tall/6)))
	near(t, "head as a fall", number(t, res, "hHead"), 1.5*tall)
	headOnFoam(t, number(t, res, "HIC"), number(t, res, "peak"), number(t, res, "vHead"))

	// Two rods that fall at each other touch where each has covered half the way.
	turned := math.Asin(apart / 2 / tall)
	rate := math.Sqrt(g * tall / 2 * (1 - math.Cos(turned)) / (tall * tall / 6))
	near(t, "turned", number(t, res, "tilted"), turned)
	near(t, "rate", number(t, res, "wMeet"), rate)
	closing := 2 * rate * tall * math.Cos(turned)
	near(t, "closing", number(t, res, "vMeet"), closing)
	near(t, "as a fall each", number(t, res, "hMeet"), closing*closing/4/2/g)
	// Half a sine to half of 200 g stops v = 2·A·g·T/π on v·T/2; its HIC,
	// 0.4146456·A^2.5·T, stays below a quarter of 1000.
	const A = 100
	T := math.Pi * closing / 2 / (2 * A * g)
	near(t, "helmets", number(t, res, "pad"), closing/2*T/2)
	if hic := 0.4146456 * math.Pow(A, 2.5) * T; hic > 250 {
		t.Errorf("heads that meet: HIC got %g, want at most 250", hic)
	}
	allProved(t, res)
}

// headOnFoam drops a headform on the foam of the pedestals, step by step, down and
// up again, and tries every window.
func headOnFoam(t *testing.T, hic, peak, v float64) {
	t.Helper()
	strain, stress := []float64{0, 0.10, 0.30, 0.50, 0.65, 0.75}, []float64{0, 13e3, 20e3, 35e3, 75e3, 175e3}
	area := math.Pi / 4 * 0.16 * 0.16
	felt := func(x float64) float64 {
		for i := 1; i < len(strain); i++ {
			if e := x / 0.300; e <= strain[i] {
				return (stress[i-1] + (stress[i]-stress[i-1])*(e-strain[i-1])/(strain[i]-strain[i-1])) * area / 4.6 / testGravity
			}
		}
		t.Fatal("the head goes through the foam")
		return 0
	}
	const h = 1e-6
	sum := []float64{0} // by the tenth of a millisecond
	most, total, share := 0.0, 0.0, 1.0
	for i, x := 1, 0.0; x >= 0; i++ {
		f := felt(x) * share
		v += h * testGravity * (1 - f)
		x += h * v
		if v < 0 {
			share = 0.4 // of the force that the foam gives back
		}
		most, total = math.Max(most, f), total+h*f
		if i%100 == 0 {
			sum = append(sum, total)
		}
	}
	best := 0.0
	for i := range sum {
		for j := i + 1; j < len(sum); j++ {
			long := float64(j-i) * 100 * h
			best = math.Max(best, math.Pow((sum[j]-sum[i])/long, 2.5)*long)
		}
	}
	within(t, "peak for the head", peak, most, 1e-4)
	within(t, "head injury criterion", hic, best, 1e-3)
}

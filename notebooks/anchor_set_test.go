package notebooks

import (
	"math"
	"testing"
)

// A mooring is the Lagoon's bed on its straps and feet, worked apart from the
// library: straps that pull or hang slack, feet that press or are off the ground,
// in six equations solved by elimination again and again until the same ones act.
type mooring struct {
	links    []link
	lost     int     // -1 none
	friction float64 // of the feet
}

// A link pulls or presses with p - k·b·u, when that is above 0.
type link struct {
	b    [6]float64 // on the body: force, moment about the origin
	k, p float64
}

// A layout is what the notebooks say of the ring of straps and the feet.
type layout struct {
	number                           int
	patch, eyes, theta, splay        float64 // rad
	stiffness, pretension, weight, z float64 // weight with its factor, height of its centre
	slope                            float64 // rad, uphill to the north
	friction                         float64 // of the feet
}

func (l layout) mooring() *mooring {
	m := &mooring{lost: -1, friction: l.friction}
	down := l.weight * math.Cos(l.slope)
	for i := range l.number {
		bearing := 2 * math.Pi * float64(i) / float64(l.number)
		splay := l.splay
		if i%2 == 1 {
			splay = -splay
		}
		sin, cos := math.Sincos(bearing)
		out, along := math.Sincos(bearing + splay)
		m.add([3]float64{l.patch * sin, l.patch * cos, l.eyes},
			[3]float64{math.Cos(l.theta) * out, math.Cos(l.theta) * along, -math.Sin(l.theta)}, l.stiffness, l.pretension)
		down += l.pretension * math.Sin(l.theta)
	}
	// In calm the bed presses evenly, but for the slope that pulls its centre south:
	// twelve feet on a circle of 2.6 m take a moment as M·y/(6·2.6²).
	tilt := l.weight * math.Sin(l.slope) * l.z
	for i := range 12 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 12)
		m.add([3]float64{2.6 * sin, 2.6 * cos, 0}, [3]float64{0, 0, 1}, 50e3, down/12-tilt*cos/(6*2.6))
	}
	return m
}

func (m *mooring) add(r, d [3]float64, k, p float64) {
	m.links = append(m.links, link{wrench(r, d), k, p})
}

func wrench(r, f [3]float64) [6]float64 {
	return [6]float64{f[0], f[1], f[2], r[1]*f[2] - r[2]*f[1], r[2]*f[0] - r[0]*f[2], r[0]*f[1] - r[1]*f[0]}
}

// under is the force in each link under a load, with the friction of the feet as
// a further load: against their way along the ground, elastic up to the coefficient
// times what they press. It follows from the movement and the movement from it, so
// the two are brought together a fortieth of the way at a time: a turn on the spot is
// held sixty times as hard by feet that grip as by the straps.
func (m *mooring) under(t *testing.T, load [6]float64) []float64 {
	t.Helper()
	forces, u := m.slippery(t, load)
	if m.friction == 0 {
		return forces
	}
	var rub [12][2]float64
	feet := len(m.links) - 12
	for range 5000 {
		total, change := load, 0.0
		for i := range rub {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 12)
			x, y := u[0]-u[5]*2.6*cos, u[1]+u[5]*2.6*sin // way of the foot
			hold := [2]float64{-50e3 * x, -50e3 * y}
			if size, most := math.Hypot(hold[0], hold[1]), m.friction*forces[feet+i]; size > most {
				hold[0], hold[1] = hold[0]*most/size, hold[1]*most/size
			}
			for k := range hold {
				step := (hold[k] - rub[i][k]) / 40
				change = math.Max(change, math.Abs(step))
				rub[i][k] += step
			}
			for k, v := range wrench([3]float64{2.6 * sin, 2.6 * cos, 0}, [3]float64{rub[i][0], rub[i][1], 0}) {
				total[k] += v
			}
		}
		if forces, u = m.slippery(t, total); change < 1e-7 {
			return forces
		}
	}
	t.Fatal("friction and movement did not come together")
	return nil
}

// slippery is the force in each link under a load, without friction, and the
// movement of the bed about the origin.
func (m *mooring) slippery(t *testing.T, load [6]float64) (forces []float64, u [6]float64) {
	t.Helper()
	acts := make([]bool, len(m.links))
	for i := range acts {
		acts[i] = true
	}
	forces = make([]float64, len(m.links))
	for range 100 {
		var k [6][7]float64
		for i := range 6 {
			k[i][6] = load[i]
		}
		for j, l := range m.links {
			if !acts[j] || j == m.lost {
				continue
			}
			for r := range 6 {
				k[r][6] += l.p * l.b[r]
				for c := range 6 {
					k[r][c] += l.k * l.b[r] * l.b[c]
				}
			}
		}
		u = solve(k)
		same := true
		for j, l := range m.links {
			forces[j] = l.p
			for r := range 6 {
				forces[j] -= l.k * l.b[r] * u[r]
			}
			if j == m.lost {
				forces[j] = 0
			}
			if act := forces[j] > 0; act != acts[j] && j != m.lost {
				acts[j], same = act, false
			}
			forces[j] = math.Max(0, forces[j])
		}
		if same {
			return forces, u
		}
	}
	t.Fatal("no set of straps and feet was found that acts")
	return nil, u
}

// solve is Gauss's elimination with pivots from the column.
func solve(k [6][7]float64) (u [6]float64) {
	for n := range 6 {
		pivot := n
		for i := n; i < 6; i++ {
			if math.Abs(k[i][n]) > math.Abs(k[pivot][n]) {
				pivot = i
			}
		}
		k[n], k[pivot] = k[pivot], k[n]
		for i := n + 1; i < 6; i++ {
			share := k[i][n] / k[n][n]
			for j := n; j < 7; j++ {
				k[i][j] -= share * k[n][j]
			}
		}
	}
	for n := 5; n >= 0; n-- {
		u[n] = k[n][6]
		for j := n + 1; j < 6; j++ {
			u[n] -= k[n][j] * u[j]
		}
		u[n] /= k[n][n]
	}
	return u
}

// lagoonWind is the factored wind on the bed and its weight as a load, from a
// bearing: an outer wall of 5.9 m by 1.4 m and the inside of the far one, 4.5 m by
// 0.65 m, as the 72 flat sides that stand for them. The weight adds a force and a
// moment on a slope; on the level the feet already carry it.
func lagoonWind(speed, from float64) (load [6]float64) {
	q := 1.5 * 0.5 * 1.24 * speed * speed * 1.5 // with the factor on the wind and the force coefficient
	sin, cos := math.Sincos(from)
	put := func(radius, bottom, top, way float64) {
		width := 2 * radius * math.Tan(math.Pi/72)
		for i := range 72 {
			bearing := 2 * math.Pi * float64(i) / 72
			s, c := math.Sincos(bearing)
			F := q * width * (top - bottom) * math.Max(0, way*(s*sin+c*cos))
			for j, v := range wrench([3]float64{radius * s, radius * c, (bottom + top) / 2}, [3]float64{-F * sin, -F * cos, 0}) {
				load[j] += v
			}
		}
	}
	put(2.95, 0, 1.4, 1)
	put(2.25, 0.75, 1.4, -1)
	return load
}

// rounds is what a notebook says of the bed in a wind: greatest tensions with all
// straps and with one lost, and the least that a foot presses.
type rounds struct {
	all, oneLost     float64
	press, pressLost float64
	byStrap          []float64 // greatest with one lost
}

func (l layout) around(t *testing.T, speed float64, bearings int) rounds {
	t.Helper()
	m := l.mooring()
	r := rounds{press: math.Inf(1), pressLost: math.Inf(1), byStrap: make([]float64, l.number)}
	for i := range bearings {
		load := lagoonWind(speed, 2*math.Pi*float64(i)/float64(bearings))
		for j, v := range wrench([3]float64{0, 0, l.z}, [3]float64{0, -l.weight * math.Sin(l.slope), -l.weight * math.Cos(l.slope)}) {
			load[j] += v
		}
		for m.lost = -1; m.lost < l.number; m.lost++ {
			for j, F := range m.under(t, load) {
				switch {
				case j >= l.number && m.lost < 0:
					r.press = math.Min(r.press, F)
				case j >= l.number:
					r.pressLost = math.Min(r.pressLost, F)
				case m.lost < 0:
					r.all = math.Max(r.all, F)
				default:
					r.oneLost = math.Max(r.oneLost, F)
					r.byStrap[j] = math.Max(r.byStrap[j], F)
				}
			}
		}
	}
	return r
}

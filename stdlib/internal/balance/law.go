package balance

import "math"

// A Law gives the line forces along warp and weft and in shear of the strains
// there, the last one as an angle: forces = law × strains. Line forces are of the
// second Piola-Kirchhoff kind, strains of Green's.
type Law struct {
	Warp, Weft, Cross, Shear float64
	Floor                    float64 // line force that stays across wrinkles
}

// Orthotropic is the law of a cloth from its stiffness along warp and weft and the
// strain across when the warp is pulled; shear 0 is by Huber's rule.
func Orthotropic(warp, weft, poisson, shear float64) Law {
	across := poisson * weft / warp // when the weft is pulled
	share := 1 - poisson*across
	if shear == 0 {
		shear = math.Sqrt(warp*weft) / (2 * (1 + math.Sqrt(poisson*across))) // Huber 1923
	}
	return Law{Warp: warp / share, Weft: weft / share, Cross: poisson * weft / share, Shear: shear}
}

// softer is the law with a share of the stiffness and a floor.
func (l Law) softer(share, floor float64) Law {
	return Law{l.Warp * share, l.Weft * share, l.Cross * share, l.Shear * share, floor}
}

// Flow is a state of strain or line force: along warp, along weft, in shear.
type Flow [3]float64

func (a Flow) dot(b Flow) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func (l Law) times(e Flow) Flow {
	return Flow{l.Warp*e[0] + l.Cross*e[1], l.Cross*e[0] + l.Weft*e[1], l.Shear * e[2]}
}

func (l Law) tangent() [3]Flow {
	return [3]Flow{{l.Warp, l.Cross, 0}, {l.Cross, l.Weft, 0}, {0, 0, l.Shear}}
}

// A State of a triangle of fabric.
type State int

// The states.
const (
	Taut State = iota
	Wrinkled
	Slack
)

// State is how fabric of this law lies at some strains. What would push it less than
// the floor pulls is too little to be seen.
func (l Law) State(e Flow) State {
	if low, _ := Principal(l.times(e), 1); low >= -l.Floor {
		return Taut
	}
	_, _, _, in := l.relax(e)
	return in
}

// Respond is the line force, its change with strain and the energy of strains,
// with wrinkles: as relax, but that no direction carries less than the floor. That
// is the tension field of cloth that begins to wrinkle at the floor instead of at 0;
// cloth that carries more than the floor every way does not feel it.
func (l Law) Respond(e Flow) (s Flow, tangent [3]Flow, energy float64) {
	s = l.times(e)
	if low, _ := Principal(s, 1); low >= l.Floor {
		return s, l.tangent(), e.dot(s) / 2
	}
	det := l.Warp*l.Weft - l.Cross*l.Cross
	even := Flow{l.Floor * (l.Weft - l.Cross) / det, l.Floor * (l.Warp - l.Cross) / det} // strains of the floor every way
	s, tangent, energy, _ = l.relax(Flow{e[0] - even[0], e[1] - even[1], e[2]})
	s[0] += l.Floor
	s[1] += l.Floor
	return s, tangent, energy + l.Floor*(e[0]+e[1]-(even[0]+even[1])/2)
}

// relax is the line force, its change with strain and the energy of strains: the
// least energy of the strains plus any contraction into wrinkles. In a wrinkled
// state there is tension across one direction only, by the criterion of principal
// force and strain.
//
// Source: Reissner, On tension field theory, Proc. 5th Int. Congress of Applied
// Mechanics, 1938; Pipkin, The relaxed energy density for isotropic elastic
// membranes, IMA Journal of Applied Mathematics 36, 1986: least energy over the
// wrinkles, applied here to an orthotropic law.
func (l Law) relax(e Flow) (s Flow, tangent [3]Flow, energy float64, in State) {
	s = l.times(e)
	low, high := Principal(s, 1)
	if low >= 0 {
		return s, l.tangent(), e.dot(s) / 2, Taut
	}
	if _, high := Principal(e, 0.5); high <= 0 {
		return Flow{}, [3]Flow{}, 0, Slack
	}
	angle, found := l.wrinkle(s)
	if !found {
		return Flow{}, [3]Flow{}, 0, Slack
	}
	n, turn := across(angle)
	ln, lturn := l.times(n), l.times(turn)
	depth := -n.dot(s) / n.dot(ln) // of the contraction into wrinkles
	for i := range s {
		s[i] += depth * ln[i]
		e[i] += depth * n[i]
	}
	pull := s[0] + s[1] // along the wrinkles; across them it is 0
	if !(pull > 0) {
		return Flow{}, [3]Flow{}, 0, Slack
	}
	// The tangent allows for the change of the wrinkles' depth and direction.
	a, b, c := n.dot(ln), depth*turn.dot(ln), depth*turn.dot(lturn)+2*pull
	det := a*c - b*turn.dot(ln)
	tangent = l.tangent()
	for i := range 3 {
		for j := range 3 {
			tangent[i][j] -= (ln[i]*(c*ln[j]-b*lturn[j]) + lturn[i]*(depth*a*lturn[j]-b*ln[j])) / det
		}
	}
	in = Wrinkled
	if low >= -1e-4*high { // too little to be seen, or rounding
		in = Taut
	}
	return s, tangent, e.dot(s) / 2, in
}

// across is a unit of strain in the direction of an angle from the warp, and its
// change with the angle.
func across(angle float64) (n, turn Flow) {
	sin, cos := math.Sincos(angle)
	return Flow{cos * cos, sin * sin, 2 * sin * cos}, Flow{-2 * sin * cos, 2 * sin * cos, 2 * (cos*cos - sin*sin)}
}

// wrinkle is the direction in which contraction gains most energy, from the
// line force s without wrinkles: across the wrinkles.
func (l Law) wrinkle(s Flow) (angle float64, found bool) {
	gain := func(angle float64) float64 {
		n, _ := across(angle)
		if push := n.dot(s); push < 0 {
			return push * push / n.dot(l.times(n))
		}
		return 0
	}
	const parts = 12
	best, step := 0.0, math.Pi/parts
	for i := range parts {
		if g := gain(float64(i) * step); g > best {
			best, angle = g, float64(i)*step
		}
	}
	if best == 0 { // pushed in a narrow range only: begin in the middle of it
		angle = math.Atan2(2*s[2], s[0]-s[1])/2 + math.Pi/2
		if best = gain(angle); best == 0 {
			return 0, false
		}
	}
	// Newton's method for the root of the slope, kept within the range.
	first, low, high := angle, angle-step, angle+step
	for range 60 {
		n, turn := across(angle)
		bend := Flow{-2 * (n[0] - n[1]), 2 * (n[0] - n[1]), -4 * n[2]}
		ln := l.times(n)
		push, stiff := n.dot(s), n.dot(ln)
		// slope of push²/stiff over 2·push/stiff
		slope := turn.dot(s) - push*turn.dot(ln)/stiff
		grows := slope*push > 0
		if push >= 0 { // too far: nothing is gained here
			grows = angle < first
		}
		if grows {
			low = angle
		} else {
			high = angle
		}
		change := bend.dot(s) - turn.dot(s)*turn.dot(ln)/stiff - push*((bend.dot(ln)+turn.dot(l.times(turn)))/stiff-2*turn.dot(ln)*turn.dot(ln)/(stiff*stiff))
		next := angle - slope/change
		if !(low < next && next < high) || push >= 0 {
			next = (low + high) / 2
		}
		if math.Abs(next-angle) <= 1e-15 {
			break
		}
		angle = next
	}
	return angle, true
}

// Principal are the least and greatest of a state; shear is the share of its
// last number that stands beside the diagonal: 1 of forces, a half of strains.
func Principal(s Flow, shear float64) (low, high float64) {
	mean, half := (s[0]+s[1])/2, math.Hypot((s[0]-s[1])/2, s[2]*shear)
	return mean - half, mean + half
}

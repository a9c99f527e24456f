package form

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Fabric is what parts are cut of: stiff along its warp and weft, without any
// stiffness against bending or compression. Where it would be compressed it
// wrinkles and carries tension one way only.
//
// A Fabric with Film is no cloth but a skin of that tension everywhere and in
// every direction, such as a soap film: the form of least area.
type Fabric struct {
	Parts   []string             // cut of it; none: all parts
	Warp    units.ForcePerLength // stiffness along the warp: line force over strain, more than 0
	Weft    units.ForcePerLength // along the weft, more than 0
	Poisson units.Number         // strain across, as a share of that along, when the warp is pulled; its square less than Warp/Weft
	Shear   units.ForcePerLength // stiffness in shear: line force over the angle; 0: by Huber's rule from the other three
	Along   Direction            // of the warp, laid on each triangle of the mesh as cut; 0: x
	Round   bool                 // the warp runs round the z axis instead
	WarpCut units.Number         // share by which the warp is cut shorter than the mesh, more than -0.5, to pull it taut
	WeftCut units.Number         // the same of the weft
	Film    units.ForcePerLength // tension of a film, without the stiffness above
}

// A Direction in space, of any length but 0.
type Direction struct {
	X, Y, Z units.Number
}

func (f Fabric) check() error {
	if f.Film != 0 {
		return argument.Positive("film", f.Film)
	}
	err := cmp.Or(argument.Positive("warp stiffness", f.Warp), argument.Positive("weft stiffness", f.Weft), argument.NotNegative("shear stiffness", f.Shear),
		argument.NotNegative("ratio of Poisson", f.Poisson), argument.Within("warp cut", f.WarpCut, -0.5, 0.5), argument.Within("weft cut", f.WeftCut, -0.5, 0.5))
	if err == nil && !(f.Poisson*f.Poisson*f.Weft < f.Warp) {
		err = fmt.Errorf("ratio of Poisson: got %g, want less than sqrt(warp/weft stiffness) = %.4g", f.Poisson, math.Sqrt(f.Warp/f.Weft))
	}
	return err
}

// A law gives the line forces along warp and weft and in shear of the strains
// there, the last one as an angle: forces = law × strains. Line forces are of the
// second Piola-Kirchhoff kind, strains of Green's.
type law struct {
	warp, weft, cross, shear float64
}

func (f Fabric) law() law {
	across := f.Poisson * f.Weft / f.Warp // when the weft is pulled
	share := 1 - f.Poisson*across
	shear := f.Shear
	if shear == 0 {
		shear = math.Sqrt(f.Warp*f.Weft) / (2 * (1 + math.Sqrt(f.Poisson*across))) // Huber 1923
	}
	return law{f.Warp / share, f.Weft / share, f.Poisson * f.Weft / share, shear}
}

// flow is a state of strain or line force: along warp, along weft, in shear.
type flow [3]float64

func (a flow) dot(b flow) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func (l law) times(e flow) flow {
	return flow{l.warp*e[0] + l.cross*e[1], l.cross*e[0] + l.weft*e[1], l.shear * e[2]}
}

func (l law) tangent() [3]flow {
	return [3]flow{{l.warp, l.cross, 0}, {l.cross, l.weft, 0}, {0, 0, l.shear}}
}

// A state of a triangle of fabric.
type state int

const (
	taut state = iota
	wrinkled
	slack
)

// respond is the line force, its change with strain and the energy of strains,
// with wrinkles: the least energy of the strains plus any contraction into
// wrinkles. In a wrinkled state there is tension across one direction only, by
// the criterion of principal force and strain.
//
// Source: Reissner, On tension field theory, Proc. 5th Int. Congress of Applied
// Mechanics, 1938; Pipkin, The relaxed energy density for isotropic elastic
// membranes, IMA Journal of Applied Mathematics 36, 1986: least energy over the
// wrinkles, applied here to an orthotropic law.
func (l law) respond(e flow) (s flow, tangent [3]flow, energy float64, in state) {
	s = l.times(e)
	low, high := principal(s, 1)
	if low >= 0 {
		return s, l.tangent(), e.dot(s) / 2, taut
	}
	if _, high := principal(e, 0.5); high <= 0 {
		return flow{}, [3]flow{}, 0, slack
	}
	angle, found := l.wrinkle(s)
	if !found {
		return flow{}, [3]flow{}, 0, slack
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
		return flow{}, [3]flow{}, 0, slack
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
	in = wrinkled
	if low >= -1e-4*high { // too little to be seen, or rounding
		in = taut
	}
	return s, tangent, e.dot(s) / 2, in
}

// across is a unit of strain in the direction of an angle from the warp, and its
// change with the angle.
func across(angle float64) (n, turn flow) {
	sin, cos := math.Sincos(angle)
	return flow{cos * cos, sin * sin, 2 * sin * cos}, flow{-2 * sin * cos, 2 * sin * cos, 2 * (cos*cos - sin*sin)}
}

// wrinkle is the direction in which contraction gains most energy, from the
// line force s without wrinkles: across the wrinkles.
func (l law) wrinkle(s flow) (angle float64, found bool) {
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
		bend := flow{-2 * (n[0] - n[1]), 2 * (n[0] - n[1]), -4 * n[2]}
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

// principal are the least and greatest of a state; shear is the share of its
// last number that stands beside the diagonal: 1 of forces, a half of strains.
func principal(s flow, shear float64) (low, high float64) {
	mean, half := (s[0]+s[1])/2, math.Hypot((s[0]-s[1])/2, s[2]*shear)
	return mean - half, mean + half
}

package section

import (
	"math"
	"slices"

	"tautline/stdlib/units"
)

// A Loop is a closed line through points. The solid lies on its left, so a
// hole runs clockwise.
type Loop struct {
	Y, Z []units.Length
}

// Outline is the edges of the section from its centroid, arcs drawn as chords.
func (s Section) Outline() []Loop { return s.loops(16) }

// A corner is a corner of an outline, rounded.
type corner struct{ y, z, radius float64 }

// loops is the outline with so many chords in a quarter circle, about the
// centroid.
func (s Section) loops(chords int) []Loop {
	h, b, t, f := s.Height, s.Width, s.Wall, s.Flange
	var out []Loop
	switch s.Shape {
	case RoundTube:
		out = []Loop{circle(0, 0, h/2, 4*chords), circle(0, 0, h/2-t, 4*chords).reversed()}
		return out
	case Rod:
		return []Loop{circle(0, 0, h/2, 4*chords)}
	case RectangularTube:
		out = []Loop{rectangle(0, 0, b, h, s.Root, chords), rectangle(t, t, b-t, h-t, s.Toe, chords).reversed()}
	case Bar:
		out = []Loop{rectangle(0, 0, b, h, 0, chords)}
	case AngleShape:
		out = []Loop{rounded(chords, corner{0, 0, 0}, corner{b, 0, 0}, corner{b, t, s.Toe}, corner{t, t, s.Root}, corner{t, h, s.Toe}, corner{0, h, 0})}
	case ChannelShape:
		out = []Loop{rounded(chords, corner{0, 0, 0}, corner{b, 0, 0}, corner{b, f, 0}, corner{t, f, s.Root},
			corner{t, h - f, s.Root}, corner{b, h - f, 0}, corner{b, h, 0}, corner{0, h, 0})}
	case IShape:
		l, r := (b-t)/2, (b+t)/2
		out = []Loop{rounded(chords, corner{0, 0, 0}, corner{b, 0, 0}, corner{b, f, 0}, corner{r, f, s.Root},
			corner{r, h - f, s.Root}, corner{b, h - f, 0}, corner{b, h, 0}, corner{0, h, 0},
			corner{0, h - f, 0}, corner{l, h - f, s.Root}, corner{l, f, s.Root}, corner{0, f, 0})}
	case Composed:
		for _, p := range s.Parts {
			for _, l := range p.Section.loops(chords) {
				out = append(out, l.moved(p.Roll, p.Y, p.Z))
			}
		}
		y, z := partsCentroid(s.Parts)
		return moved(out, -y, -z)
	}
	return moved(out, -s.Left, -s.Bottom)
}

func moved(loops []Loop, y, z float64) []Loop {
	for i := range loops {
		loops[i] = loops[i].moved(0, y, z)
	}
	return loops
}

// moved is the loop turned about the origin and shifted.
func (l Loop) moved(angle, y, z float64) Loop {
	sin, cos := math.Sincos(angle)
	out := Loop{make([]float64, len(l.Y)), make([]float64, len(l.Z))}
	for i := range l.Y {
		out.Y[i] = y + l.Y[i]*cos - l.Z[i]*sin
		out.Z[i] = z + l.Y[i]*sin + l.Z[i]*cos
	}
	return out
}

func (l Loop) reversed() Loop {
	slices.Reverse(l.Y)
	slices.Reverse(l.Z)
	return l
}

func circle(y, z, r float64, chords int) Loop {
	var l Loop
	for i := range chords {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(chords))
		l.Y, l.Z = append(l.Y, y+r*cos), append(l.Z, z+r*sin)
	}
	return l
}

func rectangle(left, bottom, right, top, r float64, chords int) Loop {
	return rounded(chords, corner{left, bottom, r}, corner{right, bottom, r}, corner{right, top, r}, corner{left, top, r})
}

// rounded is the loop through corners, each replaced by an arc that touches both
// of its sides. All corners are right angles.
func rounded(chords int, corners ...corner) Loop {
	var l Loop
	for i, c := range corners {
		before, after := corners[(i+len(corners)-1)%len(corners)], corners[(i+1)%len(corners)]
		if c.radius == 0 {
			l.Y, l.Z = append(l.Y, c.y), append(l.Z, c.z)
			continue
		}
		iy, iz := unit(c.y-before.y, c.z-before.z)
		oy, oz := unit(after.y-c.y, after.z-c.z)
		my, mz := c.y+c.radius*(oy-iy), c.z+c.radius*(oz-iz) // the arc's centre
		for k := range chords + 1 {
			sin, cos := math.Sincos(math.Pi / 2 * float64(k) / float64(chords))
			l.Y = append(l.Y, my+c.radius*(iy*sin-oy*cos))
			l.Z = append(l.Z, mz+c.radius*(iz*sin-oz*cos))
		}
	}
	return l
}

func unit(y, z float64) (float64, float64) {
	n := math.Hypot(y, z)
	return y / n, z / n
}

// sums are integrals over the area inside loops.
type sums struct{ a, y, z, yy, zz, yz float64 }

// integrate sums over the loops by Green's theorem.
func integrate(loops []Loop) sums {
	var s sums
	for _, l := range loops {
		for i := range l.Y {
			j := (i + 1) % len(l.Y)
			y0, z0, y1, z1 := l.Y[i], l.Z[i], l.Y[j], l.Z[j]
			cross := y0*z1 - y1*z0
			s.a += cross / 2
			s.y += cross * (y0 + y1) / 6
			s.z += cross * (z0 + z1) / 6
			s.yy += cross * (y0*y0 + y0*y1 + y1*y1) / 12
			s.zz += cross * (z0*z0 + z0*z1 + z1*z1) / 12
			s.yz += cross * (y0*z1 + 2*y0*z0 + 2*y1*z1 + y1*z0) / 24
		}
	}
	return s
}

// plastic is the plastic modulus of loops for bending across z: the area above
// and below the line that halves the area, each by its distance from it.
func plastic(loops []Loop) units.SectionModulus {
	low, high := math.Inf(1), math.Inf(-1)
	for _, l := range loops {
		low, high = math.Min(low, slices.Min(l.Z)), math.Max(high, slices.Max(l.Z))
	}
	whole := integrate(loops)
	for range 60 {
		if mid := (low + high) / 2; integrate(above(loops, mid)).a > whole.a/2 {
			low = mid
		} else {
			high = mid
		}
	}
	upper := integrate(above(loops, low))
	return 2*(upper.z-low*upper.a) - (whole.z - low*whole.a)
}

// above is the part of loops above a level.
func above(loops []Loop, level float64) []Loop {
	var out []Loop
	for _, l := range loops {
		var cut Loop
		for i := range l.Y {
			j := (i + 1) % len(l.Y)
			if l.Z[i] >= level {
				cut.Y, cut.Z = append(cut.Y, l.Y[i]), append(cut.Z, l.Z[i])
			}
			if (l.Z[i] >= level) != (l.Z[j] >= level) {
				share := (level - l.Z[i]) / (l.Z[j] - l.Z[i])
				cut.Y, cut.Z = append(cut.Y, l.Y[i]+share*(l.Y[j]-l.Y[i])), append(cut.Z, level)
			}
		}
		out = append(out, cut)
	}
	return out
}

// measured sets what follows from the outline alone: area, centroid, second
// moments, elastic and plastic moduli. Its arcs have 64 chords in a quarter: the
// error is 8e-6 of a fillet's square.
func (s Section) measured() Section {
	const chords = 64
	s.Left, s.Bottom = 0, 0
	i := integrate(s.loops(chords))
	if s.Shape != Composed {
		s.Left, s.Bottom = i.y/i.a, i.z/i.a
	}
	loops := s.loops(chords)
	i = integrate(loops)
	s.A, s.Iy, s.Iz, s.Iyz = i.a, i.zz, i.yy, i.yz
	y, z := 0.0, 0.0
	turned := make([]Loop, len(loops))
	for k, l := range loops {
		for n := range l.Y {
			y, z = math.Max(y, math.Abs(l.Y[n])), math.Max(z, math.Abs(l.Z[n]))
		}
		turned[k] = l.moved(math.Pi/2, 0, 0)
	}
	s.Wely, s.Welz = s.Iy/z, s.Iz/y
	s.Wply, s.Wplz = plastic(loops), plastic(turned)
	return s.principal()
}

package unroll

import (
	"fmt"
	"math"

	"tautline/stdlib/fabric/pattern"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// SphereGores are the equal gores, from pole to pole, of which a ball is sewn.
// Each has the ball's true width all along its middle; its edges are longer than
// the ball's meridian, which the sewn ball shows as Fullness.
type SphereGores struct {
	Radius units.Length // of the ball, more than 0
	Gores  units.Number // 3 or more
}

func (g SphereGores) check() error {
	for _, err := range []error{argument.Positive("radius", g.Radius), argument.Whole("gores", g.Gores), argument.Within("gores", g.Gores, 3, 360)} {
		if err != nil {
			return err
		}
	}
	return nil
}

// Width is the width of a gore at a latitude, which lies radius*latitude along
// its middle from the equator.
//
//	w = 2*pi*g.Radius*cos(latitude)/g.Gores
//
// The latitude is -90° to 90°; it panics outside or if a field is out of its
// range.
//
// Source: circumference of the parallel, divided.
func (g SphereGores) Width(latitude units.Angle) units.Length {
	argument.Demand("unroll: SphereGores.Width", g.check(), argument.Within("latitude in degrees", latitude/units.Deg, -90-1e-9, 90+1e-9))
	return 2 * math.Pi * g.Radius * math.Cos(latitude) / g.Gores
}

// EdgeLength is the length of a gore's edge from pole to pole: that of the seam.
//
// It panics if a field is out of its range.
//
// Source: arc length of the edge drawn by Width, an ellipse's quarter twice over.
func (g SphereGores) EdgeLength() units.Length {
	argument.Demand("unroll: SphereGores.EdgeLength", g.check())
	// R·∫√(1+k²·sin²f)df over half a turn is half an ellipse of half axes
	// R·√(1+k²) and R.
	return ellipse(g.Radius*math.Hypot(1, math.Pi/g.Gores), g.Radius) / 2
}

// Fullness is the length of a gore's edge over that of its middle: what the
// seams gather, more than 1.
//
// It panics if a field is out of its range.
//
// Source: as EdgeLength.
func (g SphereGores) Fullness() units.Number {
	argument.Demand("unroll: SphereGores.Fullness", g.check())
	return g.EdgeLength() / (math.Pi * g.Radius)
}

// pattern.Pattern is one gore, counted, and the seams between neighbours. Its warp runs
// from pole to pole. The pattern warns of the fullness.
//
// Fields out of their ranges are an error.
//
// Source: as Width.
func (g SphereGores) Pattern(name string, ease units.Number) (pattern.Pattern, error) {
	if err := g.check(); err != nil {
		return pattern.Pattern{}, fmt.Errorf("gores %s: %w", name, err)
	}
	edge := func(name string, from, to, side float64) pattern.Edge {
		return pattern.Trace(name, pattern.Turns(math.Pi), func(s float64) (float64, float64) {
			f := from + s*(to-from)
			return side * math.Pi * g.Radius / g.Gores * math.Cos(f), g.Radius * f
		})
	}
	p := pattern.Piece{Name: name, Count: g.Gores, Grain: 90 * units.Deg, Edges: []pattern.Edge{
		edge("right", -math.Pi/2, math.Pi/2, 1),
		edge("left", math.Pi/2, -math.Pi/2, -1),
	}}
	s := pattern.Sew(name+" meridian", name+"/right", name+"/left", ease)
	s.Count = g.Gores
	pattern := pattern.Pattern{Pieces: []pattern.Piece{p}, Seams: []pattern.Seam{s}, Warnings: []string{fmt.Sprintf(
		"%s: the edge of a gore is %.2f %% longer than its middle: the seams pucker by that; more gores pucker less", name, 100*(g.Fullness()-1))}}
	return pattern, pattern.Check()
}

// RingGores are the equal gores of a smooth ring tube, each as wide everywhere
// as the ring's circumference there, divided. Ring gives straight pieces instead.
type RingGores struct {
	Radius units.Length // of the ring's centre line, more than Tube
	Tube   units.Length // radius of the tube, more than 0
	Gores  units.Number // 3 or more
}

func (g RingGores) check() error { return g.mitred().check() }

// mitred is the ring of as many straight pieces.
func (g RingGores) mitred() Ring {
	return Ring{Radius: g.Radius, Tube: g.Tube, Sweep: 360 * units.Deg, Pieces: g.Gores}
}

// Width is the width of a gore at an angle round the tube: 0 on the outer side,
// 180° on the inner.
//
//	w = 2*pi*(g.Radius + g.Tube*cos(angle))/g.Gores
//
// It panics if a field is out of its range.
//
// Source: circumference of the ring there, divided.
func (g RingGores) Width(angle units.Angle) units.Length {
	argument.Demand("unroll: RingGores.Width", g.check(), argument.Finite("angle", angle))
	return 2 * math.Pi * (g.Radius + g.Tube*math.Cos(angle)) / g.Gores
}

// EdgeLength is the length of a gore's edge round the tube: that of the seam.
//
// It panics if a field is out of its range.
//
// Source: arc length of the edge drawn by Width, an ellipse.
func (g RingGores) EdgeLength() units.Length {
	argument.Demand("unroll: RingGores.EdgeLength", g.check())
	return ellipse(g.Tube*math.Hypot(1, math.Pi/g.Gores), g.Tube)
}

// pattern.Pattern is the ring's pieces and seams, as Ring.Pattern gives those of straight
// pieces.
//
// Fields out of their ranges are an error.
//
// Source: as Width.
func (g RingGores) Pattern(name string, panels units.Number, from units.Angle, ease units.Number) (pattern.Pattern, error) {
	p, err := g.mitred().Pattern(name, panels, from, ease)
	if err != nil {
		return pattern.Pattern{}, err
	}
	step := 2 * math.Pi / panels
	half := func(f float64) float64 { return g.Width(f) / 2 }
	for k := range p.Pieces {
		at := from + step*float64(k)
		gore := strip(p.Pieces[k].Name, g.Tube, at, at+step, half, half)
		gore.Count = g.Gores
		p.Pieces[k] = gore
	}
	p.Warnings = append(p.Warnings, fmt.Sprintf("%s: the edge of a gore is %.2f %% longer than the way round the tube: the seams pucker by that; more gores pucker less",
		name, 100*(g.EdgeLength()/(2*math.Pi*g.Tube)-1)))
	return p, p.Check()
}

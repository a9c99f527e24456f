package tether

import (
	"fmt"
	"math"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Ring is a layout of like anchors evenly round a device that stands about the
// origin. Every strap goes outward and down at one angle.
type Ring struct {
	Number     units.Number // of anchors, a whole number of 1 or more
	First      units.Angle  // bearing of anchor 1; the others follow clockwise
	Eye        units.Length // radius of the eyes, more than 0
	Height     units.Length // of the eyes, more than 0
	Angle      units.Angle  // of the straps to the ground, above 0 and below 90°
	Splay      units.Angle  // by which the straps leave the radius, to the right and to the left in turn: it stops a turn on the spot; 0 to 80°
	Kind       string
	Holding    units.Force
	Stiffness  units.ForcePerLength
	Pretension units.Force
}

// Anchors are the anchors of the ring, named 1, 2, 3 …
//
// It panics if the number, radius, height, angle or splay is out of its range;
// the rest is judged with the set.
//
// Source: geometry.
func (r Ring) Anchors() []Anchor {
	argument.Demand("tether: Ring.Anchors", argument.Within("number", r.Number, 1, 1000), argument.Whole("number", r.Number), argument.Finite("first bearing", r.First),
		argument.Positive("radius of the eyes", r.Eye), argument.Positive("height of the eyes", r.Height), argument.Positive("strap angle", r.Angle),
		argument.Positive("angle between strap and upright", math.Pi/2-r.Angle), argument.Within("splay", r.Splay, 0, 80*units.Deg))
	out := make([]Anchor, int(r.Number))
	reach := r.Height / math.Tan(r.Angle)
	for i := range out {
		bearing := r.First + 2*math.Pi*float64(i)/r.Number
		splay := r.Splay
		if i%2 == 1 {
			splay = -splay
		}
		eye, way := anchoring.At(bearing, r.Eye, r.Height), anchoring.At(bearing+splay, reach, 0)
		out[i] = Anchor{Name: fmt.Sprint(i + 1), Kind: r.Kind, Eye: eye, Ground: anchoring.Point{X: eye.X + way.X, Y: eye.Y + way.Y},
			Holding: r.Holding, Stiffness: r.Stiffness, Pretension: r.Pretension}
	}
	return out
}

// Placed is an anchor whose strap goes from an eye outward along a bearing and
// down to level ground at an angle.
//
// The eye is above the ground, the bearing finite, the angle above 0 and below
// 90°; outside it panics. The other fields of the anchor are as given.
//
// Source: geometry.
func (a Anchor) Placed(eye anchoring.Point, outward, angle units.Angle) Anchor {
	argument.Demand("tether: Anchor.Placed", eye.Check("eye"), argument.Positive("height of the eye", eye.Z), argument.Finite("bearing", outward),
		argument.Positive("strap angle", angle), argument.Positive("angle between strap and upright", math.Pi/2-angle))
	way := anchoring.At(outward, eye.Z/math.Tan(angle), 0)
	a.Eye, a.Ground = eye, anchoring.Point{X: eye.X + way.X, Y: eye.Y + way.Y}
	return a
}

// RoundBase is n feet evenly round a base about the origin.
//
// The radius is more than 0 and n 3 or more; outside it panics. Stiffness and
// friction of each foot are judged with the set.
//
// Source: geometry.
func RoundBase(radius units.Length, n int, stiffness units.ForcePerLength, friction units.Number) []Foot {
	argument.Demand("tether: RoundBase", argument.Positive("radius", radius), argument.Within("number of feet", float64(n), 3, 1000))
	var out []Foot
	for _, bearing := range windload.Bearings(n) {
		out = append(out, Foot{anchoring.At(bearing, radius, 0), stiffness, friction})
	}
	return out
}

// BoxBase is four feet under the corners of a base about the origin, as
// windload.Box has it.
//
// Width and depth are more than 0 and the bearing finite; outside it panics.
// Stiffness and friction of each foot are judged with the set.
//
// Source: geometry.
func BoxBase(width, depth units.Length, facing units.Angle, stiffness units.ForcePerLength, friction units.Number) []Foot {
	argument.Demand("tether: BoxBase", argument.Positive("width", width), argument.Positive("depth", depth), argument.Finite("facing", facing))
	front, right := anchoring.At(facing, depth/2, 0), anchoring.At(facing+math.Pi/2, width/2, 0)
	var out []Foot
	for _, way := range [4][2]float64{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
		out = append(out, Foot{anchoring.Point{X: way[0]*front.X + way[1]*right.X, Y: way[0]*front.Y + way[1]*right.Y}, stiffness, friction})
	}
	return out
}

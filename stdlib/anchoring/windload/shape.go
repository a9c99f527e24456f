package windload

import (
	"fmt"
	"math"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Box is the four solid sides of a box that stands on the ground about the
// origin: its front looks to the bearing facing, then follow right, back and
// left, clockwise.
//
// The width of the front, the depth square to it, the height and the force
// coefficient are 0 or more, the bearing finite; outside it panics.
//
// Source: geometry.
func Box(width, depth, height units.Length, facing units.Angle, coefficient units.Number) []Face {
	argument.Demand("windload: Box", argument.NotNegative("width", width), argument.NotNegative("depth", depth), argument.NotNegative("height", height),
		argument.Finite("facing", facing), argument.NotNegative("force coefficient", coefficient))
	faces := make([]Face, 4)
	for i, name := range []string{"front", "right", "back", "left"} {
		across, along := width, depth
		if i%2 == 1 {
			across, along = depth, width
		}
		bearing := facing + float64(i)*math.Pi/2
		faces[i] = Face{Name: name, At: anchoring.At(bearing, along/2, height/2), Area: across * height,
			Facing: bearing, Coefficient: coefficient, Solidity: 1}
	}
	return faces
}

// ringSides is how many flat sides stand for a round wall.
const ringSides = 72

// Ring is the outside of a round solid wall about the origin, from bottom to
// top, as 72 flat sides that enclose it: their projected width is the diameter
// or up to a thousandth more.
//
// The outer radius, the heights and the force coefficient are 0 or more, top not
// below bottom; outside it panics.
//
// Source: geometry.
func Ring(radius, bottom, top units.Length, coefficient units.Number) []Face {
	argument.Demand("windload: Ring", ringRange(radius, bottom, top, coefficient)...)
	return ring("outside", radius, bottom, top, coefficient, 0)
}

// InnerRing is the inside of a round solid wall about the origin, from bottom to
// top: the wind that comes over the near wall meets the inside of the far one.
//
// The inner radius, the heights and the force coefficient are 0 or more, top not
// below bottom; outside it panics.
//
// Source: geometry.
func InnerRing(radius, bottom, top units.Length, coefficient units.Number) []Face {
	argument.Demand("windload: InnerRing", ringRange(radius, bottom, top, coefficient)...)
	return ring("inside", radius, bottom, top, coefficient, math.Pi)
}

func ringRange(radius, bottom, top, coefficient float64) []error {
	return []error{argument.NotNegative("radius", radius), argument.NotNegative("bottom", bottom), argument.NotNegative("height", top-bottom),
		argument.NotNegative("force coefficient", coefficient)}
}

func ring(name string, radius, bottom, top, coefficient, turn float64) []Face {
	width := 2 * radius * math.Tan(math.Pi/ringSides)
	faces := make([]Face, ringSides)
	for i, bearing := range Bearings(ringSides) {
		faces[i] = Face{Name: fmt.Sprintf("%s %d", name, i+1), At: anchoring.At(bearing, radius, (bottom+top)/2), Area: width * (top - bottom),
			Facing: bearing + turn, Coefficient: coefficient, Solidity: 1}
	}
	return faces
}

// Wall is a lone wall or net that meets the wind from both sides, between two
// points at its foot, up to a height above them.
//
// The height and the force coefficient are 0 or more, the solidity more than 0
// to 1; outside it panics, as it does where the two points are the same.
//
// Source: geometry.
func Wall(name string, from, to anchoring.Point, height units.Length, coefficient, solidity units.Number) Face {
	along := anchoring.Point{X: to.X - from.X, Y: to.Y - from.Y}
	f := Face{Name: name, At: anchoring.Point{X: (from.X + to.X) / 2, Y: (from.Y + to.Y) / 2, Z: (from.Z+to.Z)/2 + height/2},
		Area: along.Distance() * height, Facing: along.Bearing() + math.Pi/2, Coefficient: coefficient, Solidity: solidity, Open: true}
	argument.Demand("windload: Wall", argument.NotNegative("height", height), argument.Positive("length", along.Distance()), f.Check())
	return f
}

// Moved is the faces, each moved by the same way.
//
// It panics if the way is not finite.
//
// Source: geometry.
func Moved(faces []Face, by anchoring.Point) []Face {
	argument.Demand("windload: Moved", by.Check("way"))
	out := make([]Face, len(faces))
	for i, f := range faces {
		f.At = anchoring.Point{X: f.At.X + by.X, Y: f.At.Y + by.Y, Z: f.At.Z + by.Z}
		out[i] = f
	}
	return out
}

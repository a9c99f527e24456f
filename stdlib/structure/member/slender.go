package member

import (
	"fmt"

	"tautline/stdlib/structure/section"
)

// slender refuses what needs EN 1993-1-5: walls that buckle before they yield in
// compression, or webs in shear.
func slender(s section.Section, fy float64, c Class) error {
	if c.Class > 3 {
		return fmt.Errorf("%s: class 4: width over thickness of the %s is %.1f, over the limit %.1f of class 3: it buckles before it yields; take a thicker wall, or calculate by EN 1993-1-5",
			s.Name, c.Part, c.Ratio, c.Limits[2])
	}
	depth := 0.0
	switch s.Shape {
	case section.RectangularTube:
		depth = (s.Height - 3*s.Wall) / s.Wall
	case section.ChannelShape, section.IShape:
		depth = (s.Height - 2*s.Flange) / s.Wall
	}
	if limit := 72 * Epsilon(fy) / 1.2; depth > limit { // eta = 1.2
		return fmt.Errorf("%s: web in shear: depth over thickness is %.1f, over %.1f: it buckles in shear; take a thicker wall, or calculate by EN 1993-1-5", s.Name, depth, limit)
	}
	return nil
}

package holding

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Soil is a class of ground: clay by its undrained strength, or sand by its
// angle of friction, never both.
type Soil struct {
	Name     string
	Weight   units.SpecificWeight // unit weight, more than 0
	Strength units.Pressure       // of clay: undrained shear strength; 0 of sand
	Adhesion units.Number         // of clay to steel, over Strength; 0 to 1
	Friction units.Angle          // of sand: angle of internal friction, up to 45°; 0 of clay
	Source   string
}

func (s Soil) check() error {
	err := cmp.Or(argument.Positive("unit weight", s.Weight), argument.NotNegative("strength", s.Strength), argument.Within("adhesion", s.Adhesion, 0, 1),
		argument.Within("angle of friction", s.Friction, 0, math.Pi/4))
	if err == nil && (s.Strength > 0) == (s.Friction > 0) {
		err = fmt.Errorf("got a strength of %g Pa and an angle of friction of %.3g°, want one of the two: strength for clay, angle for sand", s.Strength, s.Friction/units.Deg)
	}
	if err != nil {
		return fmt.Errorf("soil %q: %w", s.Name, err)
	}
	return nil
}

// Soils are classes of ground for planning, each with the low end of its range.
//
// Caution: nobody knows the class without a test on the spot.
//
// Source: bands of undrained strength: EN ISO 14688-2:2004, Table 5, from
// memory: verify against the document; unit weights, adhesion and sands: common
// practice, no source.
func Soils() []Soil {
	const clay = "strength: low end of the band in EN ISO 14688-2:2004, Table 5 (from memory: verify against the document); rest: common practice, no source"
	const sand = "common practice, no source"
	return []Soil{
		{"soft clay", 17 * units.KNPerM3, 20 * units.KPa, 0.5, 0, clay},
		{"firm clay", 18 * units.KNPerM3, 40 * units.KPa, 0.5, 0, clay},
		{"stiff clay", 19 * units.KNPerM3, 75 * units.KPa, 0.5, 0, clay},
		{"loose sand", 16 * units.KNPerM3, 0, 0, 28 * units.Deg, sand},
		{"medium sand", 18 * units.KNPerM3, 0, 0, 33 * units.Deg, sand},
		{"dense sand or gravel", 19 * units.KNPerM3, 0, 0, 36 * units.Deg, sand},
	}
}

// SoilOf is a soil of the table.
//
// A name that is not in it is an error, which lists those that are.
//
// Caution: nobody knows the class without a test on the spot.
//
// Source: as Soils.
func SoilOf(name string) (Soil, error) {
	var known []string
	for _, s := range Soils() {
		if s.Name == name {
			return s, nil
		}
		known = append(known, s.Name)
	}
	return Soil{}, fmt.Errorf("soil: got %q, want one of: %s", name, strings.Join(known, ", "))
}

// Saturated is the soil after lasting rain: clay keeps half its strength, sand
// loses the weight of the water it displaces, 9.81 kN/m³.
//
// It panics if a field is out of its range, or sand is lighter than water.
//
// Source: clay: tests of stakes in saturated ground, which held about half,
// reported by a trade body of the tent industry, as quoted in a public copy;
// sand: Archimedes' principle.
func (s Soil) Saturated() Soil {
	argument.Demand("holding: Soil.Saturated", s.check())
	wet := s
	wet.Name += ", saturated"
	if s.Strength > 0 {
		wet.Strength = s.Strength / 2
		return wet
	}
	wet.Weight = s.Weight - 9.81*units.KNPerM3
	argument.Demand("holding: Soil.Saturated", argument.Positive("weight under water", wet.Weight))
	return wet
}

// Passive is the coefficient of passive earth pressure.
//
//	Kp = (1 + sin(s.Friction))/(1 - sin(s.Friction))
//
// It panics if a field is out of its range.
//
// Source: Rankine (1857).
func (s Soil) Passive() units.Number {
	argument.Demand("holding: Soil.Passive", s.check())
	return (1 + math.Sin(s.Friction)) / (1 - math.Sin(s.Friction))
}

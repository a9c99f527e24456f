package windload

import (
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// EurocodeAirDensity is the density of air that EN 1991-1-4 recommends.
//
// Source: EN 1991-1-4:2005, 4.5 (1), note 2, recommended value.
const EurocodeAirDensity units.Density = 1.25

// A Terrain is a category of the ground upwind, by EN 1991-1-4.
type Terrain struct {
	Category  string
	Ground    string       // what it looks like
	Roughness units.Length // z0, more than 0
	Least     units.Length // zmin: below it the wind is taken as at it; more than Roughness
	Source    string
}

// Terrains are the terrain categories 0 to IV with their recommended values.
//
// Source: EN 1991-1-4:2005, 4.3.2, Table 4.1.
func Terrains() []Terrain {
	const source = "EN 1991-1-4:2005, Table 4.1, recommended values"
	return []Terrain{
		{"0", "sea or coast open to the sea", 0.003 * units.M, 1 * units.M, source},
		{"I", "lakes, flat ground without obstacles", 0.01 * units.M, 1 * units.M, source},
		{"II", "low plants, obstacles at least 20 of their heights apart", 0.05 * units.M, 2 * units.M, source},
		{"III", "villages, suburbs, forest", 0.3 * units.M, 5 * units.M, source},
		{"IV", "towns: at least 15 % built over, higher than 15 m on average", 1.0 * units.M, 10 * units.M, source},
	}
}

// TerrainOf is the terrain of a category, "0", "I", "II", "III" or "IV".
//
// Another category is an error.
//
// Source: as Terrains.
func TerrainOf(category string) (Terrain, error) {
	var known []string
	for _, t := range Terrains() {
		if t.Category == category {
			return t, nil
		}
		known = append(known, t.Category)
	}
	return Terrain{}, fmt.Errorf("terrain category: got %q, want one of %s", category, strings.Join(known, ", "))
}

func (t Terrain) demand(call string, more ...error) {
	argument.Demand("windload: Terrain."+call, append(more, argument.Positive("roughness", t.Roughness),
		argument.Above("least height", t.Least, t.Roughness))...)
}

// heightRange is where the profiles of EN 1991-1-4 apply.
func heightRange(height units.Length) error {
	return argument.Within("height", height, 0, 200)
}

// Factor is the terrain factor.
//
//	kr = 0.19*pow(t.Roughness/0.05, 0.07)
//
// It panics if a field is out of its range.
//
// Source: EN 1991-1-4:2005, 4.3.2, equation 4.5.
func (t Terrain) Factor() units.Number {
	t.demand("Factor")
	return 0.19 * math.Pow(t.Roughness/0.05, 0.07)
}

// MeanFactor is the mean speed at a height over the basic speed, on flat ground.
//
//	cr = 0.19*pow(t.Roughness/0.05, 0.07)*log(max(height, t.Least)/t.Roughness)
//
// The height above ground is 0 to 200 m. It panics if a number is out of its
// range.
//
// Source: EN 1991-1-4:2005, 4.3.2, equation 4.4.
func (t Terrain) MeanFactor(height units.Length) units.Number {
	t.demand("MeanFactor", heightRange(height))
	return t.Factor() * math.Log(math.Max(height, t.Least)/t.Roughness)
}

// MeanSpeed is the ten-minute mean speed at a height.
//
//	vm = orography*basic*0.19*pow(t.Roughness/0.05, 0.07)*log(max(height, t.Least)/t.Roughness)
//
// The basic speed is 0 or more; the height 0 to 200 m; the orography factor 1
// on flat ground and more on hills and cliffs, at least 1. It panics if a number
// is out of its range.
//
// Source: EN 1991-1-4:2005, 4.3.1, equation 4.3.
func (t Terrain) MeanSpeed(basic units.Speed, height units.Length, orography units.Number) units.Speed {
	t.demand("MeanSpeed", argument.NotNegative("basic speed", basic), heightRange(height), argument.Within("orography factor", orography, 1, math.MaxFloat64))
	return orography * basic * t.MeanFactor(height)
}

// Turbulence is the turbulence intensity at a height: the spread of the speed
// over its mean.
//
//	Iv = 1/(orography*log(max(height, t.Least)/t.Roughness))
//
// The height is 0 to 200 m, the orography factor at least 1. It panics if a
// number is out of its range.
//
// Source: EN 1991-1-4:2005, 4.4, equation 4.7, with the recommended turbulence
// factor 1.
func (t Terrain) Turbulence(height units.Length, orography units.Number) units.Number {
	t.demand("Turbulence", heightRange(height), argument.Within("orography factor", orography, 1, math.MaxFloat64))
	return 1 / (orography * math.Log(math.Max(height, t.Least)/t.Roughness))
}

// GustFactor is the speed of a gust over the ten-minute mean at the same height.
//
//	G = sqrt(1 + 7/log(max(height, t.Least)/t.Roughness))
//
// The height is 0 to 200 m, on flat ground. It panics if a number is out of its
// range. A limit on gusts divided by it is a limit on the forecast's mean.
//
// Source: EN 1991-1-4:2005, 4.5, root of the factor on the mean pressure.
func (t Terrain) GustFactor(height units.Length) units.Number {
	t.demand("GustFactor", heightRange(height))
	return math.Sqrt(1 + 7*t.Turbulence(height, 1))
}

// PeakPressure is the peak velocity pressure at a height: mean wind with the
// gusts on it.
//
// With mean speed vm and turbulence Iv at the height it is
// (1 + 7·Iv)·½·density·vm². The basic speed is 0 or more; the height 0 to 200 m;
// the orography factor at least 1; the air density more than 0. It panics if a
// number is out of its range.
//
// Source: EN 1991-1-4:2005, 4.5, equation 4.8.
func (t Terrain) PeakPressure(basic units.Speed, height units.Length, orography units.Number, density units.Density) units.Pressure {
	argument.Demand("windload: Terrain.PeakPressure", argument.Positive("air density", density))
	mean := t.MeanSpeed(basic, height, orography)
	return (1 + 7*t.Turbulence(height, orography)) * 0.5 * density * mean * mean
}

// ExposureFactor is the peak velocity pressure at a height over the pressure of
// the basic speed, on flat ground: (1 + 7·Iv)·cr².
//
// The height is 0 to 200 m. It panics if a number is out of its range.
//
// Source: EN 1991-1-4:2005, 4.5, equation 4.9.
func (t Terrain) ExposureFactor(height units.Length) units.Number {
	mean := t.MeanFactor(height)
	return (1 + 7*t.Turbulence(height, 1)) * mean * mean
}

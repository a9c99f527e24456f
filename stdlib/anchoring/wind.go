package anchoring

import (
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Wind is a design wind as a document fixes it. The three numbers belong
// together: another air density or force coefficient makes it another rule.
type Wind struct {
	Density     units.Density // of the air, more than 0
	Speed       units.Speed   // 0 or more
	Coefficient units.Number  // of the force on a face, pressure and suction together; more than 0
	Source      string
}

// PlayInflatableWind is the design wind of the play-inflatable standard. Its
// 11.1 m/s is Beaufort 6, a little above the 38 km/h at which play must stop.
//
// Caution: a powered ride's bed is outside that standard's scope; it serves
// there by analogy. The values are from memory.
//
// Source: EN 14960-1:2019, Annex A, from memory: verify against the document.
func PlayInflatableWind() Wind {
	return Wind{
		Density:     1.24 * units.KgPerM3,
		Speed:       11.1 * units.MPerS,
		Coefficient: 1.5,
		Source:      "EN 14960-1:2019, Annex A (from memory: verify against the document; a powered ride's bed is outside its scope)",
	}
}

func (w Wind) demand(call string, more ...error) {
	argument.Demand("anchoring: "+call, append(more, argument.Positive("air density", w.Density), argument.NotNegative("wind speed", w.Speed),
		argument.Positive("force coefficient", w.Coefficient))...)
}

// Pressure is the wind's velocity pressure.
//
//	q = 0.5*w.Density*w.Speed*w.Speed
//
// It panics if a field is out of its range.
//
// Source: Bernoulli's equation.
func (w Wind) Pressure() units.Pressure {
	w.demand("Wind.Pressure")
	return WindPressure(w.Density, w.Speed)
}

// FacePressure is the wind force per area of the face that meets it.
//
//	p = 0.5*w.Coefficient*w.Density*w.Speed*w.Speed
//
// It panics if a field is out of its range.
//
// Source: definition of the force coefficient.
func (w Wind) FacePressure() units.Pressure {
	w.demand("Wind.FacePressure")
	return w.Coefficient * w.Pressure()
}

// Force is the wind force on a face.
//
//	F = 0.5*w.Coefficient*w.Density*w.Speed*w.Speed*area
//
// The area of the face, square to the wind, is 0 or more. It panics if the area
// or a field is out of its range.
//
// Source: definition of the force coefficient.
func (w Wind) Force(area units.Area) units.Force {
	w.demand("Wind.Force", argument.NotNegative("area", area))
	return w.FacePressure() * area
}

// WindPressure is the velocity pressure of moving air.
//
//	q = 0.5*rho*v*v
//
// The air density rho is more than 0, the speed v 0 or more; outside it panics.
//
// Source: Bernoulli's equation.
func WindPressure(rho units.Density, v units.Speed) units.Pressure {
	argument.Demand("anchoring: WindPressure", argument.Positive("air density", rho), argument.NotNegative("wind speed", v))
	return 0.5 * rho * v * v
}

// WindAtHeight turns a mean wind measured at one height into that at another, by
// the logarithmic profile of open ground. Wind is weaker near the ground, so a
// hand-held reading is lower than the wind higher up.
//
//	u = v*log(height/roughness)/log(from/roughness)
//
// The mean speed v is 0 or more. The heights from and height are above the
// roughness length, which is more than 0: 0.03 m for short grass, 0.3 m between
// low houses. Outside it panics.
//
// Caution: the profile says nothing about a place in the shelter or the gap of
// buildings.
//
// Source: logarithmic wind profile; EN 1991-1-4:2005, 4.3.2, has the same form.
func WindAtHeight(v units.Speed, from, height, roughness units.Length) units.Speed {
	argument.Demand("anchoring: WindAtHeight", argument.NotNegative("wind speed", v), argument.Positive("roughness", roughness),
		argument.Above("from", from, roughness), argument.Above("height", height, roughness))
	return v * math.Log(height/roughness) / math.Log(from/roughness)
}

// WindAtHeightByPower turns a mean wind measured at one height into that at
// another by the power profile.
//
//	u = v*pow(height/from, exponent)
//
// The mean speed v is 0 or more, the heights from and height more than 0, the
// exponent 0 to 1, about 0.14 over open ground. Outside it panics.
//
// Source: power-law wind profile, common practice.
func WindAtHeightByPower(v units.Speed, from, height units.Length, exponent units.Number) units.Speed {
	argument.Demand("anchoring: WindAtHeightByPower", argument.NotNegative("wind speed", v), argument.Positive("from", from), argument.Positive("height", height),
		argument.Within("exponent", exponent, 0, 1))
	return v * math.Pow(height/from, exponent)
}

// TurbulenceIntensity is how gusty the wind is: the spread of its speed over the
// mean.
//
//	I = 1/log(height/roughness)
//
// The height is above the roughness length, which is more than 0, and no less
// than the terrain category's least height (2 m in category II, with a roughness
// of 0.05 m). Outside the former it panics; the latter is the caller's to keep.
//
// Source: EN 1991-1-4:2005, 4.4, with the recommended turbulence factor 1 on
// flat ground.
func TurbulenceIntensity(height, roughness units.Length) units.Number {
	argument.Demand("anchoring: TurbulenceIntensity", argument.Positive("roughness", roughness), argument.Above("height", height, roughness))
	return 1 / math.Log(height/roughness)
}

// GustRatio is the speed of a gust over the ten-minute mean. A forecast mean
// times this is the gust to compare with a limit on gusts.
//
//	G = sqrt(1 + 7*turbulence)
//
// The turbulence intensity is 0 or more; outside it panics.
//
// Source: EN 1991-1-4:2005, 4.5, root of the factor on the mean pressure.
func GustRatio(turbulence units.Number) units.Number {
	argument.Demand("anchoring: GustRatio", argument.NotNegative("turbulence", turbulence))
	return math.Sqrt(1 + 7*turbulence)
}

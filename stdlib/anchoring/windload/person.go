package windload

import (
	"cmp"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Person is somebody in the wind: a player on a beam, a rider in an open seat, an
// attendant on a platform. The wind pushes a person like anything else that stands.
type Person struct {
	DragArea units.Area   // force over velocity pressure: area that meets the wind times its drag coefficient, more than 0
	Middle   units.Length // height of the push over the feet, or over the seat of one who sits, 0 or more
	Source   string
}

// StandingPerson is a clothed adult who stands and faces the wind.
//
// The area is that of the measured drag of an average man, 9 ft². The push is taken
// at half of 1.8 m.
//
// Caution: a loose coat or a banner takes more, and a person who leans or is pushed
// falls in much less wind than one who braces himself.
//
// Source: Hoerner, Fluid-Dynamic Drag, 1965, chapter 3, drag of the human body, from
// memory: verify against the document; the height is common practice, no source.
func StandingPerson() Person {
	return Person{DragArea: 0.84 * units.M2, Middle: 0.9 * units.M, Source: "Hoerner, Fluid-Dynamic Drag, 1965, chapter 3 (from memory: verify against the document)"}
}

// SittingPerson is a clothed adult who sits upright and faces the wind.
//
// The area is that of the measured drag of an average man, 6 ft². The push is taken
// 0.4 m over the seat.
//
// Source: as StandingPerson.
func SittingPerson() Person {
	return Person{DragArea: 0.56 * units.M2, Middle: 0.4 * units.M, Source: "Hoerner, Fluid-Dynamic Drag, 1965, chapter 3 (from memory: verify against the document)"}
}

func (p Person) demand(call string, more ...error) {
	argument.Demand("windload: Person."+call, cmp.Or(argument.Positive("drag area", p.DragArea), argument.NotNegative("middle", p.Middle)), cmp.Or(more...))
}

// Force is the push of the wind on the person.
//
//	F = pressure*p.DragArea
//
// The pressure is the wind's velocity pressure, 0 or more. No safety factor is in the
// result. It panics if a number is out of its range.
//
// Source: definition of the drag area.
func (p Person) Force(pressure units.Pressure) units.Force {
	p.demand("Force", argument.NotNegative("velocity pressure", pressure))
	return pressure * p.DragArea
}

// Moment is what that push does about a level line below the person.
//
//	M = pressure*p.DragArea*(feet + p.Middle)
//
// The pressure is the wind's velocity pressure, 0 or more; feet are the height of the
// feet, or of the seat, over the line, 0 or more. It panics if a number is out of its
// range.
//
// Source: statics.
func (p Person) Moment(pressure units.Pressure, feet units.Length) units.Moment {
	p.demand("Moment", argument.NotNegative("velocity pressure", pressure), argument.NotNegative("feet", feet))
	return pressure * p.DragArea * (feet + p.Middle)
}

// Package girder is the straight beam in closed form: its moments, shears and
// deflections under one point load or an even load, held in the four usual ways.
//
// Its nouns are the ways of holding a beam: Simple (simply supported, hinged at both
// ends), Cantilever (built in at one end, the other free), Fixed (built in at both
// ends) and Propped (built in at one end, hinged at the other).
//
//	plank := girder.Simple{Length: 4 * units.M, E: steel.E, I: tube.Iy}
//	M := plank.MiddleMoment(F)
//	w := plank.MiddleDeflection(F)
//
// DropFactor is the dynamic factor of a load that falls onto a beam.
//
// Invariants: loads act square to the beam, moments and shears are the greatest of
// the beam without their sign, deflections are towards the load. The beam is
// straight, of one section, elastic and slender: what it gives in shear is left out,
// some 3 % of the deflection where a solid section is a tenth of the span high.
// Package frame is for all else: several spans, axial forces, thin webs, second
// order.
//
// People stand on what is checked here: a competent designer, the local code and
// licensed practice come before these numbers.
package girder

import (
	"cmp"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// demand panics unless the fields that the four beams share are within their ranges.
func demand(call string, length, e, i float64, more ...error) {
	argument.Demand("girder: "+call, cmp.Or(argument.Positive("length", length), argument.Positive("E", e), argument.Positive("I", i)), cmp.Or(more...))
}

// DropFactor is the dynamic factor, or impact factor, of a load that is dropped onto
// something elastic: by how many times what it does exceeds what it does at rest.
//
//	k = 1 + sqrt(1+2*height/deflection)
//
// The height is that of the free fall until the load touches, 0 or more: at 0 the
// load is put on suddenly and does twice as much. The deflection is what the load
// causes there at rest, more than 0, of all that gives: beam, pads, tyres, and the
// legs of one who jumps. Outside it panics. What falls is taken as stiff, what it
// meets as light and elastic, and nothing is lost in the hit: the result is on the
// safe side of that, and large where little gives.
//
// Caution: moments and forces are multiplied by it, not only deflections. A stiff
// floor under a stiff load gives numbers that mean nothing: measure then.
//
// Source: conservation of energy, derived here; Gere and Timoshenko, Mechanics of
// Materials, 4th ed., 1997, section 2.8, from memory: verify against the document.
func DropFactor(height, deflection units.Length) units.Number {
	argument.Demand("girder: DropFactor", argument.NotNegative("height", height), argument.Positive("deflection", deflection))
	return 1 + math.Sqrt(1+2*height/deflection)
}

// Package slung is cables in closed form: hung by their weight, under an even load,
// in the edge of a skin.
//
//	guy := sheet.Must(slung.Catenary{Span: 10 * units.M, Rise: 3 * units.M, Length: 12 * units.M, Weight: 5 * units.NPerM}.Form())
//	edge := slung.EdgeCable{Chord: 4 * units.M, Sag: 400 * units.Mm, Pull: 1 * units.KNPerM}.Force()
//
// A Catenary and a Parabola become a HungCable; an EdgeCable is an arc. What
// stretches, or hangs in a skin that moves, is found by package form.
//
// Invariants: x runs to the right and z upward from the left support; no cable is
// shorter than the straight way between its ends.
package slung

// Package crew says what people can lift, how a set is packed, in which order and
// how long it is set up, and how many ride in an hour.
//
// Its nouns: a Lift is one piece taken up and put down; a Piece goes into a
// Vehicle; a Carriage bears what is Stowed on its axles or tow ball; a Step of the
// set-up needs people for a time, after other steps; a Cycle is a ride with getting
// on and off.
//
//	plate := crew.Lift{Name: "ballast plate", Mass: 10 * units.Kg, Grip: "good", Rate: 1 * units.PerMin, Work: 1 * units.H,
//		From: crew.Hold{Out: 300 * units.Mm, Height: 700 * units.Mm}, To: crew.Hold{Out: 350 * units.Mm, Height: 200 * units.Mm}, Placed: true}
//	judged := sheet.Must(plate.Judge())
//	sheet.AtMost("ballast plate", judged.Index, 1, "revised NIOSH lifting equation")
//
// Invariants: what is planned is the same at every run: of equal steps the first
// in the list goes first.
//
// The lifting equation is for healthy grown people who stand on firm ground, with
// both hands, without haste. It says nothing of carrying more than a few steps, of
// wet grass, of one hand or of a load that moves. Whoever leads the crew looks at
// the people, the ground and the weather.
package crew

// Package motion calculates how a three-axis ride base moves, what its riders
// feel, and what its axes and its foundation have to bear.
//
// Its nouns: a Base is the machine, with its axes and seats; a State is where the
// axes are and how fast they turn; a Move is a jerk-limited move of one axis; a
// Programme lists the levels of a game in the game's own words; a Ride is a
// programme worked out for a base, from which every number at every time follows.
//
//	ride := sheet.Must(programme.Ride(base))
//	felt := base.Felt(ride.At(12*units.S), 0)
//	sheet.AtMost("felt upward", felt.Z, 1.8*units.Gn)
//
// Axes: the world is right-handed with z up. The base turns about the vertical
// (yaw), carries the pitch axis, which lies along y of the turned base, and that
// carries the roll axis, along x of the pitched part. What is fixed to the roll
// part is turned into the world by
//
//	Rz(yaw)·Ry(pitch)·Rx(roll)
//
// so with z up a positive pitch puts the bow down and a positive roll lifts the
// left side. A rider's x points forward, y to the left, z up.
//
// Invariants: speeds, accelerations and jerks are the exact derivatives of the
// positions, not differences. Felt acceleration is specific force: at rest and
// upright it is one g upward.
//
// A dynamic ride can kill. The numbers support a competent designer and an
// inspection body; they replace neither. Local law and the standards that apply
// come first.
package motion

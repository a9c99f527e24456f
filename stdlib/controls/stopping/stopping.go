// Package stopping works out how a ride comes to rest: from the cord that is
// pulled, through contact, control, drive and brake, at any moment of its
// programme, whole and with one part broken.
//
// Its nouns: an Axle is what can stop one axis; a Chain is a base with its bodies,
// its axles and the times of its control; a Fault is one broken part; a Course is
// one stop, and Worst what the search over a programme found.
//
//	worst := sheet.Must(chain.Search(seas, stopping.Fault{}, 50*units.Ms))
//	stop := sheet.Must(chain.Stop(ride, worst.Moment[2], stopping.Fault{}))
//	sheet.AtMost("pitch, to rest", stop.Angle[1], 7*units.Deg)
//
// Invariants: while a drive obeys, the motion is exact, with constant jerk. What no
// drive steers moves as weight, friction and brake make it, with every coupling of
// the axes; a brake works against the motion, and holds no more than its torque.
// All times count from the pull, or from the fault that comes before it. Axes come
// in the order yaw, pitch, roll.
//
// A stop that fails can kill. The numbers support a competent designer and an
// inspection body; they replace neither, nor the stop measured on the built ride.
package stopping

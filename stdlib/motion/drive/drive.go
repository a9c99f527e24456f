// Package drive sizes what turns the axes of a ride: torque and speed of the
// motor over a programme, both ways of power, heat, brake, and a motor chosen from
// a table.
//
// Its nouns: a Train is what stands between motor and axis; a Demand is torque and
// speed at the axis over time; a Duty is that at the motor; a Motor is a line of a
// maker's table.
//
//	demand := drive.Demand{Time: loads.Time, Torque: loads.Pitch, Speed: record.Speed, Acceleration: record.Acceleration}
//	duty := sheet.Must(train.Duty(demand, motor))
//	sheet.AtMost("heat of the motor", duty.Rms, motor.Continuous(duty.MeanSpeed))
//
// Invariants: torque and speed have signs; their product is power given to the
// axis. Where it is negative the axis drives the motor, and losses help to brake.
//
// A drive that gives way drops its riders. The numbers support a competent
// designer; brakes and their controls have rules of their own.
package drive

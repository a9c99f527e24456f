package blower

import (
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Duty is one point of a fan's data sheet.
type Duty struct {
	Flow     units.VolumeFlow // 0 or more
	Pressure units.Pressure   // gauge, 0 or more
	Power    units.Power      // at the shaft, 0 or more
}

// Scaled is the same point of the same kind of fan at another speed, size or
// air density, each given as the ratio of new to old: flow goes with speed and
// diameter cubed; pressure with density, speed squared and diameter squared;
// power with density, speed cubed and the fifth power of diameter.
//
// The ratios are more than 0; outside it panics. They are good for small
// changes, in which the fan's efficiency stays much the same.
//
// Source: fan laws; ASHRAE Handbook, HVAC Systems and Equipment, fans.
func (d Duty) Scaled(speed, diameter, density units.Number) Duty {
	argument.Demand("blower: Duty.Scaled", argument.Positive("speed ratio", speed), argument.Positive("diameter ratio", diameter), argument.Positive("density ratio", density))
	tip := speed * diameter
	return Duty{
		Flow:     d.Flow * tip * diameter * diameter,
		Pressure: d.Pressure * density * tip * tip,
		Power:    d.Power * density * tip * tip * tip * diameter * diameter,
	}
}

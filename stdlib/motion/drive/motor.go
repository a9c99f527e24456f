package drive

import (
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Motor is a line of a table of motors. Between its points the torque is a
// straight line over the speed.
type Motor struct {
	Name    string
	Stall   units.Moment       // lasting, near standstill
	Rated   units.Moment       // lasting, at the rated speed
	Speed   units.AngularSpeed // rated
	Peak    units.Moment       // for a moment, from standstill to the corner
	Corner  units.AngularSpeed // up to which the peak is there
	Top     units.AngularSpeed // greatest; the peak falls to the rated torque there
	Inertia units.Inertia      // of the rotor
	Heating units.Time         // time constant of its heat
	Brake   units.Moment       // that its holding brake holds; 0 without one
}

func (m Motor) check() error {
	for _, err := range []error{
		argument.Positive("stall torque", m.Stall), argument.Within("rated torque", m.Rated, 1e-9, m.Stall), argument.Positive("rated speed", m.Speed),
		argument.Above("peak torque", m.Peak, m.Rated), argument.Positive("corner speed", m.Corner), argument.Above("top speed", m.Top, math.Max(m.Corner, m.Speed)*(1-1e-12)),
		argument.Positive("inertia", m.Inertia), argument.Positive("time constant of heat", m.Heating), argument.NotNegative("brake torque", m.Brake),
	} {
		if err != nil {
			return fmt.Errorf("motor %q: %w", m.Name, err)
		}
	}
	return nil
}

// Continuous is the torque that the motor gives for ever at a speed: from stall
// to rated torque along a straight line, then falling with the speed at rated
// power; 0 above the top speed.
//
// The speed has either sign. It panics when it is not finite or a field is out of
// range.
//
// Source: common practice, no source; the maker's curve comes before it.
func (m Motor) Continuous(speed units.AngularSpeed) units.Moment {
	argument.Demand("drive: Motor.Continuous", m.check(), argument.Finite("speed", speed))
	return m.continuous(math.Abs(speed))
}

func (m Motor) continuous(w float64) float64 {
	switch {
	case w > m.Top:
		return 0
	case w <= m.Speed:
		return m.Stall + (m.Rated-m.Stall)*w/m.Speed
	}
	return m.Rated * m.Speed / w
}

// Most is the torque that the motor gives for a moment at a speed: its peak up to
// the corner, then along a straight line to the rated torque at the top speed; 0
// above it.
//
// The speed has either sign. It panics when it is not finite or a field is out of
// range.
//
// Source: common practice, no source; the maker's curve comes before it.
func (m Motor) Most(speed units.AngularSpeed) units.Moment {
	argument.Demand("drive: Motor.Most", m.check(), argument.Finite("speed", speed))
	return m.most(math.Abs(speed))
}

func (m Motor) most(w float64) float64 {
	switch {
	case w > m.Top:
		return 0
	case w <= m.Corner:
		return m.Peak
	}
	return m.Peak + (m.Rated-m.Peak)*(w-m.Corner)/(m.Top-m.Corner)
}

// InventedMotors is a table of servo motors with holding brakes, invented for
// examples, by rising torque. No maker is meant; a design takes a maker's table.
func InventedMotors() []Motor {
	var out []Motor
	for _, m := range []struct{ name, stall, inertia, heating float64 }{
		{name: 1, stall: 2.4, inertia: 1.9e-4, heating: 20}, {name: 2, stall: 4.8, inertia: 3.7e-4, heating: 25},
		{name: 3, stall: 8, inertia: 9e-4, heating: 30}, {name: 4, stall: 14, inertia: 20e-4, heating: 35},
		{name: 5, stall: 22, inertia: 45e-4, heating: 40}, {name: 6, stall: 36, inertia: 95e-4, heating: 45},
	} {
		out = append(out, Motor{
			Name: fmt.Sprintf("M%.0f (invented)", m.name), Stall: m.stall * units.Nm, Rated: 0.8 * m.stall * units.Nm, Speed: 3000 * units.Rpm,
			Peak: 3 * m.stall * units.Nm, Corner: 2400 * units.Rpm, Top: 4500 * units.Rpm, Inertia: m.inertia * units.KgM2,
			Heating: m.heating * units.Min, Brake: 1.1 * m.stall * units.Nm,
		})
	}
	return out
}

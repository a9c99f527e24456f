package supply

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Load is what draws power.
type Load struct {
	Name       string
	Power      units.Power  // at the shaft or of the lamp, more than 0
	Efficiency units.Number // more than 0 to 1
	Factor     units.Number // power factor, more than 0 to 1
	Phases     units.Number // 1 or 3
	Line       units.Number // that one phase hangs on: 1, 2 or 3
	Share      units.Number // of the full power that runs with the others, 0 to 1; 0 stands by
	Start      units.Number // starting current over running current, 1 or more
}

func (l Load) check() error {
	err := cmp.Or(argument.Positive("power", l.Power), argument.Within("efficiency", l.Efficiency, 1e-9, 1), argument.Within("power factor", l.Factor, 1e-9, 1),
		argument.Within("share", l.Share, 0, 1), argument.Within("start", l.Start, 1, 100))
	switch {
	case err != nil:
	case l.Phases != 1 && l.Phases != 3:
		err = fmt.Errorf("phases: got %g, want 1 or 3", l.Phases)
	case l.Phases == 1 && l.Line != 1 && l.Line != 2 && l.Line != 3:
		err = fmt.Errorf("line: got %g, want 1, 2 or 3 for a load of one phase", l.Line)
	}
	if err != nil {
		return fmt.Errorf("load %q: %w", l.Name, err)
	}
	return nil
}

// Apparent is the apparent power that the load draws at full power.
//
//	S = l.Power/(l.Efficiency*l.Factor)
//
// It panics when a field is out of its range.
//
// Source: definition.
func (l Load) Apparent() units.Power {
	argument.Demand("supply: Load.Apparent", l.check())
	return l.Power / (l.Efficiency * l.Factor)
}

// Mains are the voltages of a supply.
type Mains struct {
	Line    units.Voltage // of a line to neutral, more than 0
	Between units.Voltage // two lines, more than 0
	Phases  units.Number  // 1 or 3
}

// Single230 are mains of one phase, 230 V.
//
// Source: IEC 60038, nominal voltages.
func Single230() Mains { return Mains{Line: 230 * units.V, Between: 400 * units.V, Phases: 1} }

// Three400 are mains of three phases, 230 and 400 V.
//
// Source: IEC 60038, nominal voltages.
func Three400() Mains { return Mains{Line: 230 * units.V, Between: 400 * units.V, Phases: 3} }

func (m Mains) check() error {
	err := cmp.Or(argument.Positive("voltage to neutral", m.Line), argument.Positive("voltage between lines", m.Between))
	if err == nil && m.Phases != 1 && m.Phases != 3 {
		err = fmt.Errorf("phases: got %g, want 1 or 3", m.Phases)
	}
	return err
}

// Current is what a load draws at full power in each of its lines: its apparent
// power over the voltage, or over √3 of the voltage between three lines.
//
// A load of three phases on mains of one, or a number out of its range, is an error.
//
// Source: definition.
func (m Mains) Current(l Load) (units.Current, error) {
	if err := cmp.Or(m.check(), l.check(), m.takes(l)); err != nil {
		return 0, err
	}
	if l.Phases == 3 {
		return l.Apparent() / (math.Sqrt(3) * m.Between), nil
	}
	return l.Apparent() / m.Line, nil
}

func (m Mains) takes(l Load) error {
	if l.Phases > m.Phases || l.Phases == 1 && l.Line > m.Phases {
		return fmt.Errorf("load %q: got %g phase on line %g, want one that these mains have: they are of %g phase", l.Name, l.Phases, l.Line, m.Phases)
	}
	return nil
}

// A Sum is what loads draw together.
type Sum struct {
	Name     []string
	Currents []units.Current // of each at full power
	Real     units.Power     // of what runs together
	Reactive units.Power
	Apparent units.Power
	Factor   units.Number    // power factor of all; 1 where nothing runs
	Lines    []units.Current // in the lines 1, 2 and 3
	Most     units.Current   // in one line
	Neutral  units.Current   // without harmonics: see Mains.Harmonics
	Start    units.Power     // apparent power of the load that starts hardest, alone
	Starting units.Power     // of all, while one starts and the others run
	Starter  string          // its name
}

// Sum adds loads up: real and reactive power by their shares, line by line, and the
// load that starts hardest. Reactive power lags.
//
// A load that the mains do not take, or a number out of its range, is an error.
//
// Caution: rectifiers of drives draw currents of three times the frequency, which
// add up in the neutral: it may carry more than a line does.
//
// Source: sums of phasors, worked here.
func (m Mains) Sum(loads []Load) (Sum, error) {
	if err := m.check(); err != nil {
		return Sum{}, fmt.Errorf("mains: %w", err)
	}
	if len(loads) == 0 {
		return Sum{}, fmt.Errorf("loads: got none, want one or more")
	}
	var s Sum
	var p, q [3]float64 // by line
	for _, l := range loads {
		i, err := m.Current(l)
		if err != nil {
			return Sum{}, err
		}
		s.Name, s.Currents = append(s.Name, l.Name), append(s.Currents, i)
		active := l.Share * l.Power / l.Efficiency
		reactive := active * math.Tan(math.Acos(l.Factor))
		for k := range p {
			switch {
			case l.Phases == 3:
				p[k], q[k] = p[k]+active/3, q[k]+reactive/3
			case int(l.Line) == k+1:
				p[k], q[k] = p[k]+active, q[k]+reactive
			}
		}
	}
	var re, im float64 // of the neutral's current
	for k := range int(m.Phases) {
		i := math.Hypot(p[k], q[k]) / m.Line
		s.Lines, s.Most = append(s.Lines, i), max(s.Most, i)
		sin, cos := math.Sincos(math.Atan2(q[k], p[k]) + 2*math.Pi/3*float64(k))
		re, im = re+i*cos, im+i*sin
		s.Real, s.Reactive = s.Real+p[k], s.Reactive+q[k]
	}
	s.Neutral = math.Hypot(re, im)
	s.Apparent, s.Factor = math.Hypot(s.Real, s.Reactive), 1
	if s.Apparent > 0 {
		s.Factor = s.Real / s.Apparent
	}
	for _, l := range loads {
		full := l.Apparent()
		s.Starting = max(s.Starting, s.Apparent+full*(l.Start-l.Share))
		if full*l.Start > s.Start {
			s.Start, s.Starter = full*l.Start, l.Name
		}
	}
	return s, nil
}

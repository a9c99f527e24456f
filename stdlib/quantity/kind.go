package quantity

// A kind is what one alias of package units stands for and how a shop writes
// it.
type kind struct {
	alias     string // in package units; "" where only the dimension is known
	name      string // the trade's word
	dimension Dimension
	si, us    []step
}

// A step is the unit to use from a magnitude on, counted in that unit. The
// first step of a kind starts at 0.
type step struct {
	from   float64
	symbol string
}

// in is a kind's only unit.
func in(symbol string) []step { return []step{{0, symbol}} }

// kinds lists every alias. Of two with one dimension the first is taken when
// only the dimension is known: so the bare 1/s and K stand before frequency,
// which a turning rate must not be shown as, and before temperature in °C,
// which a difference must not be shown as.
//
// Source: common practice, no source.
var kinds = []kind{
	{"Number", "pure number", dim(0, 0, 0, 0, 0, 0), in(""), in("")},
	{"Angle", "angle", dim(0, 0, 0, 0, 0, 1), in("°"), in("°")},

	{"Length", "length", dim(1, 0, 0, 0, 0, 0), []step{{0, "mm"}, {1, "m"}}, []step{{0, "in"}, {6, "ft"}}},
	{"Area", "area", dim(2, 0, 0, 0, 0, 0), []step{{0, "mm²"}, {0.1, "m²"}}, []step{{0, "in²"}, {1, "ft²"}}},
	{"Volume", "volume", dim(3, 0, 0, 0, 0, 0),
		[]step{{0, "mm³"}, {0.1, "cm³"}, {1, "L"}, {0.1, "m³"}}, []step{{0, "in³"}, {1, "ft³"}}},
	{"SectionModulus", "section modulus", dim(3, 0, 0, 0, 0, 0), []step{{0, "mm³"}, {0.1, "cm³"}}, in("in³")},
	{"SecondMoment", "second moment of area", dim(4, 0, 0, 0, 0, 0),
		[]step{{0, "mm⁴"}, {0.1, "cm⁴"}, {0.01, "m⁴"}}, in("in⁴")},
	{"WarpingConstant", "warping constant", dim(6, 0, 0, 0, 0, 0), []step{{0, "mm⁶"}, {0.1, "cm⁶"}}, in("in⁶")},
	{"Mass", "mass", dim(0, 1, 0, 0, 0, 0), []step{{0, "g"}, {0.1, "kg"}}, []step{{0, "oz"}, {1, "lb"}}},
	{"Time", "time", dim(0, 0, 1, 0, 0, 0), durations, durations},
	{"", "temperature", dim(0, 0, 0, 1, 0, 0), in("K"), in("K")},
	{"Temperature", "temperature", dim(0, 0, 0, 1, 0, 0), in("°C"), in("°F")},
	{"TemperatureDifference", "temperature difference", dim(0, 0, 0, 1, 0, 0), in("K"), in("Δ°F")},
	{"Current", "electric current", dim(0, 0, 0, 0, 1, 0), amperes, amperes},

	{"Speed", "speed", dim(1, 0, -1, 0, 0, 0), in("m/s"), in("mph")},
	{"Acceleration", "acceleration", dim(1, 0, -2, 0, 0, 0), in("m/s²"), in("ft/s²")},
	{"Jerk", "jerk", dim(1, 0, -3, 0, 0, 0), in("m/s³"), in("ft/s³")},
	{"AngularSpeed", "angular speed", dim(0, 0, -1, 0, 0, 1), turning, turning},
	{"AngularAcceleration", "angular acceleration", dim(0, 0, -2, 0, 0, 1), in("°/s²"), in("°/s²")},
	{"AngularJerk", "angular jerk", dim(0, 0, -3, 0, 0, 1), in("°/s³"), in("°/s³")},
	{"", "per time", dim(0, 0, -1, 0, 0, 0), []step{{0, "1/h"}, {1e-4, "1/s"}}, []step{{0, "1/h"}, {1e-4, "1/s"}}},
	{"Frequency", "frequency", dim(0, 0, -1, 0, 0, 0), []step{{0, "1/h"}, {1e-4, "Hz"}}, []step{{0, "1/h"}, {1e-4, "Hz"}}},
	{"VolumeFlow", "volume flow", dim(3, 0, -1, 0, 0, 0), in("m³/h"), in("cfm")},
	{"MassFlow", "mass flow", dim(0, 1, -1, 0, 0, 0), in("kg/s"), in("lb/s")},

	{"Force", "force", dim(1, 1, -2, 0, 0, 0), []step{{0, "N"}, {1, "kN"}}, in("lbf")},
	{"ForcePerLength", "force per length", dim(0, 1, -2, 0, 0, 0), []step{{0, "N/m"}, {1, "kN/m"}}, in("lbf/in")},
	{"Pressure", "pressure", dim(-1, 1, -2, 0, 0, 0),
		[]step{{0, "Pa"}, {1, "kPa"}, {1, "MPa"}, {10, "GPa"}}, []step{{0, "inH₂O"}, {1, "psi"}, {10, "ksi"}}},
	{"Moment", "moment or energy", dim(2, 1, -2, 0, 0, 0),
		[]step{{0, "N·m"}, {1, "kN·m"}}, []step{{0, "lbf·in"}, {1, "lbf·ft"}}},
	{"RotationalStiffness", "rotational stiffness", dim(2, 1, -2, 0, 0, -1), in("N·m/rad"), in("lbf·ft/rad")},
	{"FlexuralRigidity", "flexural rigidity", dim(3, 1, -2, 0, 0, 0), in("N·m²"), in("lbf·ft²")},
	{"Energy", "energy", dim(2, 1, -2, 0, 0, 0), []step{{0, "J"}, {1, "kJ"}}, in("ft·lbf")},
	{"Power", "power", dim(2, 1, -3, 0, 0, 0), []step{{0, "W"}, {1, "kW"}}, []step{{0, "W"}, {0.25, "hp"}}},
	{"Momentum", "momentum", dim(1, 1, -1, 0, 0, 0), in("N·s"), in("lbf·s")},
	{"Density", "density", dim(-3, 1, 0, 0, 0, 0), in("kg/m³"), in("lb/ft³")},
	{"MassPerArea", "mass per area", dim(-2, 1, 0, 0, 0, 0),
		[]step{{0, "g/m²"}, {10, "kg/m²"}}, []step{{0, "oz/yd²"}, {1, "lb/ft²"}}},
	{"MassPerLength", "mass per length", dim(-1, 1, 0, 0, 0, 0), in("kg/m"), in("lb/ft")},
	{"Inertia", "moment of inertia", dim(2, 1, 0, 0, 0, 0), in("kg·m²"), in("lb·ft²")},
	{"SpecificWeight", "specific weight", dim(-2, 1, -2, 0, 0, 0), []step{{0, "N/m³"}, {1, "kN/m³"}}, in("lbf/ft³")},
	{"KinematicViscosity", "kinematic viscosity", dim(2, 0, -1, 0, 0, 0), in("m²/s"), in("ft²/s")},
	{"DynamicViscosity", "dynamic viscosity", dim(-1, 1, -1, 0, 0, 0), in("Pa·s"), in("lbf·s/ft²")},

	{"Voltage", "voltage", dim(2, 1, -3, 0, -1, 0), in("V"), in("V")},
	{"Resistance", "electric resistance", dim(2, 1, -3, 0, -2, 0), in("Ω"), in("Ω")},
	{"ResistancePerLength", "resistance per length", dim(1, 1, -3, 0, -2, 0), in("Ω/km"), in("Ω/km")},

	{"PerLength", "per length", dim(-1, 0, 0, 0, 0, 0), in("1/m"), in("1/ft")},
	{"PerKelvin", "per temperature", dim(0, 0, 0, -1, 0, 0), in("1/K"), in("1/°F")},
}

// Steps that both systems share.
var (
	durations = []step{{0, "ms"}, {0.1, "s"}, {2, "min"}, {2, "h"}, {1, "yr"}}
	amperes   = []step{{0, "mA"}, {0.1, "A"}}
	turning   = []step{{0, "°/s"}, {1, "rpm"}}
)

// kindNamed finds a kind by its alias, kindOfDimension the first by its
// dimension.
var kindNamed, kindOfDimension = indexKinds()

func indexKinds() (map[string]*kind, map[Dimension]*kind) {
	named, ofDimension := map[string]*kind{}, map[Dimension]*kind{}
	for i := range kinds {
		k := &kinds[i]
		if k.alias != "" {
			named[k.alias] = k
		}
		if ofDimension[k.dimension] == nil {
			ofDimension[k.dimension] = k
		}
	}
	return named, ofDimension
}

// kindOf returns the kind to show d as: that of d itself or, as rad is 1, of d
// without its angle. It is nil when the trade has no word for d.
func kindOf(d Dimension) *kind {
	if k := kindOfDimension[d]; k != nil {
		return k
	}
	return kindOfDimension[d.withoutAngle()]
}

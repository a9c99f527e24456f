// Package units gives every number in a notebook its dimension.
//
//	p := 1.8 * units.KPa   // a Pressure
//	r := 300 * units.Mm    // a Length
//	T := p * r             // the checker knows: force per length, 540 N/m
//
// A dimension is an alias of float64, so arithmetic is plain Go arithmetic and
// a library signature is its own unit documentation; a unit is a typed constant
// holding its size in SI base units. The checker reads the alias names, the
// compiler and the interpreter see float64.
//
// Invariants: every value held in a variable is in SI base units; a conversion
// factor stands in this package and nowhere else.
//
// Every factor is exact by definition; one that has no finite decimal is
// written as the quotient or the multiple of π that defines it, rounded once to
// float64.
//
// Source: SI units, prefixes and the units accepted beside them (min, h, °, L,
// t): BIPM, SI Brochure, 9th edition 2019, tables 2 to 8; symbols as in
// ISO 80000. Yard-pound units: international yard and pound agreement 1959
// (1 yd = 0.9144 m, 1 lb = 0.45359237 kg), combined as in NIST SP 811, 2008,
// appendix B. Standard gravity: 3rd CGPM 1901. Editions and table numbers from
// memory: verify against the documents.
package units

// The dimensions. Comments give the SI unit that a plain value of it is in.
type (
	Number                = float64 // 1: ratio, count, efficiency, coefficient
	Angle                 = float64 // rad
	Length                = float64 // m
	Area                  = float64 // m²
	Volume                = float64 // m³
	SectionModulus        = float64 // m³, of a beam's section
	SecondMoment          = float64 // m⁴, second moment of area
	WarpingConstant       = float64 // m⁶, of a thin-walled beam's section
	Mass                  = float64 // kg
	Time                  = float64 // s
	Temperature           = float64 // K, absolute
	TemperatureDifference = float64 // K
	Current               = float64 // A

	Speed               = float64 // m/s
	Acceleration        = float64 // m/s²
	Jerk                = float64 // m/s³
	AngularSpeed        = float64 // rad/s
	AngularAcceleration = float64 // rad/s²
	AngularJerk         = float64 // rad/s³
	Frequency           = float64 // Hz
	VolumeFlow          = float64 // m³/s
	MassFlow            = float64 // kg/s

	Force               = float64 // N
	ForcePerLength      = float64 // N/m: membrane force, line load, stiffness of a spring
	Pressure            = float64 // Pa: gauge pressure, stress, modulus
	Moment              = float64 // N·m: bending moment, torque
	RotationalStiffness = float64 // N·m/rad: of a joint or a torsion spring
	FlexuralRigidity    = float64 // N·m²: modulus times second moment of area
	Energy              = float64 // J
	Power               = float64 // W
	Momentum            = float64 // N·s: momentum, impulse
	Density             = float64 // kg/m³
	MassPerArea         = float64 // kg/m²: weight of a fabric
	MassPerLength       = float64 // kg/m
	Inertia             = float64 // kg·m²
	SpecificWeight      = float64 // N/m³
	KinematicViscosity  = float64 // m²/s
	DynamicViscosity    = float64 // Pa·s

	Voltage    = float64 // V
	Resistance = float64 // ohm

	ResistancePerLength = float64 // Ω/m: of a conductor

	PerLength = float64 // 1/m
	PerKelvin = float64 // 1/K: coefficient of expansion

	// Same is a quantity of any dimension that must be the same for every
	// Same of one call.
	Same = float64
	// Any is a quantity of any dimension, bound to nothing.
	Any = float64
)

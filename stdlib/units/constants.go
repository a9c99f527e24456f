package units

import "math"

// Pure number.
const (
	Percent Number = 0.01 // %: one hundredth, exact
)

// Angle. The degree is accepted beside the SI (SI Brochure, table 8).
const (
	Rad Angle = 1             // rad: SI unit
	Deg Angle = math.Pi / 180 // °: π/180 rad
	Rev Angle = 2 * math.Pi   // rev: one full turn, 2π rad
)

// Length. Inch and foot: yard and pound agreement 1959, 1/36 and 1/3 yard.
const (
	Mm Length = 1e-3   // mm: 0.001 m, exact
	Cm Length = 1e-2   // cm: 0.01 m, exact
	M  Length = 1      // m: SI unit
	Km Length = 1e3    // km: 1000 m, exact
	In Length = 0.0254 // in: inch, 25.4 mm, exact
	Ft Length = 0.3048 // ft: foot of 12 in, 304.8 mm, exact
)

// Area.
const (
	Mm2 Area = 1e-6            // mm²: 1e-6 m², exact
	Cm2 Area = 1e-4            // cm²: 1e-4 m², exact
	M2  Area = 1               // m²: SI unit
	In2 Area = 0.0254 * 0.0254 // in²: 645.16 mm², exact
	Ft2 Area = 0.3048 * 0.3048 // ft²: 0.09290304 m², exact
)

// Volume. The litre is accepted beside the SI (SI Brochure, table 8).
const (
	Mm3 Volume = 1e-9                     // mm³: 1e-9 m³, exact
	Cm3 Volume = 1e-6                     // cm³: 1e-6 m³, exact
	L   Volume = 1e-3                     // L: litre, 1 dm³, exact
	M3  Volume = 1                        // m³: SI unit
	In3 Volume = 0.0254 * 0.0254 * 0.0254 // in³: 16 387.064 mm³, exact
	Ft3 Volume = 0.3048 * 0.3048 * 0.3048 // ft³: 0.028316846592 m³, exact
)

// Second moment of area.
const (
	Mm4 SecondMoment = 1e-12                             // mm⁴: 1e-12 m⁴, exact
	Cm4 SecondMoment = 1e-8                              // cm⁴: 1e-8 m⁴, exact
	M4  SecondMoment = 1                                 // m⁴: SI unit
	In4 SecondMoment = 0.0254 * 0.0254 * 0.0254 * 0.0254 // in⁴: 416 231.4256 mm⁴, exact
)

// Warping constant.
const (
	Mm6 WarpingConstant = 1e-18                                               // mm⁶: 1e-18 m⁶, exact
	Cm6 WarpingConstant = 1e-12                                               // cm⁶: 1e-12 m⁶, exact
	M6  WarpingConstant = 1                                                   // m⁶: SI unit
	In6 WarpingConstant = 0.0254 * 0.0254 * 0.0254 * 0.0254 * 0.0254 * 0.0254 // in⁶: 0.0254⁶ m⁶, exact
)

// Mass. The tonne is accepted beside the SI (SI Brochure, table 8); pound:
// yard and pound agreement 1959.
const (
	G  Mass = 1e-3            // g: gram, 0.001 kg, exact
	Kg Mass = 1               // kg: SI unit
	T  Mass = 1e3             // t: tonne, 1000 kg, exact
	Oz Mass = 0.45359237 / 16 // oz: avoirdupois ounce, 1/16 lb
	Lb Mass = 0.45359237      // lb: avoirdupois pound, exact
)

// Time. Minute and hour are accepted beside the SI (SI Brochure, table 8); the
// year is that of safety standards, 365 days (ISO 13849-1:2015, Annex K: one
// failure in a year is 1/8760 per hour).
const (
	Ms  Time = 1e-3        // ms: 0.001 s, exact
	S   Time = 1           // s: SI unit
	Min Time = 60          // min: 60 s, exact
	H   Time = 3600        // h: 3600 s, exact
	Yr  Time = 8760 * 3600 // yr: year of 8760 h
)

// Temperature. A temperature in degrees Celsius is written as a distance from
// the ice point: 20 °C is ZeroCelsius + 20*K.
const (
	ZeroCelsius Temperature = 273.15 // °C: 0 °C in kelvin, exact
)

// Temperature difference. Degree Fahrenheit: NIST SP 811, appendix B.
const (
	K    TemperatureDifference = 1       // K: SI unit, also a difference of 1 °C
	DegF TemperatureDifference = 5.0 / 9 // °F: difference of one degree Fahrenheit, 5/9 K
)

// Electric current.
const (
	MA Current = 1e-3 // mA: 0.001 A, exact
	A  Current = 1    // A: SI unit
)

// Voltage.
const (
	V Voltage = 1 // V: SI unit, W/A
)

// Electric resistance.
const (
	Ohm Resistance = 1 // Ω: SI unit, V/A
)

// Resistance per length, of a conductor.
const (
	OhmPerM  ResistancePerLength = 1    // Ω/m: SI unit
	OhmPerKm ResistancePerLength = 1e-3 // Ω/km: 0.001 Ω/m, exact
)

// Speed. Mile of 5280 ft; knot of one nautical mile (1852 m, International
// Hydrographic Conference 1929) per hour.
const (
	MPerS  Speed = 1             // m/s: SI unit
	KmPerH Speed = 1000.0 / 3600 // km/h: 1/3.6 m/s
	Kn     Speed = 1852.0 / 3600 // kn: knot, 1852 m/h
	FtPerS Speed = 0.3048        // ft/s: 0.3048 m/s, exact
	Mph    Speed = 0.44704       // mph: mile per hour, 0.44704 m/s, exact
)

// Acceleration. Standard gravity: 3rd CGPM 1901.
const (
	MPerS2  Acceleration = 1       // m/s²: SI unit
	FtPerS2 Acceleration = 0.3048  // ft/s²: 0.3048 m/s², exact
	Gn      Acceleration = 9.80665 // gₙ: standard gravity, exact
)

// Jerk.
const (
	MPerS3  Jerk = 1      // m/s³: SI unit
	FtPerS3 Jerk = 0.3048 // ft/s³: 0.3048 m/s³, exact
)

// Angular speed.
const (
	RadPerS AngularSpeed = 1             // rad/s: SI unit
	DegPerS AngularSpeed = math.Pi / 180 // °/s: π/180 rad/s
	Rpm     AngularSpeed = math.Pi / 30  // rpm: turn per minute, 2π/60 rad/s
)

// Angular acceleration.
const (
	RadPerS2 AngularAcceleration = 1             // rad/s²: SI unit
	DegPerS2 AngularAcceleration = math.Pi / 180 // °/s²: π/180 rad/s²
)

// Angular jerk.
const (
	RadPerS3 AngularJerk = 1             // rad/s³: SI unit
	DegPerS3 AngularJerk = math.Pi / 180 // °/s³: π/180 rad/s³
)

// Frequency. How often people lift or ride is counted by the minute or the hour.
const (
	Hz     Frequency = 1          // Hz: SI unit, 1/s
	PerMin Frequency = 1.0 / 60   // 1/min: 1/60 per second
	PerH   Frequency = 1.0 / 3600 // 1/h: 1/3600 per second
)

// Volume flow.
const (
	M3PerS VolumeFlow = 1                   // m³/s: SI unit
	M3PerH VolumeFlow = 1.0 / 3600          // m³/h: 1/3600 m³/s
	LPerS  VolumeFlow = 1e-3                // L/s: 0.001 m³/s, exact
	Cfm    VolumeFlow = 0.028316846592 / 60 // cfm: cubic foot per minute, ft³/60 s
)

// Mass flow.
const (
	KgPerS MassFlow = 1          // kg/s: SI unit
	LbPerS MassFlow = 0.45359237 // lb/s: 0.45359237 kg/s, exact
)

// Force. Kilogram-force and pound-force: weight of the mass at standard
// gravity (NIST SP 811, appendix B).
const (
	N   Force = 1               // N: SI unit, kg·m/s²
	KN  Force = 1e3             // kN: 1000 N, exact
	Kgf Force = 9.80665         // kgf: 1 kg × gₙ, exact
	Lbf Force = 4.4482216152605 // lbf: 1 lb × gₙ, exact
)

// Force per length: membrane force, strip strength, line load, spring
// stiffness. Coated fabric is tested on a strip 50 mm wide (ISO 1421), so a
// strength of 1850 N on the strip is written 1850*NPer50mm.
const (
	NPerM    ForcePerLength = 1                        // N/m: SI unit
	KNPerM   ForcePerLength = 1e3                      // kN/m: 1000 N/m, exact
	NPer50mm ForcePerLength = 20                       // N/50mm: force on a strip 50 mm wide, 20 N/m, exact
	NPerMm   ForcePerLength = 1e3                      // N/mm: 1000 N/m, exact
	LbfPerIn ForcePerLength = 4.4482216152605 / 0.0254 // lbf/in: lbf/0.0254 m
	LbfPerFt ForcePerLength = 4.4482216152605 / 0.3048 // lbf/ft: lbf/0.3048 m
)

// Pressure and stress. Water columns are conventional: density 1000 kg/m³ at
// standard gravity (NIST SP 811, appendix B), not water at 4 °C or 60 °F.
const (
	Pa    Pressure = 1                                         // Pa: SI unit, N/m²
	KPa   Pressure = 1e3                                       // kPa: 1000 Pa, exact
	MPa   Pressure = 1e6                                       // MPa: 1e6 Pa or 1 N/mm², exact
	GPa   Pressure = 1e9                                       // GPa: 1e9 Pa, exact
	Mbar  Pressure = 100                                       // mbar: 100 Pa, exact
	Bar   Pressure = 1e5                                       // bar: 1e5 Pa, exact
	MmH2O Pressure = 9.80665                                   // mmH₂O: conventional millimetre of water, exact
	InH2O Pressure = 249.08891                                 // inH₂O: conventional inch of water, 25.4 mmH₂O, exact
	Psf   Pressure = 4.4482216152605 / (0.3048 * 0.3048)       // psf: lbf/ft², lbf/0.3048² m²
	Psi   Pressure = 4.4482216152605 / (0.0254 * 0.0254)       // psi: lbf/in², lbf/0.0254² m²
	Ksi   Pressure = 1e3 * 4.4482216152605 / (0.0254 * 0.0254) // ksi: 1000 psi
)

// Moment.
const (
	Nm    Moment = 1                        // N·m: SI unit
	KNm   Moment = 1e3                      // kN·m: 1000 N·m, exact
	LbfIn Moment = 4.4482216152605 * 0.0254 // lbf·in: lbf × 0.0254 m, exact
	LbfFt Moment = 4.4482216152605 * 0.3048 // lbf·ft: lbf × 0.3048 m, exact
)

// Rotational stiffness.
const (
	NmPerRad    RotationalStiffness = 1                        // N·m/rad: SI unit
	NmPerDeg    RotationalStiffness = 180 / math.Pi            // N·m/°: 180/π N·m/rad
	LbfFtPerRad RotationalStiffness = 4.4482216152605 * 0.3048 // lbf·ft/rad: lbf × 0.3048 m, exact
)

// Flexural rigidity.
const (
	Nm2    FlexuralRigidity = 1                                 // N·m²: SI unit
	LbfFt2 FlexuralRigidity = 4.4482216152605 * 0.3048 * 0.3048 // lbf·ft²: lbf × 0.09290304 m², exact
)

// Energy.
const (
	J     Energy = 1                        // J: SI unit, N·m
	KJ    Energy = 1e3                      // kJ: 1000 J, exact
	KWh   Energy = 3.6e6                    // kWh: 3.6 MJ, exact
	FtLbf Energy = 0.3048 * 4.4482216152605 // ft·lbf: 0.3048 m × lbf, exact
)

// Power. Hp is the mechanical horsepower, 550 ft·lbf/s (NIST SP 811, appendix B),
// not the metric one. VA and KVA are for apparent power, voltage times current.
const (
	W   Power = 1                              // W: SI unit, J/s
	KW  Power = 1e3                            // kW: 1000 W, exact
	VA  Power = 1                              // VA: V·A, exact
	KVA Power = 1e3                            // kVA: 1000 VA, exact
	Hp  Power = 550 * 0.3048 * 4.4482216152605 // hp: 550 ft·lbf/s, exact
)

// Momentum and impulse.
const (
	Ns   Momentum = 1               // N·s: SI unit, kg·m/s
	LbfS Momentum = 4.4482216152605 // lbf·s: lbf × 1 s, exact
)

// Density.
const (
	KgPerM3  Density = 1                                       // kg/m³: SI unit
	LbPerFt3 Density = 0.45359237 / (0.3048 * 0.3048 * 0.3048) // lb/ft³: lb/0.3048³ m³
)

// Mass per area: weight of a fabric. Ounce: 1/16 lb.
const (
	KgPerM2  MassPerArea = 1                                   // kg/m²: SI unit
	GPerM2   MassPerArea = 1e-3                                // g/m²: 0.001 kg/m², exact
	OzPerYd2 MassPerArea = 0.45359237 / 16 / (0.9144 * 0.9144) // oz/yd²: 1/16 lb/0.9144² m²
	LbPerFt2 MassPerArea = 0.45359237 / (0.3048 * 0.3048)      // lb/ft²: lb/0.3048² m²
)

// Mass per length.
const (
	KgPerM  MassPerLength = 1                   // kg/m: SI unit
	LbPerFt MassPerLength = 0.45359237 / 0.3048 // lb/ft: lb/0.3048 m
)

// Moment of inertia.
const (
	KgM2  Inertia = 1                            // kg·m²: SI unit
	LbFt2 Inertia = 0.45359237 * 0.3048 * 0.3048 // lb·ft²: lb × 0.09290304 m², exact
)

// Specific weight.
const (
	NPerM3    SpecificWeight = 1                                            // N/m³: SI unit
	KNPerM3   SpecificWeight = 1e3                                          // kN/m³: 1000 N/m³, exact
	LbfPerFt3 SpecificWeight = 4.4482216152605 / (0.3048 * 0.3048 * 0.3048) // lbf/ft³: lbf/0.3048³ m³
)

// Kinematic viscosity.
const (
	M2PerS  KinematicViscosity = 1               // m²/s: SI unit
	Ft2PerS KinematicViscosity = 0.3048 * 0.3048 // ft²/s: 0.09290304 m²/s, exact
)

// Dynamic viscosity.
const (
	PaS        DynamicViscosity = 1                                   // Pa·s: SI unit
	LbfSPerFt2 DynamicViscosity = 4.4482216152605 / (0.3048 * 0.3048) // lbf·s/ft²: psf × 1 s
)

// Per length: curvature.
const (
	PerM  PerLength = 1          // 1/m: SI unit
	PerFt PerLength = 1 / 0.3048 // 1/ft: 1/0.3048 per metre
)

// Per kelvin: coefficient of expansion.
const (
	PerK    PerKelvin = 1       // 1/K: SI unit
	PerDegF PerKelvin = 9.0 / 5 // 1/°F: 9/5 per kelvin, exact
)

package quantity

import (
	"strings"
	"unicode/utf8"

	"tautline/stdlib/units"
)

// Unit is a unit of measure as a report shows it.
type Unit struct {
	Symbol    string    // as printed: "kPa", "N·m", "m/s²"; "" for the pure number
	Code      string    // its constant in a cell: "units.KPa"; "" if there is none
	Factor    float64   // the unit in SI base units: 1000 for kPa
	Offset    float64   // SI value of the unit's zero: 273.15 for °C, else 0
	Dimension Dimension // what it measures
	Systems   System    // the systems it is at home in
}

// both marks the units that SI and US reports share.
const both = SI | US

// table lists the units by dimension. Several symbols may share a constant.
var table = []Unit{
	{Factor: 1, Systems: both},
	unit("%", "Percent", units.Percent, "Number", both),

	unit("°", "Deg", units.Deg, "Angle", both),
	unit("rad", "Rad", units.Rad, "Angle", both),
	unit("rev", "Rev", units.Rev, "Angle", both),

	unit("mm", "Mm", units.Mm, "Length", SI),
	unit("cm", "Cm", units.Cm, "Length", SI),
	unit("m", "M", units.M, "Length", SI),
	unit("km", "Km", units.Km, "Length", SI),
	unit("in", "In", units.In, "Length", US),
	unit("ft", "Ft", units.Ft, "Length", US),

	unit("mm²", "Mm2", units.Mm2, "Area", SI),
	unit("cm²", "Cm2", units.Cm2, "Area", SI),
	unit("m²", "M2", units.M2, "Area", SI),
	unit("in²", "In2", units.In2, "Area", US),
	unit("ft²", "Ft2", units.Ft2, "Area", US),

	unit("mm³", "Mm3", units.Mm3, "Volume", SI),
	unit("cm³", "Cm3", units.Cm3, "Volume", SI),
	unit("L", "L", units.L, "Volume", SI),
	unit("m³", "M3", units.M3, "Volume", SI),
	unit("in³", "In3", units.In3, "Volume", US),
	unit("ft³", "Ft3", units.Ft3, "Volume", US),

	unit("mm⁴", "Mm4", units.Mm4, "SecondMoment", SI),
	unit("cm⁴", "Cm4", units.Cm4, "SecondMoment", SI),
	unit("m⁴", "M4", units.M4, "SecondMoment", SI),
	unit("in⁴", "In4", units.In4, "SecondMoment", US),

	unit("mm⁶", "Mm6", units.Mm6, "WarpingConstant", SI),
	unit("cm⁶", "Cm6", units.Cm6, "WarpingConstant", SI),
	unit("m⁶", "M6", units.M6, "WarpingConstant", SI),
	unit("in⁶", "In6", units.In6, "WarpingConstant", US),

	unit("g", "G", units.G, "Mass", SI),
	unit("kg", "Kg", units.Kg, "Mass", SI),
	unit("t", "T", units.T, "Mass", SI),
	unit("oz", "Oz", units.Oz, "Mass", US),
	unit("lb", "Lb", units.Lb, "Mass", US),

	unit("ms", "Ms", units.Ms, "Time", both),
	unit("s", "S", units.S, "Time", both),
	unit("min", "Min", units.Min, "Time", both),
	unit("h", "H", units.H, "Time", both),
	unit("yr", "Yr", units.Yr, "Time", both),

	unit("K", "K", units.K, "TemperatureDifference", both),
	unit("Δ°F", "DegF", units.DegF, "TemperatureDifference", US),
	celsius,
	fahrenheit,

	unit("mA", "MA", units.MA, "Current", both),
	unit("A", "A", units.A, "Current", both),
	unit("V", "V", units.V, "Voltage", both),
	unit("Ω", "Ohm", units.Ohm, "Resistance", both),
	unit("Ω/m", "OhmPerM", units.OhmPerM, "ResistancePerLength", both),
	unit("Ω/km", "OhmPerKm", units.OhmPerKm, "ResistancePerLength", both),

	unit("m/s", "MPerS", units.MPerS, "Speed", SI),
	unit("km/h", "KmPerH", units.KmPerH, "Speed", SI),
	unit("kn", "Kn", units.Kn, "Speed", both),
	unit("ft/s", "FtPerS", units.FtPerS, "Speed", US),
	unit("mph", "Mph", units.Mph, "Speed", US),
	unit("m/s²", "MPerS2", units.MPerS2, "Acceleration", SI),
	unit("ft/s²", "FtPerS2", units.FtPerS2, "Acceleration", US),
	unit("gₙ", "Gn", units.Gn, "Acceleration", both),
	unit("m/s³", "MPerS3", units.MPerS3, "Jerk", SI),
	unit("ft/s³", "FtPerS3", units.FtPerS3, "Jerk", US),

	unit("rad/s", "RadPerS", units.RadPerS, "AngularSpeed", both),
	unit("°/s", "DegPerS", units.DegPerS, "AngularSpeed", both),
	unit("rpm", "Rpm", units.Rpm, "AngularSpeed", both),
	unit("rad/s²", "RadPerS2", units.RadPerS2, "AngularAcceleration", both),
	unit("°/s²", "DegPerS2", units.DegPerS2, "AngularAcceleration", both),
	unit("rad/s³", "RadPerS3", units.RadPerS3, "AngularJerk", both),
	unit("°/s³", "DegPerS3", units.DegPerS3, "AngularJerk", both),
	unit("Hz", "Hz", units.Hz, "Frequency", both),
	unit("1/s", "Hz", units.Hz, "Frequency", both),
	unit("1/min", "PerMin", units.PerMin, "Frequency", both),
	unit("1/h", "PerH", units.PerH, "Frequency", both),

	unit("m³/s", "M3PerS", units.M3PerS, "VolumeFlow", SI),
	unit("m³/h", "M3PerH", units.M3PerH, "VolumeFlow", SI),
	unit("L/s", "LPerS", units.LPerS, "VolumeFlow", SI),
	unit("cfm", "Cfm", units.Cfm, "VolumeFlow", US),
	unit("kg/s", "KgPerS", units.KgPerS, "MassFlow", SI),
	unit("lb/s", "LbPerS", units.LbPerS, "MassFlow", US),

	unit("N", "N", units.N, "Force", SI),
	unit("kN", "KN", units.KN, "Force", SI),
	unit("kgf", "Kgf", units.Kgf, "Force", SI),
	unit("lbf", "Lbf", units.Lbf, "Force", US),

	unit("N/m", "NPerM", units.NPerM, "ForcePerLength", SI),
	unit("kN/m", "KNPerM", units.KNPerM, "ForcePerLength", SI),
	unit("N/50mm", "NPer50mm", units.NPer50mm, "ForcePerLength", SI),
	unit("N/mm", "NPerMm", units.NPerMm, "ForcePerLength", SI),
	unit("lbf/in", "LbfPerIn", units.LbfPerIn, "ForcePerLength", US),
	unit("lbf/ft", "LbfPerFt", units.LbfPerFt, "ForcePerLength", US),

	unit("Pa", "Pa", units.Pa, "Pressure", SI),
	unit("kPa", "KPa", units.KPa, "Pressure", SI),
	unit("MPa", "MPa", units.MPa, "Pressure", SI),
	unit("GPa", "GPa", units.GPa, "Pressure", SI),
	unit("N/m²", "Pa", units.Pa, "Pressure", SI),
	unit("kN/m²", "KPa", units.KPa, "Pressure", SI),
	unit("N/mm²", "MPa", units.MPa, "Pressure", SI),
	unit("mbar", "Mbar", units.Mbar, "Pressure", SI),
	unit("bar", "Bar", units.Bar, "Pressure", SI),
	unit("mmH₂O", "MmH2O", units.MmH2O, "Pressure", SI),
	unit("inH₂O", "InH2O", units.InH2O, "Pressure", US),
	unit("psf", "Psf", units.Psf, "Pressure", US),
	unit("psi", "Psi", units.Psi, "Pressure", US),
	unit("ksi", "Ksi", units.Ksi, "Pressure", US),

	unit("N·m", "Nm", units.Nm, "Moment", SI),
	unit("kN·m", "KNm", units.KNm, "Moment", SI),
	unit("lbf·in", "LbfIn", units.LbfIn, "Moment", US),
	unit("lbf·ft", "LbfFt", units.LbfFt, "Moment", US),
	unit("N·m/rad", "NmPerRad", units.NmPerRad, "RotationalStiffness", SI),
	unit("N·m/°", "NmPerDeg", units.NmPerDeg, "RotationalStiffness", SI),
	unit("lbf·ft/rad", "LbfFtPerRad", units.LbfFtPerRad, "RotationalStiffness", US),
	unit("N·m²", "Nm2", units.Nm2, "FlexuralRigidity", SI),
	unit("lbf·ft²", "LbfFt2", units.LbfFt2, "FlexuralRigidity", US),

	unit("J", "J", units.J, "Energy", SI),
	unit("kJ", "KJ", units.KJ, "Energy", SI),
	unit("kWh", "KWh", units.KWh, "Energy", both),
	unit("ft·lbf", "FtLbf", units.FtLbf, "Energy", US),
	unit("W", "W", units.W, "Power", both),
	unit("kW", "KW", units.KW, "Power", both),
	unit("VA", "VA", units.VA, "Power", both),
	unit("kVA", "KVA", units.KVA, "Power", both),
	unit("hp", "Hp", units.Hp, "Power", US),
	unit("N·s", "Ns", units.Ns, "Momentum", SI),
	unit("lbf·s", "LbfS", units.LbfS, "Momentum", US),

	unit("kg/m³", "KgPerM3", units.KgPerM3, "Density", SI),
	unit("lb/ft³", "LbPerFt3", units.LbPerFt3, "Density", US),
	unit("kg/m²", "KgPerM2", units.KgPerM2, "MassPerArea", SI),
	unit("g/m²", "GPerM2", units.GPerM2, "MassPerArea", SI),
	unit("oz/yd²", "OzPerYd2", units.OzPerYd2, "MassPerArea", US),
	unit("lb/ft²", "LbPerFt2", units.LbPerFt2, "MassPerArea", US),
	unit("kg/m", "KgPerM", units.KgPerM, "MassPerLength", SI),
	unit("lb/ft", "LbPerFt", units.LbPerFt, "MassPerLength", US),
	unit("kg·m²", "KgM2", units.KgM2, "Inertia", SI),
	unit("lb·ft²", "LbFt2", units.LbFt2, "Inertia", US),
	unit("N/m³", "NPerM3", units.NPerM3, "SpecificWeight", SI),
	unit("kN/m³", "KNPerM3", units.KNPerM3, "SpecificWeight", SI),
	unit("lbf/ft³", "LbfPerFt3", units.LbfPerFt3, "SpecificWeight", US),

	unit("m²/s", "M2PerS", units.M2PerS, "KinematicViscosity", SI),
	unit("ft²/s", "Ft2PerS", units.Ft2PerS, "KinematicViscosity", US),
	unit("Pa·s", "PaS", units.PaS, "DynamicViscosity", SI),
	unit("lbf·s/ft²", "LbfSPerFt2", units.LbfSPerFt2, "DynamicViscosity", US),

	unit("1/m", "PerM", units.PerM, "PerLength", SI),
	unit("1/ft", "PerFt", units.PerFt, "PerLength", US),
	unit("1/K", "PerK", units.PerK, "PerKelvin", SI),
	unit("1/°F", "PerDegF", units.PerDegF, "PerKelvin", US),
}

// Temperatures read on a thermometer. The code of °C is the constant for its
// zero: 20 °C is units.ZeroCelsius + 20*units.K in a cell.
var (
	celsius = Unit{
		Symbol: "°C", Code: "units.ZeroCelsius", Factor: units.K, Offset: units.ZeroCelsius,
		Dimension: kindNamed["Temperature"].dimension, Systems: SI,
	}
	fahrenheit = Unit{
		Symbol: "°F", Factor: units.DegF, Offset: units.ZeroCelsius - 32*units.DegF,
		Dimension: kindNamed["Temperature"].dimension, Systems: US,
	}
)

// unit returns the unit that a constant of package units and its alias make.
func unit(symbol, name string, factor float64, alias string, systems System) Unit {
	return Unit{
		Symbol:    symbol,
		Code:      "units." + name,
		Factor:    factor,
		Dimension: kindNamed[alias].dimension,
		Systems:   systems,
	}
}

// FromSI returns v, in SI base units, counted in u.
//
//	x = (v - u.Offset) / u.Factor
func (u Unit) FromSI(v float64) float64 { return (v - u.Offset) / u.Factor }

// ToSI returns x, counted in u, in SI base units.
//
//	v = x*u.Factor + u.Offset
func (u Unit) ToSI(x float64) float64 { return x*u.Factor + u.Offset }

// Units returns all units, grouped by dimension.
func Units() []Unit { return append([]Unit(nil), table...) }

var byCode = indexCodes()

func indexCodes() map[string]*Unit {
	m := make(map[string]*Unit, len(table))
	for i := range table {
		if u := &table[i]; u.Code != "" && m[u.Code] == nil {
			m[u.Code] = u
		}
	}
	return m
}

// OfCode returns the unit of a constant of package units, such as "units.KPa".
func OfCode(code string) (Unit, bool) {
	if u := byCode[code]; u != nil {
		return *u, true
	}
	return Unit{}, false
}

// synonyms are further spellings, as written by plain.
var synonyms = map[string]string{
	"1": "", "-": "",
	"deg": "°", "turn": "rev", "deg/s": "°/s", "deg/s2": "°/s²", "deg/s3": "°/s³", "N·m/deg": "N·m/°",
	"degC": "°C", "degF": "°F",
	"l": "L", "l/s": "L/s", "lbs": "lb", "sec": "s", "hr": "h", "kph": "km/h", "r/min": "rpm",
	"ohm": "Ω", "gsm": "g/m²", "N/5cm": "N/50mm", "inwc": "inH₂O", "inwg": "inH₂O", "mmwc": "mmH₂O",
}

// plain spells a symbol on a plain keyboard, except · and °: "m/s^2", "m/s²"
// and "m/s2" are one unit, as are "N·m", "N.m" and "N*m".
var plain = strings.NewReplacer("²", "2", "³", "3", "⁴", "4", "⁶", "6", "₂", "2", "ₙ", "n", "^", "",
	".", "·", "*", "·", "⋅", "·", "º", "°", "\u2126", "Ω", " ", "", "\u00a0", "", "\u202f", "")

var bySymbol = indexSymbols()

func indexSymbols() map[string]*Unit {
	m := make(map[string]*Unit, len(table)+len(synonyms))
	for i := range table {
		m[plain.Replace(table[i].Symbol)] = &table[i]
	}
	for spelling, symbol := range synonyms {
		m[spelling] = m[plain.Replace(symbol)]
	}
	return m
}

// Lookup returns the unit with a symbol, as printed ("m/s²", "N·m", "inH₂O") or
// as typed ("m/s2", "N.m", "deg"). Upper and lower case differ. When it reports
// false, Nearest has a suggestion.
func Lookup(symbol string) (Unit, bool) {
	if u := bySymbol[plain.Replace(symbol)]; u != nil {
		return *u, true
	}
	return Unit{}, false
}

// Nearest returns the known symbol most like an unknown one: "kPa" for "KPA",
// for "units.KPa" and for "kPs". It is "" when none is like it.
func Nearest(symbol string) string {
	typed := plain.Replace(symbol)
	name := "units." + strings.TrimPrefix(strings.TrimPrefix(typed, "units"), "·")
	for _, u := range table[1:] {
		if strings.EqualFold(u.Code, name) || strings.EqualFold(plain.Replace(u.Symbol), typed) {
			return u.Symbol
		}
	}
	length := utf8.RuneCountInString(typed)
	best, least := "", min(length, 2)
	if length > 3 {
		least = 3
	}
	for _, u := range table[1:] {
		if n := distance(plain.Replace(u.Symbol), typed); n < least {
			best, least = u.Symbol, n
		}
	}
	return best
}

// distance counts the runes to insert, drop or change to turn a into b
// (Levenshtein).
func distance(a, b string) int {
	to := []rune(b)
	row := make([]int, len(to)+1)
	for j := range row {
		row[j] = j
	}
	i := 0
	for _, r := range a {
		i++
		diagonal := row[0]
		row[0] = i
		for j, s := range to {
			change := diagonal
			if r != s {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(to)]
}

package fatigue

import (
	"fmt"
	"math"
	"strings"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Detail is a kind of place where a fatigue crack starts.
type Detail struct {
	Name     string
	Category units.Pressure // stress range that two million cycles of break it
	Shear    bool           // the category is of shear stress
	Welded   bool           // and as welded: compression counts in full
	Source   string
}

// details: EN 1993-1-9:2005, Tables 8.1 to 8.6. The number is that of the table
// and of the detail in it; a letter tells apart lines of one detail.
var details = []struct {
	number        string
	category      float64
	shear, welded bool
	name          string
}{
	{"8.1-1", 160, false, false, "rolled plate or flat, edges as rolled"},
	{"8.1-2", 160, false, false, "rolled section"},
	{"8.1-3", 160, false, false, "seamless hollow section"},
	{"8.1-4", 140, false, false, "cut edge, dressed smooth"},
	{"8.1-5", 125, false, false, "edge cut by machine, drag lines regular"},
	{"8.1-6", 100, true, false, "plate or rolled section in shear"},
	{"8.1-8", 112, false, false, "double lap with preloaded bolts, gross section"},
	{"8.1-10", 90, false, false, "double lap with fitted bolts, net section"},
	{"8.1-12", 90, false, false, "part with holes, net section"},
	{"8.1-13", 80, false, false, "single lap with preloaded bolts, gross section"},
	{"8.1-14", 50, false, false, "bolt in tension, stress area"},
	{"8.1-15", 100, true, false, "bolt in shear through the shank"},
	{"8.2-1", 125, false, true, "automatic butt weld along, both sides, no stops"},
	{"8.2-2", 125, false, true, "automatic fillet weld along, no stops"},
	{"8.2-5", 100, false, true, "manual weld along"},
	{"8.2-8", 80, false, true, "intermittent fillet weld along"},
	{"8.3-1", 112, false, true, "butt weld across, ground flush"},
	{"8.3-5", 90, false, true, "butt weld across, both sides, low cap"},
	{"8.3-7", 80, false, true, "butt weld across, both sides"},
	{"8.3-13a", 71, false, true, "butt weld across, from one side, root tested"},
	{"8.3-13b", 36, false, true, "butt weld across, from one side"},
	{"8.3-14", 71, false, true, "butt weld across on a backing strip"},
	{"8.4-1a", 80, false, true, "attachment along, up to 50 mm long"},
	{"8.4-1b", 71, false, true, "attachment along, up to 80 mm long"},
	{"8.4-1c", 63, false, true, "attachment along, up to 100 mm long"},
	{"8.4-1d", 56, false, true, "attachment along, longer than 100 mm"},
	{"8.4-6a", 80, false, true, "attachment across, up to 50 mm thick over its welds"},
	{"8.4-6b", 71, false, true, "attachment across, up to 80 mm thick over its welds"},
	{"8.5-1", 80, false, true, "cross or T-joint, toe of the weld, up to 50 mm over the welds"},
	{"8.5-1b", 71, false, true, "cross or T-joint, toe of the weld, up to 80 mm over the welds"},
	{"8.5-3", 36, false, true, "fillet or partly penetrated weld, root, stress in the throat"},
	{"8.5-5", 45, false, true, "lap joint with fillet welds, lapped plate"},
	{"8.5-8", 80, true, true, "fillet weld in shear along"},
	{"8.5-9", 80, true, true, "lap joint with fillet welds, shear in the throat"},
	{"8.6-3", 71, false, true, "round tubes, butt-welded end to end"},
	{"8.6-4", 56, false, true, "rectangular tubes, butt-welded end to end"},
	{"8.6-5", 71, false, true, "tube with another fillet-welded on, carrying no load, up to 100 mm wide"},
	{"8.6-6", 50, false, true, "round tube butt-welded to a plate across"},
	{"8.6-7", 45, false, true, "rectangular tube butt-welded to a plate across"},
	{"8.6-8", 40, false, true, "round tube fillet-welded to a plate across"},
	{"8.6-9", 36, false, true, "rectangular tube fillet-welded to a plate across"},
}

// Details are the details known here, a choice from the standard's tables.
//
// Caution: each holds only for the workmanship, the size and the direction of
// stress that its line in the standard describes, and Table 8.6 only for walls of
// up to 12.5 mm. The categories are from memory.
//
// Source: EN 1993-1-9:2005, Tables 8.1 to 8.6; from memory: verify against the
// document.
func Details() []Detail {
	var list []Detail
	for _, d := range details {
		list = append(list, Detail{
			Name: d.name, Category: d.category * units.MPa, Shear: d.shear, Welded: d.welded,
			Source: "EN 1993-1-9:2005, Table " + strings.Replace(d.number, "-", ", detail ", 1) + " (from memory: verify against the document)",
		})
	}
	return list
}

// NewDetail is a detail by its table and number, such as "8.5-1".
//
// A number that is not known here is an error, which lists those of its table.
//
// Caution: a detail holds only for the workmanship, the size and the direction of
// stress that its line in the standard describes. The categories are from memory.
//
// Source: as Details.
func NewDetail(number string) (Detail, error) {
	table, _, _ := strings.Cut(number, "-")
	var same, tables []string
	for i, d := range details {
		if d.number == number {
			return Details()[i], nil
		}
		t, _, _ := strings.Cut(d.number, "-")
		if t == table {
			same = append(same, fmt.Sprintf("%s (%s)", d.number, d.name))
		}
		if len(tables) == 0 || tables[len(tables)-1] != t {
			tables = append(tables, t)
		}
	}
	if same == nil {
		return Detail{}, fmt.Errorf("detail: table: got %q, want one of %s, then the detail's number: 8.5-1", number, strings.Join(tables, ", "))
	}
	return Detail{}, fmt.Errorf("detail: got %q, want one of: %s", number, strings.Join(same, ", "))
}

func (d Detail) check() error {
	return argument.Positive(fmt.Sprintf("category of %q", d.Name), d.Category)
}

// Where the curves bend, in cycles: EN 1993-1-9:2005, 7.1(2).
const (
	atCategory = 2e6
	atConstant = 5e6
	atCutOff   = 1e8
)

// ConstantLimit is the stress range that may recur for ever if no cycle is ever
// greater: the category's at five million cycles, 0.737 of it. Shear has no such
// limit above its CutOff, which is returned.
//
// It panics unless the category is more than 0.
//
// Source: EN 1993-1-9:2005, 7.1(2) and (3).
func (d Detail) ConstantLimit() units.Pressure {
	argument.Demand("fatigue: Detail.ConstantLimit", d.check())
	if d.Shear {
		return d.CutOff()
	}
	return d.Category * math.Pow(atCategory/atConstant, 1.0/3)
}

// CutOff is the stress range below which a cycle does no damage even among
// greater ones: 0.405 of the category, of shear 0.457.
//
// It panics unless the category is more than 0.
//
// Source: EN 1993-1-9:2005, 7.1(2) and (3).
func (d Detail) CutOff() units.Pressure {
	argument.Demand("fatigue: Detail.CutOff", d.check())
	if d.Shear {
		return d.Category * math.Pow(atCategory/atCutOff, 1.0/5)
	}
	return d.Category * math.Pow(atCategory/atConstant, 1.0/3) * math.Pow(atConstant/atCutOff, 1.0/5)
}

// Amplitude says whether all cycles are alike.
type Amplitude string

// The kinds of loading.
const (
	Constant Amplitude = "constant amplitude" // every cycle of the life is the same: below ConstantLimit it never ends
	Variable Amplitude = "variable amplitude" // small cycles among great ones do damage down to CutOff
)

// A Life is how many cycles of one range a detail bears.
type Life struct {
	Cycles    units.Number // infinite when Unlimited
	Unlimited bool
}

// Life is how many cycles of a stress range the detail bears.
//
// With the factors, s = range·Load and C = Category/Strength: 2e6·(C/s)³ down to
// the constant limit and 5e6·(limit/s)⁵ from there to the cut-off; of shear
// 2e6·(C/s)⁵ throughout. Unlimited below the cut-off, or below the constant limit
// when the amplitude is Constant. The range is 0 or more; outside it panics, as
// it does on another amplitude.
//
// Caution: the curves are for steel in air, not for salt water without paint.
//
// Source: EN 1993-1-9:2005, 7.1.
func (d Detail) Life(stress units.Pressure, amplitude Amplitude, f Factors) Life {
	argument.Demand("fatigue: Detail.Life", d.check(), f.check(), argument.NotNegative("stress range", stress))
	if amplitude != Constant && amplitude != Variable {
		panic(fmt.Sprintf("fatigue: Detail.Life: amplitude: got %q, want Constant or Variable", amplitude))
	}
	damage := d.curve(f).damage(stress * f.Load)
	if damage == 0 || amplitude == Constant && !d.Shear && stress*f.Load < d.ConstantLimit()/f.Strength {
		return Life{Cycles: math.Inf(1), Unlimited: true}
	}
	return Life{Cycles: 1 / damage}
}

// A curve is a detail's design curve in numbers.
type curve struct {
	category, constant, cutOff float64
	shear                      bool
}

func (d Detail) curve(f Factors) curve {
	return curve{d.Category / f.Strength, d.ConstantLimit() / f.Strength, d.CutOff() / f.Strength, d.Shear}
}

// damage is that of one cycle of the range.
func (c curve) damage(s float64) float64 {
	cube := func(x float64) float64 { return x * x * x }
	switch {
	case s < c.cutOff:
		return 0
	case c.shear:
		x := s / c.category
		return cube(x) * x * x / atCategory
	case s < c.constant:
		x := s / c.constant
		return cube(x) * x * x / atConstant
	}
	return cube(s/c.category) / atCategory
}

// SizeFactor is what the thickness of the part leaves of a category, for the
// details whose line in the standard says so: 25 mm over the thickness, to the
// power of 0.2, at most 1.
//
// The thickness is more than 0; outside it panics.
//
// Source: EN 1993-1-9:2005, 7.2.2 and Table 8.3.
func SizeFactor(thickness units.Length) units.Number {
	argument.Demand("fatigue: SizeFactor", argument.Positive("thickness", thickness))
	return math.Min(1, math.Pow(25*units.Mm/thickness, 0.2))
}

// BoltSizeFactor is what the diameter of a bolt in tension leaves of its category:
// 30 mm over the diameter, to the power of 0.25, at most 1.
//
// The diameter is more than 0; outside it panics.
//
// Source: EN 1993-1-9:2005, 7.2.2 and Table 8.1, detail 14.
func BoltSizeFactor(diameter units.Length) units.Number {
	argument.Demand("fatigue: BoltSizeFactor", argument.Positive("diameter", diameter))
	return math.Min(1, math.Pow(30*units.Mm/diameter, 0.25))
}

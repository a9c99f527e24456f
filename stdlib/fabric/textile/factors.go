package textile

import (
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Factors stand between the strength that a test found and the force that a
// design may count on, each for a reason of its own. One that does not apply is
// 1 and says so; 0 is refused, so that none is forgotten.
type Factors struct {
	Load        units.Number // on the forces: pressure and people may be more than planned
	Material    units.Number // cloth and workmanship scatter
	Biaxial     units.Number // pulled both ways at once the cloth is weaker than its strip
	Duration    units.Number // it creeps under a load that lasts
	Ageing      units.Number // sun, damp, dirt and folding
	Temperature units.Number // it is weaker warm
	Source      string
}

// TensileStructurePractice gives the upper factors that were in use for coated
// polyester in tents and air halls.
//
// Caution: from memory, for roofs that stand for years, not for what people jump
// on. A designer justifies each factor anew.
//
// Source: DIN 4134:1983 with the reduction factors after Minte (1981), as
// collected in the European Design Guide for Tensile Surface Structures
// (2004), from memory: verify against the documents.
func TensileStructurePractice() Factors {
	return Factors{Load: 1.5, Material: 1.4, Biaxial: 1.2, Duration: 1.7, Ageing: 1.2, Temperature: 1.25,
		Source: "DIN 4134:1983 and Minte (1981), upper factors (from memory: verify against the documents)"}
}

// Names are what the factors stand for, in the order of Values.
func (f Factors) Names() []string {
	return []string{"load", "material and workmanship", "biaxial pull", "duration", "ageing", "temperature"}
}

// Values are the factors in the order of Names.
//
// Source: the designer's choice.
func (f Factors) Values() []units.Number {
	return []units.Number{f.Load, f.Material, f.Biaxial, f.Duration, f.Ageing, f.Temperature}
}

// Product is all factors together.
//
//	g = f.Load*f.Material*f.Biaxial*f.Duration*f.Ageing*f.Temperature
//
// Each factor is 1 or more; outside it panics.
//
// Source: the factors act independently; common practice for membranes.
func (f Factors) Product() units.Number {
	product := 1.0
	for i, v := range f.Values() {
		argument.Demand("textile: Factors: "+f.Names()[i], argument.Within("factor", v, 1, 100))
		product *= v
	}
	return product
}

// Allowable is the force, or force per length, that a design may use.
//
//	N = strength/(f.Load*f.Material*f.Biaxial*f.Duration*f.Ageing*f.Temperature)
//
// The strength, of cloth, seam or webbing, is 0 or more, each factor 1 or more;
// outside it panics.
//
// Source: as Product.
func (f Factors) Allowable(strength units.Same) units.Same {
	argument.Demand("textile: Factors.Allowable", argument.NotNegative("strength", strength))
	return strength / f.Product()
}

package textile

import "tautline/stdlib/units"

// A Minimum is what a document asks of an inflatable's fabric and thread at
// least. A field of 0 is one the document says nothing about.
type Minimum struct {
	Strip       units.ForcePerLength // tensile strength, warp and weft
	Tear        units.Force          // tear strength
	Adhesion    units.ForcePerLength // of the coating
	Thread      units.Force          // breaking force of the sewing thread
	ShortStitch units.Length         // least stitch length
	LongStitch  units.Length         // greatest stitch length
	Source      string
}

// PlayInflatableMinimum gives what the play-inflatable standard asks of fabric
// and thread.
//
// Caution: a powered ride's landing bed is outside the standard's scope; it
// serves there by analogy. The values are from memory.
//
// Source: EN 14960-1:2019, 4.1.1 and 4.1.2, from memory: verify against the
// document.
func PlayInflatableMinimum() Minimum {
	return Minimum{
		Strip:       1850 * units.NPer50mm, // EN ISO 1421
		Tear:        350 * units.N,         // ISO 4674-1
		Adhesion:    100 * units.NPer50mm,  // ISO 2411
		Thread:      88 * units.N,          // must also not rot
		ShortStitch: 3 * units.Mm,
		LongStitch:  8 * units.Mm,
		Source:      "EN 14960-1:2019, 4.1.1 and 4.1.2 (from memory: verify against the document)",
	}
}

// RescueBoatMinimum gives the tensile strength that inflatable rescue boats
// need, for comparison.
//
// Source: ISO 15372, coated fabric, as quoted in a public copy.
func RescueBoatMinimum() Minimum {
	return Minimum{
		Strip:  3500 * units.NPer50mm,
		Source: "ISO 15372, coated fabric, tensile strength (public copy: verify edition and clause)",
	}
}

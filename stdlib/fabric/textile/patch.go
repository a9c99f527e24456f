package textile

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Webbing is a woven strap.
type Webbing struct {
	Width    units.Length
	Strength units.Force // at which it breaks
	Source   string
}

// A Patch holds a ring or a strap on cloth, glued or welded all over.
type Patch struct {
	Width  units.Length         // across the pull, more than 0
	Length units.Length         // along the pull, more than 0
	Bond   units.Pressure       // strength in shear over its area, more than 0
	Peel   units.ForcePerLength // strength in peel over its width, more than 0
	Spread units.Angle          // to each side, in which the pull spreads into the cloth, 0 or more, less than 90°; 30° is common
}

func (p Patch) check() error {
	return cmp.Or(argument.Positive("patch width", p.Width), argument.Positive("patch length", p.Length), argument.Positive("bond strength", p.Bond),
		argument.Positive("peel strength", p.Peel), argument.Within("spread", p.Spread, 0, math.Nextafter(math.Pi/2, 0)))
}

// Strength is the pull at an angle off the cloth at which the patch comes off.
//
//	F = 1/(cos(angle)/(p.Bond*p.Width*p.Length) + sin(angle)/(p.Peel*p.Width))
//
// The angle is 0 for a pull along the cloth, which shears the whole patch, and
// 90° for one straight off it, which peels it at its edge; outside that it
// panics, as for a field out of its range.
//
// Caution: the bond of a shop's own patches is known from pulling them off, warm
// and wet, and from nothing else.
//
// Source: common practice, no source: shares of shear and peel add up.
func (p Patch) Strength(angle units.Angle) units.Force {
	argument.Demand("textile: Patch.Strength", p.check(), argument.Within("angle", angle, 0, math.Pi/2))
	return 1 / (math.Cos(angle)/(p.Bond*p.Width*p.Length) + math.Sin(angle)/(p.Peel*p.Width))
}

// LineForce is the line force in the cloth behind the patch.
//
//	N = pull/(p.Width + 2*p.Length*sin(p.Spread)/cos(p.Spread))
//
// The pull, along the cloth, is 0 or more. It panics if it or a field is out of
// its range.
//
// Source: common practice, no source: the pull spreads at an even angle.
func (p Patch) LineForce(pull units.Force) units.ForcePerLength {
	argument.Demand("textile: Patch.LineForce", p.check(), argument.NotNegative("pull", pull))
	return pull / (p.Width + 2*p.Length*math.Tan(p.Spread))
}

// An Attachment is a strap's way into the cloth, from the ring to the seam.
type Attachment struct {
	Ring     units.Force          // at which the ring opens, more than 0
	Webbing  Webbing              // that holds the ring
	Stitches units.Number         // through the webbing, more than 0
	Thread   units.Force          // breaking force of the thread, more than 0
	Loss     units.Number         // as in Seam
	Patch    Patch                // under the webbing
	Cloth    units.ForcePerLength // strength of the cloth and its seams behind the patch, more than 0
	Angle    units.Angle          // of the pull off the cloth, from 0 to 90°
}

// Under gives how much each part of an attachment uses of what it may carry
// under a pull: ring, webbing, stitches, patch and cloth. Governing picks the
// weakest.
//
// The factors stand on every part alike. The pull is 0 or more. It is an error
// if the pull, a part or a factor is out of its range.
//
// Source: strength of each part as named there; the parts carry one after
// another.
func (a Attachment) Under(pull units.Force, f Factors) ([]Utilisation, error) {
	err := cmp.Or(argument.NotNegative("pull", pull), argument.Positive("ring", a.Ring), argument.Positive("webbing", a.Webbing.Strength),
		argument.Positive("stitches", a.Stitches), argument.Positive("thread strength", a.Thread), argument.Within("loss", a.Loss, 0, math.Nextafter(1, 0)),
		a.Patch.check(), argument.Positive("cloth strength", a.Cloth), argument.Within("angle", a.Angle, 0, math.Pi/2))
	for i, v := range f.Values() {
		err = cmp.Or(err, argument.Within("factor on "+f.Names()[i], v, 1, 100))
	}
	if err != nil {
		return nil, fmt.Errorf("attachment: %w", err)
	}
	return []Utilisation{
		Utilised("ring", pull, f.Allowable(a.Ring)),
		Utilised("webbing", pull, f.Allowable(a.Webbing.Strength)),
		Utilised("stitches", pull, f.Allowable(a.Stitches*a.Thread*(1-a.Loss))),
		Utilised("patch", pull, f.Allowable(a.Patch.Strength(a.Angle))),
		Utilised("cloth behind the patch", a.Patch.LineForce(pull*math.Cos(a.Angle)), f.Allowable(a.Cloth)),
	}, nil
}

package landing

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// Foam is a mat by its measured curve of stress over strain, straight between
// its points. The zero Foam is none.
type Foam struct {
	Thickness units.Length     // 0: no foam
	Strain    []units.Number   // rising from 0 to less than 1; at the last the mat is solid
	Stress    []units.Pressure // for each strain, from 0 and never falling
	Return    units.Number     // share of the stress that the mat gives back on the way up, from 0 to 1
}

func (f Foam) check() error {
	n := len(f.Strain)
	switch {
	case f.Thickness == 0 && n == 0 && len(f.Stress) == 0:
		return nil
	case n < 2 || len(f.Stress) != n:
		return fmt.Errorf("foam curve: got %d strains and %d stresses, want two or more of each, equally many", n, len(f.Stress))
	case f.Strain[0] != 0 || f.Stress[0] != 0:
		return fmt.Errorf("foam curve: got a first point at strain %g and %g Pa, want 0 and 0", f.Strain[0], f.Stress[0])
	}
	err := cmp.Or(argument.Positive("foam thickness", f.Thickness), argument.Within("return of the foam", f.Return, 0, 1))
	for i := 1; i < n && err == nil; i++ {
		err = cmp.Or(argument.Within("foam strain", f.Strain[i], 0, 0.999), argument.NotNegative("foam stress", f.Stress[i]))
		if err == nil && (f.Strain[i] <= f.Strain[i-1] || f.Stress[i] < f.Stress[i-1]) {
			err = fmt.Errorf("foam curve: got strain %g and %g Pa after %g and %g Pa, want rising strain and no falling stress",
				f.Strain[i], f.Stress[i], f.Strain[i-1], f.Stress[i-1])
		}
	}
	return err
}

// travel is how far the mat can be pressed.
func (f Foam) travel() units.Length {
	if f.Thickness == 0 {
		return 0
	}
	return f.Thickness * f.Strain[len(f.Strain)-1]
}

// stressAt is the stress where the mat is pressed so far.
func (f Foam) stressAt(pressed units.Length) units.Pressure {
	if pressed <= 0 || f.Thickness == 0 {
		return 0
	}
	e := pressed / f.Thickness
	n := len(f.Strain)
	i := 1
	for i < n-1 && f.Strain[i] < e {
		i++
	}
	return f.Stress[i-1] + (f.Stress[i]-f.Stress[i-1])*(e-f.Strain[i-1])/(f.Strain[i]-f.Strain[i-1])
}

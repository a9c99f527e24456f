package textile

import (
	"cmp"
	"fmt"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Cloth is a coated fabric as its certificate describes it.
type Cloth struct {
	Name      string
	Mass      units.MassPerArea
	Warp      units.ForcePerLength // strip strength along the warp, at room temperature
	Weft      units.ForcePerLength // along the weft
	WarpTear  units.Force          // tear strength across the warp threads
	WeftTear  units.Force          // across the weft threads
	Adhesion  units.ForcePerLength // of the coating
	Stiffness Stiffness
	// Strength falls as the cloth warms: Kept is the share of the strip strength
	// left at each of the Temperatures, which rise. Between them it is taken as
	// straight.
	Temperatures []units.Temperature
	Kept         []units.Number
	Source       string
}

// HarbourCloth is the coated polyester fabric of the demo set.
//
// Caution: it is invented, for trying out only. Nothing is built from its
// numbers: take those of a certificate.
//
// Source: invented data of the demo set.
func HarbourCloth() Cloth {
	return Cloth{
		Name:         "Harbour cloth 680 (invented)",
		Mass:         680 * units.GPerM2,
		Warp:         2300 * units.NPer50mm,
		Weft:         2000 * units.NPer50mm,
		WarpTear:     420 * units.N,
		WeftTear:     380 * units.N,
		Adhesion:     110 * units.NPer50mm,
		Stiffness:    Stiffness{Warp: 420 * units.KNPerM, Weft: 300 * units.KNPerM, Poisson: 0.2},
		Temperatures: []units.Temperature{units.ZeroCelsius - 20*units.K, units.ZeroCelsius + 23*units.K, units.ZeroCelsius + 50*units.K, units.ZeroCelsius + 70*units.K},
		Kept:         []units.Number{1, 1, 0.9, 0.8},
		Source:       "invented data of the demo set",
	}
}

// Strip is the strip strength of the weaker direction.
//
//	N = min(c.Warp, c.Weft)
//
// It panics unless both are more than 0.
//
// Source: the certificate.
func (c Cloth) Strip() units.ForcePerLength {
	argument.Demand("textile: Cloth.Strip", argument.Positive("warp strength", c.Warp), argument.Positive("weft strength", c.Weft))
	return math.Min(c.Warp, c.Weft)
}

// KeptAt is the share of its strength that the cloth keeps at a temperature.
//
// A temperature outside those of the certificate is an error, as is a table that
// does not rise or whose shares are not from 0 to 1.
//
// Source: the certificate, straight between its temperatures.
func (c Cloth) KeptAt(temperature units.Temperature) (units.Number, error) {
	fail := func(err error) (units.Number, error) { return 0, fmt.Errorf("strength of %s: %w", c.Name, err) }
	n := len(c.Temperatures)
	if n < 2 || len(c.Kept) != n {
		return fail(fmt.Errorf("got %d temperatures and %d shares, want two or more of each, equally many", n, len(c.Kept)))
	}
	for i := range n {
		if err := cmp.Or(argument.Positive("temperature", c.Temperatures[i]), argument.Within("share kept", c.Kept[i], 0, 1)); err != nil {
			return fail(err)
		}
		if i > 0 && c.Temperatures[i] <= c.Temperatures[i-1] {
			return fail(fmt.Errorf("temperature: got %g after %g K, want rising temperatures", c.Temperatures[i], c.Temperatures[i-1]))
		}
	}
	for i := range n - 1 {
		low, high := c.Temperatures[i], c.Temperatures[i+1]
		if low <= temperature && temperature <= high {
			return c.Kept[i] + (c.Kept[i+1]-c.Kept[i])*(temperature-low)/(high-low), nil
		}
	}
	return fail(fmt.Errorf("temperature: got %.4g K, want %.4g to %.4g K, where the cloth was tested", temperature, c.Temperatures[0], c.Temperatures[n-1]))
}

// Against compares the cloth with what a document asks of it: for each number
// that the document names, the least over what the cloth has. Governing picks
// the tightest.
//
// Source: the certificate and the document.
func (c Cloth) Against(m Minimum) []Utilisation {
	var all []Utilisation
	ask := func(name string, least, has float64) {
		if least > 0 {
			all = append(all, Utilised(name, least, has))
		}
	}
	ask("strip strength, warp", m.Strip, c.Warp)
	ask("strip strength, weft", m.Strip, c.Weft)
	ask("tear strength, warp", m.Tear, c.WarpTear)
	ask("tear strength, weft", m.Tear, c.WeftTear)
	ask("adhesion of the coating", m.Adhesion, c.Adhesion)
	return all
}

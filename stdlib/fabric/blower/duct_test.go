package blower_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tautline/stdlib/fabric/blower"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// Darcy, Weisbach and Colebrook; values computed apart from this code.
func TestDuct(t *testing.T) {
	sleeve := blower.Duct{Diameter: 0.25, Length: 4, Roughness: 0.9 * units.Mm}
	const q, rho, nu = 0.4, 1.2, 1.5e-5
	proof.Near(t, "speed", sleeve.Speed(q), 8.1487331, 1e-5/100)
	proof.Near(t, "Reynolds number", sleeve.Speed(q)*0.25/nu, 135812.2, 1e-6)
	proof.Near(t, "friction factor", sleeve.FrictionFactor(q, nu), 0.02842715, 1e-5/50)
	proof.Near(t, "friction", sleeve.Loss(q, rho, nu), 18.1211, 1e-5)
	sleeve.Losses = 1
	proof.Near(t, "friction and outlet", sleeve.Loss(q, rho, nu), 57.9622, 1e-5)
	proof.Near(t, "no flow", sleeve.Loss(0, rho, nu), 0, 0)
	// Hagen and Poiseuille: 32·μ·v·L/D², with v = 4·Q/(π·D²).
	tube := blower.Duct{Diameter: 0.05, Length: 10, Roughness: 1e-5}
	v := 4 * 1e-5 / (math.Pi * 0.05 * 0.05)
	proof.Near(t, "slow flow", tube.Loss(1e-5, rho, nu), 32*rho*nu*v*10/(0.05*0.05), 1e-12)

	proof.Panics(t, "blower: Duct.Loss: duct diameter: got 0", func() { blower.Duct{}.Loss(q, rho, nu) })
	proof.Panics(t, "duct roughness: got 0.1, want 0 to 0.025", func() { blower.Duct{Diameter: 0.25, Roughness: 0.1}.FrictionFactor(q, nu) })
}

// Colebrook's equation holds for the factor, and Swamee and Jain's explicit
// formula (1976) is close to it for relative roughness from 1e-6 to 0.01 and
// Reynolds numbers from 5e3 to 1e8. They state 1 %; both formulas compared apart
// from this code differ by up to 2.8 %, at the low end of the Reynolds numbers.
func TestFrictionFactor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rough := math.Pow(10, rapid.Float64Range(-6, -2).Draw(t, "log of roughness"))
		reynolds := math.Pow(10, rapid.Float64Range(3.7, 8).Draw(t, "log of Reynolds number"))
		f := blower.Duct{Diameter: 1, Roughness: rough}.FrictionFactor(reynolds*math.Pi/4*1e-5, 1e-5)
		if off := 1/math.Sqrt(f) + 2*math.Log10(rough/3.7+2.51/(reynolds*math.Sqrt(f))); math.Abs(off) > 1e-9 {
			t.Errorf("Colebrook: off by %g", off)
		}
		l := math.Log10(rough/3.7 + 5.74/math.Pow(reynolds, 0.9))
		if explicit := 0.25 / (l * l); math.Abs(f-explicit) > 0.029*f {
			t.Errorf("Colebrook %g, Swamee and Jain %g", f, explicit)
		}
	})
}

// ISO 2533: 1.461e-5 m²/s at 15 °C and 1.225 kg/m³.
func TestAirViscosity(t *testing.T) {
	proof.Near(t, "viscosity", blower.AirViscosity(288.15, 1.225), 1.4607e-5, 1e-4)
}

// What the fan has left behind a duct is its own pressure less the loss, and a
// duct without length or losses takes nothing.
func TestFanBehindDuct(t *testing.T) {
	const rho, nu = 1.2, 1.5e-5
	sleeve := blower.Duct{Diameter: 0.2, Length: 6, Roughness: 0.9 * units.Mm, Losses: 1.5}
	for _, fan := range []blower.Fan{table, blower.ParabolicFan(2500, 0.6), blower.LinearFan(2500, 0.6)} {
		behind := proof.Must(fan.Behind(sleeve, rho, nu))(t)
		for i, q := range behind.Flow[:len(behind.Flow)-1] {
			proof.Near(t, "left", behind.Pressure[i], proof.Must(fan.PressureAt(q))(t)-sleeve.Loss(q, rho, nu), 1e-9)
		}
		if last := behind.Pressure[len(behind.Pressure)-1]; last != 0 {
			t.Errorf("last point: got %g Pa, want 0", last)
		}
		op := proof.Must(blower.OperatingPoint(behind, leak))(t)
		alone := proof.Must(blower.OperatingPoint(fan, leak))(t)
		if !(op.Pressure < alone.Pressure && op.Flow < alone.Flow) {
			t.Errorf("behind a duct %+v, alone %+v; want less", op, alone)
		}
		free := proof.Must(fan.Behind(blower.Duct{Diameter: 0.2}, rho, nu))(t)
		proof.Near(t, "no duct", proof.Must(blower.OperatingPoint(free, leak))(t).Pressure, alone.Pressure, 1e-3)
	}

	_, err := table.Behind(blower.Duct{Diameter: 0.02, Length: 50, Roughness: 1e-4}, rho, nu)
	if err != nil {
		t.Errorf("a narrow duct leaves little, but something near shut-off: got %v", err)
	}
	late := blower.Fan{Flow: []units.VolumeFlow{0.3, 0.4}, Pressure: []units.Pressure{100, 50}}
	_, err = late.Behind(blower.Duct{Diameter: 0.05, Length: 50, Roughness: 1e-4}, rho, nu)
	proof.Fails(t, "too narrow", err, "take a wider duct")
	_, err = table.Behind(blower.Duct{}, rho, nu)
	proof.Fails(t, "no diameter", err, "fan behind a duct: duct diameter: got 0")
}

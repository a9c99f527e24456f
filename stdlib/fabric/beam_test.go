package fabric_test

import (
	"math"
	"testing"

	"tautline/stdlib/fabric"
	"tautline/stdlib/fabric/textile"
	"tautline/stdlib/internal/proof"
)

// Fichter, NASA TN D-3466, and Le van and Wielgosz, Thin-Walled Structures 43
// (2005): beam with the terms of the pressure; values worked apart from this
// code.
func TestCantilever(t *testing.T) {
	arm := fabric.Cantilever{Length: 2, Radius: 0.15, Pressure: 20e3, Stiffness: 300e3, Shear: 12.5e3, ShearFactor: 0.5}
	d := proof.Must(arm.Deflection(20))(t)
	proof.Near(t, "bending", d.Bending, 0.01668352, 1e-6)
	proof.Near(t, "shear", d.Shear, 0.00547630, 1e-6)
	proof.Near(t, "total", d.Total, 0.02215982, 1e-6)
	proof.Near(t, "first wrinkle", arm.WrinklingForce(), 53.0144, 1e-5)
	if len(d.Warnings) > 0 {
		t.Errorf("warnings %q, want none", d.Warnings)
	}
	back := proof.Must(arm.Deflection(-20))(t)
	proof.Near(t, "other way", back.Total, -d.Total, 0)
	if d := proof.Must(arm.Deflection(80))(t); len(d.Warnings) != 1 {
		t.Errorf("wrinkled: warnings %q, want one", d.Warnings)
	}
	_, err := arm.Deflection(107)
	proof.Fails(t, "folded", err, "force: got 107 N, want less than 106.02")
	arm.Pressure = 0
	_, err = arm.Deflection(1)
	proof.Fails(t, "limp", err, "the tube folds")
	proof.Near(t, "limp and unloaded", proof.Must(arm.Deflection(0))(t).Total, 0, 0)

	// A stiff long beam without pressure's help bends as in any textbook.
	stiff := fabric.Cantilever{Length: 10, Radius: 0.05, Pressure: 1, Stiffness: 1e9, Shear: 1e12, ShearFactor: 0.5}
	proof.Near(t, "textbook", proof.Must(stiff.Deflection(1e-5))(t).Total, 1e-5*1000/(3*1e9*math.Pi*0.05*0.05*0.05), 1e-6)
}

// Law of an orthotropic membrane on a closed tube: worked apart from this code.
func TestTubeStretch(t *testing.T) {
	cloth := textile.Stiffness{Warp: 400e3, Weft: 300e3, Poisson: 0.2}
	tube := fabric.Tube{Radius: 0.25, Pressure: 20e3}
	s := proof.Must(tube.Stretch(cloth, true))(t)
	proof.Near(t, "around", s.Around, 0.01541667, 1e-6/2)
	proof.Near(t, "along", s.Along, 0.00375, 1e-12)
	proof.Near(t, "volume", s.Volume, 1.03493752, 1e-8)

	// Warp round the tube: 5000/400e3 - 0.15·2500/300e3 and 2500/300e3 - 0.2·5000/400e3.
	s = proof.Must(tube.Stretch(cloth, false))(t)
	proof.Near(t, "around, warp round", s.Around, 0.01125, 1e-12)
	proof.Near(t, "along, warp round", s.Along, 0.005833333333, 1e-9)

	_, err := tube.Stretch(textile.Stiffness{Warp: 100e3, Weft: 300e3, Poisson: 0.6}, true)
	proof.Fails(t, "impossible cloth", err, "are warp and weft swapped")
	_, err = fabric.Tube{Radius: 0.25, Pressure: -1}.Stretch(cloth, true)
	proof.Fails(t, "suction", err, "pressure: got -1")
}

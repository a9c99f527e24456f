package fabric_test

import (
	"testing"

	"tautline/stdlib/fabric"
	"tautline/stdlib/internal/proof"
)

// The calls by which each documented formula is compared with its function:
// the function and sample arguments, the receiver first.
var formulaCalls = []proof.Call{
	proof.Of("Torus.Hoop", fabric.Torus.Hoop, calls(a(torus, -1.0), a(torus, 0.4), a(torus, 7.0))),
	proof.Of("Torus.InnerEquator", fabric.Torus.InnerEquator, calls(a(torus))),
	proof.Of("Torus.Crown", fabric.Torus.Crown, calls(a(torus))),
	proof.Of("Torus.OuterEquator", fabric.Torus.OuterEquator, calls(a(torus))),
	proof.Of("Torus.Along", fabric.Torus.Along, calls(a(torus))),
	proof.Of("Torus.Surface", fabric.Torus.Surface, calls(a(torus))),
	proof.Of("Torus.Volume", fabric.Torus.Volume, calls(a(torus))),
	proof.Of("HoopTension", fabric.HoopTension, calls(a(2500.0, 0.4))),
	proof.Of("Tube.Hoop", fabric.Tube.Hoop, calls(a(tube))),
	proof.Of("Tube.Along", fabric.Tube.Along, calls(a(tube))),
	proof.Of("Tube.WrinklingMoment", fabric.Tube.WrinklingMoment, calls(a(tube))),
	proof.Of("Tube.CollapseMoment", fabric.Tube.CollapseMoment, calls(a(tube))),
	proof.Of("WallMoment", fabric.WallMoment, calls(a(130.0, 2.2))),
	proof.Of("Sphere.Tension", fabric.Sphere.Tension, calls(a(fabric.Sphere{Radius: 0.7, Pressure: 900}))),
	proof.Of("Cone.Hoop", fabric.Cone.Hoop, calls(a(cone, 0.8))),
	proof.Of("Cone.Meridian", fabric.Cone.Meridian, calls(a(cone, 0.8))),
	proof.Of("Mattress.LobeRadius", fabric.Mattress.LobeRadius, mattresses),
	proof.Of("Mattress.LobeAngle", fabric.Mattress.LobeAngle, mattresses),
	proof.Of("Mattress.LineForce", fabric.Mattress.LineForce, mattresses),
	proof.Of("Mattress.BaffleForce", fabric.Mattress.BaffleForce, mattresses),
	proof.Of("Mattress.ArcLength", fabric.Mattress.ArcLength, mattresses),
	proof.Of("Mattress.Sagitta", fabric.Mattress.Sagitta, mattresses),
	proof.Of("Mattress.CrownHeight", fabric.Mattress.CrownHeight, mattresses),
	proof.Of("Mattress.BaySection", fabric.Mattress.BaySection, mattresses),
	proof.Of("Mattress.Fullness", fabric.Mattress.Fullness, mattresses),
	proof.Of("BaffleForce", fabric.BaffleForce, calls(a(1500.0, 0.4, 0.7))),
	proof.Of("Lobe.LineForce", fabric.Lobe.LineForce, calls(a(lobe))),
	proof.Of("Lobe.HalfAngle", fabric.Lobe.HalfAngle, calls(a(lobe))),
	proof.Of("Lobe.ArcLength", fabric.Lobe.ArcLength, calls(a(lobe))),
	proof.Of("Lobe.Rise", fabric.Lobe.Rise, calls(a(lobe))),
	proof.Of("DoubleLobe.LargeForce", fabric.DoubleLobe.LargeForce, calls(a(doubleLobe))),
	proof.Of("DoubleLobe.SmallForce", fabric.DoubleLobe.SmallForce, calls(a(doubleLobe))),
	proof.Of("Tufts.TieForce", fabric.Tufts.TieForce, calls(a(fabric.Tufts{Along: 0.5, Across: 0.6, Pressure: 1500}))),
	proof.Of("Tufts.EdgeTieForce", fabric.Tufts.EdgeTieForce, calls(a(fabric.Tufts{Along: 0.5, Across: 0.6, Pressure: 1500}, 0.4))),
	proof.Of("Tufts.LineForce", fabric.Tufts.LineForce, calls(a(fabric.Tufts{Along: 0.5, Across: 0.6, Pressure: 1500}, 0.7))),
	proof.Of("Cantilever.WrinklingForce", fabric.Cantilever.WrinklingForce,
		calls(a(fabric.Cantilever{Length: 2, Radius: 0.15, Pressure: 2e4, Stiffness: 3e5, Shear: 1e4, ShearFactor: 0.5}))),
	proof.Of("OpenDome.RimForce", fabric.OpenDome.RimForce, calls(a(dome))),
	proof.Of("OpenDome.Uplift", fabric.OpenDome.Uplift, calls(a(dome))),
	proof.Of("Discs.Radius", fabric.Discs.Radius, calls(a(discs))),
	proof.Of("Discs.Thickness", fabric.Discs.Thickness, calls(a(discs))),
	proof.Of("Discs.Volume", fabric.Discs.Volume, calls(a(discs))),
	proof.Of("Discs.Surface", fabric.Discs.Surface, calls(a(discs))),
	proof.Of("LargestTube", fabric.LargestTube, calls(a(4440.0, 2500.0))),
	proof.Of("LargestSphere", fabric.LargestSphere, calls(a(4440.0, 2500.0))),
	proof.Of("CutLength", fabric.CutLength, calls(a(2.0, 0.012), a(2.0, -0.012))),
	proof.Of("SealedTube.PressureAt", fabric.SealedTube.PressureAt,
		calls(a(fabric.SealedTube{Fill: 2e4, Temperature: 293, Ambient: 101325}, 310.0, 9e4))),
}

var (
	torus      = fabric.Torus{Radius: 1.5, Tube: 0.4, Pressure: 2500}
	tube       = fabric.Tube{Radius: 0.3, Pressure: 2000}
	cone       = fabric.Cone{HalfAngle: 0.5, Pressure: 1500}
	lobe       = fabric.Lobe{Chord: 0.5, Radius: 0.4, Pressure: 1500}
	doubleLobe = fabric.DoubleLobe{Large: 0.6, Small: 0.4, Web: 0.6, Pressure: 2000}
	discs      = fabric.Discs{Cut: 1.5, Pressure: 900}
	dome       = fabric.OpenDome{Radius: 3, Pressure: 300}
	mattresses = calls(
		a(fabric.Mattress{Pitch: 0.5, Height: 1, Pressure: 1500}),
		a(fabric.Mattress{Pitch: 0.9, Height: 0.4, Pressure: 800}))
)

func a(args ...any) []any         { return args }
func calls(args ...[]any) [][]any { return args }

func TestFormulaLines(t *testing.T) { proof.Formulas(t, formulaCalls) }

package surface_test

import (
	"math"
	"testing"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/internal/proof"
	"tautline/stdlib/units"
)

// must gives the mesh of a part, after the checks that every part passes: closed
// skins, seams on edges.
func must(t *testing.T, m surface.Mesh, err error) surface.Mesh {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Areas and volumes of the parts against their closed forms: an inscribed mesh is
// less by the order of the square of the angle between its points.
func TestPartsAgainstClosedForms(t *testing.T) {
	tube, err := surface.Tube{Radius: 0.3, Length: 2, Around: 96}.Mesh()
	volumeNear(t, "tube", must(t, tube, err), math.Pi*0.3*0.3*2, 2*math.Pi*0.3*2+2*math.Pi*0.09, 1e-3)

	cone, err := surface.Tube{Radius: 0.5, FarRadius: 0.9, Length: 1.2, Around: 96}.Mesh()
	volumeNear(t, "frustum", must(t, cone, err), math.Pi*1.2/3*(0.25+0.45+0.81), 5.56336943+math.Pi*(0.25+0.81), 1e-3)

	// Torus of R = 1.5 m and r = 0.4 m by Pappus: 2π²Rr² and 4π²Rr.
	ring, err := surface.Ring{Radius: 1.5, Tube: 0.4, Around: 96}.Mesh()
	volumeNear(t, "ring", must(t, ring, err), 4.73741011, 23.68705056, 2e-3)

	// The same ring of 16 straight pieces, cut on the slant at both ends: an
	// oblique cut through the middle of a prism keeps length times section.
	mitred, err := surface.MitredRing(1.5, 0.4, 16).Mesh()
	n, r := 24.0, 0.4
	polygon := n / 2 * r * r * math.Sin(2*math.Pi/n)
	volumeNear(t, "mitred ring", must(t, mitred, err), 16*0.59673710*polygon, 16*0.59673710*2*n*r*math.Sin(math.Pi/n), 1e-7)

	arch, err := surface.Arch{Span: 4, Leg: 1.5, Tube: 0.4, Around: 96}.Mesh()
	length := 2*1.5 + math.Pi*2
	volumeNear(t, "arch", must(t, arch, err), math.Pi*0.16*length, 2*math.Pi*0.4*length+2*math.Pi*0.16, 2e-3)

	ball, err := surface.Sphere{Radius: 0.9, Rows: 64}.Mesh()
	volumeNear(t, "sphere", must(t, ball, err), 4*math.Pi/3*0.729, 10.17876020, 2e-3)

	// A dome has an open rim: the disc closes it.
	dome, err := surface.Dome{Radius: 0.9, Angle: 60 * units.Deg, Rows: 32}.Mesh()
	h := 0.45
	proof.Near(t, "area of a dome", must(t, dome, err).Area(), 2*math.Pi*0.9*h, 1e-3)

	// Bays of one mattress: section of each bay 0.5397798 m² for a pitch of 0.5 m
	// and baffles of 1 m; the ends add the rest of a circle.
	bed, err := surface.Mattress{Length: 3, Bays: 4, Pitch: 0.5, Height: 1, Across: 32, Along: 8}.Mesh()
	bed = must(t, bed, err)
	R := math.Hypot(1, 0.5) / 2
	half := math.Atan2(0.5, 0.25)
	end := R*R*half - 0.25*0.5
	skin, err := bed.Without("baffle")
	volumeNear(t, "mattress", must(t, skin, err), 3*(4*0.5397798+2*end), 0, 1e-3)
	baffles, err := bed.PartArea("baffle")
	if err != nil {
		t.Fatal(err)
	}
	proof.Near(t, "area of baffles", baffles, 3*3*1, 1e-12)

	box, err := surface.Box{Length: 3, Width: 2, Height: 0.75, Bays: 4}.Mesh()
	skin, err = must(t, box, err).Without("baffle")
	volumeNear(t, "box", must(t, skin, err), 4.5, 2*(6+2.25+1.5), 1e-12)

	wedge, err := surface.Wedge{Length: 2, Bays: 5, Pitch: 0.4, Low: 0.2, High: 0.6}.Mesh()
	skin, err = must(t, wedge, err).Without("baffle")
	if err := must(t, skin, err).Closed(); err != nil {
		t.Error(err)
	}
	wall, err := surface.Wall{Height: 2, Bays: 6, Pitch: 0.4, Thickness: 0.5}.Mesh()
	low, high := must(t, wall, err).Bounds()
	if low.Z != 0 || high.Z != 2 {
		t.Errorf("wall: got z from %g to %g m, want 0 to 2 m", low.Z, high.Z)
	}
	for name, length := range map[string]float64{"baffle 1 front": 2, "baffle 5 back": 2, "baffle 1 foot": 0.5, "baffle 5 top": 0.5} {
		proof.Near(t, name, proof.Must(wall.SeamLength(name))(t), length, 1e-12)
	}
}

func volumeNear(t *testing.T, what string, m surface.Mesh, volume, area, tol float64) {
	t.Helper()
	v, err := m.Volume()
	if err != nil {
		t.Errorf("%s: %v", what, err)
	}
	proof.Near(t, "volume of a "+what, v, volume, tol)
	if area > 0 {
		proof.Near(t, "area of a "+what, m.Area(), area, tol)
	}
}

// Two equal tubes at a right angle: the joint is two half ellipses, as long as
// the seam of a right-angled mitre, 2.29211867 m for a radius of 0.3 m, and its
// points have the height sqrt(R² - r²·sin²φ). The volume is that of both less half
// of what two crossing tubes share, 16/3·r³ (Steinmetz).
func TestTee(t *testing.T) {
	const r = 0.3
	tee, err := surface.Tee{Main: r, Branch: r, Length: 2, Rise: 1, Around: 96}.Mesh()
	tee = must(t, tee, err)
	volumeNear(t, "tee", tee, math.Pi*r*r*(2+1)-8.0/3*r*r*r, 0, 2e-3)
	joint, err := tee.SeamLength("joint")
	if err != nil {
		t.Fatal(err)
	}
	proof.Near(t, "joint", joint, 2.29211867, 1e-3)
	seam, _ := tee.Seam("joint")
	for k, want := range map[int]float64{0: 0.3, 8: 0.25980762, 12: 0.21213203, 16: 0.15, 24: 0} {
		proof.Near(t, "height of the joint", tee.Points[seam.Points[k]].Z, want, 1e-7)
	}
	for _, c := range []surface.Tee{
		{Main: 0.5, Branch: 0.2, Length: 2, Rise: 1},
		{Main: 0.4, Branch: 0.35, Length: 3, Rise: 1.5, Angle: 50 * units.Deg},
		{Main: 0.4, Branch: 0.1, Length: 3, Rise: 1.5, Angle: 130 * units.Deg, Around: 32},
	} {
		m, err := c.Mesh()
		if err := must(t, m, err).Closed(); err != nil {
			t.Errorf("%+v: %v", c, err)
		}
		if v, err := m.Volume(); err != nil || v < math.Pi*c.Main*c.Main*c.Length*0.94 {
			t.Errorf("%+v: volume %g, %v", c, v, err)
		}
	}
	_, err = surface.Tee{Main: 0.3, Branch: 0.3, Length: 0.5, Rise: 1}.Mesh()
	proof.Fails(t, "short tee", err, "mesh of a tee: half the length: got 0.25, want more than 0.3")
}

// One mitre of 45°: seam 1.96337659 m for a radius of 0.3 m, and points set
// back by r·tan(22.5°)·cos φ.
func TestMitre(t *testing.T) {
	const r = 0.3
	sin, cos := math.Sincos(45 * units.Deg)
	run, err := surface.Run{Corners: []surface.Point{{X: -1}, {}, {X: cos, Y: sin}}, Tube: r, Around: 96}.Mesh()
	run = must(t, run, err)
	mitre, err := run.SeamLength("mitre 1")
	if err != nil {
		t.Fatal(err)
	}
	proof.Near(t, "mitre", mitre, 1.96337659, 1e-3)
	low, high := math.Inf(1), math.Inf(-1)
	seam, _ := run.Seam("mitre 1")
	for _, p := range seam.Points {
		low, high = math.Min(low, run.Points[p].X), math.Max(high, run.Points[p].X)
	}
	proof.Near(t, "outer set-back", high, 0.12426407, 1e-7)
	proof.Near(t, "inner set-back", low, -0.12426407, 1e-7)
	volumeNear(t, "run", run, math.Pi*r*r*2, 0, 1e-3)

	_, err = surface.Run{Corners: []surface.Point{{}, {X: 1}, {X: 1, Y: 0.3}, {Y: 0.3}}, Tube: r}.Mesh()
	proof.Fails(t, "short leg", err, "mesh of a run: leg 2: got 0.3 m, too short for the mitres at its ends with a tube of radius 0.3 m")
	_, err = surface.Run{Corners: []surface.Point{{}, {X: 4}, {X: 4, Y: 4, Z: 1}, {Y: 5, Z: 3}}, Tube: r, Closed: true}.Mesh()
	proof.Fails(t, "twisted ring", err, "do not lie in a plane")
}

// A part that cannot be built is an error that names it and the number.
func TestPartsRefuse(t *testing.T) {
	for words, build := range map[string]func() (surface.Mesh, error){
		"mesh of a ring: ring radius: got 0.4, want more than 0.4": surface.Ring{Radius: 0.4, Tube: 0.4}.Mesh,
		"mesh of a ring: tube radius: got -0.1":                    surface.Ring{Radius: 0.4, Tube: -0.1}.Mesh,
		"mesh of a tube: ":                                         surface.Tube{Radius: 0.3, Length: math.NaN()}.Mesh,
		"mesh of an arch: span: got 0.7, want more than 0.8":       surface.Arch{Span: 0.7, Tube: 0.4}.Mesh,
		"mesh of a mattress: ":                                     surface.Mattress{Length: 1, Bays: 2, Pitch: -0.5, Height: 0.6}.Mesh,
		"mesh of a panel: width: got 0":                            surface.Panel{Length: 1}.Mesh,
		"mesh of a tube: pieces around: got 2, want 3 to 2000":     surface.Tube{Radius: 0.3, Length: 1, Around: 2}.Mesh,
	} {
		_, err := build()
		proof.Fails(t, words, err, words)
	}
}

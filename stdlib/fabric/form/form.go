// Package form finds the form that fabric takes under load.
//
//	bed := sheet.Must(surface.Mattress{Length: 2 * units.M, Bays: 6, Pitch: 0.5 * units.M, Height: 0.7 * units.M}.Mesh())
//	blown := sheet.Must(form.Membrane{
//		Mesh:      bed,
//		Fabrics:   []form.Fabric{{Warp: 300 * units.KNPerM, Weft: 250 * units.KNPerM, Poisson: 0.2}},
//		Pressures: []form.Pressure{{Parts: []string{"skin", "near end", "far end"}, Gauge: 1.5 * units.KPa}},
//	}.Equilibrium())
//
// A Membrane is a mesh of fabric as it is cut, with cables, pressure, loads and
// supports; its Equilibrium is how it stands and the forces in it. A Net is links
// of given force density before anything is cut; its Hanging is the form they
// find. Cables that have a closed form are in package slung.
//
// Invariants: what is returned says how far it is from balance; nothing is
// changed that is given; the same input gives the same bits.
package form

import "tautline/stdlib/internal/vector"

// vec is a point or a force in space.
type vec = vector.Vector

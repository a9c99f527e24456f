// Package windload calculates how hard the wind blows on a site and what it
// does to the faces of what stands there.
//
// Its nouns: a Terrain (EN 1991-1-4) or an Exposure (ASCE 7) says how the ground
// upwind slows the wind, a Face is one side of a device, a Person somebody in the
// wind, a Load what the wind does to all faces together.
//
//	open := sheet.Must(windload.TerrainOf("II"))
//	q := open.PeakPressure(24*units.MPerS, 6*units.M, 1, windload.EurocodeAirDensity)
//	faces := windload.Box(5*units.M, 4*units.M, 3*units.M, 0, 1.5)
//	load := sheet.Must(windload.On(faces, q, 30*units.Deg))
//
// Invariants: bearings run clockwise from north; a wind is named by the bearing
// it comes from. A face meets the wind on its projected area, and no face ever
// shelters another: a neighbour, a fence or a parked lorry may be gone when the
// gust comes. Forces are characteristic: no safety factor is in them.
//
// National annexes and local codes change the numbers of both standards; the
// building authority and a competent person come before any number here.
package windload

package section

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tautline/stdlib/units"
)

// Standard is the section of a standard size by its name, such as "CHS 60.3x4
// EN 10219", "SHS 60x60x4 EN 10219", "RHS 100x50x4 EN 10210", "L 50x50x5",
// "UPE 100" or "IPE 120".
//
// A name that is not in StandardNames is an error, which lists the nearest ones:
// CHS, RHS and the other makers take any size.
//
// Caution: a size in a standard is not always a size on a shelf; ask the
// stockist before the drawing is issued.
//
// Source: sizes of EN 10219-2:2006, EN 10210-2:2006, EN 10056-1:1998, EN 10365:2017,
// in the common part of their ranges, from memory: verify against the documents.
// Properties are computed.
func Standard(name string) (Section, error) {
	for _, s := range standards() {
		if s.name == name {
			return s.make(), nil
		}
	}
	series, _, _ := strings.Cut(name, " ")
	var near []string
	for _, s := range standards() {
		if prefix := commonPrefix(s.name, name); prefix > len(series) {
			near = append(near, fmt.Sprintf("%03d %s", 999-prefix, s.name))
		}
	}
	if near == nil {
		return Section{}, fmt.Errorf("standard section: got %q, want a name as in section.StandardNames: CHS, SHS, RHS with EN 10219 or EN 10210, L, UPE, IPE", name)
	}
	slices.Sort(near)
	for i := range near {
		near[i] = near[i][4:]
	}
	return Section{}, fmt.Errorf("standard section: got %q, want one of StandardNames, such as %s; section.CHS and its like make any size",
		name, strings.Join(near[:min(5, len(near))], ", "))
}

// StandardNames lists the names of standard sizes that begin with the given
// text, "SHS 60" or "" for all.
func StandardNames(begin string) []string {
	var names []string
	for _, s := range standards() {
		if strings.HasPrefix(s.name, begin) {
			names = append(names, s.name)
		}
	}
	return names
}

func commonPrefix(a, b string) int {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	return n
}

type standardSize struct {
	name string
	make func() Section
}

// standards lists every standard size. Tubes are written as "outside: walls".
func standards() []standardSize {
	var list []standardSize
	for _, series := range []struct {
		forming Forming
		rows    string
	}{{ColdFormed, coldSizes}, {HotFinished, hotSizes}} {
		for row := range strings.Lines(series.rows) {
			outside, walls, _ := strings.Cut(strings.TrimSpace(row), ": ")
			for _, wall := range strings.Fields(walls) {
				list = append(list, tubeSize(outside, wall, series.forming))
			}
		}
	}
	for _, a := range angleSizes {
		list = append(list, standardSize{fmt.Sprintf("L %gx%gx%g", a[0], a[1], a[2]), func() Section {
			return Angle(a[0]*units.Mm, a[1]*units.Mm, a[2]*units.Mm, a[3]*units.Mm, a[4]*units.Mm)
		}})
	}
	for _, u := range channelSizes {
		name := fmt.Sprintf("UPE %g", u[0])
		list = append(list, standardSize{name, func() Section {
			s := Channel(u[0]*units.Mm, u[1]*units.Mm, u[2]*units.Mm, u[3]*units.Mm, u[4]*units.Mm)
			s.Name = name
			return s
		}})
	}
	for _, p := range beamSizes {
		name := fmt.Sprintf("IPE %g", p[0])
		list = append(list, standardSize{name, func() Section {
			s := ISection(p[0]*units.Mm, p[1]*units.Mm, p[2]*units.Mm, p[3]*units.Mm, p[4]*units.Mm, Rolled)
			s.Name = name
			return s
		}})
	}
	return list
}

// tubeSize is a tube whose outside is a diameter, "60.3", or two sides,
// "100x50".
func tubeSize(outside, wall string, forming Forming) standardSize {
	number := func(s string) units.Length {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			panic(fmt.Sprintf("section: table of tubes: %v", err))
		}
		return v * units.Mm
	}
	height, width, rectangular := strings.Cut(outside, "x")
	switch {
	case !rectangular:
		return standardSize{fmt.Sprintf("CHS %sx%s %s", outside, wall, forming),
			func() Section { return CHS(number(outside), number(wall), forming) }}
	case height == width:
		return standardSize{fmt.Sprintf("SHS %sx%s %s", outside, wall, forming),
			func() Section { return SHS(number(height), number(wall), forming) }}
	}
	return standardSize{fmt.Sprintf("RHS %sx%s %s", outside, wall, forming),
		func() Section { return RHS(number(height), number(width), number(wall), forming) }}
}

// Source: EN 10219-2:2006, Tables B.1 to B.3 (common sizes), from memory: verify
// against the document.
const coldSizes = `21.3: 2 2.5 3
26.9: 2 2.5 3
33.7: 2 2.5 3
42.4: 2 2.5 3 4
48.3: 2 2.5 3 4 5
60.3: 2 2.5 3 4 5
76.1: 2 2.5 3 4 5 6 6.3
88.9: 2 2.5 3 4 5 6 6.3
101.6: 2 2.5 3 4 5 6 6.3
114.3: 2.5 3 4 5 6 6.3
139.7: 3 4 5 6 6.3 8 10
168.3: 3 4 5 6 6.3 8 10 12
193.7: 3 4 5 6 6.3 8 10 12
219.1: 3 4 5 6 6.3 8 10 12
244.5: 5 6 6.3 8 10 12
273: 4 5 6 6.3 8 10 12
20x20: 2
25x25: 2 2.5 3
30x30: 2 2.5 3
40x40: 2 2.5 3 4
50x50: 2 2.5 3 4 5
60x60: 2 2.5 3 4 5 6 6.3
70x70: 2.5 3 4 5 6 6.3
80x80: 3 4 5 6 6.3 8
90x90: 3 4 5 6 6.3 8
100x100: 3 4 5 6 6.3 8 10
120x120: 3 4 5 6 6.3 8 10 12
140x140: 4 5 6 6.3 8 10 12
150x150: 4 5 6 6.3 8 10 12
160x160: 4 5 6 6.3 8 10 12
180x180: 4 5 6 6.3 8 10 12
200x200: 4 5 6 6.3 8 10 12 12.5
40x20: 2 2.5 3
50x30: 2 2.5 3 4
60x40: 2 2.5 3 4 5
80x40: 2 2.5 3 4 5
90x50: 2.5 3 4 5
100x40: 2.5 3 4 5
100x50: 2.5 3 4 5 6 6.3
100x60: 2.5 3 4 5 6 6.3
100x80: 3 4 5 6 6.3
120x60: 2.5 3 4 5 6 6.3 8
120x80: 3 4 5 6 6.3 8
140x80: 4 5 6 6.3 8
150x100: 4 5 6 6.3 8 10
160x80: 4 5 6 6.3 8 10
180x100: 4 5 6 6.3 8 10
200x100: 4 5 6 6.3 8 10
200x120: 4 5 6 6.3 8 10 12`

// Source: EN 10210-2:2006, Tables B.1 to B.3 (common sizes), from memory: verify
// against the document.
const hotSizes = `21.3: 2.3 2.6 3.2
26.9: 2.3 2.6 3.2
33.7: 2.6 3.2 4
42.4: 2.6 3.2 4
48.3: 2.6 3.2 4 5
60.3: 2.6 3.2 4 5
76.1: 2.6 3.2 4 5
88.9: 3.2 4 5 6 6.3
101.6: 3.2 4 5 6 6.3 8 10
114.3: 3.2 4 5 6 6.3 8 10
139.7: 4 5 6 6.3 8 10 12 12.5
168.3: 4 5 6 6.3 8 10 12 12.5
193.7: 5 6 6.3 8 10 12 12.5
219.1: 5 6 6.3 8 10 12 12.5
244.5: 5 6 6.3 8 10 12 12.5
273: 5 6 6.3 8 10 12 12.5
40x40: 2.6 3.2 4 5
50x50: 2.6 3.2 4 5 6.3
60x60: 2.6 3.2 4 5 6 6.3 8
70x70: 3.2 4 5 6 6.3 8
80x80: 3.2 4 5 6 6.3 8
90x90: 4 5 6 6.3 8
100x100: 4 5 6 6.3 8 10
120x120: 5 6 6.3 8 10 12 12.5
140x140: 5 6 6.3 8 10 12 12.5
150x150: 5 6 6.3 8 10 12 12.5
160x160: 5 6 6.3 8 10 12 12.5
180x180: 5 6 6.3 8 10 12 12.5
200x200: 5 6 6.3 8 10 12 12.5
50x30: 2.6 3.2 4 5
60x40: 2.6 3.2 4 5 6.3
80x40: 3.2 4 5 6 6.3 8
90x50: 3.2 4 5 6 6.3 8
100x50: 3.2 4 5 6 6.3 8
100x60: 3.2 4 5 6 6.3 8
120x60: 4 5 6 6.3 8 10
120x80: 4 5 6 6.3 8 10
140x80: 4 5 6 6.3 8 10
150x100: 4 5 6 6.3 8 10 12 12.5
160x80: 4 5 6 6.3 8 10 12 12.5
180x100: 4 5 6 6.3 8 10 12 12.5
200x100: 4 5 6 6.3 8 10 12 12.5
200x120: 6 6.3 8 10 12 12.5`

// height, width, thickness, root and toe radius in mm. Source: EN 10056-1:1998,
// from memory: verify against the document.
var angleSizes = [][5]float64{
	{20, 20, 3, 3.5, 1.75}, {25, 25, 3, 3.5, 1.75}, {25, 25, 4, 3.5, 1.75},
	{30, 30, 3, 5, 2.5}, {30, 30, 4, 5, 2.5}, {35, 35, 4, 5, 2.5},
	{40, 40, 4, 6, 3}, {40, 40, 5, 6, 3}, {45, 45, 4.5, 7, 3.5},
	{50, 50, 4, 7, 3.5}, {50, 50, 5, 7, 3.5}, {50, 50, 6, 7, 3.5},
	{60, 60, 5, 8, 4}, {60, 60, 6, 8, 4}, {60, 60, 8, 8, 4},
	{70, 70, 6, 9, 4.5}, {70, 70, 7, 9, 4.5}, {80, 80, 8, 10, 5}, {80, 80, 10, 10, 5},
	{90, 90, 8, 11, 5.5}, {90, 90, 9, 11, 5.5}, {100, 100, 8, 12, 6}, {100, 100, 10, 12, 6},
	{40, 20, 4, 4, 2}, {45, 30, 4, 4.5, 2.25}, {60, 30, 5, 5, 2.5}, {60, 40, 5, 6, 3}, {60, 40, 6, 6, 3},
	{65, 50, 5, 6, 3}, {75, 50, 6, 7, 3.5}, {80, 40, 6, 7, 3.5}, {80, 60, 7, 8, 4}, {100, 50, 6, 8, 4}, {100, 75, 8, 10, 5},
}

// height, width, web, flange and root radius in mm. Source: EN 10365:2017,
// from memory: verify against the document.
var channelSizes = [][5]float64{
	{80, 50, 4, 7, 10}, {100, 55, 4.5, 7.5, 10}, {120, 60, 5, 8, 12}, {140, 65, 5, 9, 12},
	{160, 70, 5.5, 9.5, 12}, {180, 75, 5.5, 10.5, 12}, {200, 80, 6, 11, 13},
}

// height, width, web, flange and root radius in mm. Source: EN 10365:2017,
// from memory: verify against the document.
var beamSizes = [][5]float64{
	{80, 46, 3.8, 5.2, 5}, {100, 55, 4.1, 5.7, 7}, {120, 64, 4.4, 6.3, 7}, {140, 73, 4.7, 6.9, 7},
	{160, 82, 5, 7.4, 9}, {180, 91, 5.3, 8, 9}, {200, 100, 5.6, 8.5, 12}, {240, 120, 6.2, 9.8, 15}, {300, 150, 7.1, 10.7, 15},
}

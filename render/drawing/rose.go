package drawing

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"tautline/render/lettering"
)

// A Rose is a polar diagram over the direction of the compass, its values
// already in their unit.
type Rose struct {
	Title  string
	Unit   string
	Curves []RoseCurve
	Limits []RoseLimit
}

type (
	// RoseCurve is a line through values at angles clockwise from north, in
	// radians.
	RoseCurve struct {
		Name           string
		Angles, Values []float64
	}
	// RoseLimit is a named circle.
	RoseLimit struct {
		Name string
		At   float64
	}
)

// Name is the rose's title.
func (r *Rose) Name() string { return r.Title }

// SVG draws the rose as inline SVG. id starts every id in it.
func (r *Rose) SVG(id string) (template.HTML, error) {
	var b strings.Builder
	for _, fr := range lettering.Frames {
		d := &dial{Rose: r, pen: newPen(fr)}
		b.WriteString(d.draw(id + "." + fr.Class))
	}
	return template.HTML(b.String()), nil
}

// A dial is one size of a rose being written.
type dial struct {
	*Rose
	*pen
	middle point
	radius float64 // of the outermost ring
	most   float64 // value there
	count  int     // of the rings
}

func (d *dial) draw(id string) string {
	for _, c := range d.Curves {
		for _, value := range c.Values {
			d.most = max(d.most, value)
		}
	}
	for _, l := range d.Limits {
		d.most = max(d.most, l.At)
	}
	if d.most < 1e-300 { // nothing but zeros
		d.most = 1
	}
	step := lettering.NiceStep(d.most / 4)
	d.count = int(math.Ceil(d.most/step - 1e-9))
	d.most = step * float64(d.count)
	d.radius = min(0.36*d.width, 0.46*d.Frame.Height.Points())
	d.middle = point{d.width / 2, d.radius + 2.2*d.em()}
	height := 2*d.radius + 4.4*d.em()
	d.ground(height)
	d.grid()
	for i, c := range d.Curves {
		path := d.points(c)
		d.line(lineClass(i), path...)
		d.room.trace(path...)
	}
	d.limits()
	d.rings()
	var names []string
	for _, c := range d.Curves {
		names = append(names, c.Name)
	}
	for _, l := range d.Limits { // a name at its circle would cross the curves that lie along it
		names = append(names, strings.TrimSpace(l.Name+" "+d.value(l.At)))
	}
	if len(names) > 0 {
		height = d.legend(height, names, func(i int, left, right, top, bottom float64) {
			class := "limit"
			if i < len(d.Curves) {
				class = lineClass(i)
			}
			d.line(class, point{left, (top + bottom) / 2}, point{right, (top + bottom) / 2})
		})
	}
	return d.pen.svg("rose", id, d.Title, d.words(), 0, height+0.4*d.em())
}

// at is the place of a value in a direction.
func (d *dial) at(angle, value float64) point {
	sin, cos := math.Sincos(angle)
	r := d.radius * value / d.most
	return d.middle.plus(point{r * sin, -r * cos})
}

// grid draws the rings and the directions.
func (d *dial) grid() {
	for i := 1; i <= d.count; i++ {
		class := "ring"
		if i == d.count {
			class = "ring rim"
		}
		d.circle(class, d.middle, d.radius*float64(i)/float64(d.count))
	}
	for k := range 16 {
		angle := float64(k) * math.Pi / 8
		inner := 0.0
		if k%2 == 1 {
			inner = 0.97 * d.most
		}
		d.line("ring", d.at(angle, inner), d.at(angle, d.most))
	}
	for k, name := range []string{"N", "NE", "E", "SE", "S", "SW", "W", "NW"} {
		at := d.at(float64(k)*math.Pi/4, d.most*(1+1.15*d.em()/d.radius))
		d.write(point{at.x, at.y + 0.36*d.em()}, "middle", "ink", name)
		d.room.take(spot{at: at}, 2*d.em(), d.em())
	}
}

// points is a curve with its values taken evenly over the angle between two
// points, so that a constant value is a circle.
func (d *dial) points(c RoseCurve) []point {
	const pitch = math.Pi / 60
	var ps []point
	longest := 0.0
	between := func(i, k int) {
		way := math.Remainder(c.Angles[k]-c.Angles[i], 2*math.Pi)
		n := int(math.Abs(way)/pitch) + 1
		for j := 1; j <= n; j++ {
			f := float64(j) / float64(n)
			ps = append(ps, d.at(c.Angles[i]+f*way, c.Values[i]+f*(c.Values[k]-c.Values[i])))
		}
	}
	last := min(len(c.Angles), len(c.Values)) - 1
	for i := range last + 1 {
		if i == 0 {
			ps = append(ps, d.at(c.Angles[0], c.Values[0]))
			continue
		}
		longest = max(longest, math.Abs(math.Remainder(c.Angles[i]-c.Angles[i-1], 2*math.Pi)))
		between(i-1, i)
	}
	if last > 1 && math.Abs(math.Remainder(c.Angles[0]-c.Angles[last], 2*math.Pi)) < longest*(1+1e-9) {
		between(last, 0)
	}
	return ps
}

func (d *dial) limits() {
	for _, l := range d.Limits {
		r := d.radius * l.At / d.most
		d.circle("limit", d.middle, r)
		d.room.trace(arc(d.middle, r)...)
	}
}

func (d *dial) value(v float64) string {
	return strings.TrimSpace(lettering.Number(v) + "\u00a0" + lettering.OneLine(d.Unit))
}

// rings writes the values of the rings along the direction where they cover
// least, and leaves out those that would stand on a curve; the outermost stays.
func (d *dial) rings() {
	step := d.most / float64(d.count)
	best, least := 0.0, math.Inf(1)
	for _, k := range []float64{3, 5, 11, 13, 1, 7, 9, 15} {
		angle, price := k*math.Pi/8, 0.0
		for i := 1; i <= d.count; i++ {
			price += d.room.price(spot{at: d.at(angle, step*float64(i))}, 1.6*d.em(), d.em())
		}
		if price < least {
			best, least = angle, price
		}
	}
	for i := 1; i <= d.count; i++ {
		text := lettering.Number(step * float64(i))
		if i == d.count {
			text = d.value(d.most)
		}
		at := d.at(best, step*float64(i))
		if i < d.count && d.room.price(spot{at: at}, d.measure(text), 0.8*d.em()) > 0 {
			continue
		}
		anchor := "middle"
		if i == d.count && math.Sin(best) > 0 {
			anchor = "start"
		} else if i == d.count {
			anchor = "end"
		}
		d.write(point{at.x, at.y + 0.36*d.em()}, anchor, "soft", text)
	}
}

// words describes the rose to who cannot see it.
func (r *Rose) words() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s over the direction of the compass.", lettering.Named("Values", r.Unit, ""))
	for _, c := range r.Curves {
		if len(c.Values) == 0 {
			fmt.Fprintf(&b, " Curve %q has no points.", lettering.OneLine(c.Name))
			continue
		}
		low, high := 0, 0
		for i, v := range c.Values {
			if v < c.Values[low] {
				low = i
			}
			if v > c.Values[high] {
				high = i
			}
		}
		fmt.Fprintf(&b, " Curve %q: lowest %s at %s, highest %s at %s.", lettering.OneLine(c.Name),
			lettering.Number(c.Values[low]), bearing(c.Angles[low]), lettering.Number(c.Values[high]), bearing(c.Angles[high]))
	}
	for _, l := range r.Limits {
		fmt.Fprintf(&b, " Limit %q at %s.", lettering.OneLine(l.Name), lettering.Number(l.At))
	}
	return b.String()
}

// bearing writes a direction in degrees, from 0 to 359.
func bearing(angle float64) string {
	degrees := math.Mod(math.Round(angle*180/math.Pi), 360)
	if degrees < 0 {
		degrees += 360
	}
	return lettering.Number(degrees) + "°"
}

package form

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"tautline/stdlib/fabric/surface"
	"tautline/stdlib/sheet"
	"tautline/stdlib/units"
)

// View is from where a form is drawn.
type View string

// The views. Isometric shows x towards the lower right, y towards the upper right
// and z upward, each in its true length, from the side of -y and above. The others
// leave one axis out.
const (
	Isometric View = "isometric"
	Plan      View = "plan"  // from above: x to the right, y upward
	Front     View = "front" // from the side of -y: x to the right, z upward
	Side      View = "side"  // from the side of x: y to the right, z upward
)

// axes are the directions to the right and upward on the drawing, the last toward
// the viewer.
func (v View) axes() (right, up, near vec) {
	switch v {
	case Isometric:
		half := math.Sqrt(3) / 2
		return vec{half, half, 0}, vec{-0.5, 0.5, 1}, vec{1, -1, 1}
	case Plan:
		return vec{1, 0, 0}, vec{0, 1, 0}, vec{0, 0, 1}
	case Front:
		return vec{1, 0, 0}, vec{0, 0, 1}, vec{0, -1, 0}
	case Side:
		return vec{0, 1, 0}, vec{0, 0, 1}, vec{1, 0, 0}
	}
	panic(fmt.Sprintf("form: View: got %q, want Isometric, Plan, Front or Side", v))
}

// path is where points come to lie on the drawing.
func (v View) path(points ...vec) (xs, ys []float64) {
	right, up, _ := v.axes()
	for _, p := range points {
		xs, ys = append(xs, p.Dot(right)), append(ys, p.Dot(up))
	}
	return xs, ys
}

// Tone is what the tones of a drawn form stand for.
type Tone string

// The tones.
const (
	ToneForce    Tone = "greatest line force in kN/m"
	ToneStrain   Tone = "greatest strain in per cent"
	ToneWrinkles Tone = "0 taut, 1 wrinkled, 2 slack"
)

// shades are the numbers of all triangles that their tones stand for, and the
// end of the scale: 95 % of the fabric lies below it, so that the peaks at a point
// do not make all else alike.
func (e Equilibrium) shades(t Tone) (values []float64, end float64) {
	for _, s := range e.Triangles {
		v := 0.0
		switch t {
		case ToneForce:
			v = s.High / units.KNPerM
		case ToneStrain:
			v = s.HighStrain / units.Percent
		case ToneWrinkles:
			if s.Wrinkled {
				v = 1
			} else if s.Slack {
				v = 2
			}
		default:
			panic(fmt.Sprintf("form: Tone: got %q, want ToneForce, ToneStrain or ToneWrinkles", t))
		}
		values = append(values, v)
	}
	if t == ToneWrinkles {
		return values, 2
	}
	values = e.smooth(values)
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(values[a], values[b]) })
	whole, below := e.Mesh.Area(), 0.0
	for _, i := range order {
		end = values[i]
		if below += e.Mesh.TriangleArea(i); below >= 0.95*whole {
			break
		}
	}
	if !(end > 0) {
		return values, 1
	}
	step := math.Pow(10, math.Floor(math.Log10(end))-1)
	return values, math.Ceil(end/step) * step
}

// smooth gives each triangle the mean of its corners, and these the mean of the
// triangles of their part there: single triangles scatter about the truth.
func (e Equilibrium) smooth(values []float64) []float64 {
	type corner struct{ point, part int }
	sum, area := map[corner]float64{}, map[corner]float64{}
	for i, t := range e.Mesh.Triangles {
		a := e.Mesh.TriangleArea(i)
		for _, p := range []int{t.A, t.B, t.C} {
			sum[corner{p, t.Part}] += values[i] * a
			area[corner{p, t.Part}] += a
		}
	}
	out := make([]float64, len(values))
	for i, t := range e.Mesh.Triangles {
		for _, p := range []int{t.A, t.B, t.C} {
			out[i] += sum[corner{p, t.Part}] / area[corner{p, t.Part}] / 3
		}
	}
	return out
}

// A stroke is a piece of a picture, drawn the later the nearer it is.
type stroke struct {
	depth float64
	draw  func()
}

func drawNearLast(strokes []stroke) {
	slices.SortStableFunc(strokes, func(a, b stroke) int { return cmp.Compare(a.depth, b.depth) })
	for _, s := range strokes {
		s.draw()
	}
}

// Draw draws the form to scale as it stands: its triangles in the tone of a
// number, a mean over neighbours, its seams and open edges as thin lines. What is
// nearer covers what is behind it, but for cables, which show through: by name as
// lines, or as a mark amid those of a name that are seen from their end.
//
// The scale ends where 95 % of the fabric lie below. A view or a tone that does not
// exist panics.
func (e Equilibrium) Draw(d *sheet.Drawing, v View, t Tone) {
	values, end := e.shades(t)
	d.Scale(string(t), 0, end)
	_, _, near := v.axes()
	at := placed(e.Mesh.Points)
	var strokes []stroke
	for i, tr := range e.Mesh.Triangles {
		a, b, c := at[tr.A], at[tr.B], at[tr.C]
		strokes = append(strokes, stroke{a.Plus(b).Plus(c).Dot(near) / 3, func() {
			xs, ys := v.path(a, b, c)
			d.Shade(xs, ys, values[i])
		}})
	}
	line := func(path []int, draw func(xs, ys []float64)) {
		for k := 1; k < len(path); k++ {
			a, b := at[path[k-1]], at[path[k]]
			// Nearer by its length, or the triangles beside it would cover it.
			strokes = append(strokes, stroke{a.Plus(b).Dot(near)/2 + b.Minus(a).Length(), func() { draw(v.path(a, b)) }})
		}
	}
	for _, s := range e.Mesh.Seams {
		line(s.Points, d.Thin)
	}
	if edges, err := e.Mesh.Boundary(); err == nil {
		for _, s := range edges {
			line(s.Points, d.Thin)
		}
	}
	drawNearLast(strokes)
	e.drawCables(d, v, at)
	drawAxes(d, v, at)
}

// drawCables draws lines, and for those of a name that are seen from their end
// one mark amid them.
func (e Equilibrium) drawCables(d *sheet.Drawing, v View, at []vec) {
	var names []string
	var marks [][2]float64
	var counts []float64
	for _, c := range e.Cables {
		var way []vec
		for _, p := range c.Points {
			way = append(way, at[p])
		}
		xs, ys := v.path(way...)
		name := cmp.Or(c.Name, "cable")
		if math.Hypot(slices.Max(xs)-slices.Min(xs), slices.Max(ys)-slices.Min(ys)) >= extent(at)/500 {
			d.Line(name, xs, ys)
			continue
		}
		k := slices.Index(names, name)
		if k < 0 {
			k = len(names)
			names, marks, counts = append(names, name), append(marks, [2]float64{}), append(counts, 0)
		}
		marks[k][0] += xs[0]
		marks[k][1] += ys[0]
		counts[k]++
	}
	for k, name := range names {
		d.Mark(name, marks[k][0]/counts[k], marks[k][1]/counts[k])
	}
}

// DrawSection draws what a plane cuts through the form to scale: fabric as bands
// in the tone of a number as in Draw, the mesh as cut, given again, as thin lines. The plane is
// that of a view, Plan, Front or Side, at a place on the axis that the view leaves
// out: Front at y, Side at x, Plan at z.
//
// A plane that misses the form draws nothing. Another view panics, as does a
// tone that does not exist.
func (e Equilibrium) DrawSection(d *sheet.Drawing, v View, at units.Length, t Tone, cut surface.Mesh) {
	if v == Isometric {
		panic(fmt.Sprintf("form: Equilibrium.DrawSection: view: got %q, want Plan, Front or Side", v))
	}
	values, end := e.shades(t)
	d.Scale(string(t), 0, end)
	for _, s := range sections(cut, v, at) {
		d.Thin(v.path(s.from, s.to))
	}
	low, high := e.Mesh.Bounds()
	half := vec{high.X - low.X, high.Y - low.Y, high.Z - low.Z}.Length() / 200
	for _, s := range sections(e.Mesh, v, at) {
		xs, ys := v.path(s.from, s.to)
		dx, dy := xs[1]-xs[0], ys[1]-ys[0]
		long := math.Hypot(dx, dy)
		if long == 0 {
			continue
		}
		ex, ey := -dy/long*half, dx/long*half
		d.Shade([]float64{xs[0] + ex, xs[1] + ex, xs[1] - ex, xs[0] - ex}, []float64{ys[0] + ey, ys[1] + ey, ys[1] - ey, ys[0] - ey}, values[s.triangle])
	}
}

// A cutLine is where a plane cuts a triangle.
type cutLine struct {
	triangle int
	from, to vec
}

// sections are where the plane of a view at a place cuts the triangles of a mesh.
// Of an edge in the plane the triangle above is taken, or where there is none at
// all, the one below.
func sections(m surface.Mesh, v View, place float64) []cutLine {
	_, _, near := v.axes()
	axis := slices.IndexFunc(near[:], func(c float64) bool { return c != 0 })
	at := placed(m.Points)
	for _, in := range []bool{false, true} {
		above := func(p int) bool { return at[p][axis] > place || in && at[p][axis] == place }
		var lines []cutLine
		for i, t := range m.Triangles {
			var ends []vec
			c := [3]int{t.A, t.B, t.C}
			for k := range c {
				p, q := c[k], c[(k+1)%3]
				if above(p) != above(q) {
					ends = append(ends, at[p].Toward(at[q], (place-at[p][axis])/(at[q][axis]-at[p][axis])))
				}
			}
			if len(ends) == 2 {
				lines = append(lines, cutLine{i, ends[0], ends[1]})
			}
		}
		if len(lines) > 0 {
			return lines
		}
	}
	return nil
}

// Draw draws the form of the net to scale: its links in the tone of their force in
// kN, what is nearer last. Held points are marked.
//
// A view that does not exist panics.
func (h Hanging) Draw(d *sheet.Drawing, v View) {
	right, up, near := v.axes()
	at := placed(h.Points)
	low, high := math.Min(0, h.Least), math.Max(h.Most, 0)
	if low == high {
		high = 1
	}
	d.Scale("pull of a link in kN", low/units.KN, high/units.KN)
	half := extent(at) / 300
	var strokes []stroke
	for _, l := range h.Links {
		a, b := at[l.From], at[l.To]
		strokes = append(strokes, stroke{a.Plus(b).Dot(near) / 2, func() {
			xs, ys := v.path(a, b)
			dx, dy := xs[1]-xs[0], ys[1]-ys[0]
			if long := math.Hypot(dx, dy); long > 0 {
				ex, ey := -dy/long*half, dx/long*half
				d.Shade([]float64{xs[0] + ex, xs[1] + ex, xs[1] - ex, xs[0] - ex}, []float64{ys[0] + ey, ys[1] + ey, ys[1] - ey, ys[0] - ey}, l.Force/units.KN)
			}
		}})
	}
	drawNearLast(strokes)
	for _, p := range h.Held {
		d.Circle(at[p.Point].Dot(right), at[p.Point].Dot(up), 2*half)
	}
	drawAxes(d, v, at)
}

// drawAxes draws the directions of the axes beside what is seen askew.
func drawAxes(d *sheet.Drawing, v View, at []vec) {
	if v != Isometric || len(at) == 0 {
		return
	}
	xs, ys := v.path(at...)
	size := extent(at) / 10
	x, y := slices.Min(xs)-size, slices.Min(ys)
	for k, name := range []string{"x", "y", "z"} {
		var along vec
		along[k] = size
		ax, ay := v.path(along)
		d.Arrow("", x, y, x+ax[0], y+ay[0])
		d.Text(name, x+1.3*ax[0], y+1.3*ay[0])
	}
}

func placed(points []surface.Point) []vec {
	at := make([]vec, len(points))
	for i, p := range points {
		at[i] = vec{p.X, p.Y, p.Z}
	}
	return at
}

// extent is the diagonal of the box round points.
func extent(at []vec) float64 {
	if len(at) == 0 {
		return 0
	}
	low, high := at[0], at[0]
	for _, v := range at {
		for k := range v {
			low[k], high[k] = math.Min(low[k], v[k]), math.Max(high[k], v[k])
		}
	}
	return high.Minus(low).Length()
}

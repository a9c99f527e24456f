package surface

import (
	"cmp"
	"math"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// A Tee is a round tube along x with a branch that rises from its middle in the
// plane of x and z; their axes meet in the origin.
type Tee struct {
	Main   units.Length // radius of the main tube, more than 0
	Branch units.Length // radius of the branch, at most that of the main tube, more than 0
	Length units.Length // of the main tube, half of it to each side
	Rise   units.Length // of the branch along its axis, from the origin
	Angle  units.Angle  // from x to the branch, 20° to 160°; 0: a right angle
	Open   bool         // without the flat ends
	Around int          // pieces round the main tube, 0: 24
}

// Mesh is the parts "main" and "branch" and, unless it is open, "left end", "right
// end" and "branch end". Its seams are "joint", where the tubes meet, "left seam",
// "right seam" and "branch seam" round the ends, "main long seam" below, "left upper
// seam" and "right upper seam" from the ends to the joint, so that the main tube is two
// halves, and "branch long seam", on its side.
//
// A field out of its range is an error, and a tube that ends before the joint
// does.
func (t Tee) Mesh() (Mesh, error) {
	if t.Angle == 0 {
		t.Angle = math.Pi / 2
	}
	w := &weave{}
	err := cmp.Or(argument.Positive("main radius", t.Main), argument.Positive("branch radius", t.Branch),
		argument.Within("branch radius", t.Branch, 0, t.Main), argument.Within("angle", t.Angle, 20*units.Deg, 160*units.Deg),
		pieces("pieces around", &t.Around, 24, 12))
	if err == nil {
		left, right, top := t.reach()
		err = cmp.Or(argument.Above("half the length", t.Length/2, math.Max(-left, right)), argument.Above("rise", t.Rise, top))
	}
	if err == nil {
		w.tee(t)
	}
	return w.mesh(err, "tee")
}

// joint is the point at angle phi round the branch where it meets the main tube,
// and its way along the branch.
func (t Tee) joint(phi float64) (at vec, along float64) {
	sin, cos := math.Sincos(t.Angle)
	y, out := math.Sincos(phi)
	y, out = y*t.Branch, out*t.Branch
	z := math.Sqrt(math.Max(0, (t.Main-y)*(t.Main+y)))
	along = (z + out*cos) / sin
	return vec{out*sin + along*cos, y, z}, along
}

// reach is the least and greatest x of the joint, and how far up the branch it
// goes.
func (t Tee) reach() (left, right, top float64) {
	for k := range 360 {
		at, along := t.joint(2 * math.Pi * float64(k) / 360)
		left, right, top = math.Min(left, at[0]), math.Max(right, at[0]), math.Max(top, along)
	}
	return left, right, top
}

func (w *weave) tee(t Tee) {
	quarter := max(2, usual(float64(t.Around)*t.Branch/t.Main/4)) // points in a quarter of the joint
	joint := w.loop(4*quarter, func(s float64) vec { at, _ := t.joint(2 * math.Pi * s); return at })
	left, right, lines := w.teeMain(t, quarter, joint)
	rings := w.teeBranch(t, 4*quarter, joint)
	foot := rings[len(rings)-1]
	var leftRim, rightRim []int
	for _, l := range left {
		leftRim = append(leftRim, l[len(l)-1])
	}
	for _, l := range right {
		rightRim = append(rightRim, l[len(l)-1])
	}
	for _, l := range lines[1:] {
		leftRim, rightRim = append(leftRim, l[0]), append(rightRim, l[len(l)-1])
	}
	if !t.Open {
		sin, cos := math.Sincos(t.Angle)
		w.lid("left end", leftRim, vec{-t.Length / 2}, false)
		w.lid("right end", rightRim, vec{t.Length / 2}, true)
		w.lid("branch end", foot, vec{t.Rise * cos, 0, t.Rise * sin}, false)
	}
	w.seam("joint", joint)
	w.seam("left seam", leftRim)
	w.seam("right seam", rightRim)
	w.seam("branch seam", foot)
	w.seam("main long seam", lines[len(lines)/2])
	w.seam("left upper seam", left[quarter])
	w.seam("right upper seam", right[quarter])
	w.seam("branch long seam", column(rings, quarter))
}

// teeMain lays the main tube. Its lines are straight in its development; those at the
// joint have two parts, left and right, which begin at the joint's points of equal y,
// from y = -Branch to +Branch.
func (w *weave) teeMain(t Tee, quarter int, joint []int) (left, right, lines [][]int) {
	around := max(4*quarter, 4*((t.Around+3)/4))
	step := 2 * math.Pi * t.Main / float64(around)
	end := func(x float64, j int) vec {
		sin, cos := math.Sincos(2 * math.Pi * float64(j) / float64(around))
		return vec{x, t.Main * sin, t.Main * cos}
	}
	half := func(j, start int, x float64) []int {
		from := w.Points[start].vec()
		to := end(x, j)
		a, b := math.Atan2(from[1], from[2]), 2*math.Pi*float64(j)/float64(around)
		steps := max(1, usual(math.Abs(x-from[0])/step))
		line := []int{start}
		for k := 1; k < steps; k++ {
			s := float64(k) / float64(steps)
			sin, cos := math.Sincos(a + s*(b-a))
			line = append(line, w.lay(vec{from[0] + s*(to[0]-from[0]), t.Main * sin, t.Main * cos}))
		}
		return append(line, w.lay(to))
	}
	at := func(k int) int { return joint[(k+4*quarter)%(4*quarter)] }
	for j := -quarter; j <= quarter; j++ {
		right = append(right, half(j, at(j), t.Length/2))
		left = append(left, half(j, at(2*quarter-j), -t.Length/2))
	}
	main := w.part("main")
	for j := 1; j < len(right); j++ {
		w.strip(main, right[j], right[j-1])
		w.strip(main, left[j-1], left[j])
	}
	whole := func(j int) []int { // the line past one side of the joint, from left to right
		line := mirrored(left[j])
		return append(line, right[j][1:]...)
	}
	along := max(2, usual(t.Length/step))
	lines = [][]int{whole(2 * quarter)}
	for j := quarter + 1; j < around-quarter; j++ {
		lines = append(lines, w.line(along, func(s float64) vec { return end((s-0.5)*t.Length, j) }))
	}
	lines = append(lines, whole(0))
	for j := 1; j < len(lines); j++ {
		w.strip(main, lines[j], lines[j-1])
	}
	return left, right, lines
}

// teeBranch lays the branch in rings of so many points around from the joint to its
// end. The joint is closed: it names its first point again at the end.
func (w *weave) teeBranch(t Tee, around int, joint []int) (rings [][]int) {
	sin, cos := math.Sincos(t.Angle)
	foot := make([]vec, around) // the branch's end
	for k := range foot {
		y, out := math.Sincos(2 * math.Pi * float64(k) / float64(around))
		foot[k] = vec{t.Branch*out*sin + t.Rise*cos, t.Branch * y, -t.Branch*out*cos + t.Rise*sin}
	}
	rows := max(1, usual((t.Rise-t.Main)/(2*math.Pi*t.Branch/float64(around))))
	rings = [][]int{joint}
	for r := 1; r <= rows; r++ {
		rings = append(rings, w.loop(around, func(s float64) vec {
			k := usual(s*float64(around)+1) - 1
			return w.Points[joint[k]].vec().Toward(foot[k], float64(r)/float64(rows))
		}))
	}
	branch := w.part("branch")
	for r := 1; r < len(rings); r++ {
		w.strip(branch, rings[r], rings[r-1])
	}
	return rings
}

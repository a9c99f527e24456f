package notebooks

import (
	"errors"
	"math"
	"math/bits"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// What follows solves frames apart from the library, to hold its numbers
// against: members by the six ways in which they deform (longer, twisted, and
// each end turned from the chord in two planes), dense matrices, pads by trying
// every set of them.

// A rod is a member: its section's numbers and its weight by length.
type rod struct {
	from, to     int
	a, iy, iz, j float64
	mass         float64
	hinged       bool // a bar: force along it only
}

// A spaceFrame stands on springs at some of its nodes.
type spaceFrame struct {
	at    []point
	rods  []rod
	pads  map[int]point // stiffness along x, y, z
	loads []point       // forces on nodes
	turns []point       // moments on nodes
	mass  []float64     // on nodes
	pull  float64       // of gravity on the members
}

const (
	steelE = 210e9
	steelG = 81e9
)

func minus(a, b point) point { return point{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func across(a, b point) point {
	return point{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}
func along(a, b point) float64       { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func size(a point) float64           { return math.Sqrt(along(a, a)) }
func times(a point, c float64) point { return point{a[0] * c, a[1] * c, a[2] * c} }

// axesOf are a member's length and its x, y and z: z as near to upright as it
// can be, towards global x where the member is upright itself.
func (f *spaceFrame) axesOf(r rod) (float64, [3]point) {
	d := minus(f.at[r.to], f.at[r.from])
	l := size(d)
	x := times(d, 1/l)
	up := point{0, 0, 1}
	if math.Abs(x[2]) > 0.9999 {
		up = point{1, 0, 0}
	}
	z := minus(up, times(x, along(up, x)))
	z = times(z, 1/size(z))
	return l, [3]point{x, across(z, x), z}
}

// deform is how the six deformations follow from the twelve movements of the
// ends, and their stiffness.
func (f *spaceFrame) deform(r rod) (b [6][12]float64, k [6][6]float64) {
	l, ax := f.axesOf(r)
	for c := range 3 {
		b[0][c], b[0][6+c] = -ax[0][c], ax[0][c]
		b[1][3+c], b[1][9+c] = -ax[0][c], ax[0][c]
		// A turn of the chord about y lowers the far end along z, about z lifts it along y.
		for end := range 2 {
			b[2+end][3+6*end+c] = ax[1][c]
			b[2+end][c] -= ax[2][c] / l
			b[2+end][6+c] += ax[2][c] / l
			b[4+end][3+6*end+c] = ax[2][c]
			b[4+end][c] += ax[1][c] / l
			b[4+end][6+c] -= ax[1][c] / l
		}
	}
	k[0][0] = steelE * r.a / l
	if r.hinged {
		return b, k
	}
	k[1][1] = steelG * r.j / l
	for p, i := range []float64{r.iy, r.iz} {
		s := 2 * steelE * i / l
		k[2+2*p][2+2*p], k[3+2*p][3+2*p] = 2*s, 2*s
		k[2+2*p][3+2*p], k[3+2*p][2+2*p] = s, s
	}
	return b, k
}

// stiffness is the matrix of the frame on those of its pads that stand.
func (f *spaceFrame) stiffness(stands func(node int) bool) *mat.SymDense {
	k := mat.NewSymDense(6*len(f.at), nil)
	add := func(i, j int, v float64) {
		if i <= j {
			k.SetSym(i, j, k.At(i, j)+v)
		}
	}
	for _, r := range f.rods {
		b, s := f.deform(r)
		place := func(i int) int {
			if i < 6 {
				return 6*r.from + i
			}
			return 6*r.to + i - 6
		}
		for i := range 12 {
			for j := range 12 {
				v := 0.0
				for p := range 6 {
					for q := range 6 {
						v += b[p][i] * s[p][q] * b[q][j]
					}
				}
				add(place(i), place(j), v)
			}
		}
	}
	for n, spring := range f.pads {
		if stands(n) {
			for c := range 3 {
				add(6*n+c, 6*n+c, spring[c])
			}
		}
	}
	return k
}

// weight is what a member presses on its ends with, and the moments that keep
// them from turning.
func (f *spaceFrame) weight(r rod) (force point, moment point) {
	l, ax := f.axesOf(r)
	q := point{0, 0, -r.mass * f.pull}
	force = times(q, l/2)
	if !r.hinged {
		moment = times(across(ax[0], q), l*l/12)
	}
	return force, moment
}

// load is what presses on every freedom.
func (f *spaceFrame) load() *mat.VecDense {
	load := mat.NewVecDense(6*len(f.at), nil)
	put := func(node, c int, v float64) { load.SetVec(6*node+c, load.AtVec(6*node+c)+v) }
	for i := range f.at {
		for c := range 3 {
			if f.loads != nil {
				put(i, c, f.loads[i][c])
			}
			if f.turns != nil {
				put(i, 3+c, f.turns[i][c])
			}
		}
		if f.mass != nil {
			put(i, 2, -f.mass[i]*f.pull)
		}
	}
	for _, r := range f.rods {
		force, moment := f.weight(r)
		for c := range 3 {
			put(r.from, c, force[c])
			put(r.to, c, force[c])
			put(r.from, 3+c, moment[c])
			put(r.to, 3+c, -moment[c])
		}
	}
	return load
}

// standing is the movement of every freedom with every pad held down.
func (f *spaceFrame) standing() ([]float64, error) {
	var c mat.Cholesky
	if !c.Factorize(f.stiffness(func(int) bool { return true })) {
		return nil, errors.New("the frame is a mechanism")
	}
	var x mat.VecDense
	err := c.SolveVecTo(&x, f.load())
	return x.RawVector().Data, err
}

// solve is the movement of every freedom, pads lifted as they must.
func (f *spaceFrame) solve(t *testing.T) (u []float64, lifted []int) {
	t.Helper()
	load := f.load()
	var pads []int
	for i := range f.at {
		if _, ok := f.pads[i]; ok {
			pads = append(pads, i)
		}
	}
	for set := range 1 << len(pads) {
		up := map[int]bool{}
		for i, p := range pads {
			up[p] = set>>i&1 == 1
		}
		if len(pads)-bits.OnesCount(uint(set)) < 2 {
			continue
		}
		var c mat.Cholesky
		if !c.Factorize(f.stiffness(func(n int) bool { return !up[n] })) || c.Cond() > 1e14 {
			continue
		}
		var x mat.VecDense
		if err := c.SolveVecTo(&x, load); err != nil {
			continue
		}
		fits := true
		lifted = nil
		for _, p := range pads {
			if z := x.AtVec(6*p + 2); up[p] != (z > 0) {
				fits = false
			}
			if up[p] {
				lifted = append(lifted, p)
			}
		}
		if fits {
			return x.RawVector().Data, lifted
		}
	}
	t.Fatal("no set of pads fits")
	return nil, nil
}

// A cut is the internal forces at a place of a member: N, VY, VZ, T, MY, MZ, of
// the part beyond on the part before.
type cut [6]float64

// cuts are a member's internal forces at a share of its length.
func (f *spaceFrame) cut(r rod, u []float64, share float64) cut {
	l, ax := f.axesOf(r)
	b, k := f.deform(r)
	var e [6]float64
	for p := range 6 {
		for i := range 6 {
			e[p] += b[p][i]*u[6*r.from+i] + b[p][6+i]*u[6*r.to+i]
		}
	}
	var s [6]float64 // pull, twist, turning moments on both ends about y and about z
	for p := range 6 {
		for q := range 6 {
			s[p] += k[p][q] * e[q]
		}
	}
	q := point{0, 0, -r.mass * f.pull}
	qx, qy, qz := along(ax[0], q), along(ax[1], q), along(ax[2], q)
	if !r.hinged { // ends that the weight would turn
		s[2], s[3] = s[2]+qz*l*l/12, s[3]-qz*l*l/12
		s[4], s[5] = s[4]-qy*l*l/12, s[5]+qy*l*l/12
	}
	// At the first end: the moment there is minus the one that turns it; the shear
	// from the balance of moments about the second.
	my0, mz0 := -s[2], -s[4]
	vz0 := (s[2]+s[3])/l + qz*l/2
	vy0 := -(s[4]+s[5])/l + qy*l/2
	x := share * l
	return cut{
		s[0] + qx*(l/2-x),
		vy0 - qy*x,
		vz0 - qz*x,
		s[1],
		my0 + vz0*x - qz*x*x/2,
		mz0 - vy0*x + qy*x*x/2,
	}
}

// split cuts every member but bars into pieces.
func (f *spaceFrame) split(pieces int) *spaceFrame {
	g := &spaceFrame{at: append([]point{}, f.at...), pads: f.pads, mass: append([]float64{}, f.mass...)}
	for _, r := range f.rods {
		n := pieces
		if r.hinged {
			n = 1
		}
		d := minus(f.at[r.to], f.at[r.from])
		before := r.from
		for k := 1; k <= n; k++ {
			piece := r
			piece.from, piece.to = before, r.to
			if k < n {
				at := f.at[r.from]
				for c := range 3 {
					at[c] += d[c] * float64(k) / float64(n)
				}
				g.at, g.mass = append(g.at, at), append(g.mass, 0)
				piece.to = len(g.at) - 1
			}
			before = piece.to
			g.rods = append(g.rods, piece)
		}
	}
	return g
}

// lowest are the lowest values of K·x = v·M·x, by inverse iteration on a
// few shapes at once.
func lowest(t *testing.T, k *mat.SymDense, m mat.Symmetric, count int) []float64 {
	t.Helper()
	n := k.SymmetricDim()
	var c mat.Cholesky
	if !c.Factorize(k) {
		t.Fatal("the frame is a mechanism")
	}
	width := count + 5
	x := mat.NewDense(n, width, nil)
	for i := range n {
		for j := range width {
			x.Set(i, j, math.Sin(float64(1+i*(j+2)*(j+3)))) // some of every shape
		}
	}
	var values []float64
	for range 25 {
		var mx, y mat.Dense
		mx.Mul(m, x)
		if err := c.SolveTo(&y, &mx); err != nil {
			t.Fatal(err)
		}
		// Within these shapes: yᵀKy and yᵀMy, whose values are found as of a small problem.
		var my, a, b mat.Dense
		my.Mul(m, &y)
		a.Mul(y.T(), &mx) // yᵀ·K·y, since K·y = M·x
		b.Mul(y.T(), &my)
		var inverse, small mat.Dense
		if err := inverse.Inverse(&a); err != nil {
			t.Fatal(err)
		}
		small.Mul(&inverse, &b) // values 1/v
		var e mat.Eigen
		if !e.Factorize(&small, mat.EigenRight) {
			t.Fatal("no values")
		}
		var vectors mat.CDense
		e.VectorsTo(&vectors)
		turn := mat.NewDense(width, width, nil)
		values = nil
		for j, v := range e.Values(nil) {
			values = append(values, 1/real(v))
			for i := range width {
				turn.Set(i, j, real(vectors.At(i, j)))
			}
		}
		x.Mul(&y, turn)
		for j := range width {
			most := 0.0
			for i := range n {
				most = math.Max(most, math.Abs(x.At(i, j)))
			}
			for i := range n {
				x.Set(i, j, x.At(i, j)/most)
			}
		}
	}
	var positive []float64
	for _, v := range values {
		if v > 0 {
			positive = append(positive, v)
		}
	}
	slices.Sort(positive)
	return positive[:min(count, len(positive))]
}

// frequencies are the lowest with the members in pieces, their mass gathered at
// the ends of each.
func (f *spaceFrame) frequencies(t *testing.T, pieces, count int) []float64 {
	t.Helper()
	g := f.split(pieces)
	m := mat.NewSymDense(6*len(g.at), nil)
	add := func(node int, kg float64) {
		for c := range 3 {
			m.SetSym(6*node+c, 6*node+c, m.At(6*node+c, 6*node+c)+kg)
		}
	}
	for i, kg := range g.mass {
		add(i, kg)
	}
	for _, r := range g.rods {
		l, _ := g.axesOf(r)
		add(r.from, r.mass*l/2)
		add(r.to, r.mass*l/2)
	}
	var out []float64
	for _, v := range lowest(t, g.stiffness(func(int) bool { return true }), m, count) {
		out = append(out, math.Sqrt(v)/(2*math.Pi))
	}
	return out
}

// buckling is the factor on the members' pulls, of a solution, at which the frame buckles,
// each piece leaning as a string does and, as it twists, its fibres with it.
func (f *spaceFrame) buckling(t *testing.T, pieces int, u []float64, lifted []int) float64 {
	t.Helper()
	g := f.split(pieces)
	m := mat.NewSymDense(6*len(g.at), nil)
	i := 0
	for _, r := range f.rods {
		n := pieces
		if r.hinged {
			n = 1
		}
		for k := range n {
			pull := f.cut(r, u, (float64(k)+0.5)/float64(n))[0]
			piece := g.rods[i]
			i++
			l, ax := g.axesOf(piece)
			for a := range 3 {
				for b := range 3 {
					lean := -pull / l * (ax[1][a]*ax[1][b] + ax[2][a]*ax[2][b])
					twist := -pull / l * (piece.iy + piece.iz) / piece.a * ax[0][a] * ax[0][b]
					if piece.hinged {
						twist = 0
					}
					for _, s := range []struct {
						p, q int
						sign float64
					}{{piece.from, piece.from, 1}, {piece.to, piece.to, 1}, {piece.from, piece.to, -1}, {piece.to, piece.from, -1}} {
						if p, q := 6*s.p+a, 6*s.q+b; p <= q {
							m.SetSym(p, q, m.At(p, q)+s.sign*lean)
							m.SetSym(p+3, q+3, m.At(p+3, q+3)+s.sign*twist)
						}
					}
				}
			}
		}
	}
	up := map[int]bool{}
	for _, n := range lifted {
		up[n] = true
	}
	return lowest(t, g.stiffness(func(n int) bool { return !up[n] }), m, 1)[0]
}

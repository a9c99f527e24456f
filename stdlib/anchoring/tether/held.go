package tether

import (
	"math"
	"slices"

	"tautline/stdlib/anchoring"
	"tautline/stdlib/anchoring/windload"
	"tautline/stdlib/internal/argument"
	"tautline/stdlib/units"
)

// The states of a device.
const (
	StateStands string = "stands"                                                 // every foot presses and friction is not used up
	StateSlid   string = "slid until its straps held it"                          // friction is used up at every foot that presses
	StateLifted string = "lifted until its straps held it"                        // at least one foot is off the ground
	StateHangs  string = "flies on its straps"                                    // no foot presses
	StateTips   string = "lost: it tips over"                                     // no equilibrium
	StateSlides string = "lost: it slides away"                                   // no equilibrium
	StateLifts  string = "lost: it lifts off"                                     // no equilibrium
	StateTurns  string = "lost: it turns on the spot"                             // no equilibrium: the straps all point at one axis
	StateFar    string = "lost: it moves farther than half the length of a strap" // no equilibrium near where it stood
	StateOpen   string = "undecided: no equilibrium was found"                    // friction and pressing did not come to agree
)

// Held is what one load does to a set.
type Held struct {
	Speed       units.Speed   // of the wind, without factor
	From        units.Angle   // bearing that it comes from
	State       string        // "stands", "slid …", "lifted …", "flies …", "lost: …" or "undecided: …"
	Stands      bool          // there is an equilibrium
	Tension     []units.Force // in each strap; none when lost
	Press       []units.Force // under each foot; none when lost
	Lifted      units.Number  // feet that do not press
	Utilisation units.Number  // greatest tension over holding; infinite when lost
	Governs     string        // the anchor with it; empty when no strap pulls
	Movement    units.Length  // greatest of an eye
	Warnings    []string
}

// Solve is what a wind of a speed from a bearing does to the set: the factored
// wind on its faces, and its factored weight.
//
// The speed is 0 or more. A set or a number out of its range is an error. A
// device that nothing holds comes back as lost, with an infinite utilisation. A
// force coefficient below 1, a holding above 50 kN and a strap that does not rise
// carry warnings.
//
// Source: equilibrium and least energy, derived here; factors from the set.
func (s Set) Solve(speed units.Speed, from units.Angle) (Held, error) {
	m, err := s.model()
	if err == nil {
		err = argument.NotNegative("wind speed", speed)
	}
	if err != nil {
		return Held{}, err
	}
	l, err := windload.On(s.Faces, s.Pressure(speed), from)
	if err != nil {
		return Held{}, err
	}
	h := m.hold(wrenchOfLoad(l, s.Factors.Wind))
	h.Speed, h.From = speed, from
	h.Warnings = s.warnings()
	return h, nil
}

// Under is what a load does to the set, taken as it is, beside the factored
// weight.
//
// A set out of its range is an error. A device that nothing holds comes back as
// lost, with an infinite utilisation.
//
// Source: as Solve.
func (s Set) Under(load windload.Load) (Held, error) {
	m, err := s.model()
	if err != nil {
		return Held{}, err
	}
	h := m.hold(wrenchOfLoad(load, 1))
	h.Warnings = s.warnings()
	return h, nil
}

// A model is a set made ready to be solved many times.
type model struct {
	set    Set
	body   body
	centre [3]float64 // that turns are about
	weight [6]float64
	floor  floor
	far    float64 // that an eye may move, half the shortest strap
	u      vector  // the last equilibrium, from where the next search starts
}

// model makes a set ready.
func (s Set) model() (*model, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	m := &model{set: s, weight: s.weight(), body: body{off: -1}, floor: floor{first: len(s.Anchors)}, far: math.Inf(1)}
	m.measure()
	for _, a := range s.Anchors {
		L := a.Length()
		m.far = math.Min(m.far, L/2)
		d := [3]float64{(a.Ground.X - a.Eye.X) / L, (a.Ground.Y - a.Eye.Y) / L, (a.Ground.Z - a.Eye.Z) / L}
		m.body.springs = append(m.body.springs, spring{m.unit(a.Eye, d), a.Stiffness, a.Pretension - a.Stiffness*a.Slack})
	}
	for _, f := range s.Feet {
		m.body.springs = append(m.body.springs, spring{m.unit(f.At, [3]float64{0, 0, 1}), f.Stiffness, 0})
		m.body.grips = append(m.body.grips, grip{m.unit(f.At, [3]float64{1, 0, 0}), m.unit(f.At, [3]float64{0, 1, 0}), f.Stiffness, 0})
		m.floor.mu = append(m.floor.mu, f.Friction)
	}
	m.stand()
	return m, nil
}

// measure finds the middle of the eyes and feet, and how far they lie from it.
func (m *model) measure() {
	var places [][3]float64
	for _, a := range m.set.Anchors {
		places = append(places, coordinates(a.Eye))
	}
	for _, f := range m.set.Feet {
		places = append(places, coordinates(f.At))
	}
	for i := range 3 {
		for _, p := range places {
			m.centre[i] += p[i] / float64(len(places))
		}
	}
	for _, p := range places {
		for i := range 3 {
			m.body.size = math.Max(m.body.size, math.Abs(p[i]-m.centre[i]))
		}
	}
	if m.body.size == 0 {
		m.body.size = 1 // everything at one point
	}
}

// stand makes the device as it was strapped down the state without movement: its
// feet already press under the weight and the pretension, so that in calm every
// strap has just its pretension. A device that cannot stand by itself starts with
// feet that only touch.
func (m *model) stand() {
	feet := m.body.springs[m.floor.first:]
	w, level := m.weight, 0.0
	for _, a := range m.set.Anchors {
		T := a.Pretension / a.Length()
		pull := wrenchOf(coordinates(a.Eye), [3]float64{T * (a.Ground.X - a.Eye.X), T * (a.Ground.Y - a.Eye.Y), T * (a.Ground.Z - a.Eye.Z)})
		for i := range w {
			w[i] += pull[i]
		}
	}
	for _, f := range m.set.Feet {
		level += f.At.Z / float64(len(feet))
	}
	// What slides and turns is held by friction or straps; it acts at the feet.
	load := m.scaled([6]float64{0, 0, w[2], w[3] + level*w[1], w[4] - level*w[0], 0})
	alone, u := body{springs: feet, off: -1, size: m.body.size}, vector{}
	if v, _ := alone.settle(&load, &u); v != found {
		return
	}
	for i := range feet {
		feet[i].p = math.Max(0, feet[i].force(&u))
	}
}

func coordinates(p anchoring.Point) [3]float64 { return [3]float64{p.X, p.Y, p.Z} }

// unit is the wrench of a unit force at a point, as the body takes it.
func (m *model) unit(at anchoring.Point, d [3]float64) vector {
	return m.scaled(wrenchOf(coordinates(at), d))
}

// scaled moves a wrench to the centre and makes its moments of the size of
// forces.
func (m *model) scaled(w [6]float64) vector {
	c := wrenchOf(m.centre, [3]float64{w[0], w[1], w[2]})
	v := vector(w)
	for i := 3; i < 6; i++ {
		v[i] = (w[i] - c[i]) / m.body.size
	}
	return v
}

// equilibrium moves the body to where it rests under a load beside the weight,
// from where it rested last. It returns the state of a body that is lost, nothing
// when it rests.
func (m *model) equilibrium(load [6]float64) (lostBy string) {
	weight, push := m.scaled(m.weight), m.scaled(load)
	switch v, way := m.rub(&weight, &push); {
	case v == lost:
		lostBy = losing(&way)
	case v == undecided:
		lostBy = StateOpen
	case m.strayed():
		lostBy = StateFar
	}
	if lostBy != "" {
		m.u = vector{}
	}
	return lostBy
}

// strayed reports whether an eye moved so far that straps no longer pull where
// they did.
func (m *model) strayed() bool {
	turn := math.Hypot(math.Hypot(m.u[3], m.u[4]), m.u[5])
	if way := math.Hypot(math.Hypot(m.u[0], m.u[1]), m.u[2]); way+2*turn < m.far {
		return false // no eye is farther off than twice the size
	}
	for _, a := range m.set.Anchors {
		if m.movement(a.Eye) > m.far {
			return true
		}
	}
	return false
}

// rub settles the body with friction, from feet that hold fast wherever they
// press. When bounds and pressing do not come to agree from there, the load comes
// on little by little.
func (m *model) rub(weight, push *vector) (verdict, vector) {
	rough := false
	for i, foot := range m.set.Feet {
		m.body.grips[i].bound = 0
		if foot.Friction > 0 {
			m.body.grips[i].bound = math.MaxFloat64
			rough = true
		}
	}
	f := *weight
	f.add(1, push)
	v, way := m.body.settle(&f, &m.u)
	if !rough || v != found {
		return v, way
	}
	fast := m.u
	if m.body.agree(&f, &m.u, m.floor) {
		return found, way
	}
	m.u = fast
	if v, way = m.body.relax(&f, &m.u, m.floor); v == found {
		return v, way
	}
	const steps = 64
	m.u = vector{}
	for k := range steps {
		f = *weight
		f.add(float64(k+1)/steps, push)
		if !m.body.agree(&f, &m.u, m.floor) {
			return v, way
		}
	}
	return found, way
}

// hold solves one load and says what it does.
func (m *model) hold(load [6]float64) Held {
	if lostBy := m.equilibrium(load); lostBy != "" {
		return Held{State: lostBy, Utilisation: math.Inf(1)}
	}
	h, anchors := Held{Stands: true}, m.set.Anchors
	h.Tension, h.Press = make([]float64, len(anchors)), make([]float64, len(m.set.Feet))
	for i := range h.Press {
		h.Press[i] = math.Max(0, m.body.springs[len(anchors)+i].force(&m.u))
	}
	for i, a := range anchors {
		h.Tension[i] = m.tension(i)
		if use := h.Tension[i] / a.Holding; use > h.Utilisation {
			h.Utilisation, h.Governs = use, a.Name
		}
		h.Movement = math.Max(h.Movement, m.movement(a.Eye))
	}
	h.State, h.Lifted = m.state(h)
	return h
}

// tension is the tension of a strap in the last equilibrium.
func (m *model) tension(i int) float64 {
	if i == m.body.off {
		return 0
	}
	return math.Max(0, m.body.springs[i].force(&m.u))
}

// state names what the device did, and counts the feet off the ground.
func (m *model) state(h Held) (state string, lifted float64) {
	slips, presses := true, 0
	light := 1e-9 * slices.Max(append([]float64{0}, append(h.Press, h.Tension...)...))
	for i, p := range h.Press {
		if p <= light {
			lifted++
			continue
		}
		presses++
		g := &m.body.grips[i]
		if g.bound > 0 {
			_, _, over := g.hold(&m.u)
			slips = slips && over >= 1-1e-9
		}
	}
	switch {
	case len(h.Press) > 0 && presses == 0:
		return StateHangs, lifted
	case lifted > 0:
		return StateLifted, lifted
	case slips && m.slid():
		return StateSlid, lifted
	}
	return StateStands, lifted
}

// slid reports whether the feet moved along the ground: without friction, straps
// alone hold the body there, and it has slid when any load pushed it.
func (m *model) slid() bool {
	for i := range m.body.grips {
		g := &m.body.grips[i]
		if math.Hypot(dot(&g.east, &m.u), dot(&g.north, &m.u)) > 1e-9*m.body.size {
			return true
		}
	}
	return false
}

// movement is how far a point of the body moved.
func (m *model) movement(at anchoring.Point) float64 {
	x, y, z := m.unit(at, [3]float64{1, 0, 0}), m.unit(at, [3]float64{0, 1, 0}), m.unit(at, [3]float64{0, 0, 1})
	return math.Hypot(math.Hypot(dot(&x, &m.u), dot(&y, &m.u)), dot(&z, &m.u))
}

// losing names a movement that nothing stops.
func losing(way *vector) string {
	slide, lift := math.Hypot(way[0], way[1]), math.Abs(way[2])
	tip, turn := math.Hypot(way[3], way[4]), math.Abs(way[5])
	most := math.Max(math.Max(slide, lift), math.Max(tip, turn))
	switch {
	case tip > 0.1*most:
		return StateTips
	case lift == most:
		return StateLifts
	case turn == most:
		return StateTurns
	}
	return StateSlides
}

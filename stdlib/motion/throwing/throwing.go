// Package throwing calculates where riders land that a moving base throws, how
// fast, and how large the bed and where its wall has to be.
//
// A Game is a base with its programme, a place on it, the Riders who may come off
// and the Bed about it. Throw draws many riders from a seed, lets each come off
// and fly, and gives the Landings: counts, and an Envelope for each share of them.
//
//	land := sheet.Must(game.Throw())
//	most := land.Envelopes[1] // of 99.9 %
//	sheet.AtMost("bodies land on the bed", most.Whole.Upper, inner)
//	deep := sheet.Must(bed.Drop(heavy, most.Fall.Upper)) // package landing
//
// Meet lets two riders fly who come off soon after each other: do they touch?
//
// A Projectile and a Topple are closed forms of one flight, to check the many by.
//
// Axes: as in package motion, z up. Places on the ground are counted from the
// middle of the bed.
//
// Invariants: the same seed gives the same flights. What is drawn is drawn with
// whole-number arithmetic, and a flight starts from numbers rounded to 1e-9 m, so
// that systems which round a product and a sum at once do not differ.
//
// What the model does not hold: a body is its middle, with a ball about it that
// touches and a length that reaches. Limbs, turning over, sliding over an edge and
// bouncing off are not in it.
//
// A throw can kill. The numbers support a competent designer and an inspection
// body; local law and the standards that apply come first, and a ride is proved by
// throwing dummies.
package throwing

import (
	"cmp"
	"fmt"

	"tautline/stdlib/internal/argument"
	"tautline/stdlib/kept"
	"tautline/stdlib/motion"
	"tautline/stdlib/units"
)

// Riders are who may be thrown, and how they hold on and push off. Each pair are
// the ends of what is drawn, evenly between them.
type Riders struct {
	Short, Tall   units.Length      // height of the body, more than 0
	Slight, Stout units.MassPerArea // mass over the square of the height, more than 0
	Weak, Strong  units.Number      // force that the hands hold, over the body's weight, 0 or more; both 0: lets go by himself
	Brief, Long   units.Time        // for which more than that has to last until the hands open, 0 or more
	Least, Most   units.Speed       // of pushing off, in any direction upward from the roll part, all alike, 0 or more
}

func (r Riders) check() error {
	for _, p := range []struct {
		what      string
		low, high float64
		least     func(string, float64) error
	}{
		{"body height", r.Short, r.Tall, argument.Positive},
		{"mass over squared height", r.Slight, r.Stout, argument.Positive},
		{"grip", r.Weak, r.Strong, argument.NotNegative},
		{"time of holding", r.Brief, r.Long, argument.NotNegative},
		{"push-off", r.Least, r.Most, argument.NotNegative},
	} {
		if err := cmp.Or(p.least(p.what, p.low), p.least(p.what, p.high)); err != nil {
			return err
		}
		if p.low > p.high {
			return fmt.Errorf("%s: got %g to %g, want the lower end first", p.what, p.low, p.high)
		}
	}
	return nil
}

// A Bed is round and level inside its wall.
type Bed struct {
	X, Y  units.Length // of the base's yaw axis, from the middle of the bed
	Inner units.Length // radius of the wall's inner side, more than 0
	Crown units.Length // height of the bed's top over the ground, 0 or more
	Wall  units.Length // height of the wall over that, 0 or more
}

// A Sitter is another rider, who stays in his seat.
type Sitter struct {
	At     motion.Point // middle of the seat, from the roll axis in the roll part
	Height units.Length // of the body over it, 0 or more; he is as thick as the one who flies
}

// A Game is what throws, whom, from where and onto what.
type Game struct {
	Base        motion.Base // its Hull, if it has one, is what may be hit
	Programme   motion.Programme
	From, Until units.Time // moments of the ride that are drawn from; both 0: the whole ride

	Place    motion.Point // middle of the seat, or of the feet of who stands, from the roll axis in the roll part
	Edge     bool         // he goes over the edge of the hull, where his push leads to, and does not fly straight from the place
	Middle   units.Number // height of the middle of mass over that, over body height: about 0.14 sitting, 0.55 standing
	Friction units.Number // on the seat: what it holds, the hands need not; 0 or more
	Riders   Riders
	Others   []Sitter // who may be hit

	Round   units.Length  // radius of the ball about the middle of mass that touches: half as thick as a body, more than 0
	Stretch units.Number  // from the middle of mass to the farthest part, over body height: about 0.55 to the feet, 0.7 to hands held over the head
	Drag    units.Area    // of the body, drag coefficient times area; 0 leaves the air out
	Air     units.Density // needed with Drag

	Bed        Bed
	PostRadius units.Length // of the upright cylinder about the yaw axis that the base stands in; 0 for none
	PostHeight units.Length // of it over the ground
	HullDepth  units.Length // of the hull below its edge

	Flights    int            // to draw, 1 to 1000000
	Seed       int            // 0 or more
	Shares     []units.Number // of the flights that an Envelope holds, each more than 0.5 and less than 1
	Confidence units.Number   // of the Upper of each Quantile, more than 0 and less than 1
}

func (g Game) check() error {
	for _, err := range []error{
		g.Riders.check(),
		argument.NotNegative("from", g.From), argument.NotNegative("until", g.Until),
		argument.Finite("place", g.Place.X+g.Place.Y+g.Place.Z), argument.NotNegative("middle", g.Middle), argument.NotNegative("friction", g.Friction),
		argument.Positive("round", g.Round), argument.NotNegative("stretch", g.Stretch), argument.NotNegative("drag", g.Drag), argument.NotNegative("air", g.Air),
		argument.Finite("place of the base", g.Bed.X+g.Bed.Y), argument.Positive("inner radius of the bed", g.Bed.Inner),
		argument.NotNegative("crown", g.Bed.Crown), argument.NotNegative("wall", g.Bed.Wall),
		argument.NotNegative("radius of the post", g.PostRadius), argument.NotNegative("height of the post", g.PostHeight), argument.NotNegative("depth of the hull", g.HullDepth),
		argument.Within("flights", float64(g.Flights), 1, 1e6), argument.NotNegative("seed", float64(g.Seed)),
		argument.Above("confidence", g.Confidence, 0), argument.Above("1 less confidence", 1-g.Confidence, 0),
	} {
		if err != nil {
			return err
		}
	}
	if g.Drag > 0 && g.Air == 0 {
		return fmt.Errorf("air: got 0, want its density, since there is drag")
	}
	if g.Edge && len(g.Base.Hull) < 3 {
		return fmt.Errorf("hull: got %d points, want an outline of three or more, since riders go over its edge", len(g.Base.Hull))
	}
	for _, o := range g.Others {
		if err := cmp.Or(argument.Finite("place of another rider", o.At.X+o.At.Y+o.At.Z), argument.NotNegative("height of another rider", o.Height)); err != nil {
			return err
		}
	}
	for _, s := range g.Shares {
		if !(s > 0.5 && s < 1) {
			return fmt.Errorf("share: got %g, want more than 0.5 and less than 1", s)
		}
	}
	return nil
}

// Landings are what became of all flights of a game.
type Landings struct {
	Game  Game
	Drawn units.Number // riders
	Held  units.Number // of them, who came off at no moment
	Back  units.Number // who came down on the hull that they left: they do not count as thrown
	Clear units.Number // who flew to the bed: all that follows is of these
	Hull  units.Number // who were struck by the hull, or struck it, from outside; they are followed as if it were not there
	Post  units.Number // who struck the base
	Over  units.Number // who passed over the wall
	Off   units.Number // whose middle came down beyond the wall's inner side

	HullSpeed units.Speed // greatest between body and hull where they met
	PostSpeed units.Speed // and where a body met the base

	Envelopes []Envelope // one for each share
	Squares   []Square   // where they landed
	Warnings  []string

	Slid     units.Number // whose way to the edge led through another rider; they are followed as if he were not there
	Met      units.Number // who met another rider in the air
	MetSpeed units.Speed  // greatest between the two where they met
}

// A Quantile is a length that a share of the flights keeps within.
type Quantile struct {
	Best  units.Length // of the flights drawn
	Upper units.Length // that a share of all flights like these keeps within, with the game's confidence
}

// An Envelope is what a share of the flights keeps within.
type Envelope struct {
	Share  units.Number
	Radius Quantile       // from the bed's middle to the middle of a body as it lands
	Whole  Quantile       // and to its farthest part: the inner radius that the bed needs
	Wall   Quantile       // inner radius that a wall of this height needs, so that nobody passes over it
	Fall   Quantile       // free fall that ends as fast as the landing: hand it to package landing
	Drop   Quantile       // of the middle of a body, from its highest point to where it lands
	X, Y   []units.Length // contour: see Throw
}

// A Square is a square of the bed's plan, one tenth of a metre wide, that riders
// landed on.
type Square struct {
	X, Y    units.Length // its middle
	Flights units.Number
}

// Throw draws the riders and follows each flight.
//
// A rider is drawn with a moment. From then on he holds on, until the force that
// the hands need, beyond what the seat carries and its friction holds, is more
// than his grip for his time of holding; with a grip of 0 he lets go at once. He
// leaves from his place, or where his push leads him over the edge of the hull,
// as high over the edge as over the place; how he slides there is not followed. He
// leaves with the velocity of the roll part there and his push, and flies freely,
// with drag if there is any, until the ball about his middle meets the level of
// the bed. Every 20 ms it is seen whether that ball meets the base's post, or comes
// nearer to the hull, which moves on, than it was at the start; the edge that he
// goes over does not count until he has once been outside it. In the same way it is
// seen whether he meets another rider in his seat: both are as thick as twice Round.
//
// The Best of a Quantile is the smallest that holds the share of the flights drawn,
// the Upper the order statistic that Rank gives. The contour is the smallest of
// this family of convex outlines that holds the share of the landings: the
// intersection of 36 half-planes, one for every 10°, each of which leaves out the
// same count of landings.
//
// A number out of its range, a programme that does not run and a game in which
// nobody is thrown are errors. Too few flights for the confidence give a warning,
// and the Upper is the greatest drawn.
//
// Caution: the shares are of the spread that is put in, not of people. Who is
// lighter, stronger or more frightened than that lands elsewhere.
//
// Source: Newton's second law, derived here; quantiles as in Rank.
func (g Game) Throw() (Landings, error) { return kept.Result("throwing.Game.Throw", g, Game.throw) }

func (g Game) throw() (Landings, error) {
	if err := g.check(); err != nil {
		return Landings{}, fmt.Errorf("throw: %w", err)
	}
	s, err := newStage(g)
	if err != nil {
		return Landings{}, fmt.Errorf("throw: %w", err)
	}
	l := Landings{Game: g, Drawn: float64(g.Flights)}
	var t tally
	draw := draws(uint64(g.Seed) << 20)
	for range g.Flights {
		f, off := s.release(&draw)
		if !off {
			l.Held++
			continue
		}
		s.fly(&f)
		if f.back {
			l.Back++
			continue
		}
		l.count(f)
		t.take(s, f)
	}
	if l.Clear = float64(len(t.x)); l.Clear == 0 {
		return Landings{}, fmt.Errorf("throw: of %d riders nobody flew to the bed: weaken the grip or push off harder", g.Flights)
	}
	t.envelopes(&l)
	l.Squares = t.squares()
	return l, nil
}

// count notes what a flight met.
func (l *Landings) count(f flight) {
	add := func(to *float64, yes bool) {
		if yes {
			*to++
		}
	}
	add(&l.Hull, f.hull > 0)
	add(&l.Post, f.post > 0)
	add(&l.Over, f.over)
	add(&l.Off, f.off)
	add(&l.Slid, f.slid)
	add(&l.Met, f.met > 0)
	l.HullSpeed, l.PostSpeed, l.MetSpeed = max(l.HullSpeed, f.hull), max(l.PostSpeed, f.post), max(l.MetSpeed, f.met)
}

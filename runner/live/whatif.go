package live

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"tautline/runner"
	"tautline/runner/edit"
	"tautline/runner/engine"
	"tautline/runner/output"
)

// A session is one open page, with the numbers that are tried on it. They are
// seen on this page alone.
type session struct {
	book    *book
	id      string
	changed signal
	wake    chan struct{} // capacity 1
	end     context.CancelFunc

	mu       sync.Mutex
	streams  int         // that are open
	leaving  *time.Timer // ends the session when its page does not come back
	attempts map[string]attempt
	view     *view // with the attempts; nil without any
	running  bool
	began    time.Time
	cancel   context.CancelFunc // of the run in progress
}

// An attempt is another number for a given.
type attempt struct {
	typed   string // in the unit of its choice
	literal string // as it would stand in the notebook
	value   float64
}

const (
	maxSessions = 400
	away        = 30 * time.Second       // that a page may be away before its attempts are forgotten
	overtaken   = 150 * time.Millisecond // after which a run gives way to a newer number
)

// join opens a stream of the page called id. leave must follow.
func (b *book) join(id string) (*session, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	s := b.sessions[id]
	if s == nil {
		if len(b.sessions) >= maxSessions {
			return nil, errors.New("too many open pages")
		}
		ctx, end := context.WithCancel(b.desk.ctx)
		s = &session{book: b, id: id, wake: make(chan struct{}, 1), end: end, attempts: map[string]attempt{}}
		b.sessions[id] = s
		go s.work(ctx)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.streams++
	if s.leaving != nil {
		s.leaving.Stop()
		s.leaving = nil
	}
	return s, nil
}

// leave closes a stream.
func (s *session) leave() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.streams--; s.streams == 0 {
		s.leaving = time.AfterFunc(away, s.forget)
	}
}

func (s *session) forget() {
	s.book.mu.Lock()
	defer s.book.mu.Unlock()
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.streams > 0 {
		return
	}
	s.end()
	delete(s.book.sessions, s.id)
}

// session returns the open page called id; nil when there is none.
func (b *book) session(id string) *session {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.sessions[id]
}

// current is what the page shows now.
func (s *session) current() (v *view, running bool) {
	st := s.book.state.Load()
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.view != nil {
		return s.view, s.running || st.running
	}
	return st.view, s.running || st.running
}

// try puts another number in the place of a given; an empty one takes the attempt
// back.
func (s *session) try(name, typed string) error {
	r := s.book.state.Load().run
	if r == nil || !r.good {
		return errors.New("the notebook has not been run to its end yet: mend it first")
	}
	i := slices.IndexFunc(r.page.Choices, func(c Choice) bool { return c.Name == name })
	if i < 0 {
		return fmt.Errorf("%.40s: got a name that states no range, want one set with sheet.Given(value, low, high)", name)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if typed == "" {
		delete(s.attempts, name)
	} else {
		t, err := newAttempt(r, r.page.Choices[i], typed)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		s.attempts[name] = t
	}
	s.again()
	return nil
}

// drop forgets all attempts.
func (s *session) drop() {
	s.mu.Lock()
	defer s.mu.Unlock()
	clear(s.attempts)
	s.again()
}

// again has the page made anew. A run that takes long gives way.
func (s *session) again() {
	if s.cancel != nil {
		cancel := s.cancel
		time.AfterFunc(max(0, overtaken-time.Since(s.began)), cancel)
	}
	select {
	case s.wake <- struct{}{}:
	default:
	}
}

func newAttempt(r *run, c Choice, typed string) (attempt, error) {
	if place, err := edit.Find(r.result.Plan, c.Name); err == nil {
		literal, value, err := place.Number(typed, c.Unit)
		return attempt{strings.TrimSpace(typed), literal, value}, err
	}
	v, err := edit.Read(typed)
	return attempt{strings.TrimSpace(typed), "", c.Unit.ToSI(v)}, err
}

// work makes the page of the attempts whenever they change, or the notebook does.
func (s *session) work(ctx context.Context) {
	for {
		saved := s.book.changed.wait()
		s.trying(ctx)
		select {
		case <-ctx.Done():
			return
		case <-s.wake:
		case <-saved:
		}
	}
}

// trying runs the notebook with the attempts and shows what comes of it.
func (s *session) trying(ctx context.Context) {
	st := s.book.state.Load()
	s.mu.Lock()
	if len(s.attempts) == 0 {
		gone := s.view != nil
		s.view, s.running = nil, false
		s.mu.Unlock()
		if gone {
			s.changed.fire()
		}
		return
	}
	if st.run == nil || !st.run.good || st.running {
		s.mu.Unlock()
		return
	}
	values, literals := s.renew(st.run)
	if len(values) == 0 { // kept, or gone from the notebook
		s.view, s.running = nil, false
		s.mu.Unlock()
		s.changed.fire()
		return
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	s.cancel, s.began, s.running = cancel, time.Now(), true
	s.mu.Unlock()
	s.changed.fire()
	v := s.book.whatIf(ctx, st, values, literals)
	s.mu.Lock()
	s.cancel, s.running = nil, false
	if v != nil && len(s.attempts) > 0 {
		s.view = v
	}
	s.mu.Unlock()
	s.changed.fire()
}

// renew reads the attempts as the notebook now stands: those that it has itself
// are none any more.
func (s *session) renew(r *run) (engine.Variant, map[string]string) {
	values, typed := engine.Variant{}, map[string]string{}
	for name, t := range s.attempts {
		i := slices.IndexFunc(r.page.Choices, func(c Choice) bool { return c.Name == name })
		given, ok := r.result.Program.Givens[name]
		if i < 0 || !ok {
			delete(s.attempts, name)
			continue
		}
		now, err := newAttempt(r, r.page.Choices[i], t.typed)
		if err != nil || now.value == given {
			delete(s.attempts, name)
			continue
		}
		s.attempts[name] = now
		values[name], typed[name] = now.value, now.typed
	}
	return values, typed
}

// whatIf shows the notebook with other numbers; nil when ctx ended.
func (b *book) whatIf(ctx context.Context, st *state, values engine.Variant, typed map[string]string) *view {
	start := time.Now()
	out, err := b.desk.bench.run(ctx, b, st.run.result.Program, values)
	if ctx.Err() != nil {
		return nil
	}
	ran := time.Now()
	res := *st.run.result
	res.Outcome, res.Err = out, err
	r := &run{result: &res, good: res.Ran(), at: time.Now()}
	if err == nil {
		r.page, err = b.print(st.run.print, &res)
	}
	r.at = time.Now()
	r.times = Times{0, ran.Sub(start), r.at.Sub(ran)}
	if err != nil || !r.good {
		s := *st
		s.trouble, s.text = errorsOf(&res, err), res.Notebook.Source
		s.cells = res.Notebook.Cells()
		v := b.makeView(&s)
		return b.markAttempts(v, st, typed)
	}
	v := b.reportView(r)
	v.was = differences(st.run.page.Shown, r)
	v.bar = bar{Class: r.page.Class, Text: r.page.standing()}
	if len(st.trouble) > 0 {
		b.insertTrouble(v, st, r)
		v.bar = bar{Class: "trouble", Text: v.bar.Text + " The notebook has an error since: " + sayTrouble(st.trouble[0]), Href: "#" + troubleID(0)}
	}
	v.foot = fmt.Sprintf("What if, at %s: run in %s, printed in %s.", r.at.Format(time.TimeOnly), milliseconds(r.times.Run), milliseconds(r.times.Render))
	return b.markAttempts(v, st, typed)
}

// markAttempts says on a page that it shows attempts.
func (b *book) markAttempts(v *view, st *state, typed map[string]string) *view {
	v.givens = nil
	var said []string
	for _, c := range st.run.page.Choices {
		g := newGiven(st.run, c)
		if t, ok := typed[c.Name]; ok {
			g.Trial = t
			said = append(said, strings.TrimSpace(fmt.Sprintf("%s = %s %s", c.Name, t, g.Unit))+
				strings.TrimRight(fmt.Sprintf(" instead of %s %s", g.Value, g.Unit), " "))
		}
		v.givens = append(v.givens, g)
	}
	v.bar.Class = "whatif " + v.bar.Class
	v.bar.Text = "What if " + strings.Join(said, ", ") + "? Not saved. " + v.bar.Text
	return v
}

// keep writes the attempts into the notebook, each in the place of its number.
func (s *session) keep() error {
	b := s.book
	if b.desk.options.ReadOnly {
		return errors.New("this desk is read-only: the number can be tried, not kept")
	}
	r := b.state.Load().run
	s.mu.Lock()
	attempts := map[string]attempt{}
	for name, t := range s.attempts {
		attempts[name] = t
	}
	s.mu.Unlock()
	if len(attempts) == 0 || r == nil || !r.good {
		return errors.New("there is nothing to keep")
	}
	file, err := filepath.EvalSymlinks(b.file)
	if err != nil {
		return fmt.Errorf("%s: it is not there any more", b.file)
	}
	text, err := runner.Text(file)
	if err != nil {
		return fmt.Errorf("%s could not be read: %w", b.file, err)
	}
	if string(text) != string(r.result.Source) {
		return fmt.Errorf("%s has changed since it was run: wait for the page to follow, then keep again", b.file)
	}
	if text, err = replaceAll(text, r, attempts); err != nil {
		return err
	}
	if err := output.Replace(file, text); err != nil {
		return fmt.Errorf("%s could not be written, and stays as it was: %w", b.file, err)
	}
	b.touch(false)
	return nil
}

// replaceAll puts the literals of attempts in their places, the last first so that
// the others stay where they are.
func replaceAll(text []byte, r *run, attempts map[string]attempt) ([]byte, error) {
	type change struct {
		*edit.Place
		literal string
	}
	var changes []change
	for name, t := range attempts {
		place, err := edit.Find(r.result.Plan, name)
		if err != nil {
			return nil, err
		}
		changes = append(changes, change{place, t.literal})
	}
	slices.SortFunc(changes, func(a, b change) int { return b.At.Compare(a.At) })
	var err error
	for _, c := range changes {
		if text, err = c.Replace(text, c.literal); err != nil {
			return nil, err
		}
	}
	return text, nil
}

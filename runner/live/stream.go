package live

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http"
	"path/filepath"
	"time"
)

// A message is what a page is told: everything that it shows, and of the pieces
// those that it does not have.
type message struct {
	Title    string              `json:"title"`
	Order    map[string][]string `json:"order"` // by slot, the digests of its pieces
	HTML     map[string]string   `json:"html"`  // by digest
	Was      map[string]string   `json:"was"`
	Record   string              `json:"record,omitempty"`
	Signed   map[string]string   `json:"signed,omitempty"` // in that record, by anchor
	Bar      bar                 `json:"bar"`
	Foot     string              `json:"foot"`
	Times    Times               `json:"times"`
	Givens   []given             `json:"givens"`
	Trials   []measurable        `json:"trials"`
	Trial    bool                `json:"trial"`
	ReadOnly bool                `json:"readOnly"`
}

// newMessage is what a page needs that has some pieces; it notes those that it
// has then.
func newMessage(v *view, has map[string]bool) message {
	m := message{Title: v.title, Order: map[string][]string{}, HTML: map[string]string{}, Was: v.was, Record: v.record, Signed: v.signed, Bar: v.bar, Foot: v.foot, Times: v.times, Givens: v.givens, Trials: v.trials}
	now := map[string]bool{}
	for _, p := range v.pieces {
		m.Order[p.slot] = append(m.Order[p.slot], p.digest)
		if now[p.digest] = true; !has[p.digest] {
			m.HTML[p.digest] = p.html
		}
	}
	clear(has)
	for digest := range now {
		has[digest] = true
	}
	for _, g := range v.givens {
		m.Trial = m.Trial || g.Trial != ""
	}
	return m
}

// A stream sends events to one page.
type stream struct {
	w       http.ResponseWriter
	control *http.ResponseController
}

// open begins a stream, unless there are too many. done must follow.
func (s *server) open(w http.ResponseWriter) (*stream, func(), bool) {
	select {
	case s.streams <- struct{}{}:
	default:
		http.Error(w, "too many open pages", http.StatusServiceUnavailable)
		return nil, nil, false
	}
	w.Header().Set("Content-Type", "text/event-stream")
	st := &stream{w, http.NewResponseController(w)}
	st.control.SetReadDeadline(time.Time{})
	return st, func() { <-s.streams }, true
}

// send sends one event. A page that does not take it in time is left.
func (s *stream) send(name string, data any) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "event: %s\ndata: ", name)
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(data); err != nil {
		return err
	}
	b.WriteByte('\n')
	return s.put(b.Bytes())
}

func (s *stream) put(b []byte) error {
	s.control.SetWriteDeadline(time.Now().Add(slowest))
	if _, err := s.w.Write(b); err != nil {
		return err
	}
	return s.control.Flush()
}

// bookEvents tells a page of its notebook. A page that is slow misses what lies
// between and gets what is newest.
func (s *server) bookEvents(w http.ResponseWriter, r *http.Request, b *book) {
	id := r.URL.Query().Get("page")
	if !pageID.MatchString(id) {
		http.Error(w, "the page does not say which it is", http.StatusBadRequest)
		return
	}
	page, err := b.join(id)
	if err != nil {
		http.Error(w, err.Error(), http.StatusServiceUnavailable)
		return
	}
	defer page.leave()
	st, done, ok := s.open(w)
	if !ok {
		return
	}
	defer done()
	err = st.send("hello", s.start)
	var last *view
	has, busy := map[string]bool{}, false
	for err == nil {
		saved, tried := b.changed.wait(), page.changed.wait()
		v, running := page.current()
		if v != last && len(v.pieces) > 0 {
			last = v
			m := newMessage(v, has)
			m.ReadOnly = s.desk.options.ReadOnly
			err = st.send("view", m)
		}
		if err == nil && running != busy {
			busy = running
			err = st.send("running", busy)
		}
		if err != nil {
			return
		}
		select {
		case <-r.Context().Done():
			return
		case <-saved:
		case <-tried:
		case <-time.After(heartbeat):
			err = st.put([]byte(": still here\n\n"))
		}
	}
}

// indexEvents tells the first page of all notebooks.
func (s *server) indexEvents(w http.ResponseWriter, r *http.Request) {
	st, done, ok := s.open(w)
	if !ok {
		return
	}
	defer done()
	err := st.send("hello", s.start)
	has := map[string]bool{}
	for err == nil {
		changed := s.desk.changed.wait()
		if err = st.send("view", newMessage(s.indexView(), has)); err != nil {
			return
		}
		select {
		case <-r.Context().Done():
			return
		case <-changed:
		case <-time.After(heartbeat):
		}
	}
}

// A row is one notebook on the first page.
type row struct {
	Slug, File, Name, Number  string
	Class, Verdict, Governing string
	State, At                 string
	Running                   bool
}

// indexView shows all notebooks.
func (s *server) indexView() *view {
	v := &view{title: "Notebooks"}
	put := func(slot, name string, data any) {
		var b bytes.Buffer
		if err := pages.ExecuteTemplate(&b, name, data); err != nil {
			fmt.Fprintf(&b, "<tr><td>internal error</td></tr>")
		}
		v.pieces = append(v.pieces, newShown(slot, b.String()))
	}
	books := s.desk.all()
	for _, b := range books {
		put("rows", "row", b.row())
	}
	if len(books) == 0 {
		put("notices", "notice", "There is no notebook here yet. Make one with: tautline new my-game.md")
	}
	for _, n := range s.desk.allNotices() {
		put("notices", "notice", n)
	}
	return v
}

// row says how a notebook stands.
func (b *book) row() row {
	st := b.state.Load()
	r := row{Slug: b.slug, File: b.file, Name: b.name(), Class: "open", Running: st.running}
	if r.Name == filepath.Base(b.file) {
		r.File = filepath.Dir(b.file)
	}
	if st.run == nil {
		r.Verdict = "Running for the first time."
		return r
	}
	r.At = st.tried.Format(time.TimeOnly)
	if p := st.run.page; p != nil {
		r.Number, r.State, r.Class, r.Verdict, r.Governing = p.Number, p.State, p.Class, p.Verdict, p.Governing
	}
	switch {
	case st.gone:
		r.Class, r.Verdict, r.Governing = "fails", "The file is gone.", ""
	case len(st.trouble) > 0:
		r.Class, r.Verdict, r.Governing = "fails", sayTrouble(st.trouble[0]), ""
	}
	return r
}

package live

import (
	"bytes"
	"context"
	"crypto/rand"
	"crypto/subtle"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"io"
	"net"
	"net/http"
	"regexp"
	"time"
)

//go:embed page.html.tmpl page.css page.js
var files embed.FS

var pages = template.Must(template.ParseFS(files, "page.html.tmpl"))

// A server shows a desk in the browser.
type server struct {
	desk    *Desk
	hosts   map[string]bool // by which it may be asked for
	start   string          // names this start, so that a page of another loads anew
	token   string          // of this start: who may change something
	streams chan struct{}   // that are open
}

const (
	maxStreams = 300
	maxBody    = 4 << 10
	heartbeat  = 15 * time.Second
	slowest    = 10 * time.Second // that a client may take for one event
)

// Serve shows the desk until ctx ends.
func (d *Desk) Serve(ctx context.Context, l net.Listener) error {
	s := &http.Server{
		Handler:           d.handler(hostsOf(l.Addr())),
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       10 * time.Second,
		IdleTimeout:       time.Minute,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          nil,
		BaseContext:       func(net.Listener) context.Context { return ctx },
	}
	stop := context.AfterFunc(ctx, func() { s.Close() })
	defer stop()
	if err := s.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// handler answers requests that name one of the hosts.
func (d *Desk) handler(hosts map[string]bool) http.Handler {
	s := &server{desk: d, hosts: hosts, start: rand.Text(), token: rand.Text(), streams: make(chan struct{}, maxStreams)}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.index)
	mux.HandleFunc("GET /events", s.indexEvents)
	mux.HandleFunc("GET /page.css", s.style)
	mux.HandleFunc("GET /library", s.library)
	mux.HandleFunc("GET /page.js", s.script)
	mux.HandleFunc("GET /notebook/{slug}", s.notebook(s.page))
	mux.HandleFunc("GET /notebook/{slug}/report.html", s.notebook(s.report))
	mux.HandleFunc("GET /notebook/{slug}/events", s.notebook(s.bookEvents))
	mux.HandleFunc("POST /notebook/{slug}/try", s.notebook(s.try))
	mux.HandleFunc("POST /notebook/{slug}/keep", s.notebook(s.keep))
	mux.HandleFunc("POST /notebook/{slug}/drop", s.notebook(s.drop))
	mux.HandleFunc("POST /notebook/{slug}/measure", s.notebook(s.measure))
	return s.guard(mux)
}

// index is the first page: all notebooks.
func (s *server) index(w http.ResponseWriter, r *http.Request) {
	s.write(w, "index", map[string]any{"Start": s.start, "Token": s.token, "Pieces": s.indexView().pieces})
}

// page is the page of one notebook.
func (s *server) page(w http.ResponseWriter, r *http.Request, b *book) {
	v := b.state.Load().view
	slots := map[string][]shown{}
	for _, p := range v.pieces {
		slots[p.slot] = append(slots[p.slot], p)
	}
	s.write(w, "notebook", map[string]any{
		"Start": s.start, "Token": s.token, "Slug": b.slug, "Title": v.title, "Name": b.name(), "Slots": slots, "Bar": v.bar, "ReadOnly": s.desk.options.ReadOnly,
	})
}

// Mark stands before a piece on a page, so that the page knows what it has.
func (p shown) Mark() template.HTML { return template.HTML("<!--piece " + p.digest + "-->") }

// HTML is the piece itself, escaped by the printer that made it.
func (p shown) HTML() template.HTML { return template.HTML(p.html) }

func (s *server) write(w http.ResponseWriter, name string, data any) {
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, name, data); err != nil {
		http.Error(w, "internal error: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Write(b.Bytes())
}

func (s *server) style(w http.ResponseWriter, _ *http.Request) {
	css, _ := files.ReadFile("page.css")
	w.Header().Set("Content-Type", "text/css; charset=utf-8")
	io.WriteString(w, s.desk.options.Printer.Style())
	w.Write(css)
}

func (s *server) script(w http.ResponseWriter, _ *http.Request) {
	js, _ := files.ReadFile("page.js")
	w.Header().Set("Content-Type", "text/javascript; charset=utf-8")
	w.Write(js)
}

// report is the report as a file, as a cold run writes it.
func (s *server) report(w http.ResponseWriter, _ *http.Request, b *book) {
	run := b.state.Load().run
	if run == nil || run.page == nil {
		http.Error(w, "there is no report yet", http.StatusNotFound)
		return
	}
	var page bytes.Buffer
	if err := s.desk.options.Printer.Report(&page, run.result); err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'")
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Write(page.Bytes())
}

// notebook finds the notebook that a request is about.
func (s *server) notebook(serve func(http.ResponseWriter, *http.Request, *book)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		b := s.desk.book(r.PathValue("slug"))
		if b == nil {
			http.Error(w, "there is no such notebook on this desk", http.StatusNotFound)
			return
		}
		serve(w, r, b)
	}
}

// An order is what a page asks for.
type order struct{ Page, Name, Number, Who, Instrument, Note string }

func (s *server) try(w http.ResponseWriter, r *http.Request, b *book) {
	s.obey(w, r, b, func(p *session, o order) error { return p.try(o.Name, o.Number) })
}

func (s *server) keep(w http.ResponseWriter, r *http.Request, b *book) {
	s.obey(w, r, b, func(p *session, _ order) error { return p.keep() })
}

func (s *server) drop(w http.ResponseWriter, r *http.Request, b *book) {
	s.obey(w, r, b, func(p *session, _ order) error { p.drop(); return nil })
}

func (s *server) measure(w http.ResponseWriter, r *http.Request, b *book) {
	s.obey(w, r, b, func(_ *session, o order) error { return b.measure(o) })
}

// obey carries out what a page asks for.
func (s *server) obey(w http.ResponseWriter, r *http.Request, b *book, do func(*session, order) error) {
	var o order
	d := json.NewDecoder(http.MaxBytesReader(w, r.Body, maxBody))
	d.DisallowUnknownFields()
	if err := d.Decode(&o); err != nil {
		http.Error(w, "the request could not be read", http.StatusBadRequest)
		return
	}
	page := b.session(o.Page)
	if page == nil {
		http.Error(w, "this page is not connected any more: load it again", http.StatusGone)
		return
	}
	if err := do(page, o); err != nil {
		http.Error(w, err.Error(), http.StatusConflict)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}

// pageID is what a page calls itself.
var pageID = regexp.MustCompile(`^[0-9a-f-]{16,40}$`)

// strict is the policy of every page: scripts and styles of this server alone,
// nothing from elsewhere, never in a frame.
const strict = "default-src 'none'; script-src 'self'; style-src 'self'; img-src data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// guard lets through only what a page of this server asks for.
func (s *server) guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", strict)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		if status, why := s.refuse(r); why != "" {
			http.Error(w, why, status)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// refuse says why a request is refused: a name that is not this server's, as
// after DNS rebinding, a page from elsewhere, or no token.
func (s *server) refuse(r *http.Request) (int, string) {
	if !s.hosts[r.Host] {
		return http.StatusMisdirectedRequest, "this server is not asked for by that name"
	}
	if origin := r.Header.Get("Origin"); origin != "" && origin != "http://"+r.Host {
		return http.StatusForbidden, "this page may be used from itself alone"
	}
	site := r.Header.Get("Sec-Fetch-Site")
	isVisit := r.Method == http.MethodGet && r.Header.Get("Sec-Fetch-Mode") == "navigate" // a link from elsewhere
	if site != "" && site != "same-origin" && site != "none" && !isVisit {
		return http.StatusForbidden, "this page may be used from itself alone"
	}
	if r.Method == http.MethodPost {
		if r.Header.Get("Content-Type") != "application/json" {
			return http.StatusUnsupportedMediaType, "want JSON"
		}
		if subtle.ConstantTimeCompare([]byte(r.Header.Get("X-Token")), []byte(s.token)) != 1 {
			return http.StatusForbidden, "the token is not of this start: load the page again"
		}
	}
	return 0, ""
}

// hostsOf lists the names by which a listener may be asked for.
func hostsOf(a net.Addr) map[string]bool {
	hosts := map[string]bool{}
	host, port, err := net.SplitHostPort(a.String())
	if err != nil {
		return hosts
	}
	add := func(name string) { hosts[net.JoinHostPort(name, port)] = true }
	ip := net.ParseIP(host)
	if ip.IsLoopback() || ip.IsUnspecified() {
		add("localhost")
		add("127.0.0.1")
		add("::1")
	}
	add(host)
	if ip.IsUnspecified() {
		addrs, _ := net.InterfaceAddrs()
		for _, a := range addrs {
			if n, ok := a.(*net.IPNet); ok {
				add(n.IP.String())
			}
		}
	}
	return hosts
}

// Warning says what follows from listening where others can reach it; empty on
// loopback.
func Warning(a net.Addr) string {
	if t, ok := a.(*net.TCPAddr); ok && t.IP.IsLoopback() {
		return ""
	}
	return fmt.Sprintf("WARNING: %s can be reached by other machines. Whoever opens the page sees every notebook and, unless the desk is read-only, can change their numbers. Nothing is encrypted.", a)
}

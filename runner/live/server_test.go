package live

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// ask sends a request as some browser or program might.
func (d *opened) ask(method, path string, set func(*http.Request)) (int, http.Header, string) {
	d.t.Helper()
	q, err := http.NewRequest(method, d.url+path, strings.NewReader(`{"page":"`+pageA+`"}`))
	if err != nil {
		d.t.Fatal(err)
	}
	set(q)
	r, err := http.DefaultClient.Do(q)
	if err != nil {
		d.t.Fatal(err)
	}
	defer r.Body.Close()
	b, _ := io.ReadAll(r.Body)
	return r.StatusCode, r.Header, string(b)
}

// What a page from elsewhere, another program's name for this machine, or a page
// of an earlier start asks for is refused.
func TestRefuse(t *testing.T) {
	d := open(t, Options{}, map[string]string{"t.md": notebook(chosen)})
	d.follow("t", pageA).until("the first run", has("y = 6"))
	proper := func(q *http.Request) {
		q.Header.Set("Content-Type", "application/json")
		q.Header.Set("X-Token", d.token)
		q.Header.Set("Origin", d.url)
		q.Header.Set("Sec-Fetch-Site", "same-origin")
	}
	with := func(name, value string) func(*http.Request) {
		return func(q *http.Request) { proper(q); q.Header.Set(name, value) }
	}
	host := func(name string) func(*http.Request) {
		return func(q *http.Request) { proper(q); q.Host = name }
	}
	port := d.url[strings.LastIndex(d.url, ":"):]
	for _, test := range []struct {
		what, method, path string
		set                func(*http.Request)
		want               int
	}{
		{"the page itself", "POST", "/notebook/t/drop", proper, http.StatusNoContent},
		{"by the other name of this machine", "GET", "/", func(q *http.Request) { q.Host = "localhost" + port }, http.StatusOK},
		{"after DNS rebinding", "GET", "/", host("evil.example" + port), http.StatusMisdirectedRequest},
		{"after DNS rebinding, events", "GET", "/events", host("evil.example"), http.StatusMisdirectedRequest},
		{"another port's name", "GET", "/", host("127.0.0.1:1"), http.StatusMisdirectedRequest},
		{"no name", "GET", "/", host("127.0.0.1"), http.StatusMisdirectedRequest},
		{"cross-site POST", "POST", "/notebook/t/drop", with("Origin", "http://evil.example"), http.StatusForbidden},
		{"cross-site POST of a page without origin", "POST", "/notebook/t/drop", with("Origin", "null"), http.StatusForbidden},
		{"POST of another server of this machine", "POST", "/notebook/t/drop", with("Origin", "http://127.0.0.1:1"), http.StatusForbidden},
		{"POST that the browser calls cross-site", "POST", "/notebook/t/drop", with("Sec-Fetch-Site", "cross-site"), http.StatusForbidden},
		{"events for a page from elsewhere", "GET", "/events", with("Sec-Fetch-Site", "cross-site"), http.StatusForbidden},
		{"a page of this server as a script elsewhere", "GET", "/", func(q *http.Request) {
			q.Header.Set("Sec-Fetch-Site", "cross-site")
			q.Header.Set("Sec-Fetch-Mode", "no-cors")
		}, http.StatusForbidden},
		{"a link from elsewhere", "GET", "/", func(q *http.Request) {
			q.Header.Set("Sec-Fetch-Site", "cross-site")
			q.Header.Set("Sec-Fetch-Mode", "navigate")
		}, http.StatusOK},
		{"no token", "POST", "/notebook/t/keep", with("X-Token", ""), http.StatusForbidden},
		{"the token of another start", "POST", "/notebook/t/keep", with("X-Token", "VNAMPTAT62QNNTHXEAGFMCX7AA"), http.StatusForbidden},
		{"a form", "POST", "/notebook/t/keep", with("Content-Type", "application/x-www-form-urlencoded"), http.StatusUnsupportedMediaType},
		{"plain text, as a form may send", "POST", "/notebook/t/keep", with("Content-Type", "text/plain"), http.StatusUnsupportedMediaType},
		{"a page that is not connected", "POST", "/notebook/t/drop", func(q *http.Request) {
			proper(q)
			q.Body = io.NopCloser(strings.NewReader(`{"page":"nobody"}`))
			q.ContentLength = -1
		}, http.StatusGone},
		{"more than an order", "POST", "/notebook/t/drop", func(q *http.Request) {
			proper(q)
			q.Body = io.NopCloser(strings.NewReader(`{"page":"` + strings.Repeat("a", 1<<20) + `"}`))
			q.ContentLength = -1
		}, http.StatusBadRequest},
		{"an order with more in it", "POST", "/notebook/t/drop", func(q *http.Request) {
			proper(q)
			q.Body = io.NopCloser(strings.NewReader(`{"page":"x","file":"/etc/passwd"}`))
			q.ContentLength = -1
		}, http.StatusBadRequest},
		{"an order as GET", "GET", "/notebook/t/keep", proper, http.StatusMethodNotAllowed},
		{"PUT", "PUT", "/notebook/t", proper, http.StatusMethodNotAllowed},
		{"DELETE", "DELETE", "/notebook/t", proper, http.StatusMethodNotAllowed},
		{"events of no page", "GET", "/notebook/t/events?page=%3Cscript%3E", proper, http.StatusBadRequest},
		{"no such notebook", "GET", "/notebook/u", proper, http.StatusNotFound},
		{"out of the folder", "GET", "/notebook/..%2f..%2fetc%2fpasswd", proper, http.StatusNotFound},
		{"out of the folder with a drive", "GET", "/notebook/C:%5cwindows", proper, http.StatusNotFound},
		{"the file by its name", "GET", "/t.md", proper, http.StatusNotFound},
		{"the page's own files by another name", "GET", "/page.html.tmpl", proper, http.StatusNotFound},
	} {
		if got, _, text := d.ask(test.method, test.path, test.set); got != test.want {
			t.Errorf("%s: got %d %.60q, want %d", test.what, got, text, test.want)
		}
	}
	for _, path := range []string{"/", "/notebook/t", "/page.js", "/page.css", "/nothing"} {
		_, h, _ := d.ask("GET", path, func(*http.Request) {})
		for name, want := range map[string]string{
			"Content-Security-Policy": strict, "X-Content-Type-Options": "nosniff", "X-Frame-Options": "DENY",
			"Cross-Origin-Resource-Policy": "same-origin", "Referrer-Policy": "no-referrer", "Cache-Control": "no-store",
			"Access-Control-Allow-Origin": "",
		} {
			if got := h.Get(name); got != want {
				t.Errorf("GET %s: %s: got %q, want %q", path, name, got, want)
			}
		}
	}
}

// The policy allows nothing inline and nothing from elsewhere.
func TestPolicy(t *testing.T) {
	for _, bad := range []string{"unsafe", "*", "http:", "https:", "blob:"} {
		if strings.Contains(strict, bad) {
			t.Errorf("the policy has %q: %s", bad, strict)
		}
	}
	if !strings.HasPrefix(strict, "default-src 'none'") {
		t.Errorf("the policy begins with another default: %s", strict)
	}
}

func TestHosts(t *testing.T) {
	tcp := func(ip string) net.Addr { return &net.TCPAddr{IP: net.ParseIP(ip), Port: 7} }
	for _, test := range []struct {
		ip      string
		yes, no []string
		warns   bool
	}{
		{"127.0.0.1", []string{"127.0.0.1:7", "localhost:7", "[::1]:7"}, []string{"127.0.0.1", "192.0.2.1:7", "example.org:7", ":7"}, false},
		{"::1", []string{"[::1]:7", "localhost:7"}, []string{"[::2]:7"}, false},
		{"192.0.2.1", []string{"192.0.2.1:7"}, []string{"localhost:7", "127.0.0.1:7"}, true},
		{"0.0.0.0", []string{"127.0.0.1:7", "localhost:7"}, []string{"example.org:7"}, true},
	} {
		hosts := hostsOf(tcp(test.ip))
		for _, h := range test.yes {
			if !hosts[h] {
				t.Errorf("listening on %s: %s is refused", test.ip, h)
			}
		}
		for _, h := range test.no {
			if hosts[h] {
				t.Errorf("listening on %s: %s is let in", test.ip, h)
			}
		}
		if got := Warning(tcp(test.ip)); (got != "") != test.warns {
			t.Errorf("listening on %s: got warning %q, want one: %v", test.ip, got, test.warns)
		}
	}
}

// Two hundred pages listen, some of them without ever reading: all that read
// get each newest state, and the desk goes on.
func TestManyClients(t *testing.T) {
	d := open(t, Options{}, map[string]string{"t.md": notebook("x := 1.0")})
	file := filepath.Join(d.folder, "t.md")
	var followers []*follower
	for i := range 180 {
		followers = append(followers, d.follow("t", fmt.Sprintf("%020x", i)))
	}
	for i := range 20 { // that open a stream and never read it
		c, err := net.Dial("tcp", strings.TrimPrefix(d.url, "http://"))
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		fmt.Fprintf(c, "GET /notebook/t/events?page=%020x HTTP/1.1\r\nHost: %s\r\n\r\n", 1000+i, strings.TrimPrefix(d.url, "http://"))
	}
	for i := range 20 { // that begin a request and never end it
		c, err := net.Dial("tcp", strings.TrimPrefix(d.url, "http://"))
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		fmt.Fprintf(c, "GET / HTTP/1.1\r\nX-%d: ", i)
	}
	for _, f := range followers {
		f.until("the first run", has("x = 1"))
	}
	for i := 2; i < 6; i++ {
		write(t, file, notebook(fmt.Sprintf("x := %d.0", i)))
		for _, f := range followers {
			f.until("the newest state", has(fmt.Sprintf("x = %d", i)))
		}
	}
	// Beyond the limit of streams a page is told so; when others leave it gets in.
	var more []context.CancelFunc
	full := false
	for i := 0; i < maxStreams && !full; i++ {
		ctx, cancel := context.WithCancel(t.Context())
		more = append(more, cancel)
		q, _ := http.NewRequestWithContext(ctx, "GET", d.url+"/events", nil)
		r, err := http.DefaultClient.Do(q)
		if err != nil {
			t.Fatal(err)
		}
		full = r.StatusCode == http.StatusServiceUnavailable
		defer r.Body.Close()
	}
	if !full {
		t.Errorf("%d streams and no end", maxStreams)
	}
	for _, cancel := range more {
		cancel()
	}
	for end := time.Now().Add(10 * time.Second); ; time.Sleep(20 * time.Millisecond) {
		if code, _ := d.peek("/events"); code == http.StatusOK {
			break
		}
		if time.Now().After(end) {
			t.Fatal("places that were left are not given to others")
		}
	}
}

// peek begins to read a stream.
func (d *opened) peek(path string) (int, http.Header) {
	ctx, cancel := context.WithCancel(d.t.Context())
	defer cancel()
	q, _ := http.NewRequestWithContext(ctx, "GET", d.url+path, nil)
	r, err := http.DefaultClient.Do(q)
	if err != nil {
		d.t.Fatal(err)
	}
	defer r.Body.Close()
	return r.StatusCode, r.Header
}

// Serve ends when its context does, streams and all.
func TestServeEnds(t *testing.T) {
	folder := t.TempDir()
	write(t, filepath.Join(folder, "t.md"), notebook("x := 1.0"))
	ctx, cancel := context.WithCancel(t.Context())
	desk, err := Open(ctx, Options{Paths: []string{folder}, Printer: plainPrinter{}})
	if err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- desk.Serve(ctx, l) }()
	r, err := http.Get("http://" + l.Addr().String() + "/events")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	cancel()
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(10 * time.Second):
		t.Error("the server did not end")
	}
}

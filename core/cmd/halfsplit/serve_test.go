package main

import (
	"bytes"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
)

func TestPage(t *testing.T) {
	page := newPage(fstest.MapFS{
		"index.html":           {Data: []byte("plain")},
		"index.html.br":        {Data: []byte("brotli")},
		"index.html.gz":        {Data: []byte("gzip")},
		"sw.js":                {Data: []byte("worker")},
		"assets/core-1.wasm":   {Data: []byte("core")},
		"manifest.webmanifest": {Data: []byte("{}")},
		".keep":                {Data: nil},
	})
	for _, tc := range []struct {
		method, path, accept               string
		status                             int
		body, encoding, contentType, cache string
	}{
		{"GET", "/", "gzip, deflate, br", 200, "brotli", "br", "text/html; charset=utf-8", "no-cache"},
		{"GET", "/", "gzip", 200, "gzip", "gzip", "text/html; charset=utf-8", "no-cache"},
		{"GET", "/", "br;q=0, gzip;q=0.5", 200, "gzip", "gzip", "text/html; charset=utf-8", "no-cache"},
		{"GET", "/index.html", "", 200, "plain", "", "text/html; charset=utf-8", "no-cache"},
		{"HEAD", "/", "", 200, "", "", "text/html; charset=utf-8", "no-cache"},
		{"GET", "/sw.js", "br", 200, "worker", "", "text/javascript; charset=utf-8", "no-cache"},
		{"GET", "/assets/core-1.wasm", "br", 200, "core", "", "application/wasm", "public, max-age=31536000, immutable"},
		{"GET", "/manifest.webmanifest", "", 200, "{}", "", "application/manifest+json", "no-cache"},
		{"GET", "/index.html.br", "", 404, "404 page not found\n", "", "text/plain; charset=utf-8", ""},
		{"GET", "/.keep", "", 404, "404 page not found\n", "", "text/plain; charset=utf-8", ""},
		{"GET", "/../serve.go", "", 404, "404 page not found\n", "", "text/plain; charset=utf-8", ""},
		{"GET", "/nothing.js", "", 404, "404 page not found\n", "", "text/plain; charset=utf-8", ""},
		{"POST", "/", "", 405, "this server only hands out the page\n", "", "text/plain; charset=utf-8", ""},
	} {
		t.Run(tc.method+" "+tc.path+" "+tc.accept, func(t *testing.T) {
			r := httptest.NewRequest(tc.method, tc.path, nil)
			r.Header.Set("Accept-Encoding", tc.accept)
			w := httptest.NewRecorder()
			page.ServeHTTP(w, r)
			for _, c := range []struct{ what, got, want string }{
				{"body", w.Body.String(), tc.body},
				{"encoding", w.Header().Get("Content-Encoding"), tc.encoding},
				{"type", w.Header().Get("Content-Type"), tc.contentType},
				{"caching", w.Header().Get("Cache-Control"), tc.cache},
				{"policy", w.Header().Get("Content-Security-Policy"), policy},
				{"sniffing", w.Header().Get("X-Content-Type-Options"), "nosniff"},
			} {
				if c.got != c.want {
					t.Errorf("%s: got %q, want %q", c.what, c.got, c.want)
				}
			}
			// Codes are scanned by the page itself, and by nothing it might embed.
			if got := w.Header().Get("Permissions-Policy"); !strings.Contains(got, "camera=(self)") || !strings.Contains(got, "microphone=()") {
				t.Errorf("permissions: got %q", got)
			}
			if w.Code != tc.status {
				t.Errorf("status: got %d, want %d", w.Code, tc.status)
			}
		})
	}
	if strings.Contains(policy, "unsafe-inline") || strings.Contains(policy, "'unsafe-eval'") {
		t.Error("the policy allows inline scripts or eval")
	}
}

// A host that sets no header still has the policy, from the page itself: all of
// it but what only a header can say.
func TestPolicyOfThePage(t *testing.T) {
	html, err := os.ReadFile("../../../web/index.html")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(html), `http-equiv="Content-Security-Policy"`)
	_, rest, _ = strings.Cut(rest, `content="`)
	meta, _, _ := strings.Cut(rest, `"`)
	if !found || meta+"; frame-ancestors 'none'" != policy {
		t.Errorf("web/index.html has the policy\n%s\nserve sends\n%s", meta, policy)
	}
}

func TestServeRefuses(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, tc := range []struct {
		name string
		args []string
		want string
	}{
		{"a port that is taken", []string{"--addr", taken.Addr().String()}, "choose another port with --addr"},
		{"an address that is none", []string{"--addr", "8420"}, "an address looks like :8420"},
		{"an argument", []string{"demo:skid"}, `it takes no argument "demo:skid"`},
		{"a flag that is none", []string{"--port", "1"}, "flag provided but not defined: -port"},
		{"no such folder", []string{"--data", file + "/x"}, "hint: name a folder that exists"},
		{"a file for a folder", []string{"--data", file}, "that is a file"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			var stdout, stderr bytes.Buffer
			code := serveWith(true, tc.args, &stdout, &stderr)
			if code != 2 || !strings.Contains(stderr.String(), tc.want) || stdout.Len() > 0 {
				t.Errorf("exit %d, stdout %q, stderr %q; want 2 and %q", code, &stdout, &stderr, tc.want)
			}
		})
	}
	t.Run("built without the page", func(t *testing.T) {
		var stdout, stderr bytes.Buffer
		if code := serveWith(false, nil, &stdout, &stderr); code != 2 || !strings.Contains(stderr.String(), "make build") {
			t.Errorf("exit %d, stderr %q; want 2 and the remedy", code, &stderr)
		}
	})
}

func TestPageURL(t *testing.T) {
	for _, tc := range []struct {
		addr net.Addr
		want string
	}{
		{&net.TCPAddr{IP: net.IPv6zero, Port: 8420}, "http://localhost:8420/"},
		{&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 1}, "http://localhost:1/"},
		{&net.TCPAddr{IP: net.ParseIP("192.0.2.7"), Port: 80}, "http://192.0.2.7:80/"},
		{&net.TCPAddr{IP: net.ParseIP("2001:db8::1"), Port: 80}, "http://[2001:db8::1]:80/"},
	} {
		if got := pageURL(tc.addr); got != tc.want {
			t.Errorf("%v: got %s, want %s", tc.addr, got, tc.want)
		}
	}
}

// TestServedHeaders goes through a real server, since a handler alone does
// not show what net/http adds.
func TestServedHeaders(t *testing.T) {
	server := httptest.NewServer(newPage(fstest.MapFS{
		"assets/a.wasm":    {Data: []byte("\x00asm")},
		"assets/a.wasm.br": {Data: []byte("small")},
	}))
	defer server.Close()
	request, err := http.NewRequest("GET", server.URL+"/assets/a.wasm", nil)
	if err != nil {
		t.Fatal(err)
	}
	request.Header.Set("Accept-Encoding", "br")
	response, err := http.DefaultClient.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	if got := response.Header.Get("Content-Type"); got != "application/wasm" {
		t.Errorf("type %q: a browser compiles while loading only application/wasm", got)
	}
	if got := response.Header.Get("Content-Encoding"); got != "br" {
		t.Errorf("encoding %q, want br", got)
	}
}

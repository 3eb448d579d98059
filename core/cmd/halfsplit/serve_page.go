package main

import (
	"io/fs"
	"net/http"
	"path"
	"strings"
)

// policy allows what the page is made of and nothing else: its own files, the
// compiled core, pictures it draws itself.
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; " +
	"img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; worker-src 'self'; " +
	"manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// contentTypes are written out because the host's own table is not to be
// trusted: without application/wasm a browser refuses to compile as it loads.
var contentTypes = map[string]string{
	".html":        "text/html; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".json":        "application/json",
	".wasm":        "application/wasm",
	".svg":         "image/svg+xml",
	".png":         "image/png",
	".webmanifest": "application/manifest+json",
}

// encodings in order of preference, with the ending of the ready-made file.
var encodings = []struct{ name, ending string }{{"br", ".br"}, {"gzip", ".gz"}}

// newPage serves the built page: files compressed when they were built, types
// written out, a strict policy. Only files of a known type are served, so the
// compressed twins are never reachable by name.
func newPage(dist fs.FS) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		header := w.Header()
		header.Set("Content-Security-Policy", policy)
		header.Set("X-Content-Type-Options", "nosniff")
		header.Set("Referrer-Policy", "no-referrer")
		header.Set("Cross-Origin-Opener-Policy", "same-origin")
		header.Set("Cross-Origin-Resource-Policy", "same-origin")
		header.Set("Permissions-Policy", "camera=(self), geolocation=(), microphone=(), payment=(), usb=()")
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			header.Set("Allow", "GET, HEAD")
			http.Error(w, "this server only hands out the page", http.StatusMethodNotAllowed)
			return
		}
		name := strings.TrimPrefix(path.Clean(r.URL.Path), "/")
		if name == "" {
			name = "index.html"
		}
		kind, known := contentTypes[path.Ext(name)]
		if !known {
			http.NotFound(w, r)
			return
		}
		body, encoding, err := read(dist, name, r.Header.Get("Accept-Encoding"))
		if err != nil {
			http.NotFound(w, r)
			return
		}
		header.Set("Content-Type", kind)
		header.Set("Vary", "Accept-Encoding")
		header.Set("Cache-Control", caching(name))
		if encoding != "" {
			header.Set("Content-Encoding", encoding)
		}
		w.WriteHeader(http.StatusOK)
		if r.Method == http.MethodGet {
			// An error here is the phone going away, which is its right.
			_, _ = w.Write(body)
		}
	})
}

// caching: a file whose name holds the hash of its contents never changes; of
// all others the browser asks again.
func caching(name string) string {
	if strings.HasPrefix(name, "assets/") {
		return "public, max-age=31536000, immutable"
	}
	return "no-cache"
}

// read returns the best ready-made form of a file that the browser accepts.
func read(dist fs.FS, name, accept string) (body []byte, encoding string, err error) {
	for _, e := range encodings {
		if !accepts(accept, e.name) {
			continue
		}
		if body, err := fs.ReadFile(dist, name+e.ending); err == nil {
			return body, e.name, nil
		}
	}
	body, err = fs.ReadFile(dist, name)
	return body, "", err
}

// accepts reads an Accept-Encoding header (RFC 9110, 12.5.3): named, and not
// with a weight of zero.
func accepts(header, encoding string) bool {
	for item := range strings.SplitSeq(header, ",") {
		name, weight, _ := strings.Cut(strings.TrimSpace(item), ";")
		if !strings.EqualFold(strings.TrimSpace(name), encoding) {
			continue
		}
		q := strings.TrimPrefix(strings.ReplaceAll(weight, " ", ""), "q=")
		return strings.Trim(q, "0.") != "" || q == ""
	}
	return false
}

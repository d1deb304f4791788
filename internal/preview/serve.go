package preview

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"path"
	"strings"
	"sync"
	"time"

	"plait/internal/artifact"
	"plait/internal/asset"
)

// ownPaths is where the preview's own files are. No page of a course can have a
// path of this kind.
const ownPaths = "/-/"

//go:embed assets/*.js
var modules embed.FS

// script is the script of preview pages, made of its modules.
var script = sync.OnceValue(func() []byte {
	data, err := asset.Script(modules, nil, "assets/preview.js", "")
	if err != nil {
		panic(err) // the modules are a part of the program
	}
	return data
})

//go:embed assets/preview.css
var style []byte

// Handler answers requests for the site. It takes only requests that a page of the
// site itself, or a person with the address, can have made.
func (s *Server) Handler() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if code, text := refuse(r); code != 0 {
			w.Header().Set("Allow", "GET, HEAD")
			w.Header().Set("Connection", "close")
			http.Error(w, text, code)
			return
		}
		protect(w.Header())
		if r.URL.Path == ownPaths+"events" {
			s.events(w, r)
			return
		}
		select {
		case s.slots <- struct{}{}:
			defer func() { <-s.slots }()
		default:
			w.Header().Set("Retry-After", "1")
			http.Error(w, "too many requests at once", http.StatusServiceUnavailable)
			return
		}
		s.answer(w, r)
	})
}

// refuse tells why a request is not answered, with 0 for one that is.
//
// A page from elsewhere can make a browser send requests here, and by a name of
// its own that it lets point to this computer it could even read the answers. So
// the request must name this computer as its host, and where the browser says who
// asks (Origin, RFC 6454 section 7, and Sec-Fetch-Site, W3C Fetch Metadata), it
// must be this site or a person who opens a page.
func refuse(r *http.Request) (code int, text string) {
	switch {
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		return http.StatusMethodNotAllowed, "the preview can only be read"
	case !thisComputer(r.Host):
		return http.StatusMisdirectedRequest, "this is the preview of a course on another address" // RFC 9110, 15.5.20
	case r.ContentLength != 0: // RFC 9110, 9.3.1: content has no meaning here
		return http.StatusBadRequest, "a request to read has no content"
	}
	if origin := r.Header.Get("Origin"); origin != "" && !strings.EqualFold(origin, "http://"+r.Host) {
		return http.StatusForbidden, "the preview does not answer other sites"
	}
	switch r.Header.Get("Sec-Fetch-Site") {
	case "cross-site", "same-site":
		if r.Header.Get("Sec-Fetch-Mode") != "navigate" || r.Header.Get("Sec-Fetch-Dest") != "document" {
			return http.StatusForbidden, "the preview does not answer other sites"
		}
	}
	return 0, ""
}

// thisComputer reports whether the host of a request, with or without a port, is a
// name that only ever means the computer itself.
func thisComputer(host string) bool {
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	host = strings.TrimSuffix(strings.TrimPrefix(host, "["), "]")
	ip := net.ParseIP(host)
	return strings.EqualFold(host, "localhost") || ip != nil && ip.IsLoopback()
}

// protect sets what holds for every answer.
func protect(h http.Header) {
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Referrer-Policy", "no-referrer")
}

func (s *Server) answer(w http.ResponseWriter, r *http.Request) {
	now := s.state()
	switch {
	case r.URL.Path == Script:
		serveBytes(w, r, Script, script())
	case r.URL.Path == ownPaths+"preview.css":
		serveBytes(w, r, r.URL.Path, style)
	case r.URL.Path == ownPaths+"problems":
		s.page(w, r, http.StatusOK, "problems", newProblems(now))
	case now.tree == nil:
		w.Header().Set("Retry-After", "1")
		s.page(w, r, http.StatusServiceUnavailable, "waiting", newProblems(now))
	default:
		s.file(w, r, now)
	}
}

// file answers with a file of the site.
func (s *Server) file(w http.ResponseWriter, r *http.Request, now state) {
	f, ok := lookup(now.tree, r.URL.Path)
	switch {
	case !ok && r.URL.Path == "/favicon.ico": // browsers ask for it unbidden; pages name their icon
		w.WriteHeader(http.StatusNoContent)
		return
	case !ok:
		s.missing(w, r, now)
		return
	}
	data, err := now.bytes(f)
	if err != nil {
		s.page(w, r, http.StatusInternalServerError, "broken", brokenPage{Page: missing, Path: r.URL.Path, Why: err.Error()})
		return
	}
	if path.Ext(f.Path) == ".html" {
		// The page's script compares the tag with that of the newest build.
		w.Header().Set("Server-Timing", fmt.Sprintf("plait;desc=%q", tagOf(data)))
		w.Header().Set("Content-Security-Policy", "frame-ancestors 'none'")
	}
	if f.Input == "" {
		serveBytes(w, r, f.Path, data)
		return
	}
	err = serveInput(w, r, f, now.inputs)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		s.missing(w, r, now)
	case err != nil:
		http.Error(w, "cannot read "+f.Input+": "+err.Error(), http.StatusInternalServerError)
	}
}

func (s *Server) missing(w http.ResponseWriter, r *http.Request, now state) {
	s.page(w, r, http.StatusNotFound, "missing", missingPage{Page: missing, Path: r.URL.Path})
}

// lookup finds the file of a request's path. The path of a folder means the index
// page in it. Paths that are not clean are in no tree.
func lookup(tree *artifact.Tree, requested string) (artifact.File, bool) {
	name, rooted := strings.CutPrefix(requested, "/")
	if !rooted {
		return artifact.File{}, false
	}
	if name == "" || strings.HasSuffix(name, "/") {
		name += "index.html"
	}
	return tree.Get(name)
}

// The states of a path that leads to no page.
const (
	waiting = "waiting" // there is no site yet
	missing = "missing"
)

// pageTag names the state of the page at a path. Whatever a page shows has a name of
// its content, so a page that says the same bytes looks the same.
func pageTag(now state, requested string) string {
	if now.tree == nil {
		return waiting
	}
	f, ok := lookup(now.tree, requested)
	if !ok {
		return missing
	}
	data, err := now.bytes(f)
	if err != nil {
		return missing
	}
	return tagOf(data)
}

// tagOf names content, in short: it is only ever compared with what was at the same
// path before.
func tagOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:12])
}

func serveBytes(w http.ResponseWriter, r *http.Request, name string, data []byte) {
	serve(w, r, name, tagOf(data), bytes.NewReader(data))
}

// serveInput answers with a file of the course's folder. A film is not summed up
// for its tag: size and time of change name its state.
func serveInput(w http.ResponseWriter, r *http.Request, f artifact.File, inputs fs.FS) error {
	file, err := inputs.Open(f.Input)
	if err != nil {
		return err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return err
	}
	content, ok := file.(io.ReadSeeker)
	if !ok || info.IsDir() {
		return fs.ErrInvalid
	}
	serve(w, r, f.Path, fmt.Sprintf("%x-%x", info.Size(), info.ModTime().UnixNano()), content)
	return nil
}

// serve answers with content, or the parts that are asked for (RFC 9110, section
// 14), or with nothing where the browser has what the tag names (section 13). Pages
// are never kept: one that comes from a store would show what was there before.
func serve(w http.ResponseWriter, r *http.Request, name, tag string, content io.ReadSeeker) {
	h := w.Header()
	h.Set("Content-Type", mediaType(name))
	h.Set("Cache-Control", "no-cache")
	switch _, input := content.(fs.File); {
	case path.Ext(name) == ".html":
		h.Set("Cache-Control", "no-store")
	case strings.HasPrefix(name, asset.Folder) && !input:
		// It is named by its content, so a page that is loaded again need not ask for it. The
		// course's own files can be others by now than those that the build has named.
		h.Set("Cache-Control", "max-age=86400, immutable")
	}
	h.Set("ETag", `"`+tag+`"`)
	if path.Ext(name) == ".svg" {
		// A drawing opened by itself is a page, and could bring a script along.
		h.Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; img-src data:; sandbox")
	}
	http.ServeContent(w, r, "", time.Time{}, content)
}
